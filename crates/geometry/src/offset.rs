//! The inner side of a wall of given thickness, measured square to the outer side.

use crate::Portable;
use kurbo::{BezPath, CubicBez, ParamCurve, ParamCurveDeriv, PathSeg, Point, Vec2};

use crate::chain::{Keep, drawn, stretches};

/// Deepest halving of one curve segment.
const DEEPEST: u32 = 12;
/// Widest turn of one step round a corner, radians.
const WIDEST_STEP: f64 = 0.1;
/// Beyond its upper end a wall that leans in is continued until its level width is
/// this many thicknesses; from there the mouth goes straight up. 45° needs 1.41.
const WIDEST_LIP: f64 = 1.5;

/// Why there is no offset.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OffsetError {
    /// The outer curve has no length.
    NoCurve,
    /// The thickness is not a positive finite number there.
    BadThickness {
        /// Height, mm.
        height: f64,
        /// Thickness, mm.
        thickness: f64,
    },
}

/// The inner side of a wall.
#[derive(Debug, Clone, Default)]
pub struct Offset {
    /// From the bottom up, never falling. It goes past both ends of the outer curve
    /// where the wall needs it, and past the axis where the wall fills everything.
    pub points: Vec<Point>,
    /// Ranges of heights, from the bottom up, where the wall reaches the axis or beyond,
    /// so that nothing is hollow.
    pub filled: Vec<(f64, f64)>,
}

/// The curve that lies `thickness` inside `outer`, square to it, where `thickness` is
/// asked at the height of the outer point, mm.
///
/// For one thickness throughout it is exactly the set of points at that distance from
/// the outer curve: loops that the plain displacement makes in tight hollows are cut
/// off, and a corner gets a mitre on one side and an arc on the other. `outer` is to
/// rise (or stay level) from its first to its last point; each end is continued
/// straight. A wall leaning in at an end is continued until it is 1.5 thicknesses wide
/// measured level, and from there parallel to the axis.
///
/// Points lie on the curve; the lines between them leave it by at most `tolerance` (mm).
/// Cost grows with one over the square root of the tolerance.
///
/// # Errors
/// See [`OffsetError`].
pub fn inner_offset(
    outer: &BezPath,
    thickness: &dyn Fn(f64) -> f64,
    tolerance: f64,
) -> Result<Offset, OffsetError> {
    let mut line = Displaced {
        thickness,
        tolerance: tolerance.max(f64::MIN_POSITIVE),
        points: Vec::new(),
        bad: None,
    };
    let segments: Vec<CubicBez> = outer
        .segments()
        .filter(|s| s.start().is_finite() && s.end().is_finite())
        .map(|s| match s {
            PathSeg::Line(l) => CubicBez::new(
                l.p0,
                l.p0.lerp(l.p1, 1.0 / 3.0),
                l.p0.lerp(l.p1, 2.0 / 3.0),
                l.p1,
            ),
            s => s.to_cubic(),
        })
        .filter(|c| c.is_finite() && direction(c, 0.0).is_some())
        .collect();
    let (Some(first), Some(last)) = (segments.first(), segments.last()) else {
        return Err(OffsetError::NoCurve);
    };
    line.begin(first);
    let mut came = None;
    for c in &segments {
        line.turn(c.p0, came, direction(c, 0.0));
        line.run(c);
        came = direction(c, 1.0);
    }
    line.finish(last);
    if let Some((height, thickness)) = line.bad {
        return Err(OffsetError::BadThickness { height, thickness });
    }
    let kept = stretches(&line.points, Keep::Innermost);
    let mut filled: Vec<(f64, f64)> = Vec::new();
    for s in &kept {
        let share = (s.r0 / (s.r0 - s.r1)).clamp(0.0, 1.0);
        let z_at_axis = s.z0 + (s.z1 - s.z0) * share;
        let (from, to) = match (s.r0 <= 0.0, s.r1 <= 0.0) {
            (true, true) => (s.z0, s.z1),
            (true, false) => (s.z0, z_at_axis),
            (false, true) => (z_at_axis, s.z1),
            (false, false) => continue,
        };
        match filled.last_mut() {
            Some(l) if l.1 >= s.z0 => l.1 = to,
            _ => filled.push((from, to)),
        }
    }
    Ok(Offset {
        points: drawn(&kept),
        filled,
    })
}

/// Unit direction of travel at parameter `t`; nothing for a curve without length.
fn direction(c: &CubicBez, t: f64) -> Option<Vec2> {
    let along = c.deriv().eval(t).to_vec2();
    // A control point on an end leaves no derivative there.
    let near = if t < 0.5 {
        c.eval(t + 1e-4) - c.eval(t)
    } else {
        c.eval(t) - c.eval(t - 1e-4)
    };
    [along, near, c.p3 - c.p0]
        .into_iter()
        .find(|v| v.hypot() > crate::NOISE * (c.p3 - c.p0).hypot() && v.hypot() > 0.0)
        .map(Vec2::normalize)
}

