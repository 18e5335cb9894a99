//! The least wall that is left anywhere.
//!
//! Wood is lost where the hollow was turned on another axis than the outside, and
//! where a ring has come to lie so far off that it does not cover the finished wall.

use geometry::Portable;
use std::f64::consts::TAU;

use geometry::{Length, Motion, Plane};
use glam::{DVec2, DVec3};
use piece::model::CourseBody;
use piece::piece::Piece;

use super::follow::Follow;
use super::sample::{Face, PlacedCuts, Sample};

/// Where the wall is looked at.
#[derive(Debug)]
pub struct WallLeft {
    /// Thickness square to the outside and the cosine of the wall's lean, by height.
    heights: Vec<(f64, f64)>,
    /// Parts of rings that move as one, by section.
    parts: Vec<Vec<Part>>,
}

/// What the same steps move of a ring.
#[derive(Debug)]
struct Part {
    ring: usize,
    follow: Follow,
    /// How it is moved as planned.
    planned: Motion,
    /// A point of it, and how far from that any other may be, mm.
    middle: DVec3,
    reach: f64,
    /// What it covers the finished wall by, at least, mm.
    spare: f64,
    places: Vec<Place>,
}

/// A flat outside or a corner inside, where the finished wall needs its wood.
#[derive(Debug)]
struct Place {
    edge: Edge,
    /// Height in the section, mm.
    z: f64,
    /// The finished wall's radius there, outside or inside, mm.
    radius: f64,
    thickness: f64,
    lean: f64,
}

/// An edge of a ring before anything moves.
#[derive(Debug, Clone, Copy)]
enum Edge {
    /// The flat square to a direction, so far from the ring's middle.
    Flat { mid: DVec2, offset: f64 },
    /// A corner in a direction, at a height; `share` is its radius over the flats'.
    Corner {
        way: DVec2,
        radius: f64,
        share: f64,
        z: f64,
    },
}

impl WallLeft {
    /// Looks at each ring near its ends and between, at each flat outside and each
    /// corner inside, and at the wall's thinnest place.
    pub fn of(piece: &Piece, perfect: &Sample<'_>) -> Self {
        let (thinnest, at) = piece.form.thinnest_wall();
        let mut out = WallLeft {
            heights: vec![(thinnest.as_mm(), lean(piece, at.as_mm()))],
            parts: Vec::new(),
        };
        for (s, section) in piece.sections.iter().enumerate() {
            let mut parts = Vec::new();
            for r in 0..section.rings.len() {
                out.ring(piece, perfect, (s, r), &mut parts);
            }
            out.parts.push(parts);
        }
        out
    }

    fn ring(
        &mut self,
        piece: &Piece,
        perfect: &Sample<'_>,
        (s, r): (usize, usize),
        parts: &mut Vec<Part>,
    ) {
        let ring = &piece.sections[s].rings[r];
        let placed = &piece.stack.sections()[s];
        let (Some(body), Some(own)) = (placed.body.rings().get(r), perfect.sections.get(s)) else {
            return;
        };
        for share in [0.02, 0.35, 0.65, 0.98] {
            let z = body.bottom + share * (body.top - body.bottom);
            let height = z + placed.bottom;
            if let Some(wall) = piece.form.wall_at(Length::mm(height)) {
                self.heights.push((wall.as_mm(), lean(piece, height)));
            }
            if ring.repeats().is_none() {
                // Alike all round, it has no corners that could fall short.
                continue;
            }
            for edge in edges(body, z) {
                let face = edge.face();
                let line = face.line(piece);
                let Some(near) = line.radius(height) else {
                    continue;
                };
                let at = (edge.way() * near).extend(z);
                let Some((follow, at)) = Follow::from(placed.body.steps(), 0, at) else {
                    continue;
                };
                let height = at.z + placed.bottom;
                let (Some(radius), Some(wall)) =
                    (line.radius(height), piece.form.wall_at(Length::mm(height)))
                else {
                    continue;
                };
                let place = Place {
                    edge,
                    z: at.z,
                    radius,
                    thickness: wall.as_mm(),
                    lean: lean(piece, height),
                };
                let known = parts.iter().position(|p| p.ring == r && p.follow == follow);
                let part = known.unwrap_or_else(|| {
                    parts.push(Part {
                        ring: r,
                        planned: follow.motion(joints(own, r), &own.cuts),
                        follow,
                        middle: DVec3::new(0.0, 0.0, 0.5 * (body.bottom + body.top)),
                        reach: body.corner_out().hypotenuse(0.5 * (body.top - body.bottom)),
                        spare: f64::INFINITY,
                        places: Vec::new(),
                    });
                    parts.len() - 1
                });
                let part = &mut parts[part];
                let lost = place.lost(&part.planned, 0.0, own.axis(Face::Inside)).0;
                part.spare = part.spare.min(-lost);
                part.places.push(place);
            }
        }
    }

