//! Pieces that are open: their text, what follows from it, undo and redo.
//!
//! ```text
//!   text + workshop ─► Made (settled, findings, plan)   one for each version, a few kept
//!   Desk: one project's text, its steps back and forth, and what the disk holds
//!   Bench: every desk, the workshop, the folder
//! ```

mod bench;
mod conflict;
mod made;
mod merge;
mod project;
mod shop;

pub use bench::{Bench, hold};
pub use made::Made;
pub use project::{Answer, Desk};
pub use shop::Shop;