/// Square to the direction of travel, to its left: inwards for a side that rises.
fn inwards(direction: Vec2) -> Vec2 {
    Vec2::new(-direction.y, direction.x)
}

struct Displaced<'a> {
    thickness: &'a dyn Fn(f64) -> f64,
    tolerance: f64,
    points: Vec<Point>,
    bad: Option<(f64, f64)>,
}

impl Displaced<'_> {
    fn thickness_at(&mut self, z: f64) -> f64 {
        let t = (self.thickness)(z);
        if t > 0.0 && t.is_finite() {
            return t;
        }
        self.bad.get_or_insert((z, t));
        0.0
    }

    fn shift(&mut self, p: Point, along: Vec2) -> Point {
        p + inwards(along) * self.thickness_at(p.y)
    }

    /// The continuation below the first point.
    fn begin(&mut self, c: &CubicBez) {
        let Some(along) = direction(c, 0.0) else {
            return;
        };
        let t = self.thickness_at(c.p0.y);
        let start = self.shift(c.p0, along);
        let (end, lip) = continued(c.p0, start, -along, -1.0, t);
        if lip {
            self.points.push(Point::new(end.x, end.y.min(c.p0.y) - t));
        }
        self.points.push(end);
    }

    /// The continuation above the last point.
    fn finish(&mut self, c: &CubicBez) {
        let Some(along) = direction(c, 1.0) else {
            return;
        };
        let t = self.thickness_at(c.p3.y);
        let start = self.shift(c.p3, along);
        let (end, lip) = continued(c.p3, start, along, 1.0, t);
        self.points.push(end);
        if lip {
            self.points.push(Point::new(end.x, end.y.max(c.p3.y) + t));
        }
    }

    /// Round a corner, from the end of one segment to the beginning of the next.
    fn turn(&mut self, p: Point, came: Option<Vec2>, goes: Option<Vec2>) {
        let (Some(came), Some(goes)) = (came, goes) else {
            return;
        };
        let angle = came.cross(goes).arctangent2(came.dot(goes));
        let t = self.thickness_at(p.y);
        let step = (2.0 * (1.0 - self.tolerance / t).clamp(-1.0, 1.0).arccosine()).min(WIDEST_STEP);
        let steps = (angle.abs() / step.max(1e-4)).ceil().min(1e5) as u32;
        for i in 1..steps {
            let turned = Vec2::from_angle(came.atan2() + angle * f64::from(i) / f64::from(steps));
            let q = self.shift(p, turned);
            self.points.push(q);
        }
    }

    fn run(&mut self, c: &CubicBez) {
        let (Some(a), Some(b)) = (direction(c, 0.0), direction(c, 1.0)) else {
            return;
        };
        let (a, b) = (self.shift(c.p0, a), self.shift(c.p3, b));
        self.points.push(a);
        self.halve(c, (0.0, a), (1.0, b), 0);
        self.points.push(b);
    }

    /// Points strictly between two parameters, as close as the tolerance asks.
    fn halve(&mut self, c: &CubicBez, from: (f64, Point), to: (f64, Point), depth: u32) {
        let at = |s: &mut Self, k: f64| {
            let t = from.0 + (to.0 - from.0) * k;
            let q = direction(c, t).map_or(from.1, |along| s.shift(c.eval(t), along));
            (t, q)
        };
        let chord = to.1 - from.1;
        let off = |q: Point| {
            let v = q - from.1;
            let k = (v.dot(chord) / chord.hypot2()).clamp(0.0, 1.0);
            let k = if k.is_finite() { k } else { 0.0 };
            (v - chord * k).hypot()
        };
        let mid = at(self, 0.5);
        if depth >= DEEPEST {
            return;
        }
        // Three places and a first halving, so that an S or a change of thickness
        // part of the way is not taken for straight.
        let straight = depth >= 2
            && [at(self, 0.25), mid, at(self, 0.75)]
                .iter()
                .all(|q| off(q.1) <= self.tolerance);
        if straight {
            return;
        }
        self.halve(c, from, mid, depth + 1);
        self.points.push(mid.1);
        self.halve(c, mid, to, depth + 1);
    }
}

/// Where the wall's inner side, continued straight from `start` beside the outer end
/// point `outer`, has come just past that point's height; and whether the widest lip
/// stopped it before. `along` points away from the curve; `up` is 1 at the upper end, -1 at
/// the lower.
fn continued(outer: Point, start: Point, along: Vec2, up: f64, t: f64) -> (Point, bool) {
    let missing = (outer.y - start.y) * up + 0.01 * t;
    if missing <= 0.0 {
        // A little further, so that a line square to the very end still meets it.
        return (start + along * (0.05 * t), false);
    }
    let rise = along.y * up;
    let far_enough = if rise > 0.0 {
        missing / rise
    } else {
        f64::INFINITY
    };
    let to_lip = (start.x - (outer.x - WIDEST_LIP * t)) / -along.x;
    if along.x < 0.0 && to_lip < far_enough {
        (start + along * to_lip.max(0.0), true)
    } else if far_enough.is_finite() {
        (start + along * far_enough, false)
    } else {
        (start, false)
    }
}
