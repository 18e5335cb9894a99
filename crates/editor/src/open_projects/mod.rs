//! Pieces that are open: their text, what follows from it, undo and redo.
//!
//! ```text
//!   text + workshop ─► Revision (settled, findings, plan)   one for each version, a few kept
//!   OpenProject: one project's text, its steps back and forth, and what the store holds
//!   OpenProjects: every project, the workshop, the store
//! ```

mod conflict;
mod merge;
pub(crate) mod paths;
mod project;
mod projects;
mod revision;
mod shop;

pub use project::{Answer, OpenProject};
pub use projects::OpenProjects;
pub use revision::Revision;
pub use shop::Shop;
