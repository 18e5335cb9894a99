//! Lines that show on a wall: faces where they reach it, as far as nothing cut later
//! covers them.

use geometry::Portable;
use std::f64::consts::{PI, TAU};

use glam::DVec2;
use piece::model::{Part, Spot};

use super::faces::{Face, FaceKind, Faces};
use super::side::Wall;

/// One line on the wall.
#[derive(Debug, Clone)]
pub struct Trace {
    /// What meets there.
    pub kind: FaceKind,
    /// Azimuth (radians, from 0 to once round) and height (mm) of its points.
    pub points: Vec<DVec2>,
}

/// How far to either side of a face the model is asked, mm.
const ASIDE: f64 = 0.002;
/// How far a line may stray from its curve, mm.
const STRAY: f64 = 0.004;

/// All lines that show on a wall, true to 0.01 mm.
pub fn traces(wall: &Wall<'_>, faces: &Faces) -> Vec<Trace> {
    let fine = finest(wall);
    let mut out = Vec::new();
    for face in faces.all() {
        for course in courses(wall, face) {
            let tracer = Tracer { wall, face, course };
            tracer.visible(fine, &mut out);
        }
    }
    out
}

/// The step at which the model is asked along a line: well under the thinnest layer.
fn finest(wall: &Wall<'_>) -> f64 {
    let thinnest = wall
        .piece
        .sections
        .iter()
        .flat_map(|s| &s.bands)
        .map(|b| b.loops.thickness.as_mm())
        .fold(3.0, f64::min);
    (thinnest / 3.0).max(0.1)
}

/// How a face runs over the wall, by a parameter from 0 to 1.
#[derive(Debug, Clone, Copy)]
enum Course {
    /// Round the wall at a height.
    Level(f64),
    /// Between two heights, on one side of the lean.
    Climbing { low: f64, high: f64, sign: f64 },
}

/// Where a face may reach the wall: once round at its height, or, between heights at
/// which it does, on either side of its lean.
fn courses(wall: &Wall<'_>, face: &Face) -> Vec<Course> {
    let (low, high) = (
        face.heights.0.max(wall.lowest()),
        face.heights.1.min(wall.highest()),
    );
    if let Some(z) = face.level() {
        let on = z >= wall.lowest() && z <= wall.highest();
        return if on {
            vec![Course::Level(z)]
        } else {
            Vec::new()
        };
    }
    if low >= high {
        return Vec::new();
    }
    // An upright plane through the axis reaches every height.
    let steps = if face.plane.normal.z.abs() < 1e-12 && face.plane.offset.abs() < 1e-12 {
        1
    } else {
        ((high - low) / 0.25).ceil().clamp(16.0, 4096.0) as usize
    };
    let reaches = |z: f64| {
        wall.radius(z)
            .is_some_and(|r| face.cosine(r, z).abs() <= 1.0)
    };
    let close_in = |mut on: f64, mut off: f64| {
        for _ in 0..60 {
            let mid = 0.5 * (on + off);
            if reaches(mid) {
                on = mid;
            } else {
                off = mid;
            }
        }
        on
    };
    let mut out = Vec::new();
    let mut start = None;
    let mut before = (low, false);
    for i in 0..=steps {
        let z = low + (high - low) * i as f64 / steps as f64;
        let on = reaches(z);
        match (before.1, on) {
            (false, true) => start = Some(if i == 0 { z } else { close_in(z, before.0) }),
            (true, false) => {
                if let Some(from) = start.take() {
                    out.push((from, close_in(before.0, z)));
                }
            }
            _ => {}
        }
        before = (z, on);
    }
    if let Some(from) = start {
        out.push((from, high));
    }
    out.into_iter()
        .flat_map(|(low, high)| [1.0, -1.0].map(|sign| Course::Climbing { low, high, sign }))
        .collect()
}

struct Tracer<'a> {
    wall: &'a Wall<'a>,
    face: &'a Face,
    course: Course,
}

