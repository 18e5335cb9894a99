//! A ring's figures: what a rule, a stop and a mitre gauge are set to.

use geometry::Portable;
use geometry::{Angle, Length};

/// A ring of n equal mitred segments, closed or with gaps between them.
///
/// Outside, its flats touch the circle of radius `flat_out`, the largest that can
/// be turned from it. Inside, its corners reach out to `corner_in`, the smallest
/// circle that clears them.
#[derive(Debug, Clone, Copy)]
pub struct RingSizes {
    /// Segments, 3 or more.
    pub segments: usize,
    /// Axis to an outer flat.
    pub flat_out: Length,
    /// Axis to an inner corner; 0 when the segments run to a point.
    pub corner_in: Length,
    /// Share of the closed ring's angle that the segments fill, above 0 and up to 1. The sides
    /// of segments that do not meet lie in planes through the axis.
    pub filled: f64,
}

impl RingSizes {
    /// A closed ring.
    pub fn closed(segments: usize, flat_out: Length, corner_in: Length) -> RingSizes {
        RingSizes {
            segments,
            flat_out,
            corner_in,
            filled: 1.0,
        }
    }

    /// Half of the angle that one segment fills: 180°/n, times the share that is filled. It
    /// is also the mitre, the angle that each end is cut from square.
    pub fn mitre(&self) -> Angle {
        let closed = Angle::full().divided_by(2 * self.segments.max(3));
        if self.filled < 1.0 {
            closed * self.filled
        } else {
            closed
        }
    }

    /// The gap between neighbours measured straight across from corner to corner, where the
    /// finished wall has the radius `at`: 2 · radius · sin(180°/n − mitre).
    pub fn gap(&self, at: Length) -> Length {
        let closed = Angle::full().divided_by(2 * self.segments.max(3));
        at * (2.0 * (closed.as_rad() - self.mitre().as_rad()).sine())
    }

    /// Axis to an outer corner: flat / cos(180°/n).
    pub fn corner_out(&self) -> Length {
        self.flat_out / self.mitre().as_rad().cosine()
    }

    /// Axis to an inner flat: corner · cos(180°/n).
    pub fn flat_in(&self) -> Length {
        self.corner_in * self.mitre().as_rad().cosine()
    }

    /// Outer edge of a segment: 2 · flat · tan(180°/n).
    ///
    /// ```
    /// use geometry::Length;
    /// use piece::ring::RingSizes;
    /// // A hexagon 24 in flat to flat has sides of 13.856 in.
    /// let ring = RingSizes::closed(6, Length::inches(12.0), Length::ZERO);
    /// assert!(ring.long_edge().within(Length::inches(13.85641), Length::mm(1e-3)));
    /// ```
    pub fn long_edge(&self) -> Length {
        self.flat_out * (2.0 * self.mitre().as_rad().tangent())
    }

    /// Inner edge of a segment: 2 · corner · sin(180°/n).
    pub fn short_edge(&self) -> Length {
        self.corner_in * (2.0 * self.mitre().as_rad().sine())
    }

    /// Width of the board as it is mitred: outer flat − inner corner · cos(180°/n).
    pub fn board_width(&self) -> Length {
        self.flat_out - self.flat_in()
    }

    /// Length of strip that one segment takes when segments are flipped end for end:
    /// the mean of its edges and one kerf measured along the strip, kerf / cos(180°/n).
    pub fn pitch(&self, kerf: Length) -> Length {
        (self.long_edge() + self.short_edge()) / 2.0 + kerf / self.mitre().as_rad().cosine()
    }

    /// Length of strip for the ring: n pitches, the first trimming cut, and the
    /// slant that is lost at the strip's end.
    pub fn strip_length(&self, kerf: Length) -> Length {
        self.pitch(kerf) * self.segments as f64
            + kerf / self.mitre().as_rad().cosine()
            + (self.long_edge() - self.short_edge()) / 2.0
    }

    /// How the two half-rings are parted: segments in each, e.g. (6, 6) or (7, 6).
    pub fn halves(&self) -> (usize, usize) {
        (self.segments - self.segments / 2, self.segments / 2)
    }

    /// How far the outside of a half-ring's joint stands open when each of its
    /// mitres is off by `error`: the angles of all its cuts add up across the diameter.
    /// This is the thickness of the wedge that is sanded off to close the ring.
    pub fn half_ring_wedge(&self, error: Angle) -> Length {
        let cuts = 2.0 * self.halves().0 as f64;
        // The half turns about its middle; each of its two ends takes half of the error.
        self.corner_out() * 2.0 * (cuts * error.as_rad() / 2.0).abs().min(1.5).sine()
    }

    /// The same ring with a given board width in place of its inner corner.
    pub fn with_board_width(self, width: Length) -> RingSizes {
        let flat_in = (self.flat_out - width).max(Length::ZERO);
        RingSizes {
            corner_in: flat_in / self.mitre().as_rad().cosine(),
            ..self
        }
    }
}

/// The circle that a chord cut to an arc's length falls short by: cutting segments
/// to circumference / n turns only to this share of the wanted diameter,
/// (π/n) / tan(π/n).
pub fn arc_as_chord_share(segments: usize) -> f64 {
    let a = std::f64::consts::PI / segments.max(3) as f64;
    a / a.tangent()
}
