//! Profiles against closed forms, against kurbo's own areas, and on wild points.

use std::f64::consts::PI;

use geometry::kurbo::{Arc, BezPath, ParamCurveNearest, PathEl, Point, Shape};
use geometry::{Outline, OutlineError, Profile, ProfilePoint, inner_offset, profile_curve};
use proptest::prelude::*;

fn p(r: f64, z: f64) -> Point {
    Point::new(r, z)
}

fn path(points: &[(f64, f64)]) -> BezPath {
    let mut path = BezPath::new();
    for (i, (r, z)) in points.iter().enumerate() {
        path.push(match i {
            0 => PathEl::MoveTo(p(*r, *z)),
            _ => PathEl::LineTo(p(*r, *z)),
        });
    }
    path
}

/// An arc round `middle`, angles in degrees from the radial direction.
fn arc(middle: Point, radius: f64, from: f64, to: f64) -> BezPath {
    Arc::new(
        middle,
        (radius, radius),
        from.to_radians(),
        (to - from).to_radians(),
        0.0,
    )
    .to_path(1e-7)
}

#[test]
fn cylinder_frustum_and_shell_have_their_closed_volumes() {
    let cylinder = [p(0.0, 0.0), p(30.0, 0.0), p(30.0, 80.0), p(0.0, 80.0)];
    let o = Outline::new(&cylinder, &[]).unwrap();
    assert!((o.volume() / (PI * 900.0 * 80.0) - 1.0).abs() < 1e-14);
    assert!((o.centroid_height() - 40.0).abs() < 1e-12);
    assert_eq!(o.break_heights(), [0.0, 80.0]);

    // Cone frustum: V = πh(a² + ab + b²)/3, centre at h(a² + 2ab + 3b²)/4(a² + ab + b²).
    let (a, b, h) = (20.0, 50.0, 60.0);
    let frustum = [p(0.0, 5.0), p(a, 5.0), p(b, 5.0 + h), p(0.0, 5.0 + h)];
    let o = Outline::new(&frustum, &[]).unwrap();
    let q = a * a + a * b + b * b;
    assert!((o.volume() / (PI * h * q / 3.0) - 1.0).abs() < 1e-14);
    let centre = 5.0 + h * (a * a + 2.0 * a * b + 3.0 * b * b) / (4.0 * q);
    assert!((o.centroid_height() - centre).abs() < 1e-12);

    // A tube: what is left of one cylinder when another is bored out.
    let tube = [p(30.0, 0.0), p(30.0, 10.0), p(25.0, 10.0), p(25.0, 0.0)];
    let o = Outline::new(&tube, &[]).unwrap();
    assert!((o.volume() / (PI * (900.0 - 625.0) * 10.0) - 1.0).abs() < 1e-14);
    assert_eq!(*o.spans(5.0), [(25.0, 30.0)]);
    assert!(o.contains(27.0, 5.0) && !o.contains(24.9, 5.0) && !o.contains(27.0, 10.1));
}

#[test]
fn sphere_and_torus_by_pappus() {
    // Fine polygons: their areas from kurbo, their volumes by Pappus' second theorem.
    let ball: Vec<Point> = (0..=4000)
        .map(|i| (f64::from(i) / 4000.0 - 0.5) * PI)
        .map(|a| p(50.0 * a.cos(), 50.0 * a.sin()))
        .collect();
    let o = Outline::new(&ball, &[]).unwrap();
    assert!((o.volume() / (4.0 / 3.0 * PI * 50.0_f64.powi(3)) - 1.0).abs() < 1e-6);

    let ring: Vec<Point> = (0..720)
        .map(|i| f64::from(i) * PI / 360.0)
        .map(|a| p(40.0 + 10.0 * a.cos(), 12.0 + 10.0 * a.sin()))
        .collect();
    let o = Outline::new(&ring, &[]).unwrap();
    let mut closed = path(&ring.iter().map(|q| (q.x, q.y)).collect::<Vec<_>>());
    closed.close_path();
    let pappus = 2.0 * PI * 40.0 * closed.area().abs();
    assert!((o.volume() / pappus - 1.0).abs() < 1e-9);
    assert!((o.centroid_height() - 12.0).abs() < 1e-9);
    let spans = o.spans(12.0);
    assert_eq!(spans.len(), 1);
    assert!((spans[0].0 - 30.0).abs() < 1e-9 && (spans[0].1 - 50.0).abs() < 1e-9);
}