impl Tracer<'_> {
    /// Azimuth and height at a parameter. Heights crowd towards both ends, where a
    /// tilted face runs level.
    fn at(&self, s: f64) -> Option<DVec2> {
        match self.course {
            Course::Level(z) => Some(DVec2::new(TAU * s, z)),
            Course::Climbing { low, high, sign } => {
                let z = 0.5 * (low + high) - 0.5 * (high - low) * (PI * s).cosine();
                let r = self.wall.radius(z)?;
                let from_lean = self.face.cosine(r, z).clamp(-1.0, 1.0).arccosine();
                Some(DVec2::new(self.face.lean() + sign * from_lean, z))
            }
        }
    }

    /// Does the face show here?
    fn shows(&self, s: f64) -> bool {
        let Some(at) = self.at(s) else {
            return false;
        };
        let Some(p) = self.wall.point(at.x, at.y) else {
            return false;
        };
        // Under the skin the face may be a hair further on.
        let n = self.face.plane.normal;
        let p = p - n * self.face.plane.above(p);
        let stack = &self.wall.piece.stack;
        let (low, high) = (p - n * ASIDE, p + n * ASIDE);
        match (stack.wood_at(low), stack.wood_at(high)) {
            // What a gap is bounded by shows where the gap is.
            (Some(spot), None) => stack.meant_empty(high) && bounds(self.face.kind, &spot),
            (None, Some(spot)) => stack.meant_empty(low) && bounds(self.face.kind, &spot),
            (below, above) => shows(self.face.kind, below, above),
        }
    }

    /// Its visible stretches, each broken where the wall is unrolled.
    fn visible(&self, fine: f64, out: &mut Vec<Trace>) {
        let Some(count) = self.count(fine) else {
            return;
        };
        let s_of = |i: usize| i as f64 / count as f64;
        let flags: Vec<bool> = (0..=count).map(|i| self.shows(s_of(i))).collect();
        let mut i = 0;
        while i <= count {
            if !flags[i] {
                i += 1;
                continue;
            }
            let first = i;
            while i < count && flags[i + 1] {
                i += 1;
            }
            let from = if first == 0 {
                0.0
            } else {
                self.turn(s_of(first), s_of(first - 1))
            };
            let to = if i == count {
                1.0
            } else {
                self.turn(s_of(i), s_of(i + 1))
            };
            let mut s: Vec<f64> = vec![from];
            s.extend((first..=i).map(s_of).filter(|s| *s > from && *s < to));
            s.push(to);
            let points: Vec<DVec2> = s.into_iter().filter_map(|s| self.at(s)).collect();
            self.put(points, out);
            i += 1;
        }
    }

    /// How many steps to take along it; `None` if it is nowhere.
    fn count(&self, fine: f64) -> Option<usize> {
        let long = match self.course {
            Course::Level(z) => TAU * self.wall.radius(z)?,
            Course::Climbing { low, high, .. } => {
                let span = self.at(0.0)?.x - self.at(1.0)?.x;
                let r = self.wall.radius(0.5 * (low + high))?;
                // Crowded steps are at most π/2 times the mean.
                1.6 * (high - low).hypotenuse(span * r)
            }
        };
        Some((long / fine).ceil().clamp(8.0, 4096.0) as usize)
    }

    /// The parameter at which it stops showing, between one where it does and one where not.
    fn turn(&self, mut on: f64, mut off: f64) -> f64 {
        for _ in 0..40 {
            let mid = 0.5 * (on + off);
            if self.shows(mid) {
                on = mid;
            } else {
                off = mid;
            }
        }
        on
    }

    fn put(&self, points: Vec<DVec2>, out: &mut Vec<Trace>) {
        let radius = match self.course {
            Course::Level(z) => self.wall.radius(z),
            Course::Climbing { low, high, .. } => self.wall.radius(0.5 * (low + high)),
        };
        let points = thinned(&points, radius.unwrap_or(1.0));
        for points in within_one_turn(&points) {
            out.push(Trace {
                kind: self.face.kind,
                points,
            });
        }
    }
}

/// Is a face the face of the wood on one side of it, with nothing on the other?
fn bounds(kind: FaceKind, wood: &Spot) -> bool {
    match (kind, wood.part) {
        (FaceKind::Section { .. }, _) => true,
        (
            FaceKind::Ring {
                section,
                ring: upper,
            },
            Part::Segment { ring, .. },
        ) => wood.section == section && (ring == upper || ring + 1 == upper),
        (
            FaceKind::Joint {
                section, ring: own, ..
            },
            Part::Segment { ring, .. },
        ) => wood.section == section && ring == own,
        (FaceKind::Layer { section, step, .. }, Part::Layer { step: own, .. }) => {
            wood.section == section && step == own
        }
        _ => false,
    }
}

/// Does a face show between what is below and above it?
fn shows(kind: FaceKind, below: Option<Spot>, above: Option<Spot>) -> bool {
    let (Some(below), Some(above)) = (below, above) else {
        return false;
    };
    let in_step = |spot: &Spot, section: u16, step: u16| {
        spot.section == section && matches!(spot.part, Part::Layer { step: s, .. } if s == step)
    };
    let ring_of = |spot: &Spot| match spot.part {
        Part::Segment { ring, .. } | Part::Disc { ring } | Part::Panel { ring } => Some(ring),
        Part::Layer { .. } => None,
    };
    match kind {
        FaceKind::Section { .. } => below.section != above.section,
        FaceKind::Ring { section, ring } => {
            below.section == section
                && above.section == section
                && ring_of(&above) == Some(ring)
                && ring_of(&below).is_some_and(|b| b + 1 == ring)
        }
        FaceKind::Joint { section, ring, .. } => {
            below.section == section
                && above.section == section
                && matches!((below.part, above.part),
                    (Part::Segment { ring: a, segment: i }, Part::Segment { ring: b, segment: j })
                        if a == ring && b == ring && i != j)
        }
        FaceKind::Layer {
            section,
            step,
            upper,
        } => {
            // The layer's own side must be this layer, whatever is on the other.
            let (mine, other) = if upper {
                (&below, &above)
            } else {
                (&above, &below)
            };
            in_step(mine, section, step) && !in_step(other, section, step)
        }
        FaceKind::LayerJoint { section, step, .. } => {
            in_step(&below, section, step)
                && in_step(&above, section, step)
                && below.part != above.part
        }
        FaceKind::Split { section, .. } => {
            let wood = |s: &Spot| s.section == section;
            wood(&below) && wood(&above)
        }
    }
}

