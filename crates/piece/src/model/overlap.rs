//! Where two rings lie on each other: the area of the glue joint between them.

use geometry::Portable;
use glam::DVec2;

use super::RingBody;
use super::ring::polygon;

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
    fn of(ring: &RingBody, flat: f64, turn: f64) -> Figure {
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
pub fn joint_area(below: &RingBody, above: &RingBody, turn: f64, round: Option<f64>) -> f64 {
    let outer = |ring: &RingBody, turn| Figure::of(ring, ring.flat_out, turn);
    let hole =
        |ring: &RingBody, turn| Figure::of(ring, if ring.solid { 0.0 } else { ring.flat_in }, turn);
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

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;
    use crate::model::WoodId;

    fn ring(sides: usize, flats: (f64, f64), rotation: f64) -> RingBody {
        RingBody::segmented((0.0, 18.0), flats, rotation, vec![WoodId(0); sides])
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
                RingBody::disc((0.0, 18.0), 55.0, 0.0, WoodId(0)),
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
