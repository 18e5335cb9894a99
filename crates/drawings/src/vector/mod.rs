//! The drawing as a value: lines, areas and words on paper, in millimetres.
//!
//! ```text
//!   Pen ──► Drawing ──► svg (the page, a post)
//!              └──────► entities (any other format: lines, arcs, words)
//! ```

pub(crate) mod dimension;
mod drawing;
mod entity;
mod look;
mod overlap;
pub(crate) mod pen;
mod scale;
mod svg;
mod text;

pub use drawing::{Area, Drawing, Fill, Item, Layer, LineKind, Shape};
pub use entity::{Entity, geometry};
pub use look::{Looks, Pattern, WoodLook};
pub use overlap::{Box2, overlapping_words, words_off_the_sheet};
pub use pen::Pen;
pub use scale::Scale;
pub use svg::to_svg;
pub use text::{Anchor, Text, width_of};
