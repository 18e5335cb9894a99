//! The half-section of the finished wood, ready for fast questions.

use std::f64::consts::PI;
use std::ops::Deref;

use kurbo::Point;

use crate::chain::HeightIndex;
use crate::revolve::Turned;

/// Most annuli that a level slice of an outline may have.
pub const MOST_SPANS: usize = 4;

/// The annuli of a level slice: (inner, outer) radii in mm, ascending, none touching
/// its neighbour from the wrong side. Held without an allocation.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Spans {
    len: usize,
    items: [(f64, f64); MOST_SPANS],
}

impl Deref for Spans {
    type Target = [(f64, f64)];
    fn deref(&self) -> &[(f64, f64)] {
        &self.items[..self.len]
    }
}

/// Why a line of points bounds no region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OutlineError {
    /// Fewer than three different points, or all at one height.
    NoArea,
    /// A point is not a finite number.
    NotFinite,
    /// The line reaches beyond the axis.
    BeyondAxis {
        /// Height of the point furthest beyond, mm.
        height: f64,
        /// Its radius, negative, mm.
        radius: f64,
    },
    /// The line crosses itself.
    CrossesItself {
        /// Height of the lowest crossing, mm.
        height: f64,
    },
    /// A level slice would have more than [`MOST_SPANS`] annuli.
    TooManySpans {
        /// Height of that slice, mm.
        height: f64,
    },
}

/// The closed region of the half-plane radius ≥ 0 that the wood fills.
#[derive(Debug, Clone)]
pub struct Outline {
    points: Vec<Point>,
    slabs: Vec<Slab>,
    edges: Vec<SlabEdge>,
    index: HeightIndex,
    breaks: Vec<f64>,
    top: f64,
}

/// Heights between two neighbouring levels of points.
#[derive(Debug, Clone, Copy)]
struct Slab {
    z0: f64,
    first: u32,
    count: u32,
}

/// An edge within a slab: radius at the slab's lower end and change with height.
#[derive(Debug, Clone, Copy)]
struct SlabEdge {
    r0: f64,
    slope: f64,
}

impl Outline {
    /// The region bounded by `points`, joined in order and closed from the last to the
    /// first, in either sense of rotation. Points on the axis have radius 0.
    ///
    /// `breaks` are heights that the caller knows to be corners; corners that stand out
    /// from a fine line, level edges and turning heights are found without.
    ///
    /// # Errors
    /// See [`OutlineError`]; the first that applies in the order listed there.
    pub fn new(points: &[Point], breaks: &[f64]) -> Result<Self, OutlineError> {
        build::build(points, breaks)
    }

    /// The annuli of the level slice at `z`; none below the bottom or above the top.
    /// At a level edge the slice just above counts, at the top the one just below.
    #[inline]
    pub fn spans(&self, z: f64) -> Spans {
        let mut out = Spans::default();
        let Some(slab) = self.slab(z) else {
            return out;
        };
        let edges = &self.edges[slab.first as usize..(slab.first + slab.count) as usize];
        let dz = z - slab.z0;
        for pair in edges.chunks_exact(2) {
            let (a, b) = (
                pair[0].r0 + pair[0].slope * dz,
                pair[1].r0 + pair[1].slope * dz,
            );
            // Rounding may put a far end a hair before the near one.
            let a = if out.len > 0 {
                a.max(out.items[out.len - 1].1)
            } else {
                a.max(0.0)
            };
            if out.len < MOST_SPANS {
                out.items[out.len] = (a, b.max(a));
                out.len += 1;
            }
        }
        out
    }

    /// Is the point at radius `r` and height `z` in the wood?
    #[inline]
    pub fn contains(&self, r: f64, z: f64) -> bool {
        let Some(slab) = self.slab(z) else {
            return false;
        };
        let edges = &self.edges[slab.first as usize..(slab.first + slab.count) as usize];
        let dz = z - slab.z0;
        let crossed = edges.iter().filter(|e| e.r0 + e.slope * dz <= r).count();
        crossed % 2 == 1
    }

    /// Lowest height, mm.
    pub fn bottom(&self) -> f64 {
        self.slabs.first().map_or(0.0, |s| s.z0)
    }

    /// Highest height, mm.
    pub fn top(&self) -> f64 {
        self.top
    }

    /// Heights of corners, level edges and turning points, ascending, ends included.
    pub fn break_heights(&self) -> &[f64] {
        &self.breaks
    }

    /// The bounding points, as given.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Volume of the solid of revolution, mm³: a sum of cone frusta, exact for the
    /// straight edges between the points.
    pub fn volume(&self) -> f64 {
        self.moments().0
    }

    /// Height of the centre of gravity of the solid if it is all of one wood, mm.
    pub fn centroid_height(&self) -> f64 {
        let (volume, moment) = self.moments();
        if volume > 0.0 {
            moment / volume
        } else {
            self.bottom()
        }
    }

    /// Volume and volume times height.
    fn moments(&self) -> (f64, f64) {
        let mut sum = (0.0, 0.0);
        for (i, slab) in self.slabs.iter().enumerate() {
            let z1 = self.slabs.get(i + 1).map_or(self.top, |s| s.z0);
            let h = z1 - slab.z0;
            let edges = &self.edges[slab.first as usize..(slab.first + slab.count) as usize];
            for (k, e) in edges.iter().enumerate() {
                let (a, b) = (e.r0, e.r0 + e.slope * h);
                let sign = if k % 2 == 0 { -1.0 } else { 1.0 };
                let v = h * (a * a + a * b + b * b) / 3.0;
                let lift = h * h * (a * a + 2.0 * a * b + 3.0 * b * b) / 12.0;
                sum.0 += sign * PI * v;
                sum.1 += sign * PI * (v * slab.z0 + lift);
            }
        }
        sum
    }

    #[inline]
    fn slab(&self, z: f64) -> Option<&Slab> {
        if !(z >= self.bottom() && z <= self.top) {
            return None;
        }
        let i = self.index.find(&self.slabs, |s| s.z0, z)?;
        self.slabs.get(i)
    }
}

impl Turned for Outline {
    fn each_span(&self, z: f64, f: &mut dyn FnMut(f64, f64)) {
        self.spans(z).iter().for_each(|s| f(s.0, s.1));
    }

    fn break_heights(&self) -> &[f64] {
        &self.breaks
    }

    fn heights(&self) -> (f64, f64) {
        (self.bottom(), self.top)
    }
}

mod build;
