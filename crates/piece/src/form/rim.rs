//! Easing the rim's two edges.

use geometry::Portable;
use geometry::kurbo::{Line, ParamCurve, ParamCurveNearest, Point};

/// Fewest straight steps in one eased edge.
const STEPS: f64 = 12.0;

/// Both sides of a wall with the rim's edges rounded to a radius, or how large a radius
/// there is room for. The sides run from the bottom up to the same height.
pub(super) fn eased(
    outer: &[Point],
    inner: &[Point],
    radius: f64,
    tolerance: f64,
) -> Result<(Vec<Point>, Vec<Point>), f64> {
    if fits(outer, inner, radius) {
        return Ok((
            rounded(outer, radius, -1.0, tolerance),
            rounded(inner, radius, 1.0, tolerance),
        ));
    }
    let (mut low, mut high) = (0.0, radius);
    for _ in 0..40 {
        let mid = 0.5 * (low + high);
        if fits(outer, inner, mid) {
            low = mid;
        } else {
            high = mid;
        }
    }
    Err(low)
}

/// Do both rounded edges find room on the rim and above the floor?
fn fits(outer: &[Point], inner: &[Point], radius: f64) -> bool {
    let (Some(floor), Some(top)) = (inner.first(), inner.last()) else {
        return false;
    };
    let slack = 1e-9 * top.y;
    let (Some(o), Some(i)) = (middle(outer, radius, -1.0), middle(inner, radius, 1.0)) else {
        return false;
    };
    top.y - radius >= floor.y && i.x <= o.x + slack && i.x >= 0.0
}

/// Middle of the circle that touches the rim's level and, from the wood's side, the
/// line. `into` is the direction of the wood: -1 towards the axis, 1 away from it.
fn middle(line: &[Point], radius: f64, into: f64) -> Option<Point> {
    let end = line.last()?;
    let z = end.y - radius;
    let reach: Vec<Line> = line
        .windows(2)
        .filter(|w| w[1].y >= z - radius)
        .map(|w| Line::new(w[0], w[1]))
        .collect();
    // Rising lines: the further into the wood, the further from the line.
    let far = reach
        .iter()
        .flat_map(|l| [l.p0.x, l.p1.x])
        .map(|x| x * into)
        .fold(f64::NEG_INFINITY, f64::max);
    let near = reach
        .iter()
        .flat_map(|l| [l.p0.x, l.p1.x])
        .map(|x| x * into)
        .fold(f64::INFINITY, f64::min);
    let (mut out, mut inn) = (near - radius, far + radius);
    if !(out.is_finite() && inn.is_finite()) {
        return None;
    }
    for _ in 0..60 {
        let mid = 0.5 * (out + inn);
        let p = Point::new(mid * into, z);
        if reach.iter().all(|l| clear(l, p, radius, into)) {
            inn = mid;
        } else {
            out = mid;
        }
    }
    Some(Point::new(inn * into, z))
}

/// Is a point on the wood's side of an edge and at least a radius away from it?
fn clear(edge: &Line, p: Point, radius: f64, into: f64) -> bool {
    let beside = (edge.p0.y.min(edge.p1.y)..=edge.p0.y.max(edge.p1.y)).contains(&p.y);
    if beside && edge.p1.y > edge.p0.y {
        let t = (p.y - edge.p0.y) / (edge.p1.y - edge.p0.y);
        if (p.x - edge.eval(t).x) * into < 0.0 {
            return false;
        }
    }
    edge.nearest(p, 1e-9).distance_sq >= radius * radius * (1.0 - 1e-12)
}

/// The line up to where the circle touches it, and from there along the circle.
fn rounded(line: &[Point], radius: f64, into: f64, tolerance: f64) -> Vec<Point> {
    let (Some(c), Some(end)) = (middle(line, radius, into), line.last()) else {
        return line.to_vec();
    };
    let touches = line
        .windows(2)
        .enumerate()
        .map(|(i, w)| {
            let edge = Line::new(w[0], w[1]);
            let near = edge.nearest(c, 1e-9);
            (near.distance_sq, i, edge.eval(near.t))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((_, last, foot)) = touches else {
        return line.to_vec();
    };
    let mut out: Vec<Point> = line[..=last].to_vec();
    out.push(foot);
    let from = (foot - c).atan2();
    let turn = std::f64::consts::FRAC_PI_2 - from;
    // An inner foot lies at about 180°, which atan2 may give as -180°.
    let turn = turn - (turn / std::f64::consts::TAU).round() * std::f64::consts::TAU;
    let step = 2.0 * (1.0 - tolerance / radius).clamp(-1.0, 1.0).arccosine();
    let steps = STEPS.max((turn.abs() / step).ceil()).min(1000.0);
    for i in 1..steps as u32 {
        let a = from + turn * f64::from(i) / steps;
        let p = c + geometry::kurbo::Vec2::from_angle(a) * radius;
        // Level at the very top, where rounding may overshoot.
        out.push(Point::new(p.x, p.y.min(end.y)));
    }
    out.push(Point::new(c.x, end.y));
    out
}