#[test]
fn several_annuli_in_one_slice() {
    // A floor with two upright rings: four walls of a half-section.
    let o = Outline::new(
        &[
            p(0.0, 0.0),
            p(50.0, 0.0),
            p(50.0, 20.0),
            p(45.0, 20.0),
            p(45.0, 5.0),
            p(20.0, 5.0),
            p(20.0, 30.0),
            p(10.0, 30.0),
            p(10.0, 5.0),
            p(0.0, 5.0),
        ],
        &[],
    )
    .unwrap();
    assert_eq!(*o.spans(2.0), [(0.0, 50.0)]);
    assert_eq!(*o.spans(10.0), [(10.0, 20.0), (45.0, 50.0)]);
    assert_eq!(*o.spans(20.0), [(10.0, 20.0)]);
    assert_eq!(*o.spans(30.0), [(10.0, 20.0)]);
    assert!(o.spans(30.1).is_empty() && o.spans(f64::NAN).is_empty());
    assert_eq!(o.break_heights(), [0.0, 5.0, 20.0, 30.0]);
}

#[test]
fn crossings_are_found_at_their_height() {
    let bow_tie = [p(10.0, 0.0), p(30.0, 0.0), p(10.0, 40.0), p(30.0, 40.0)];
    match Outline::new(&bow_tie, &[]) {
        Err(OutlineError::CrossesItself { height }) => assert!((height - 20.0).abs() < 1e-9),
        other => panic!("{other:?}"),
    }
    // A level edge that runs through a wall.
    let spur = [
        p(10.0, 0.0),
        p(20.0, 0.0),
        p(20.0, 30.0),
        p(5.0, 30.0),
        p(5.0, 15.0),
        p(25.0, 15.0),
        p(25.0, 12.0),
        p(12.0, 12.0),
        p(10.0, 5.0),
    ];
    assert!(matches!(
        Outline::new(&spur, &[]),
        Err(OutlineError::CrossesItself { .. })
    ));
    assert!(matches!(
        Outline::new(&[p(1.0, 0.0), p(-2.0, 1.0), p(3.0, 2.0)], &[]),
        Err(OutlineError::BeyondAxis { height, radius }) if height == 1.0 && radius == -2.0
    ));
    assert!(matches!(Outline::new(&[], &[]), Err(OutlineError::NoArea)));
}

#[test]
fn offset_of_a_cone_is_the_parallel_line() {
    let (sin, cos) = 20.0_f64.to_radians().sin_cos();
    let outer = path(&[(30.0, 0.0), (30.0 + 100.0 * sin, 100.0 * cos)]);
    let inner = Profile::inside(&inner_offset(&outer, &|_| 6.0, 1e-3).unwrap().points);
    for i in 0..=90 {
        let z = f64::from(i);
        // The parallel line is moved 6/cos 20° measured level.
        let want = 30.0 + z * sin / cos - 6.0 / cos;
        assert!((inner.radius(z).unwrap() - want).abs() < 1e-9, "{z}");
    }
}

#[test]
fn offset_of_a_circle_is_a_circle() {
    let outer = arc(p(0.0, 60.0), 60.0, -90.0, 45.0);
    let offset = inner_offset(&outer, &|_| 7.0, 1e-3).unwrap();
    let (mut low, mut high) = (f64::MAX, 0.0_f64);
    for q in offset.points.iter().filter(|q| q.x > 0.0 && q.y < 97.0) {
        let r = q.distance(p(0.0, 60.0));
        (low, high) = (low.min(r), high.max(r));
    }
    assert!(
        (low - 53.0).abs() < 1e-5 && (high - 53.0).abs() < 1e-5,
        "{low} {high}"
    );
    // Below the inner circle everything is wood.
    assert!(offset.filled[0].1 > 6.999 && offset.filled[0].1 < 7.1);
}

#[test]
fn corners_get_a_mitre_on_one_side_and_an_arc_on_the_other() {
    // A waist: the inner side of the sharp notch is an arc, as far as 4 mm from it.
    let waist = path(&[(40.0, 0.0), (30.0, 30.0), (40.0, 60.0)]);
    let inner = Profile::inside(&inner_offset(&waist, &|_| 4.0, 1e-4).unwrap().points);
    assert!((inner.radius(30.0).unwrap() - 26.0).abs() < 1e-3);
    assert!((inner.radius(31.0).unwrap() - (30.0 - 15.0_f64.sqrt())).abs() < 1e-3);
    // A belly edge: the inner side is a sharp mitre, 4/cos(a) in.
    let belly = path(&[(30.0, 0.0), (40.0, 30.0), (30.0, 60.0)]);
    let inner = Profile::inside(&inner_offset(&belly, &|_| 4.0, 1e-4).unwrap().points);
    let want = 40.0 - 4.0 * (1.0 + 1.0 / 9.0_f64).sqrt();
    assert!((inner.radius(30.0).unwrap() - want).abs() < 1e-9);
}

