//! How much of a convex cell is left when the piece has been turned.
//!
//! A level slice of a convex cell is a convex polygon, and a level slice of a
//! turned form is a set of annuli round the axis. Their common area has a closed
//! form (`disc`), so a volume is one integral over the height. The integrand is
//! smooth between the cell's corners and the form's own corners.

use glam::{DVec2, DVec3};

use crate::cell::ConvexCell;
use crate::disc::{AreaMoments, behind_edge_in_annulus};

/// A solid of revolution round +z.
pub trait Turned: Sync {
    /// Calls `f(inner radius, outer radius)` for each annulus of the level slice at `z`.
    fn each_span(&self, z: f64, f: &mut dyn FnMut(f64, f64));
    /// Heights where the form has a corner or a level edge, ascending.
    fn break_heights(&self) -> &[f64];
    /// Lowest and highest point of the form.
    fn heights(&self) -> (f64, f64);
}

/// Volume and first moments.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct VolumeMoments {
    /// Volume, mm³.
    pub volume: f64,
    /// Volume times the centre of volume, mm⁴.
    pub first: DVec3,
}

impl std::ops::AddAssign for VolumeMoments {
    fn add_assign(&mut self, o: Self) {
        self.volume += o.volume;
        self.first += o.first;
    }
}

impl std::iter::Sum for VolumeMoments {
    fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
        iter.fold(Self::default(), |mut a, b| {
            a += b;
            a
        })
    }
}

impl VolumeMoments {
    /// Of a whole cell.
    pub fn of_cell(cell: &ConvexCell) -> Self {
        let volume = cell.volume();
        Self {
            volume,
            first: cell.centroid() * volume,
        }
    }

    /// The centre of volume; the origin when there is no volume.
    pub fn centre(&self) -> DVec3 {
        if self.volume.abs() > 0.0 {
            self.first / self.volume
        } else {
            DVec3::ZERO
        }
    }
}

/// Volume and first moments of the part of `cell` inside `turned`.
///
/// `tolerance` is the volume in mm³ to which each smooth piece of the integral is
/// found; the whole is usually ten times better, since neighbours' errors cancel.
/// Cost grows with the cell's faces and about with the fifth root of 1/tolerance.
pub fn turned_volume(cell: &ConvexCell, turned: &dyn Turned, tolerance: f64) -> VolumeMoments {
    if cell.is_empty() {
        return VolumeMoments::default();
    }
    let (lo, hi) = cell.heights();
    let (bottom, top) = turned.heights();
    let (lo, hi) = (lo.max(bottom), hi.min(top));
    if lo >= hi {
        return VolumeMoments::default();
    }
    let mut cuts: Vec<f64> = cell
        .corners()
        .iter()
        .map(|p| p.z)
        .chain(turned.break_heights().iter().copied())
        .filter(|z| *z > lo && *z < hi)
        .chain([lo, hi])
        .collect();
    cuts.sort_by(f64::total_cmp);
    let thin = crate::NOISE * (hi - lo);
    cuts.dedup_by(|b, a| *b - *a <= thin);
    let mut edges = Vec::with_capacity(cell.face_indices().len());
    cuts.windows(2)
        .map(|w| {
            slice_edges(cell, w[0], w[1], &mut edges);
            let slicer = Slicer {
                edges: &edges,
                turned,
            };
            slicer.between(w[0], w[1], tolerance, 0)
        })
        .sum()
}

/// One edge of a level slice: its ends move in straight lines as the slice rises.
struct SliceEdge {
    from: DVec2,
    from_rise: DVec2,
    to: DVec2,
    to_rise: DVec2,
}

/// The edges of the cell's slices between two heights with no corner between them.
/// Ends are given at height 0 of their lines.
fn slice_edges(cell: &ConvexCell, z0: f64, z1: f64, edges: &mut Vec<SliceEdge>) {
    edges.clear();
    let z = 0.5 * (z0 + z1);
    let corners = cell.corners();
    for face in cell.face_indices() {
        // Seen from outside a face's loop runs up on its right and down on its
        // left, so the slice's edge runs from the way down to the way up.
        let (mut up, mut down) = (None, None);
        let mut a = corners[face[face.len() - 1] as usize];
        for &i in face {
            let b = corners[i as usize];
            if (a.z < z) != (b.z < z) {
                let rise = (b - a).truncate() / (b.z - a.z);
                let line = (a.truncate() - rise * a.z, rise);
                if a.z < z {
                    up = Some(line);
                } else {
                    down = Some(line);
                }
            }
            a = b;
        }
        if let (Some((from, from_rise)), Some((to, to_rise))) = (down, up) {
            edges.push(SliceEdge {
                from,
                from_rise,
                to,
                to_rise,
            });
        }
    }
}

/// Deepest halving of an interval: a kink is then confined to 1/256 of it.
const DEEPEST: u32 = 8;

struct Slicer<'a> {
    edges: &'a [SliceEdge],
    turned: &'a dyn Turned,
}

