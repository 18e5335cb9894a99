//! How much work a piece is, before any of it is done, and how work is given up.

mod cancel;

pub use cancel::{Cancel, Cancelled};
