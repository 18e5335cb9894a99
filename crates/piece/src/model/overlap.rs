//! Where two rings lie on each other: the area of the glue joint between them.

use geometry::Portable;
use glam::DVec2;

use super::CourseBody;
use super::course::polygon;

/// What lies behind a line square to `mid`, `flat` from the axis (Sutherland and Hodgman).
fn clipped(corners: &[DVec2], mid: DVec2, flat: f64) -> Vec<DVec2> {
    let mut out = Vec::with_capacity(corners.len() + 1);
    for (i, &b) in corners.iter().enumerate() {
        let a = corners[(i + corners.len() - 1) % corners.len()];
        let (over_a, over_b) = (mid.dot(a) - flat, mid.dot(b) - flat);
        if (over_a > 0.0) != (over_b > 0.0) {
            out.push(a.lerp(b, over_a / (over_a - over_b)));
        }
        if over_b <= 0.0 {
            out.push(b);
        }
    }
    out
}

fn area(corners: &[DVec2]) -> f64 {
    let last = corners.last().copied().into_iter();
    let before = last.chain(corners.iter().copied());
    0.5 * before
        .zip(corners)
        .map(|(a, b)| a.perp_dot(*b))
        .sum::<f64>()
}

/// A ring's outer or inner figure, turned.
struct Figure {
    corners: Vec<DVec2>,
    mids: Vec<DVec2>,
    flat: f64,
}

impl Figure {
    fn of(ring: &CourseBody, flat: f64, turn: f64) -> Figure {
        let first = ring.rotation + turn;
        let (sin, cos) = turn.sine_cosine();
        Figure {
            corners: if flat > 0.0 {
                polygon(ring.sides(), flat, first)
            } else {
                Vec::new()
            },
            mids: ring
                .mids()
                .iter()
                .map(|m| DVec2::new(cos, sin).rotate(*m))
                .collect(),
            flat,
        }
    }

    /// What this figure has of another.
    fn of_other(&self, corners: &[DVec2]) -> Vec<DVec2> {
        if self.corners.is_empty() {
            return Vec::new();
        }
        let mut left = corners.to_vec();
        for mid in &self.mids {
            if left.is_empty() {
                break;
            }
            left = clipped(&left, *mid, self.flat);
        }
        left
    }
}

/// Area of the joint between a ring and the one above it, mm²: what both outer figures
/// cover, less both holes. `turn` is the upper one's against the lower, radians. `round` is
/// the radius that both were turned to before, if they were.
pub fn joint_area(below: &CourseBody, above: &CourseBody, turn: f64, round: Option<f64>) -> f64 {
    if below.open() || above.open() {
        return faces_in_common(below, above, turn, round);
    }
    let outer = |ring: &CourseBody, turn| Figure::of(ring, ring.flat_out(), turn);
    let hole = |ring: &CourseBody, turn| Figure::of(ring, ring.flat_in(), turn);
    let outside = outer(above, turn).of_other(&outer(below, 0.0).corners);
    let (low, high) = (hole(below, 0.0), hole(above, turn));
    // Holes within the outside: one, the other, and what is counted twice.
    let of_low = low.of_other(&outside);
    let twice = high.of_other(&of_low);
    let holes = area(&of_low) + area(&high.of_other(&outside)) - area(&twice);
    let whole = match round {
        Some(radius) => std::f64::consts::PI * radius * radius,
        None => area(&outside),
    };
    (whole - holes).max(0.0)
}

/// The same part by part, where gaps stand between them.
fn faces_in_common(below: &CourseBody, above: &CourseBody, turn: f64, round: Option<f64>) -> f64 {
    let way = DVec2::from_angle(turn);
    let turned = |face: Vec<DVec2>| face.into_iter().map(|p| way.rotate(p)).collect();
    let upper: Vec<Vec<DVec2>> = above.faces().into_iter().map(turned).collect();
    let mut sum = 0.0;
    for low in below.faces() {
        let (middle, reach) = round_of(&low);
        for high in &upper {
            let (other, its_reach) = round_of(high);
            if middle.distance(other) > reach + its_reach {
                continue;
            }
            let common = both(&low, high);
            sum += match round {
                Some(radius) => area_within(&common, radius),
                None => area(&common),
            };
        }
    }
    sum
}

/// The middle of a figure's corners, and the furthest of them from there.
fn round_of(corners: &[DVec2]) -> (DVec2, f64) {
    let middle = corners.iter().sum::<DVec2>() / corners.len().max(1) as f64;
    let reach = corners.iter().map(|p| p.distance(middle));
    (middle, reach.fold(0.0, f64::max))
}

