//! The drawings themselves, one to a file.

mod clip;
mod half_section;
mod layer;
mod ring;
mod ruler;
mod sled;
mod wall;
mod wrap;

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
    /// Room for what is drawn, its words beside it not counted; `None` draws true to size.
    pub room: Option<Length>,
}

impl Options {
    /// True to size.
    pub fn full_size(unit: Unit) -> Self {
        Options { unit, room: None }
    }

    /// Small enough for a room: the largest usual scale at which it fits.
    pub fn within(unit: Unit, room: Length) -> Self {
        Options {
            unit,
            room: Some(room),
        }
    }

    /// The scale for something of a size.
    fn scale(&self, size: Length) -> Scale {
        self.room
            .map_or(Scale::FULL, |room| Scale::fitting(size, room))
    }

    /// What every drawing says about itself.
    fn note(&self, scale: Scale) -> String {
        let unit = match self.unit {
            Unit::Mm => "millimetres",
            Unit::Inch => "inches",
        };
        format!("Scale {}. Figures in {unit}.", scale.words())
    }
}
