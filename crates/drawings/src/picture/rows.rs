//! A wall's rows: at one height, the stretches round the wall that are of one part.
//!
//! Every face crosses a level circle at azimuths with a closed form, so a stretch's ends
//! are exact, and the model is asked only once or twice for all pixels between them.

use geometry::Portable;
use std::f64::consts::TAU;

use glam::{DVec2, DVec3};
use piece::model::{Part, Spot};

use crate::wall::{Face, Faces, Wall};

/// A stretch of one part at one height.
#[derive(Debug, Clone, Copy)]
pub struct Stretch {
    /// From this azimuth, radians.
    pub from: f64,
    /// To this one.
    pub to: f64,
    /// What is there; `None` where wood is missing.
    pub spot: Option<Spot>,
    /// The part's own frame along the stretch.
    pub frame: Frame,
}

/// The point in a part's own frame as it runs round a level circle:
/// base + cos · cos(azimuth) + sin · sin(azimuth), exact since parts move rigidly.
#[derive(Debug, Clone, Copy, Default)]
pub struct Frame {
    base: DVec3,
    cos: DVec3,
    sin: DVec3,
}

impl Frame {
    /// The local point at an azimuth.
    pub fn at(&self, azimuth: f64) -> DVec3 {
        self.along(DVec2::from_angle(azimuth))
    }

    /// The local point in a direction, of length 1.
    #[inline(always)]
    pub fn along(&self, way: DVec2) -> DVec3 {
        self.base + self.cos * way.x + self.sin * way.y
    }

    /// From the local points at the middle and `half` to either side.
    fn through(middle: f64, half: f64, before: DVec3, at: DVec3, after: DVec3) -> Self {
        let (s, c) = half.sine_cosine();
        // Over a short stretch the bend is lost in rounding, and does not matter.
        let cos = if half > 1e-5 {
            (before + after - at * 2.0) / (2.0 * (c - 1.0))
        } else {
            DVec3::ZERO
        };
        let sin = if half > 0.0 {
            (after - before) / (2.0 * s)
        } else {
            DVec3::ZERO
        };
        // From angles counted from the middle to azimuths.
        let (sm, cm) = middle.sine_cosine();
        Frame {
            base: at - cos,
            cos: cos * cm - sin * sm,
            sin: cos * sm + sin * cm,
        }
    }
}

/// What a stretch is one of: section and part.
pub type Owner = Option<(u16, Part)>;

/// The owner of a spot.
pub fn owner(spot: &Option<Spot>) -> Owner {
    spot.as_ref().map(|s| (s.section, s.part))
}

/// A wall's rows.
#[derive(Debug)]
pub struct Rows<'a> {
    wall: Wall<'a>,
    /// Faces that are not level: only they end a stretch.
    faces: Vec<Face>,
}

/// How close to a stretch's ends the model is asked, as a share of it.
const NEAR_END: f64 = 1e-4;

/// Two frames further apart than this, mm, belong to two pieces of one part: a cut
/// went through it and they were glued again turned or shifted.
const SAME_FRAME: f64 = 1e-6;

impl<'a> Rows<'a> {
    /// The rows of a wall.
    pub fn new(wall: Wall<'a>, faces: &Faces) -> Self {
        let faces = faces
            .all()
            .iter()
            .filter(|f| f.level().is_none())
            .copied()
            .collect();
        Self { wall, faces }
    }

