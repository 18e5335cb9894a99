//! The blank that one layer is sawn from: the oval, and the ring that covers it.

use geometry::Portable;
use geometry::{Angle, Length};
use glam::DVec2;

use super::loops::{Loops, WallRadius};
use crate::model::LayerShape;
use crate::ring::RingSizes;
use files::design::LayerMake;

/// Length and width of the oval that a slab of `thickness` at `tilt` fills in a
/// round blank of radius `blank_radius`: 2R/cos(tilt) + thickness·tan(tilt), and 2R.
pub fn oval(blank_radius: Length, thickness: Length, tilt: Angle) -> (Length, Length) {
    let t = tilt.as_rad();
    (
        blank_radius * (2.0 / t.cosine()) + thickness * t.tangent(),
        blank_radius * 2.0,
    )
}

/// What one layer needs and how it is made.
#[derive(Debug, Clone)]
pub struct LayerBlank {
    /// Oval's length along the climb.
    pub length: Length,
    /// Oval's width across it.
    pub width: Length,
    /// Radius of the largest round hole that stays inside the finished inner wall,
    /// before any allowance; `None` where the loop runs through solid wood.
    pub hole: Option<Length>,
    /// How the maker wants it made: a ring needs a hole, and is a board where there is none.
    pub asked: LayerMake,
    /// How it is made. A ring falls back to one board where there is no hole.
    pub make: LayerMake,
    /// The ring, for a layer made as one: before it is stretched.
    pub ring: Option<RingSizes>,
    /// How much longer than the others two opposite segments are; 0 for a round ring.
    pub lengthened: Length,
    /// Wood left round the oval.
    pub edge: Length,
}

/// What a layer's blank is worked out from.
pub struct LayerNeeds<'a> {
    /// The loops.
    pub loops: &'a Loops,
    /// Radius that passes the blade.
    pub blank_radius: Length,
    /// Finished inner wall.
    pub inner: WallRadius<'a>,
    /// Wood to leave round the oval.
    pub edge: Length,
    /// Wood to leave inside the finished inner wall.
    pub inside: Length,
    /// How the maker wants it made.
    pub make: LayerMake,
    /// Segments, if made as a ring.
    pub segments: usize,
}

impl LayerBlank {
    /// Work out the blank.
    pub fn new(need: &LayerNeeds<'_>) -> Self {
        let loops = need.loops;
        let (length, width) = oval(need.blank_radius, loops.thickness, loops.tilt);
        let rim = hole_rim(loops, need.inner);
        let nearest = |stretch: f64| {
            rim.as_ref().map(|points| {
                points.iter().fold(f64::MAX, |m, p| {
                    let x = (p.x.abs() - stretch).max(0.0);
                    m.min(x.hypotenuse(p.y))
                })
            })
        };
        let hole = nearest(0.0).map(Length::mm);
        // Only an even number of segments has two opposite ones to lengthen.
        let segments = need.segments + need.segments % 2;
        let (segments, flat_out, stretch) = match need.make {
            LayerMake::LongRing => (
                segments,
                need.blank_radius + need.edge,
                (length - width) / 2.0,
            ),
            _ => (need.segments, length / 2.0 + need.edge, Length::ZERO),
        };
        let corner_in = nearest(stretch.as_mm()).map(|r| Length::mm(r) - need.inside);
        let (make, ring) = match (need.make, corner_in) {
            (LayerMake::Solid, _) | (_, None) => (LayerMake::Solid, None),
            (_, Some(c)) if !c.exceeds(Length::ZERO) => (LayerMake::Solid, None),
            (make, Some(corner_in)) => (
                make,
                Some(RingSizes {
                    segments,
                    flat_out,
                    corner_in: corner_in.min(flat_out),
                    filled: 1.0,
                }),
            ),
        };
        LayerBlank {
            length,
            width,
            hole,
            asked: need.make,
            make,
            lengthened: if ring.is_some() {
                stretch * 2.0
            } else {
                Length::ZERO
            },
            ring,
            edge: need.edge,
        }
    }

    /// The blank's outline for the model.
    pub fn shape(&self) -> LayerShape {
        match &self.ring {
            Some(ring) => LayerShape::Ring {
                segments: ring.segments,
                flat_out: ring.flat_out.as_mm(),
                flat_in: ring.flat_in().as_mm(),
                stretch: self.lengthened.as_mm() / 2.0,
            },
            None => LayerShape::Board {
                length: (self.length + self.edge * 2.0).as_mm(),
                width: (self.width + self.edge * 2.0).as_mm(),
            },
        }
    }

    /// Length of strip that a ring layer takes with a kerf, the two longer segments
    /// included; `None` for a board.
    pub fn strip_length(&self, kerf: Length) -> Option<Length> {
        self.ring
            .as_ref()
            .map(|r| r.strip_length(kerf) + self.lengthened * 2.0)
    }
}

/// Where the layer's two faces meet the finished inner wall, in the layer's plane.
/// `None` if anywhere they meet the floor instead: the layer must be solid there.
fn hole_rim(loops: &Loops, inner: WallRadius<'_>) -> Option<Vec<DVec2>> {
    const ROUND: usize = 72;
    let (st, ct) = loops.tilt.as_rad().sine_cosine();
    let half = loops.thickness.as_mm() / (2.0 * ct);
    let h = loops.height.as_mm();
    let mut points = Vec::new();
    for on_axis in [h - half, h + half] {
        for k in 0..=ROUND / 2 {
            let phi = std::f64::consts::TAU * k as f64 / ROUND as f64;
            let slope = st / ct * phi.cosine();
            match Loops::height_on(inner, on_axis, slope) {
                Some(z) => {
                    let r = inner(z)?;
                    let (x, y) = (r * phi.cosine(), r * phi.sine());
                    points.push(DVec2::new(x * ct + (z - h) * st, y));
                }
                // Off the top there is no wood to be left; off the bottom is the floor.
                None if slope > 0.0 => {}
                None => return None,
            }
        }
    }
    (!points.is_empty()).then_some(points)
}
