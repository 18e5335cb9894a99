//! Two parallel saw cuts with a spacer under the faceplate between them.

use geometry::Portable;
use geometry::{Angle, Length};

/// The sums of two parallel cuts.
///
/// The spacer moves the blank along its axis; square to the cuts that is
/// spacer · cos(tilt), from one cut's middle to the other's. Between the cuts
/// stays a slice, one kerf thinner; with the cuts it is removed, one kerf thicker.
#[derive(Debug, Clone, Copy)]
pub struct TwoCuts {
    /// Tilt of both cuts from straight across.
    pub tilt: Angle,
    /// Width of each cut.
    pub kerf: Length,
    /// Shift along the axis between them.
    pub spacer: Length,
}

impl TwoCuts {
    /// The two cuts that make room for a layer of thickness `layer` between two
    /// glue lines: spacer = (layer + 2 glue lines − kerf) / cos(tilt).
    pub fn for_layer(layer: Length, glue_line: Length, kerf: Length, tilt: Angle) -> Self {
        let room = layer + glue_line * 2.0;
        TwoCuts {
            tilt,
            kerf,
            spacer: (room - kerf) / tilt.as_rad().cosine(),
        }
    }

    /// From one cut's middle to the other's, square to them.
    pub fn apart(&self) -> Length {
        self.spacer * self.tilt.as_rad().cosine()
    }

    /// Thickness of the slice that comes out: spacer · cos(tilt) − kerf. Not more
    /// than zero when the cuts run into each other.
    pub fn slice(&self) -> Length {
        self.apart() - self.kerf
    }

    /// Do the cuts run into each other, so that there is no slice between them?
    pub fn run_together(&self) -> bool {
        !self.slice().exceeds(Length::ZERO)
    }

    /// Thickness of all wood removed: spacer · cos(tilt) + kerf = slice + 2 kerfs.
    pub fn removed(&self) -> Length {
        self.apart() + self.kerf
    }

    /// Dry thickness of the layer that fills the room between two glue lines.
    pub fn layer(&self, glue_line: Length) -> Length {
        self.removed() - glue_line * 2.0
    }
}
