//! A polygon's edge seen from the axis: how much of the disc lies behind it.
//!
//! The area of a polygon inside a disc round the origin is the sum, over its
//! directed edges, of the area between the origin and the edge that lies in the
//! disc (triangle where the edge is inside, circular sector where it is outside).
//! So a cell's faces can be added one by one, in any order.

use crate::Portable;
use glam::DVec2;

/// Area and first moments of a plane figure.
#[derive(Debug, Clone, Copy, Default)]
pub struct AreaMoments {
    /// Area, mm².
    pub area: f64,
    /// Area times the centroid, mm³.
    pub first: DVec2,
}

impl std::ops::AddAssign for AreaMoments {
    fn add_assign(&mut self, o: Self) {
        self.area += o.area;
        self.first += o.first;
    }
}

impl std::ops::Sub for AreaMoments {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self {
            area: self.area - o.area,
            first: self.first - o.first,
        }
    }
}

#[inline]
fn triangle(a: DVec2, b: DVec2) -> AreaMoments {
    let area = 0.5 * a.perp_dot(b);
    AreaMoments {
        area,
        first: (a + b) * (area / 3.0),
    }
}

/// The sector of radius `r` between the directions of `a` and `b`.
#[inline]
fn sector(a: DVec2, b: DVec2, r: f64) -> AreaMoments {
    let (la, lb) = (a.length(), b.length());
    if la == 0.0 || lb == 0.0 {
        return AreaMoments::default();
    }
    let turn = a.perp_dot(b).arctangent2(a.dot(b));
    // ∫ r dr dφ (cos φ, sin φ) r over the sector: r³/3 (sin φ, -cos φ) between the ends.
    let (ua, ub) = (a / la, b / lb);
    AreaMoments {
        area: 0.5 * r * r * turn,
        first: DVec2::new(ub.y - ua.y, ua.x - ub.x) * (r * r * r / 3.0),
    }
}

/// Area and moments of the part of triangle (origin, `a`, `b`) inside the disc of
/// radius `r`, signed: positive when `a` to `b` runs anticlockwise. mm² and mm³.
#[inline]
pub fn behind_edge(a: DVec2, b: DVec2, r: f64) -> AreaMoments {
    behind_edge_in_annulus(a, b, 0.0, r)
}

/// The same for the annulus from radius `inner` to `outer`.
#[inline]
pub fn behind_edge_in_annulus(a: DVec2, b: DVec2, inner: f64, outer: f64) -> AreaMoments {
    let (a2, b2) = (a.length_squared(), b.length_squared());
    let cross = a.perp_dot(b);
    // A mitre joint runs along a radius: nothing lies behind it.
    if cross * cross <= crate::NOISE * crate::NOISE * a2 * b2 && a.dot(b) >= 0.0 {
        return AreaMoments::default();
    }
    let (i2, o2) = (inner * inner, outer * outer);
    // An edge within the bore has no annulus behind it.
    if a2 <= i2 && b2 <= i2 {
        return AreaMoments::default();
    }
    let dd = (b - a).length_squared();
    if dd == 0.0 || outer <= 0.0 {
        return AreaMoments::default();
    }
    // Nearest approach of the edge's line: beyond both circles one angle serves both.
    let toward = -a.dot(b - a);
    let nearest2 = if toward <= 0.0 {
        a2
    } else if toward >= dd {
        b2
    } else {
        cross * cross / dd
    };
    if nearest2 >= o2 {
        return ring_sector(a, b, (a2, b2), inner, outer);
    }
    let whole = in_disc(a, b, (a2, b2), outer);
    if inner > 0.0 {
        whole - in_disc(a, b, (a2, b2), inner)
    } else {
        whole
    }
}

/// The sector of an annulus between the directions of `a` and `b`.
fn ring_sector(a: DVec2, b: DVec2, squares: (f64, f64), inner: f64, outer: f64) -> AreaMoments {
    let turn = a.perp_dot(b).arctangent2(a.dot(b));
    let (ua, ub) = (a / squares.0.sqrt(), b / squares.1.sqrt());
    let (i2, o2) = (inner * inner, outer * outer);
    AreaMoments {
        area: 0.5 * (o2 - i2) * turn,
        first: DVec2::new(ub.y - ua.y, ua.x - ub.x) * ((o2 * outer - i2 * inner) / 3.0),
    }
}