#[test]
fn a_tight_bulge_loses_its_swallowtail() {
    // The bulge's radius is 5 mm, the wall 9 mm: plain displacement makes a loop.
    let mut outer = path(&[(40.0, 0.0), (40.0, 40.0)]);
    for el in arc(p(40.0, 45.0), 5.0, -90.0, 90.0).elements() {
        if !matches!(el, PathEl::MoveTo(_)) {
            outer.push(*el);
        }
    }
    outer.line_to(p(40.0, 100.0));
    let offset = inner_offset(&outer, &|_| 9.0, 1e-3).unwrap();
    check_distance(&outer, &offset.points, 9.0, (10.0, 90.0), 2e-3);
}

/// Every point of the offset is at the wall's thickness from the outer curve, by
/// kurbo's own nearest point.
fn check_distance(outer: &BezPath, inner: &[Point], t: f64, within: (f64, f64), tolerance: f64) {
    let mut seen = 0;
    for q in inner.iter().filter(|q| q.y > within.0 && q.y < within.1) {
        let near = outer
            .segments()
            .map(|s| s.nearest(*q, 1e-6).distance_sq.sqrt())
            .fold(f64::MAX, f64::min);
        assert!((near - t).abs() < tolerance, "{q:?}: {near}");
        seen += 1;
    }
    assert!(seen > 10);
}

#[test]
fn wall_of_a_vase_is_true_everywhere_and_may_vary() {
    let points = [
        (0.0, 30.0),
        (40.0, 60.0),
        (90.0, 45.0),
        (130.0, 22.0),
        (150.0, 34.0),
    ];
    let points = points.map(|(height, radius)| ProfilePoint {
        height,
        radius,
        corner: false,
    });
    let outer = profile_curve(&points, false);
    let offset = inner_offset(&outer, &|_| 8.0, 1e-3).unwrap();
    check_distance(&outer, &offset.points, 8.0, (10.0, 140.0), 2e-3);
    assert!(offset.filled.is_empty());
    // Thickness that changes with height: a straight wall, where it can be told exactly.
    let straight = path(&[(50.0, 0.0), (50.0, 100.0)]);
    let inner = inner_offset(&straight, &|z| 4.0 + z / 20.0, 1e-3).unwrap();
    let inner = Profile::inside(&inner.points);
    for z in [0.0, 33.0, 50.0, 100.0] {
        assert!((inner.radius(z).unwrap() - (46.0 - z / 20.0)).abs() < 1e-9);
    }
}

#[test]
fn a_wall_thicker_than_the_radius_is_told_with_its_heights() {
    let waist = path(&[(40.0, 0.0), (5.0, 50.0), (40.0, 100.0)]);
    let offset = inner_offset(&waist, &|_| 6.0, 1e-3).unwrap();
    assert_eq!(offset.filled.len(), 1);
    let (from, to) = offset.filled[0];
    assert!((from + to - 100.0).abs() < 0.01 && to - from > 1.0 && to - from < 8.0);
    assert!(inner_offset(&waist, &|_| -1.0, 1e-3).is_err());
    assert!(inner_offset(&BezPath::new(), &|_| 1.0, 1e-3).is_err());
    // A shoulder that closes almost level keeps a mouth.
    let shoulder = path(&[(40.0, 0.0), (40.0, 50.0), (20.0, 52.0)]);
    let inner = Profile::inside(&inner_offset(&shoulder, &|_| 6.0, 1e-3).unwrap().points);
    assert!((inner.radius(52.0).unwrap() - 11.0).abs() < 1e-9);
}

