//! The page's server: a folder of projects on this machine, shown and edited in a browser.
//!
//! ```text
//!   server (connections, guard, routes) ─► project (pieces that are open)
//!      │                                     ├─► files::edit (edits of a text by key path)
//!      │                                     └─► store (the folder on disk)
//!      └─► view, pictures ─► wire (JSON)
//! ```

mod hold;
mod open_projects;
mod pictures;
mod server;
mod store;
mod view;
mod wire;

pub use server::listen;
pub use store::Folder;
