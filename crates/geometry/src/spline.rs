//! The smooth curve through a maker's profile points.
//!
//! The curve is the one a thin lath takes when it is bent through pins: a cubic
//! spline with continuous curvature and straight ends, broken at corners.

use kurbo::{BezPath, Point, Vec2};

/// A point of a profile, millimetres.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ProfilePoint {
    /// Height along the axis.
    pub height: f64,
    /// Distance from the axis.
    pub radius: f64,
    /// The curve turns sharply here.
    pub corner: bool,
}

/// The curve through `points`, in the order given; `x` is the radius, `y` the height.
///
/// Between corners it is a natural cubic spline over the chord lengths, or straight
/// lines if `straight` is set or only two points lie between two corners. Points that
/// coincide count once and points that are not finite are passed over. Fewer than two
/// points left give an empty path. Cost grows in proportion to the points.
///
/// Formula: the tridiagonal system of the natural spline's second derivatives, solved
/// forwards and backwards (de Boor, *A Practical Guide to Splines*, chapter IV).
pub fn profile_curve(points: &[ProfilePoint], straight: bool) -> BezPath {
    let points = distinct(points);
    let mut path = BezPath::new();
    if points.len() < 2 {
        return path;
    }
    path.move_to(points[0].0);
    let mut from = 0;
    for to in 1..points.len() {
        if to + 1 < points.len() && !points[to].1 {
            continue;
        }
        let run: Vec<Point> = points[from..=to].iter().map(|p| p.0).collect();
        if straight || run.len() == 2 {
            run[1..].iter().for_each(|p| path.line_to(*p));
        } else {
            spline_run(&run, &mut path);
        }
        from = to;
    }
    path
}

/// Points with neighbours that coincide merged, each with its corner mark.
fn distinct(points: &[ProfilePoint]) -> Vec<(Point, bool)> {
    let finite = |p: &&ProfilePoint| p.height.is_finite() && p.radius.is_finite();
    let size = points
        .iter()
        .filter(finite)
        .fold(0.0_f64, |s, p| s.max(p.height.abs()).max(p.radius.abs()));
    let mut out: Vec<(Point, bool)> = Vec::with_capacity(points.len());
    for p in points.iter().filter(finite) {
        let here = Point::new(p.radius, p.height);
        match out.last_mut() {
            Some(last) if (last.0 - here).hypot() <= crate::NOISE * size => last.1 |= p.corner,
            _ => out.push((here, p.corner)),
        }
    }
    out
}

/// Appends the natural spline through three or more distinct points.
fn spline_run(p: &[Point], path: &mut BezPath) {
    let n = p.len() - 1;
    let h: Vec<f64> = p.windows(2).map(|w| (w[1] - w[0]).hypot()).collect();
    let step: Vec<Vec2> = (0..n).map(|i| (p[i + 1] - p[i]) / h[i]).collect();
    // Second derivatives; both ends stay zero. The matrix is diagonally dominant, so
    // no pivot comes near zero.
    let mut bend = vec![Vec2::ZERO; n + 1];
    let mut above = vec![0.0; n + 1];
    for i in 1..n {
        let pivot = 2.0 * (h[i - 1] + h[i]) - h[i - 1] * above[i - 1];
        above[i] = h[i] / pivot;
        bend[i] = ((step[i] - step[i - 1]) * 6.0 - bend[i - 1] * h[i - 1]) / pivot;
    }
    for i in (1..n).rev() {
        bend[i] = bend[i] - bend[i + 1] * above[i];
    }
    for i in 0..n {
        let leave = step[i] - (bend[i] * 2.0 + bend[i + 1]) * (h[i] / 6.0);
        let arrive = step[i] + (bend[i] + bend[i + 1] * 2.0) * (h[i] / 6.0);
        path.curve_to(
            p[i] + leave * (h[i] / 3.0),
            p[i + 1] - arrive * (h[i] / 3.0),
            p[i + 1],
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Portable;
    use kurbo::{ParamCurve, ParamCurveArclen, ParamCurveCurvature, PathSeg};

    fn at(height: f64, radius: f64, corner: bool) -> ProfilePoint {
        ProfilePoint {
            height,
            radius,
            corner,
        }
    }

    #[test]
    fn it_follows_a_circle() {
        // Closed form: every point of the curve is 50 mm from the circle's middle.
        let points: Vec<_> = (0..=18)
            .map(|i| f64::from(i) * 5.0_f64.to_radians())
            .map(|a| at(50.0 - 50.0 * a.cosine(), 50.0 * a.sine(), false))
            .collect();
        let path = profile_curve(&points, false);
        let worst_from = |skip: usize| {
            path.segments()
                .skip(skip)
                .take(18 - 2 * skip)
                .flat_map(|s| (0..=10).map(move |t| s.eval(f64::from(t) / 10.0)))
                .map(|p| ((p - Point::new(0.0, 50.0)).hypot() - 50.0).abs())
                .fold(0.0, f64::max)
        };
        // Natural ends leave the circle a little; the inside follows it closely.
        assert!(worst_from(0) < 0.02, "{}", worst_from(0));
        assert!(worst_from(5) < 1e-4, "{}", worst_from(5));
        // Outside library: kurbo's own arc length against a quarter circle.
        let length: f64 = path.segments().map(|s| s.arclen(1e-9)).sum();
        assert!((length - 25.0 * std::f64::consts::PI).abs() < 0.01);
    }

    #[test]
    fn curvature_is_continuous_inside_and_nothing_at_the_ends() {
        let points = [
            at(0.0, 20.0, false),
            at(10.0, 35.0, false),
            at(40.0, 50.0, false),
            at(70.0, 30.0, false),
        ];
        let path = profile_curve(&points, false);
        let cubics: Vec<_> = path
            .segments()
            .filter_map(|s| match s {
                PathSeg::Cubic(c) => Some(c),
                _ => None,
            })
            .collect();
        assert_eq!(cubics.len(), 3);
        for w in cubics.windows(2) {
            assert!((w[0].curvature(1.0) - w[1].curvature(0.0)).abs() < 1e-9);
        }
        assert!(cubics[0].curvature(0.0).abs() < 1e-9);
        assert!(cubics[2].curvature(1.0).abs() < 1e-9);
    }

    #[test]
    fn corners_break_it_and_points_on_a_line_stay_on_it() {
        let points = [
            at(0.0, 20.0, false),
            at(0.0, 20.0, false),
            at(10.0, 20.0, false),
            at(30.0, 20.0, true),
            at(30.0, 40.0, false),
        ];
        let path = profile_curve(&points, false);
        assert_eq!(path.segments().count(), 3);
        for s in path.segments().take(2) {
            for t in 0..=10 {
                assert!((s.eval(f64::from(t) / 10.0).x - 20.0).abs() < 1e-12);
            }
        }
        assert!(profile_curve(&[], false).is_empty());
        assert!(profile_curve(&points[..2], false).is_empty());
        assert!(profile_curve(&[at(f64::NAN, 1.0, false), at(1.0, 1.0, false)], true).is_empty());
    }
}