#[test]
fn a_side_answers_over_whole_ranges() {
    let side = Profile::outside(&[p(20.0, 0.0), p(30.0, 10.0), p(35.0, 10.0), p(25.0, 20.0)]);
    assert_eq!(side.radius(10.0), Some(35.0));
    assert_eq!(side.max_between(0.0, 10.0), Some(35.0));
    assert_eq!(side.max_between(5.0, 9.0), Some(29.0));
    assert_eq!(side.min_between(10.0, 12.0), Some(30.0));
    assert_eq!(side.min_between(12.0, 100.0), Some(25.0));
    assert_eq!(side.max_between(21.0, 30.0), None);
    assert_eq!((side.lowest(), side.highest()), (0.0, 20.0));
    // A fold: outside the largest, inside the smallest.
    let fold = [p(20.0, 0.0), p(30.0, 20.0), p(40.0, 10.0), p(50.0, 30.0)];
    let (out, inn) = (Profile::outside(&fold), Profile::inside(&fold));
    assert!((out.radius(15.0).unwrap() - 42.5).abs() < 1e-12);
    assert!((inn.radius(15.0).unwrap() - 27.5).abs() < 1e-12);
    assert_eq!(inn.radius(25.0), out.radius(25.0));
    assert!(Profile::outside(&[]).radius(0.0).is_none());
}

fn wild() -> impl Strategy<Value = Vec<ProfilePoint>> {
    let coordinate = prop_oneof![
        -200.0..200.0_f64,
        (0..8_u8).prop_map(|k| f64::from(k) * 10.0),
        Just(0.0),
        Just(1e-9),
        Just(f64::NAN),
    ];
    prop::collection::vec((coordinate.clone(), coordinate, any::<bool>()), 0..12).prop_map(|v| {
        v.into_iter()
            .map(|(height, radius, corner)| ProfilePoint {
                height,
                radius,
                corner,
            })
            .collect()
    })
}

proptest! {
    // A regressions file needs the crate's sources beside it.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn wild_points_never_break_anything(points in wild(), straight: bool, t in 0.1..60.0_f64) {
        let curve = profile_curve(&points, straight);
        if let Ok(offset) = inner_offset(&curve, &|z| t + (z / 10.0).sin() * 0.05, 0.05) {
            prop_assert!(offset.points.iter().all(|q| q.is_finite()));
            prop_assert!(offset.points.windows(2).all(|w| w[0].y <= w[1].y));
            prop_assert!(offset.filled.iter().all(|f| f.0 <= f.1), "{:?}", offset.filled);
            let side = Profile::inside(&offset.points);
            for k in 0..20 {
                let z = side.lowest() + (side.highest() - side.lowest()) * f64::from(k) / 19.0;
                prop_assert!(side.radius(z).is_none_or(f64::is_finite));
                let both = (side.min_between(z, z + t), side.max_between(z, z + t));
                if let (Some(a), Some(b)) = both {
                    prop_assert!(a <= b);
                }
            }
        }
        let ring: Vec<Point> = points.iter().map(|q| p(q.radius, q.height)).collect();
        let _ = Outline::new(&ring, &[]);
    }

    /// Rising points on both sides: always a region, and its slices add up to it.
    #[test]
    fn slices_add_up_to_the_volume(
        steps in prop::collection::vec((0.0..20.0_f64, 0.0..60.0_f64, 0.0..10.0_f64), 2..20),
    ) {
        let mut z = 0.0;
        let (mut out, mut inn) = (Vec::new(), Vec::new());
        for (dz, r, gap) in &steps {
            out.push(p(r + gap, z));
            inn.push(p(*r, z));
            z += dz;
        }
        inn.reverse();
        let ring: Vec<Point> = out.into_iter().chain(inn).collect();
        if let Ok(o) = Outline::new(&ring, &[]) {
            let mut levels: Vec<f64> = ring.iter().map(|q| q.y).collect();
            levels.sort_by(f64::total_cmp);
            let area = |z: f64| {
                let spans = o.spans(z);
                assert!(spans.windows(2).all(|w| w[0].1 <= w[1].0));
                assert!(spans.iter().all(|s| s.0 >= 0.0 && s.0 <= s.1 && s.1.is_finite()));
                for s in spans.iter().filter(|s| s.1 - s.0 > 1e-6) {
                    assert!(o.contains(0.5 * (s.0 + s.1), z));
                }
                spans.iter().map(|s| PI * (s.1 * s.1 - s.0 * s.0)).sum::<f64>()
            };
            // Two-point Gauss is exact for the quadratic areas between levels.
            let sum: f64 = levels.windows(2).map(|w| {
                let (m, h) = (0.5 * (w[0] + w[1]), 0.5 * (w[1] - w[0]));
                let d = h / 3.0_f64.sqrt();
                h * (area(m - d) + area(m + d))
            }).sum();
            prop_assert!((sum - o.volume()).abs() <= 1e-9 * (1.0 + o.volume()), "{sum} {}", o.volume());
            prop_assert!(o.centroid_height() >= o.bottom() - 1e-9);
            prop_assert!(o.centroid_height() <= o.top() + 1e-9);
        }
    }
}
