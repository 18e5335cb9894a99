//! The page's server: a folder of projects on this machine, shown and edited in a browser.
//!
//! ```text
//!   server (connections, guard, routes, pools) ─► editor (open projects, views, pictures)
//!                                                   └─► store (the folder on disk)
//! ```

mod server;
mod store;

pub use server::listen;
pub use store::Folder;
