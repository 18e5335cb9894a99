//! The state of the page, apart from any server: open projects, edits, undo, versions,
//! conflicts, views and pictures, as values and functions over a [`store::Store`].
//!
//! ```text
//!   answers (what the page asks for) ─► open_projects (texts and what follows from them)
//!      │                                   ├─► files::edit (edits of a text by key path)
//!      │                                   └─► store (a folder, the browser, memory)
//!      └─► view, pictures ─► wire (JSON)
//! ```
//!
//! Nothing here reads or writes files, waits for a network or takes a clock: `app` does so
//! for a folder on this machine, and in a browser the page itself.

// Same file, same bytes, on every machine. Tests may take what they compare with.
#![cfg_attr(not(test), deny(clippy::disallowed_methods))]

pub mod answers;
pub mod hold;
pub mod open_projects;
pub mod pictures;
pub mod starter;
pub mod store;
pub mod view;
pub mod wire;