/// What two convex figures have in common, both anticlockwise.
fn both(one: &[DVec2], other: &[DVec2]) -> Vec<DVec2> {
    let mut left = one.to_vec();
    for (i, &b) in other.iter().enumerate() {
        if left.is_empty() {
            break;
        }
        let a = other[(i + other.len() - 1) % other.len()];
        let outward = -(b - a).perp().normalize_or_zero();
        left = clipped(&left, outward, outward.dot(a));
    }
    left
}

/// Area that a figure has within a circle round the origin: of each side what its triangle
/// to the middle has, a triangle where the side is within and a sector where it is not.
fn area_within(corners: &[DVec2], radius: f64) -> f64 {
    let piece = |a: DVec2, b: DVec2| {
        let sector =
            |p: DVec2, q: DVec2| 0.5 * radius * radius * p.perp_dot(q).arctangent2(p.dot(q));
        let (way, square) = (b - a, radius * radius);
        let (half_b, length) = (a.dot(way), way.length_squared());
        let inside = half_b * half_b - length * (a.length_squared() - square);
        if inside <= 0.0 || length == 0.0 {
            return sector(a, b);
        }
        let root = inside.sqrt();
        let from = ((-half_b - root) / length).clamp(0.0, 1.0);
        let to = ((-half_b + root) / length).clamp(0.0, 1.0);
        let (p, q) = (a + way * from, a + way * to);
        sector(a, p) + 0.5 * p.perp_dot(q) + sector(q, b)
    };
    (0..corners.len())
        .map(|i| piece(corners[i], corners[(i + 1) % corners.len()]))
        .sum()
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;
    use crate::model::WoodId;

    fn ring(sides: usize, flats: (f64, f64), rotation: f64) -> CourseBody {
        CourseBody::segmented((0.0, 18.0), flats, rotation, vec![WoodId(0); sides])
    }

    /// n tan(180°/n) r²: a regular figure by its inner radius.
    fn regular(n: usize, flat: f64) -> f64 {
        n as f64 * (PI / n as f64).tan() * flat * flat
    }

    #[test]
    fn rings_that_stand_alike_share_all_they_have() {
        for n in [3, 6, 12, 24, 144] {
            let one = ring(n, (60.0, 40.0), 0.3);
            let found = joint_area(&one, &one, 0.0, None);
            let by_hand = regular(n, 60.0) - regular(n, 40.0);
            assert!(
                (found / by_hand - 1.0).abs() < 1e-9,
                "{n}: {found} {by_hand}"
            );
        }
    }

    /// Half a segment apart the outsides have a figure of 2n sides in common, and so have
    /// the holes: their union is both less that.
    #[test]
    fn rings_half_a_segment_apart_share_a_figure_of_twice_the_sides() {
        for n in [6, 12, 16] {
            let one = ring(n, (60.0, 40.0), 0.0);
            for turn in [PI / n as f64, -PI / n as f64] {
                let found = joint_area(&one, &one, turn, None);
                let by_hand =
                    regular(2 * n, 60.0) - (2.0 * regular(n, 40.0) - regular(2 * n, 40.0));
                assert!(
                    (found / by_hand - 1.0).abs() < 1e-9,
                    "{n}: {found} {by_hand}"
                );
            }
        }
    }

    /// Any two, against points thrown over them: what `find` says is wood on both sides.
    #[test]
    fn any_two_rings_share_what_points_say() {
        let pairs = [
            (ring(12, (60.0, 44.0), 0.1), ring(16, (58.0, 40.0), 0.7)),
            (
                CourseBody::disc((0.0, 18.0), 55.0, 0.0, WoodId(0)),
                ring(8, (60.0, 30.0), 0.2),
            ),
        ];
        for (below, above) in &pairs {
            let (side, count) = (70.0, 800);
            let step = 2.0 * side / f64::from(count);
            let mut both = 0;
            for (i, j) in (0..count).flat_map(|i| (0..count).map(move |j| (i, j))) {
                let at = |k: i32| -side + (f64::from(k) + 0.5) * step;
                let p = glam::DVec3::new(at(i), at(j), 9.0);
                both += i32::from(below.find(0, p).is_some() && above.find(0, p).is_some());
            }
            let counted = f64::from(both) * step * step;
            let found = joint_area(below, above, 0.0, None);
            assert!((found / counted - 1.0).abs() < 3e-3, "{found} {counted}");
        }
    }
}