    /// The least wall of a making, mm; never less than none.
    pub fn least(&self, making: &Sample<'_>) -> f64 {
        let off = making.errors.inside.length();
        let mut least = self
            .heights
            .iter()
            .fold(f64::MAX, |m, (wall, lean)| m.min(wall - off * lean));
        for (s, (own, parts)) in making.sections.iter().zip(&self.parts).enumerate() {
            let errors = making.errors.sections.get(s);
            let mut under = Motion::STAY;
            let mut ring = 0;
            let mut first = own.cuts.joints.first().map_or(under, |j| j.motion);
            let axis = own.axis(Face::Inside);
            for part in parts {
                // Parts are listed by ring: joints add up on the way.
                while ring < part.ring {
                    ring += 1;
                    under = first;
                    let joint = own.cuts.joints.get(ring).map_or(Motion::STAY, |j| j.motion);
                    first = under.after(&joint);
                }
                let motion = part.follow.motion(first, &own.cuts);
                let out = errors
                    .and_then(|e| e.rings.get(part.ring))
                    .map_or(0.0, |e| e.flats_out());
                if part.moved(&motion) + 1.1 * out.abs() + off < part.spare {
                    // It still covers the wall wherever it is looked at.
                    continue;
                }
                for place in &part.places {
                    let (lost, towards) = place.lost(&motion, out, axis);
                    if lost > 0.0 {
                        // The hollow thins the wall where it stands off towards it.
                        let gone = lost + axis.dot(towards);
                        least = least.min(place.thickness - place.lean * gone);
                    }
                }
            }
        }
        least.max(0.0)
    }
}

/// How the joints from a ring's own down to the section's underside move it.
fn joints(own: &PlacedCuts, ring: usize) -> Motion {
    let joints = own.cuts.joints.iter().take(ring + 1);
    joints.fold(Motion::STAY, |under, joint| under.after(&joint.motion))
}

fn edges(body: &CourseBody, z: f64) -> impl Iterator<Item = Edge> + '_ {
    let n = body.sides().max(3);
    let half = body.half_angle();
    (0..n).flat_map(move |k| {
        let mid = body.rotation + TAU * k as f64 / n as f64;
        let flat = Edge::Flat {
            mid: DVec2::from_angle(mid),
            offset: body.flat_out(),
        };
        let corner = |side: f64| Edge::Corner {
            way: DVec2::from_angle(mid + side),
            radius: body.flat_in() / half.cosine(),
            share: 1.0 / half.cosine(),
            z,
        };
        // Neighbours that meet share their corners.
        let hollow = body.flat_in() > 0.0;
        let before = (hollow && body.open()).then(|| corner(-half));
        [Some(flat), hollow.then(|| corner(half)), before]
            .into_iter()
            .flatten()
    })
}

impl Edge {
    fn way(&self) -> DVec2 {
        match self {
            Edge::Flat { mid, .. } => *mid,
            Edge::Corner { way, .. } => *way,
        }
    }

    fn face(&self) -> Face {
        match self {
            Edge::Flat { .. } => Face::Outside,
            Edge::Corner { .. } => Face::Inside,
        }
    }
}

impl Part {
    /// The furthest that any of its points may be from where it would be as planned, mm.
    fn moved(&self, motion: &Motion) -> f64 {
        let middle = motion.apply(self.middle) - self.planned.apply(self.middle);
        let turn = motion.turn - self.planned.turn;
        let size = turn.x_axis.length_squared()
            + turn.y_axis.length_squared()
            + turn.z_axis.length_squared();
        middle.length() + size.sqrt() * self.reach
    }
}

impl Place {
    /// By how much the moved ring falls short of the finished wall (negative: what it
    /// has to spare), mm, and in which direction. The hollow stands round `axis`.
    fn lost(&self, motion: &Motion, out: f64, axis: DVec2) -> (f64, DVec2) {
        match self.edge {
            Edge::Flat { mid, offset } => {
                let flat = Plane {
                    normal: mid.extend(0.0),
                    offset: offset + out,
                }
                .moved(motion);
                let level = DVec2::new(flat.normal.x, flat.normal.y);
                let covers = (flat.offset - flat.normal.z * self.z) / level.length();
                (self.radius - covers, level.normalize_or_zero())
            }
            Edge::Corner {
                way,
                radius,
                share,
                z,
            } => {
                let at = motion.apply((way * (radius + out * share)).extend(z));
                let from_axis = DVec2::new(at.x, at.y) - axis;
                let far = from_axis.length();
                (far - self.radius, from_axis / far.max(1e-9))
            }
        }
    }
}

/// The cosine of a wall's lean from upright: what is lost level counts by so much
/// square to the wall.
fn lean(piece: &Piece, z: f64) -> f64 {
    let slope = piece.form.outside().slope(z).unwrap_or(0.0);
    1.0 / (1.0 + slope * slope).sqrt()
}