    /// The stretches at a height, from azimuth 0 to once round; none past the wall's ends.
    pub fn at(&self, z: f64) -> Vec<Stretch> {
        let Some(radius) = self.wall.radius(z).map(|r| self.wall.skin(r)) else {
            return Vec::new();
        };
        let mut ends: Vec<f64> = vec![0.0, TAU];
        for face in &self.faces {
            if z < face.heights.0 - 1e-6 || z > face.heights.1 + 1e-6 {
                continue;
            }
            let cosine = face.cosine(radius, z);
            if cosine.abs() <= 1.0 {
                let from_lean = cosine.arccosine();
                ends.push((face.lean() + from_lean).rem_euclid(TAU));
                ends.push((face.lean() - from_lean).rem_euclid(TAU));
            }
        }
        ends.sort_by(f64::total_cmp);
        let mut out: Vec<Stretch> = Vec::with_capacity(ends.len());
        for w in ends.windows(2) {
            if w[1] - w[0] > 1e-9 {
                self.between(radius, z, w[0], w[1], 0, &mut out);
            }
        }
        out
    }

    fn ask(&self, radius: f64, z: f64, azimuth: f64) -> Option<Spot> {
        let (s, c) = azimuth.sine_cosine();
        self.wall
            .piece
            .stack
            .wood_at(DVec3::new(radius * c, radius * s, z))
    }

    /// One stretch, or, should the model say that there is more than one part in it, its halves.
    fn between(&self, radius: f64, z: f64, from: f64, to: f64, depth: u32, out: &mut Vec<Stretch>) {
        let middle = 0.5 * (from + to);
        let half = (0.5 - NEAR_END) * (to - from);
        let at = |a: f64| self.ask(radius, z, a);
        let (before, spot, after) = (at(middle - half), at(middle), at(middle + half));
        let same = owner(&before) == owner(&spot) && owner(&after) == owner(&spot);
        if !same && depth < 16 {
            self.between(radius, z, from, middle, depth + 1, out);
            self.between(radius, z, middle, to, depth + 1, out);
            return;
        }
        if let Some(last) = out.last_mut()
            && owner(&last.spot) == owner(&spot)
            && last.to >= from - 1e-9
            && spot.is_none_or(|s| (last.frame.at(middle) - s.local).length() < SAME_FRAME)
        {
            // The frame goes on: it is the same rigid piece of the same part.
            last.to = to;
            return;
        }
        let frame = match (before, spot, after) {
            (Some(b), Some(s), Some(a)) if same => {
                Frame::through(middle, half, b.local, s.local, a.local)
            }
            (_, Some(s), _) => Frame::through(middle, 0.0, s.local, s.local, s.local),
            _ => Frame::default(),
        };
        out.push(Stretch {
            from,
            to,
            spot,
            frame,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::workshop::Workshop;
    use piece::form::WallSide;
    use piece::settle::settle;

    #[test]
    fn a_stretch_has_the_part_and_the_frame_that_the_model_has() {
        for text in [
            include_str!("../../../../examples/dunlin-vase.toml"),
            include_str!("../../../../examples/turnstone-box.toml"),
        ] {
            let (design, ..) = files::read::read_design("project", text);
            let design = design.expect("the example is right");
            let piece = settle(&design, &Workshop::default())
                .piece
                .expect("a piece");
            for side in [WallSide::Outside, WallSide::Inside] {
                let wall = Wall::new(&piece, side);
                let rows = Rows::new(wall, &Faces::of(&piece));
                let mut asked = 0;
                for k in 0..120 {
                    let t = (f64::from(k) + 0.37) / 120.0;
                    let z = wall.lowest() + (wall.highest() - wall.lowest()) * t;
                    let row = rows.at(z);
                    assert!(row[0].from < 1e-8);
                    assert!((row[row.len() - 1].to - TAU).abs() < 1e-9);
                    for s in &row {
                        for share in [0.02, 0.31, 0.5, 0.97] {
                            let a = s.from + (s.to - s.from) * share;
                            let spot = wall.spot(a, z);
                            assert_eq!(owner(&spot), owner(&s.spot), "at {a}, {z}");
                            if let Some(spot) = spot {
                                let off = (s.frame.at(a) - spot.local).length();
                                assert!(off < 1e-5, "{off} mm off at {a}, {z}");
                                asked += 1;
                            }
                        }
                    }
                }
                assert!(asked > 5000, "{asked}");
            }
        }
    }
}