fn in_disc(a: DVec2, b: DVec2, (a2, b2): (f64, f64), r: f64) -> AreaMoments {
    let r2 = r * r;
    if a2 <= r2 && b2 <= r2 {
        return triangle(a, b);
    }
    let d = b - a;
    let dd = d.length_squared();
    // |a + t d|² = r²
    let half_b = a.dot(d);
    let disc = half_b * half_b - dd * (a2 - r2);
    if disc <= 0.0 {
        return sector(a, b, r);
    }
    let root = disc.sqrt();
    let (t0, t1) = ((-half_b - root) / dd, (-half_b + root) / dd);
    if t1 <= 0.0 || t0 >= 1.0 {
        return sector(a, b, r);
    }
    let mut sum = AreaMoments::default();
    let mut from = a;
    if t0 > 0.0 {
        from = a + d * t0;
        sum += sector(a, from, r);
    }
    if t1 < 1.0 {
        let to = a + d * t1;
        sum += triangle(from, to);
        sum += sector(to, b, r);
    } else {
        sum += triangle(from, b);
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn polygon(points: &[DVec2], r: f64) -> AreaMoments {
        let mut sum = AreaMoments::default();
        for i in 0..points.len() {
            sum += behind_edge(points[i], points[(i + 1) % points.len()], r);
        }
        sum
    }

    #[test]
    fn a_large_square_leaves_the_whole_disc_and_a_small_one_itself() {
        let sq = |h: f64| {
            [
                DVec2::new(-h, -h),
                DVec2::new(h, -h),
                DVec2::new(h, h),
                DVec2::new(-h, h),
            ]
        };
        assert!((polygon(&sq(10.0), 3.0).area - PI * 9.0).abs() < 1e-12);
        assert!((polygon(&sq(1.0), 3.0).area - 4.0).abs() < 1e-12);
    }

    #[test]
    fn half_a_disc_has_its_centroid_at_4r_over_3pi() {
        // Closed form for a half disc.
        let r = 5.0;
        let half = [
            DVec2::new(0.0, -20.0),
            DVec2::new(20.0, -20.0),
            DVec2::new(20.0, 20.0),
            DVec2::new(0.0, 20.0),
        ];
        let m = polygon(&half, r);
        assert!((m.area - PI * r * r / 2.0).abs() < 1e-12);
        assert!((m.first.x / m.area - 4.0 * r / (3.0 * PI)).abs() < 1e-12);
        assert!(m.first.y.abs() < 1e-12);
    }

    #[test]
    fn an_annulus_is_the_difference_of_two_discs() {
        let tri = [
            DVec2::new(-3.0, -9.0),
            DVec2::new(14.0, 1.0),
            DVec2::new(-5.0, 12.0),
        ];
        for (inner, outer) in [(2.0, 6.0), (5.0, 8.0), (7.5, 20.0), (0.0, 4.0)] {
            let mut sum = AreaMoments::default();
            for i in 0..3 {
                sum += behind_edge_in_annulus(tri[i], tri[(i + 1) % 3], inner, outer);
            }
            let want = polygon(&tri, outer) - polygon(&tri, inner);
            assert!((sum.area - want.area).abs() < 1e-12);
            assert!((sum.first - want.first).length() < 1e-11);
        }
    }

    #[test]
    fn a_chord_cuts_a_circular_segment() {
        // Closed form: r² acos(d/r) - d sqrt(r² - d²), away from the origin too.
        let (r, d) = (7.0_f64, 4.0_f64);
        let cap = [
            DVec2::new(d, -20.0),
            DVec2::new(20.0, -20.0),
            DVec2::new(20.0, 20.0),
            DVec2::new(d, 20.0),
        ];
        let want = r * r * (d / r).arccosine() - d * (r * r - d * d).sqrt();
        assert!((polygon(&cap, r).area - want).abs() < 1e-12);
    }
}
