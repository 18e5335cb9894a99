//! The contrasting layer that is glued in where a slice was sawn out.

use geometry::Portable;
use geometry::{ConvexCell, Motion};
use glam::{DMat3, DVec2, DVec3};

use super::sectors::Sectors;
use super::{Found, Part, WoodId};
use crate::model::course::polygon;

/// A layer's outline in its own plane: x is the way the cut climbs, y is level.
#[derive(Debug, Clone)]
pub enum LayerShape {
    /// One board.
    Board {
        /// Along the climb, mm.
        length: f64,
        /// Across it, mm.
        width: f64,
    },
    /// A ring of segments, two opposite ones longer than the others by `2 * stretch`.
    Ring {
        /// Segments; even when stretched.
        segments: usize,
        /// Centre to an outer flat of the ring before it is stretched, mm.
        flat_out: f64,
        /// Centre to an inner flat, mm.
        flat_in: f64,
        /// How far each half is moved out along the climb, mm; 0 for a round ring.
        stretch: f64,
    },
}

/// A layer in place.
#[derive(Debug, Clone)]
pub struct LayerBody {
    /// Outline.
    pub shape: LayerShape,
    /// Woods of its segments, repeated round; one for a board.
    pub woods: Vec<WoodId>,
    /// Its axes in the section: the climb, the level, up.
    axes: DMat3,
    /// Where the axis passes its lower face.
    origin: DVec3,
    /// The sectors of a ring's segments; of a board none is asked for.
    sectors: Sectors,
}

impl LayerBody {
    /// A layer whose lower face lies in `lower`, its length along the cut's climb
    /// at azimuth `climb` (radians).
    pub fn new(shape: LayerShape, woods: Vec<WoodId>, lower: &geometry::Plane, climb: f64) -> Self {
        let level = DVec3::new(-climb.sine(), climb.cosine(), 0.0);
        let along = level.cross(lower.normal);
        let segments = match shape {
            LayerShape::Board { .. } => 1,
            LayerShape::Ring { segments, .. } => segments.max(3),
        };
        Self {
            sectors: Sectors::new(segments, START),
            shape,
            woods,
            axes: DMat3::from_cols(along, level, lower.normal),
            origin: DVec3::new(0.0, 0.0, lower.height_on_axis().unwrap_or(0.0)),
        }
    }

    /// What is at a point known to lie between the layer's faces.
    #[inline]
    pub fn find(&self, step: u16, p: DVec3) -> Option<Found> {
        let local = self.axes.transpose() * (p - self.origin);
        let found = |segment: usize, local: DVec3| {
            let wood = *self.woods.get(segment % self.woods.len().max(1))?;
            Some(Found {
                part: Part::Layer {
                    step,
                    segment: segment as u16,
                },
                wood,
                local,
            })
        };
        match self.shape {
            LayerShape::Board { length, width } => {
                if local.x.abs() > length / 2.0 || local.y.abs() > width / 2.0 {
                    return None;
                }
                found(0, local)
            }
            LayerShape::Ring {
                flat_out,
                flat_in,
                stretch,
                ..
            } => {
                let x = (local.x.abs() - stretch).max(0.0) * local.x.signum();
                let at = DVec2::new(x, local.y);
                let (k, mid) = self.sectors.of(at)?;
                let out = mid.dot(at);
                if out > flat_out || out < flat_in {
                    return None;
                }
                let centre = DVec2::new(local.x, local.y);
                found(k, DVec3::new(mid.perp_dot(centre), out, local.z))
            }
        }
    }

    /// Its parts as convex cells of thickness `thick`, from `below` mm under its
    /// lower face. The step trims them between its two faces.
    pub(super) fn cells(&self, below: f64, thick: f64) -> Vec<(ConvexCell, usize)> {
        let place = Motion::rigid(self.axes, self.origin);
        let prism = |base: &[DVec2]| ConvexCell::prism(base, -below, thick - below).moved(&place);
        match self.shape {
            LayerShape::Board { length, width } => {
                let (l, w) = (length / 2.0, width / 2.0);
                let base = [
                    DVec2::new(-l, -w),
                    DVec2::new(l, -w),
                    DVec2::new(l, w),
                    DVec2::new(-l, w),
                ];
                vec![(prism(&base), 0)]
            }
            LayerShape::Ring {
                segments,
                flat_out,
                flat_in,
                stretch,
            } => {
                let n = segments.max(3);
                let pull = |p: DVec2| DVec2::new(p.x + stretch * p.x.signum(), p.y);
                let outer: Vec<_> = polygon(n, flat_out, START).into_iter().map(pull).collect();
                let inner: Vec<_> = polygon(n, flat_in, START).into_iter().map(pull).collect();
                (0..n)
                    .map(|i| {
                        let j = (i + 1) % n;
                        (prism(&[inner[i], outer[i], outer[j], inner[j]]), i)
                    })
                    .collect()
            }
        }
    }

    /// The wood of one of its segments.
    pub(super) fn wood(&self, segment: usize) -> WoodId {
        self.woods
            .get(segment % self.woods.len().max(1))
            .copied()
            .unwrap_or(WoodId(0))
    }
}

/// Azimuth in the layer of the middle of segment 0: a right angle from the climb,
/// so that of an even number two opposite segments run along it and can be lengthened.
const START: f64 = std::f64::consts::FRAC_PI_2;
