//! The least wall that is left anywhere.
//!
//! Wood is lost where the hollow was turned on another axis than the outside, and
//! where a ring has come to lie so far off that it does not cover the finished wall.

use geometry::{Length, Motion, Plane};
use glam::{DVec2, DVec3};
use piece::piece::{Piece, RingMake};

use super::follow::Follow;
use super::making::{Face, Making};

/// Where the wall is looked at.
#[derive(Debug)]
pub struct WallLeft {
    /// Thickness square to the outside and the cosine of the wall's lean, by height.
    heights: Vec<(f64, f64)>,
    /// Ways that parts of rings are moved by section: a ring and the steps that move it.
    ways: Vec<Vec<(usize, Follow)>>,
    places: Vec<Place>,
}

/// A flat of a ring at a place of the finished wall.
#[derive(Debug)]
struct Place {
    section: usize,
    way: usize,
    ring: usize,
    outer: bool,
    /// The flat in its ring as planned.
    flat: Plane,
    /// Direction of the place in the section.
    towards: DVec2,
    /// Height in the section.
    z: f64,
    /// The finished wall's radius there, outside or inside.
    radius: f64,
    thickness: f64,
    lean: f64,
}

impl WallLeft {
    /// Looks at each ring near its ends and its middle, at each flat outside and each
    /// corner inside, and at the wall's thinnest place.
    pub fn of(piece: &Piece) -> Self {
        let mut out = WallLeft {
            heights: Vec::new(),
            ways: vec![Vec::new(); piece.sections.len()],
            places: Vec::new(),
        };
        let (thinnest, at) = piece.form.thinnest_wall();
        out.heights
            .push((thinnest.as_mm(), lean(piece, at.as_mm())));
        for (s, section) in piece.sections.iter().enumerate() {
            for r in 0..section.rings.len() {
                out.ring(piece, s, r);
            }
        }
        out
    }

    fn ring(&mut self, piece: &Piece, s: usize, r: usize) {
        let ring = &piece.sections[s].rings[r];
        let placed = &piece.stack.sections()[s];
        let Some(body) = placed.body.rings().get(r) else {
            return;
        };
        let steps = placed.body.steps();
        let solid = matches!(ring.make, RingMake::Disc);
        for share in [0.02, 0.35, 0.65, 0.98] {
            let z = body.bottom + share * (body.top - body.bottom);
            let straight_up = z + placed.bottom;
            if let Some(wall) = piece.form.wall_at(Length::mm(straight_up)) {
                self.heights.push((wall.as_mm(), lean(piece, straight_up)));
            }
            if solid {
                continue;
            }
            let n = body.sides();
            for k in 0..n {
                let mid = body.rotation + std::f64::consts::TAU * k as f64 / n as f64;
                let joint = mid + std::f64::consts::PI / n as f64;
                for (outer, azimuth, offset) in
                    [(true, mid, body.flat_out), (false, joint, body.flat_in)]
                {
                    if offset <= 0.0 {
                        continue;
                    }
                    let face = if outer { Face::Outside } else { Face::Inside };
                    let line = face.line(piece);
                    let Some(near) = line.radius(straight_up) else {
                        continue;
                    };
                    let at = (DVec2::from_angle(azimuth) * near).extend(z);
                    let Some((follow, at)) = Follow::from(steps, 0, at) else {
                        continue;
                    };
                    let z = at.z + placed.bottom;
                    let (Some(radius), Some(wall)) =
                        (line.radius(z), piece.form.wall_at(Length::mm(z)))
                    else {
                        continue;
                    };
                    let way = self.way(s, r, follow);
                    self.places.push(Place {
                        section: s,
                        way,
                        ring: r,
                        outer,
                        flat: Plane {
                            normal: DVec3::new(mid.cos(), mid.sin(), 0.0),
                            offset,
                        },
                        towards: DVec2::new(at.x, at.y).normalize_or_zero(),
                        z: at.z,
                        radius,
                        thickness: wall.as_mm(),
                        lean: lean(piece, z),
                    });
                }
            }
        }
    }

    fn way(&mut self, section: usize, ring: usize, follow: Follow) -> usize {
        let ways = &mut self.ways[section];
        let known = ways.iter().position(|w| w.0 == ring && w.1 == follow);
        known.unwrap_or_else(|| {
            ways.push((ring, follow));
            ways.len() - 1
        })
    }

    /// The least wall of a making, mm; never less than none.
    pub fn least(&self, making: &Making<'_>) -> f64 {
        let off = making.errors.inside.length();
        let mut least = self
            .heights
            .iter()
            .fold(f64::MAX, |m, (wall, lean)| m.min(wall - off * lean));
        let motions: Vec<Vec<Motion>> = making
            .sections
            .iter()
            .zip(&self.ways)
            .map(|(own, ways)| {
                let mut under = Motion::STAY;
                let rings: Vec<Motion> = own
                    .cuts
                    .joints
                    .iter()
                    .map(|joint| {
                        // The ring's own joint is done before those below it.
                        under = under.after(&joint.motion);
                        under
                    })
                    .collect();
                ways.iter()
                    .map(|(ring, follow)| {
                        let first = rings.get(*ring).copied().unwrap_or(Motion::STAY);
                        follow.motion(first, &own.cuts)
                    })
                    .collect()
            })
            .collect();
        let out_by: Vec<Vec<f64>> = making
            .errors
            .sections
            .iter()
            .map(|s| s.rings.iter().map(|r| r.flats_out()).collect())
            .collect();
        for p in &self.places {
            let (Some(motion), Some(own), Some(out)) = (
                motions.get(p.section).and_then(|m| m.get(p.way)),
                making.sections.get(p.section),
                out_by.get(p.section).and_then(|o| o.get(p.ring)),
            ) else {
                continue;
            };
            let flat = Plane {
                offset: p.flat.offset + out,
                ..p.flat
            }
            .moved(motion);
            let across = flat.normal.x * p.towards.x + flat.normal.y * p.towards.y;
            let covers = (flat.offset - flat.normal.z * p.z) / across;
            let hollow = own.axis(Face::Inside).dot(p.towards);
            let lost = if p.outer {
                (p.radius - covers).max(0.0)
            } else {
                (covers - p.radius - hollow).max(0.0)
            };
            least = least.min(p.thickness - p.lean * (lost + hollow));
        }
        least.max(0.0)
    }
}

/// The cosine of a wall's lean from upright: what is lost level counts by so much
/// square to the wall.
fn lean(piece: &Piece, z: f64) -> f64 {
    let slope = piece.form.outside().slope(z).unwrap_or(0.0);
    1.0 / (1.0 + slope * slope).sqrt()
}