/// The line with points left out that stray less than [`STRAY`] from it (Ramer, Douglas
/// and Peucker's way). `radius` makes a length of an azimuth.
fn thinned(points: &[DVec2], radius: f64) -> Vec<DVec2> {
    let flat = |p: DVec2| DVec2::new(p.x * radius, p.y);
    let mut keep = vec![false; points.len()];
    let mut work = Vec::new();
    if let Some(last) = points.len().checked_sub(1) {
        keep[0] = true;
        keep[last] = true;
        work.push((0, last));
    }
    while let Some((a, b)) = work.pop() {
        let (p, q) = (flat(points[a]), flat(points[b]));
        let way = (q - p).normalize_or_zero();
        let mut far = (STRAY, None);
        for (i, point) in points.iter().enumerate().take(b).skip(a + 1) {
            let d = if way == DVec2::ZERO {
                (flat(*point) - p).length()
            } else {
                way.perp_dot(flat(*point) - p).abs()
            };
            if d > far.0 {
                far = (d, Some(i));
            }
        }
        if let Some(i) = far.1 {
            keep[i] = true;
            work.push((a, i));
            work.push((i, b));
        }
    }
    points
        .iter()
        .zip(keep)
        .filter_map(|(p, k)| k.then_some(*p))
        .collect()
}

/// A line with azimuths of any turn, as stretches from 0 to once round.
pub(crate) fn within_one_turn(points: &[DVec2]) -> Vec<Vec<DVec2>> {
    let mut out: Vec<Vec<DVec2>> = Vec::new();
    let mut now: Vec<DVec2> = Vec::new();
    for w in points.windows(2) {
        let (a, b) = (w[0], w[1]);
        // The turns that this step lies in; a step that ends on a seam stays on its side.
        let (lo, hi) = (a.x.min(b.x) / TAU, a.x.max(b.x) / TAU);
        let (first, last) = (lo.floor(), (hi.ceil() - 1.0).max(lo.floor()));
        let up = b.x >= a.x;
        let turns = (last - first) as i64;
        for k in 0..=turns {
            let turn = if up {
                first + k as f64
            } else {
                last - k as f64
            };
            let clip = |x: f64| x.clamp(turn * TAU, (turn + 1.0) * TAU);
            let on = |x: f64| {
                let t = if b.x == a.x {
                    0.0
                } else {
                    (x - a.x) / (b.x - a.x)
                };
                a.y + (b.y - a.y) * t
            };
            let place = |p: DVec2| {
                let x = clip(p.x);
                let y = if x == p.x { p.y } else { on(x) };
                DVec2::new(x - turn * TAU, y)
            };
            let (p, q) = (place(a), place(b));
            if now.last().is_none_or(|l| (*l - p).length() > 1e-9) {
                if now.len() > 1 {
                    out.push(std::mem::take(&mut now));
                }
                now = vec![p];
            }
            now.push(q);
        }
    }
    if now.len() > 1 {
        out.push(now);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_over_the_seam_is_broken_there() {
        let line = [DVec2::new(TAU - 1.0, 0.0), DVec2::new(TAU + 1.0, 2.0)];
        let got = within_one_turn(&line);
        assert_eq!(got.len(), 2);
        assert_eq!(got[0], [DVec2::new(TAU - 1.0, 0.0), DVec2::new(TAU, 1.0)]);
        assert_eq!(got[1], [DVec2::new(0.0, 1.0), DVec2::new(1.0, 2.0)]);
        let down = within_one_turn(&[DVec2::new(0.5, 0.0), DVec2::new(-0.5, 1.0)]);
        assert_eq!(down.len(), 2);
        assert!((down[1][1] - DVec2::new(TAU - 0.5, 1.0)).length() < 1e-12);
    }

    #[test]
    fn thinning_leaves_no_more_than_it_may() {
        let line: Vec<DVec2> = (0..=200)
            .map(|i| {
                let a = f64::from(i) * PI / 200.0;
                DVec2::new(a, 10.0 * a.sine())
            })
            .collect();
        let few = thinned(&line, 10.0);
        assert!(few.len() < 60 && few.len() > 10);
        for p in &line {
            let near = few
                .windows(2)
                .map(|w| {
                    let flat = |p: DVec2| DVec2::new(p.x * 10.0, p.y);
                    let (a, b, p) = (flat(w[0]), flat(w[1]), flat(*p));
                    let t = ((p - a).dot(b - a) / (b - a).length_squared()).clamp(0.0, 1.0);
                    (a + (b - a) * t - p).length()
                })
                .fold(f64::MAX, f64::min);
            assert!(near <= STRAY + 1e-12);
        }
    }
}
