//! Pictures: every pixel asks the model. Colours are for looks only.
//!
//! ```text
//!   Wall ──► Rows (exact stretches of one part at a height) ──┐
//!   wood ──► Grain (a solid texture in the part's own frame) ─┼──► wall map ──► Image ──► PNG
//!   traces ─► Strokes (thin dark lines where parts meet) ─────┘
//! ```

mod grain;
mod image;
mod map;
mod noise;
pub(crate) mod rows;
mod stroke;

pub use grain::{PartGrain, Textures};
pub use image::Image;
pub use map::{MapOptions, wall_between, wall_map};
pub(crate) use noise::{hash, unit};
