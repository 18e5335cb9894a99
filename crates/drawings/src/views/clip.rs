//! Cutting areas to a band of heights or radii.

use glam::DVec2;

/// The part of an area where `inside · p <= limit` (Sutherland and Hodgman's way: parts
/// that fall apart stay joined by a line along the cut, which a fill does not show).
pub fn clipped(bound: &[DVec2], inside: DVec2, limit: f64) -> Vec<DVec2> {
    let mut out = Vec::with_capacity(bound.len() + 4);
    for i in 0..bound.len() {
        let (a, b) = (bound[i], bound[(i + 1) % bound.len()]);
        let (da, db) = (inside.dot(a) - limit, inside.dot(b) - limit);
        if da <= 0.0 {
            out.push(a);
        }
        if (da < 0.0 && db > 0.0) || (da > 0.0 && db < 0.0) {
            out.push(a + (b - a) * (da / (da - db)));
        }
    }
    out
}

/// The part of an area within a rectangle.
pub fn within(bound: &[DVec2], low: DVec2, high: DVec2) -> Vec<DVec2> {
    let mut out = bound.to_vec();
    for (inside, limit) in [
        (DVec2::NEG_X, -low.x),
        (DVec2::X, high.x),
        (DVec2::NEG_Y, -low.y),
        (DVec2::Y, high.y),
    ] {
        out = clipped(&out, inside, limit);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_cut_to_a_rectangle_has_its_area() {
        let square =
            [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| DVec2::new(x, y));
        let got = within(&square, DVec2::new(-5.0, 2.0), DVec2::new(4.0, 9.0));
        let area: f64 = (0..got.len())
            .map(|i| got[i].perp_dot(got[(i + 1) % got.len()]) / 2.0)
            .sum();
        assert!((area - 28.0).abs() < 1e-12);
    }
}