// Gauss-Legendre nodes and weights on [-1, 1] (Abramowitz and Stegun, table 25.4).
const GAUSS3: [(f64, f64); 3] = [
    (-0.774_596_669_241_483_4, 0.555_555_555_555_555_6),
    (0.0, 0.888_888_888_888_888_8),
    (0.774_596_669_241_483_4, 0.555_555_555_555_555_6),
];
const GAUSS5: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_08),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.906_179_845_938_664, 0.236_926_885_056_189_08),
];

impl Slicer<'_> {
    fn between(&self, z0: f64, z1: f64, tolerance: f64, depth: u32) -> VolumeMoments {
        let coarse = self.gauss(z0, z1, &GAUSS3);
        let fine = self.gauss(z0, z1, &GAUSS5);
        if (coarse.volume - fine.volume).abs() <= tolerance || depth == DEEPEST {
            return fine;
        }
        let mid = 0.5 * (z0 + z1);
        let mut sum = self.between(z0, mid, 0.5 * tolerance, depth + 1);
        sum += self.between(mid, z1, 0.5 * tolerance, depth + 1);
        sum
    }

    fn gauss(&self, z0: f64, z1: f64, rule: &[(f64, f64)]) -> VolumeMoments {
        let (mid, half) = (0.5 * (z0 + z1), 0.5 * (z1 - z0));
        let mut sum = VolumeMoments::default();
        for (x, w) in rule {
            let z = mid + half * x;
            let a = self.slice(z);
            sum.volume += w * half * a.area;
            sum.first += w * half * DVec3::new(a.first.x, a.first.y, a.area * z);
        }
        sum
    }

    /// Area of the cell's level slice that lies in the turned form.
    fn slice(&self, z: f64) -> AreaMoments {
        let mut sum = AreaMoments::default();
        let mut spans = [(0.0, 0.0); 8];
        let mut count = 0;
        self.turned.each_span(z, &mut |inner, outer| {
            if count < spans.len() && outer > inner {
                spans[count] = (inner, outer);
                count += 1;
            }
        });
        if count == 0 {
            return sum;
        }
        for edge in self.edges {
            let (from, to) = (edge.from + edge.from_rise * z, edge.to + edge.to_rise * z);
            for &(inner, outer) in &spans[..count] {
                sum += behind_edge_in_annulus(from, to, inner, outer);
            }
        }
        sum
    }
}

/// A plain tube, or a rod when `inner` is 0: the simplest turned form.
#[derive(Debug, Clone)]
pub struct Tube {
    inner: f64,
    outer: f64,
    heights: [f64; 2],
}

impl Tube {
    /// Radii and heights in mm.
    pub fn new(inner: f64, outer: f64, bottom: f64, top: f64) -> Self {
        Self {
            inner,
            outer,
            heights: [bottom, top],
        }
    }
}

impl Turned for Tube {
    fn each_span(&self, z: f64, f: &mut dyn FnMut(f64, f64)) {
        if z >= self.heights[0] && z <= self.heights[1] {
            f(self.inner, self.outer);
        }
    }
    fn break_heights(&self) -> &[f64] {
        &self.heights
    }
    fn heights(&self) -> (f64, f64) {
        (self.heights[0], self.heights[1])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Portable;
    use crate::plane::Plane;
    use std::f64::consts::PI;

    fn block(half: f64, low: f64, high: f64) -> ConvexCell {
        let base: Vec<_> = [(-half, -half), (half, -half), (half, half), (-half, half)]
            .iter()
            .map(|&(x, y)| DVec2::new(x, y))
            .collect();
        ConvexCell::prism(&base, low, high)
    }

    #[test]
    fn a_tilted_layer_in_a_tube_has_its_closed_form_volume() {
        // Closed form: t / cos(tilt) · π (R² - r²) for a slab wholly inside the tube's height.
        let (tilt, t) = (30_f64.to_radians(), 6.0);
        let plane = Plane::tilted(75.0, tilt, 0.4);
        let (_, above) = block(200.0, -400.0, 600.0).split(&plane.shifted(-t / 2.0));
        let (slab, _) = above.split(&plane.shifted(t / 2.0));
        let got = turned_volume(&slab, &Tube::new(45.0, 55.0, 0.0, 150.0), 1e-3);
        let want = t / tilt.cosine() * PI * (55.0_f64.to_the(2) - 45.0_f64.to_the(2));
        assert!(
            (got.volume / want - 1.0).abs() < 1e-6,
            "{} {want}",
            got.volume
        );
        assert!((got.centre() - DVec3::new(0.0, 0.0, 75.0)).z.abs() < 1e-3);
    }

    #[test]
    fn a_cell_inside_the_form_keeps_all_of_itself() {
        let cell = block(5.0, 10.0, 20.0).moved(&crate::Motion::shift(DVec3::new(50.0, 0.0, 0.0)));
        let got = turned_volume(&cell, &Tube::new(40.0, 60.0, 0.0, 100.0), 1e-6);
        assert!((got.volume - 1000.0).abs() < 1e-9);
        assert!((got.centre() - DVec3::new(50.0, 0.0, 15.0)).length() < 1e-9);
    }
}
