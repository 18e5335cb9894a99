//! How much work a piece is, before any of it is done, and how work is given up.

mod cancel;
mod load;

pub use cancel::{Cancel, Cancelled};
pub use load::Load;
