//! The drawings themselves, one to a file.

mod clip;
mod constructions;
mod half_section;
mod layer;
mod ring;
mod ruler;
mod sled;
mod wall;
mod wrap;

use files::message::{Language, Spelling};
use files::units::Unit;
use geometry::Length;

use crate::vector::Scale;

pub use half_section::half_section;
pub use layer::layer_blank;
pub use ring::ring_from_above;
pub use sled::sled_from_above;
pub use wall::unrolled_wall;
pub use wrap::wrap_strip;

/// How a drawing is made.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// The unit of its figures.
    pub unit: Unit,
    /// How its words are spelled.
    pub spelling: Spelling,
    /// Room for what is drawn, its words beside it not counted; `None` draws true to size.
    pub room: Option<Length>,
}

impl Options {
    /// True to size.
    pub fn full_size(reader: impl Into<Language>) -> Self {
        let Language { unit, spelling } = reader.into();
        Options {
            unit,
            spelling,
            room: None,
        }
    }

    /// Small enough for a room: the largest usual scale at which it fits.
    pub fn within(reader: impl Into<Language>, room: Length) -> Self {
        Options {
            room: Some(room),
            ..Options::full_size(reader)
        }
    }

    /// The scale for something of a size.
    fn scale(&self, size: Length) -> Scale {
        self.room
            .map_or(Scale::FULL, |room| Scale::fitting(size, room))
    }

    /// What every drawing says about itself.
    fn note(&self, scale: Scale) -> String {
        let unit = self.spelling.of_words(self.unit.label());
        format!("Scale {}. Figures in {unit}.", scale.words())
    }
}
