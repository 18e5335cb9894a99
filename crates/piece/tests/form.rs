//! The finished form against closed forms, every problem once, and wild input.

use std::f64::consts::PI;

use geometry::{Angle, Length};
use piece::form::{
    Form, FormPart, FormPoint, FormProblem, FormProblemKind as Kind, FormSpec, InnerSpec,
};
use piece::units::Unit;
use proptest::prelude::*;

fn mm(v: f64) -> Length {
    Length::mm(v)
}

fn at(height: f64, radius: f64) -> FormPoint {
    FormPoint {
        height: mm(height),
        radius: mm(radius),
        corner: false,
    }
}

fn points(list: &[(f64, f64)]) -> Vec<FormPoint> {
    list.iter().map(|(h, r)| at(*h, *r)).collect()
}

fn straight(outer: &[(f64, f64)], wall: f64, floor: f64) -> FormSpec {
    FormSpec {
        outer: points(outer),
        straight: true,
        inner: InnerSpec::Wall(vec![(mm(0.0), mm(wall))]),
        floor: Some(mm(floor)),
        ..FormSpec::default()
    }
}

fn good(spec: &FormSpec) -> Form {
    let (form, problems) = Form::build(spec);
    assert!(problems.is_empty(), "{problems:?}");
    form.unwrap()
}

fn problems(spec: &FormSpec) -> Vec<FormProblem> {
    Form::build(spec).1
}

fn close(a: f64, b: f64, share: f64) {
    assert!((a / b - 1.0).abs() < share, "{a} against {b}");
}

#[test]
fn a_cylinder_box_in_every_measure() {
    let form = good(&straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 8.0));
    let (whole, hole) = (PI * 1600.0 * 100.0, PI * 1225.0 * 92.0);
    close(form.wood_volume().as_mm3(), whole - hole, 1e-12);
    close(form.capacity().as_mm3(), hole, 1e-12);
    close(form.capacity().as_cubic_inches(), hole / 16387.064, 1e-12);
    close(
        form.capacity().as_us_fl_oz(),
        hole / 29_573.529_562_5,
        1e-12,
    );
    let areas = form.surface_areas();
    close(areas.outside, 2.0 * PI * 40.0 * 100.0, 1e-12);
    close(areas.inside, 2.0 * PI * 35.0 * 92.0 + PI * 1225.0, 1e-12);
    close(areas.rim, PI * (1600.0 - 1225.0), 1e-12);
    close(areas.underside, PI * 1600.0, 1e-12);
    let centre = (whole * 50.0 - hole * 54.0) / (whole - hole);
    close(form.centre_of_gravity_height().as_mm(), centre, 1e-12);
    let tip = Angle::rad((40.0 / centre).atan());
    assert!(form.tipping_angle().within(tip, Angle::rad(1e-12)));
    assert!(form.wall_at(mm(50.0)).unwrap().within(mm(5.0), mm(1e-9)));
    assert!(form.wall_at(mm(4.0)).is_none() && form.wall_at(mm(101.0)).is_none());
    let (wall, _) = form.thinnest_wall();
    assert!(wall.within(mm(5.0), mm(1e-6)));
    assert!(form.largest_radius().0.within(mm(40.0), mm(1e-9)));
    assert_eq!(*form.outline().spans(50.0), [(35.0, 40.0)]);
    assert_eq!(form.outline().break_heights(), [0.0, 8.0, 100.0]);
}

#[test]
fn a_cone_keeps_its_wall_square_and_holds_a_frustum() {
    let slope: f64 = 0.4;
    let form = good(&straight(&[(0.0, 30.0), (100.0, 70.0)], 6.0, 6.0));
    // Square to a wall that leans, level thickness is t·√(1 + slope²).
    let level = 6.0 * (1.0 + slope * slope).sqrt();
    let (a, b) = (30.0 + 6.0 * slope - level, 70.0 - level);
    close(
        form.capacity().as_mm3(),
        PI * 94.0 / 3.0 * (a * a + a * b + b * b),
        1e-9,
    );
    for z in [20.0, 50.0, 99.0, 100.0] {
        assert!(
            form.wall_at(mm(z)).unwrap().within(mm(6.0), mm(1e-9)),
            "{z}"
        );
    }
    // Pappus: lateral surface of a frustum is π(R + r)·slant.
    close(
        form.surface_areas().outside,
        PI * 100.0 * (100.0_f64.powi(2) + 40.0_f64.powi(2)).sqrt(),
        1e-12,
    );
}

#[test]
fn a_half_ball_bowl() {
    let outer: Vec<FormPoint> = (0..=18)
        .map(|i| f64::from(i) * PI / 36.0)
        .map(|a| at(60.0 - 60.0 * a.cos(), 60.0 * a.sin()))
        .collect();
    let form = good(&FormSpec {
        outer,
        inner: InnerSpec::Wall(vec![(mm(0.0), mm(6.0))]),
        ..FormSpec::default()
    });
    // The spline's free ends leave the circle by 0.02 mm, which bounds the error.
    close(
        form.wood_volume().as_mm3(),
        2.0 / 3.0 * PI * (60.0_f64.powi(3) - 54.0_f64.powi(3)),
        1e-3,
    );
    close(
        form.capacity().as_mm3(),
        2.0 / 3.0 * PI * 54.0_f64.powi(3),
        1e-3,
    );
    close(form.surface_areas().outside, 2.0 * PI * 3600.0, 1e-3);
    close(form.surface_areas().inside, 2.0 * PI * 54.0 * 54.0, 1e-3);
    // Centre of a half shell, 3(R⁴ − r⁴)/8(R³ − r³) below its rim.
    let (r4, r3) = (
        60.0_f64.powi(4) - 54.0_f64.powi(4),
        60.0_f64.powi(3) - 54.0_f64.powi(3),
    );
    close(
        form.centre_of_gravity_height().as_mm(),
        60.0 - 0.375 * r4 / r3,
        1e-3,
    );
    assert!(form.floor_is_default && form.floor().within(mm(6.0), mm(0.05)));
    assert!(form.foot_radius().as_mm() == 0.0 && form.tipping_angle().as_rad() == 0.0);
    for z in [10.0, 30.0, 59.0] {
        assert!(
            form.wall_at(mm(z)).unwrap().within(mm(6.0), mm(1e-3)),
            "{z}"
        );
    }
}

#[test]
fn recess_and_easing_take_away_what_they_should() {
    let mut spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 8.0, 8.0);
    let plain = good(&spec).wood_volume().as_mm3();
    spec.rim_easing = Some(mm(3.0));
    let eased = good(&spec);
    // Pappus' second theorem on the corner outside a quarter circle: area (1 − π/4)e²,
    // its middle (10 − 3π)/(12 − 3π)·e from either edge.
    let (area, middle) = (
        9.0 * (1.0 - PI / 4.0),
        3.0 * (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI),
    );
    let off = 2.0 * PI * area * ((40.0 - middle) + (32.0 + middle));
    close(plain - eased.wood_volume().as_mm3(), off, 2e-3);
    assert!((eased.outside().radius(100.0).unwrap() - 37.0).abs() < 1e-6);
    assert!((eased.inside().radius(100.0).unwrap() - 35.0).abs() < 1e-6);
    spec.rim_easing = None;
    spec.foot_recess = Some(mm(4.0));
    spec.foot_width = Some(mm(10.0));
    let footed = good(&spec);
    // The floor goes up with the recess: 4 mm more under the hollow, less the recess.
    close(
        footed.wood_volume().as_mm3() - plain,
        PI * 4.0 * (32.0 * 32.0 - 30.0 * 30.0),
        1e-9,
    );
    assert!(footed.floor_top().within(mm(12.0), mm(1e-9)));
    assert_eq!(*footed.outline().spans(2.0), [(30.0, 40.0)]);
    close(
        footed.surface_areas().underside,
        PI * 1600.0 + 2.0 * PI * 30.0 * 4.0,
        1e-12,
    );
}

#[test]
fn walls_may_vary_and_the_thinnest_is_found() {
    let mut spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 8.0);
    spec.inner = InnerSpec::Wall(vec![
        (mm(0.0), mm(9.0)),
        (mm(60.0), mm(4.0)),
        (mm(100.0), mm(6.0)),
    ]);
    let form = good(&spec);
    assert!(form.wall_at(mm(30.0)).unwrap().within(mm(6.5), mm(1e-3)));
    assert!(form.wall_at(mm(80.0)).unwrap().within(mm(5.0), mm(1e-3)));
    let (wall, height) = form.thinnest_wall();
    assert!(
        wall.within(mm(4.0), mm(1e-3)) && height.within(mm(60.0), mm(2.0)),
        "{wall:?} {height:?}"
    );
}

#[test]
fn an_inner_side_of_its_own() {
    let spec = FormSpec {
        outer: points(&[(0.0, 40.0), (100.0, 40.0)]),
        straight: true,
        inner: InnerSpec::Points(points(&[(6.0, 0.0), (6.0, 30.0), (90.0, 35.0)])),
        foot_recess: Some(mm(2.0)),
        ..FormSpec::default()
    };
    let form = good(&spec);
    assert!(form.floor_is_default && form.floor().within(mm(4.0), mm(1e-9)));
    assert!(form.foot_width_is_default && form.foot_width().within(mm(10.0), mm(1e-9)));
    // It is carried on to the rim in the direction it had.
    let slope = 5.0 / 84.0;
    assert!((form.inside().radius(100.0).unwrap() - (35.0 + 10.0 * slope)).abs() < 1e-9);
    assert!((form.inside().radius(6.0).unwrap() - 30.0).abs() < 1e-9);
    let (a, b) = (30.0, 35.0 + 10.0 * slope);
    close(
        form.capacity().as_mm3(),
        PI * 94.0 / 3.0 * (a * a + a * b + b * b),
        1e-9,
    );
}

#[test]
fn a_hollow_form_keeps_its_mouth() {
    let outer = [(0.0, 25.0), (40.0, 70.0), (80.0, 60.0), (95.0, 20.0)];
    let form = good(&FormSpec {
        outer: points(&outer),
        ..FormSpec::default()
    });
    assert!(form.wall_is_default);
    let mouth = form.inside().radius(95.0).unwrap();
    assert!((20.0 - mouth - 9.0).abs() < 0.01, "{mouth}");
    let (wall, _) = form.thinnest_wall();
    assert!(wall.within(mm(6.0), mm(0.01)), "{wall:?}");
}

/// Each kind of problem once: the spec, kind, height and the figure that would do.
#[test]
fn every_problem_is_told_with_height_and_remedy() {
    let base = || straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 8.0);
    let with = |f: &dyn Fn(&mut FormSpec)| {
        let mut spec = base();
        f(&mut spec);
        spec
    };
    let own = |list: &[(f64, f64)]| InnerSpec::Points(points(list));
    let wall = |t: f64| InnerSpec::Wall(vec![(mm(0.0), mm(t))]);
    let cases: Vec<(FormSpec, Kind, f64, Option<f64>)> = vec![
        (FormSpec::default(), Kind::TooFewPoints, 0.0, None),
        (
            with(&|s| s.outer.truncate(1)),
            Kind::TooFewPoints,
            0.0,
            None,
        ),
        (
            with(&|s| s.outer[1].radius = mm(f64::NAN)),
            Kind::OutOfRange,
            100.0,
            Some(1e4),
        ),
        (
            with(&|s| s.outer[0].height = mm(5.0)),
            Kind::NotOnTheFoot,
            5.0,
            Some(0.0),
        ),
        (
            with(&|s| s.outer.push(at(80.0, 50.0))),
            Kind::DoublesBack,
            80.0,
            Some(100.0),
        ),
        (
            with(&|s| s.outer[0].radius = mm(-3.0)),
            Kind::RadiusNegative,
            0.0,
            Some(0.0),
        ),
        (
            with(&|s| s.inner = wall(0.0)),
            Kind::WallNotPositive,
            0.0,
            None,
        ),
        (
            with(&|s| s.inner = InnerSpec::Wall(vec![(mm(50.0), mm(5.0)), (mm(10.0), mm(5.0))])),
            Kind::WallOutOfOrder,
            10.0,
            None,
        ),
        (
            with(&|s| s.inner = wall(45.0)),
            Kind::WallFillsUp,
            8.0,
            Some(39.9),
        ),
        (
            // A stem of 5 mm radius with a wall of 6.
            with(&|s| {
                s.outer = points(&[(0.0, 40.0), (50.0, 5.0), (100.0, 40.0)]);
                s.inner = wall(6.0);
            }),
            Kind::WallFillsUp,
            50.0,
            Some(4.9),
        ),
        (
            with(&|s| {
                (s.inner, s.floor) = (own(&[(8.0, 20.0), (60.0, 45.0), (100.0, 20.0)]), None)
            }),
            Kind::InnerOutside,
            60.0,
            Some(39.9),
        ),
        (
            // Touching is no wall either.
            with(&|s| {
                (s.inner, s.floor) = (own(&[(8.0, 20.0), (60.0, 40.0), (100.0, 20.0)]), None)
            }),
            Kind::InnerOutside,
            60.0,
            Some(39.9),
        ),
        (
            with(&|s| s.floor = Some(mm(0.0))),
            Kind::FloorNotPositive,
            0.0,
            None,
        ),
        (
            with(&|s| (s.inner, s.floor) = (own(&[(-2.0, 20.0), (100.0, 30.0)]), None)),
            Kind::FloorNotPositive,
            0.0,
            None,
        ),
        (
            with(&|s| s.floor = Some(mm(120.0))),
            Kind::FloorTooThick,
            120.0,
            Some(99.9),
        ),
        (
            with(&|s| s.inner = own(&[(12.0, 30.0), (100.0, 30.0)])),
            Kind::FloorDisagrees,
            12.0,
            Some(12.0),
        ),
        (
            with(&|s| (s.foot_recess, s.foot_width) = (Some(mm(3.0)), Some(mm(41.0)))),
            Kind::FootTooWide,
            0.0,
            Some(39.9),
        ),
        (
            with(&|s| {
                s.outer = points(&[(0.0, 40.0), (4.0, 30.0), (100.0, 40.0)]);
                (s.foot_recess, s.foot_width) = (Some(mm(4.0)), Some(mm(8.0)));
            }),
            Kind::RecessBreaksOut,
            4.0,
            Some(10.1),
        ),
        (
            with(&|s| s.foot_recess = Some(mm(100.0))),
            Kind::RecessTooDeep,
            100.0,
            Some(99.9),
        ),
        (
            with(&|s| s.rim_easing = Some(mm(3.0))),
            Kind::RimEasingTooLarge,
            100.0,
            Some(2.5),
        ),
        (
            with(&|s| s.rim_easing = Some(mm(-1.0))),
            Kind::Negative,
            0.0,
            Some(0.0),
        ),
    ];
    for (spec, kind, height, amount) in &cases {
        let found = problems(spec);
        assert_eq!(found.len(), 1, "{kind:?}: {found:?}");
        let p = &found[0];
        assert_eq!(p.kind, *kind, "{p:?}");
        assert!(p.height.within(mm(*height), mm(0.02)), "{p:?}");
        match (p.amount, amount) {
            (Some(a), Some(b)) => assert!(a.within(mm(*b), mm(1e-6)), "{p:?}"),
            (a, b) => assert!(a.is_none() && b.is_none(), "{p:?}"),
        }
        for text in [&p.what, &p.remedy] {
            assert!(text.ends_with('.') && text.len() > 15, "{text}");
            assert!(!text.contains("NaN") && !text.contains("unknown"), "{text}");
        }
    }
}

#[test]
fn the_figure_that_would_do_does() {
    let mut spec = straight(&[(0.0, 40.0), (50.0, 5.0), (100.0, 40.0)], 6.0, 8.0);
    let amount = problems(&spec)[0].amount.unwrap();
    spec.inner = InnerSpec::Wall(vec![(mm(0.0), amount)]);
    good(&spec);

    let mut spec = straight(&[(0.0, 40.0), (4.0, 30.0), (100.0, 40.0)], 5.0, 8.0);
    spec.foot_recess = Some(mm(4.0));
    spec.foot_width = Some(mm(8.0));
    spec.foot_width = problems(&spec)[0].amount;
    good(&spec);

    let mut spec = straight(&[(0.0, 30.0), (100.0, 60.0)], 5.0, 8.0);
    spec.rim_easing = Some(mm(6.0));
    spec.rim_easing = problems(&spec)[0].amount;
    good(&spec);
}

#[test]
fn a_smooth_curve_that_overshoots_is_told() {
    let mut spec = FormSpec {
        outer: points(&[(0.0, 5.0), (0.0, 60.0), (3.0, 90.0), (100.0, 95.0)]),
        ..FormSpec::default()
    };
    let found = problems(&spec);
    assert_eq!(found[0].kind, Kind::DoublesBack);
    assert_eq!(found[0].part, FormPart::Outer);
    // The remedy: corners at the foot's edge.
    spec.outer[1].corner = true;
    spec.outer[2].corner = true;
    good(&spec);
}

#[test]
fn words_use_the_maker_s_unit() {
    let spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 127.0);
    let (_, inch) = Form::build_in(&spec, Unit::Inch);
    assert!(
        inch[0].what.contains("5 in") && !inch[0].what.contains("mm"),
        "{}",
        inch[0].what
    );
    let (_, metric) = Form::build(&spec);
    assert!(metric[0].what.contains("127.0 mm"), "{}", metric[0].what);
}

fn measure() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 0.0..150.0_f64,
        2 => (0..15_u8).prop_map(|k| f64::from(k) * 10.0),
        1 => -20.0..0.0_f64,
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(1e-300), Just(0.0)],
    ]
}

fn curve(sorted: bool) -> impl Strategy<Value = Vec<FormPoint>> {
    prop::collection::vec((measure(), measure(), any::<bool>()), 0..9).prop_map(move |mut v| {
        if sorted {
            v.retain(|p| p.0.is_finite() && p.1.is_finite());
            v.sort_by(|a, b| a.0.total_cmp(&b.0));
            if let Some(first) = v.first_mut() {
                first.0 = 0.0;
            }
        }
        v.into_iter()
            .map(|(height, radius, corner)| FormPoint {
                height: mm(height),
                radius: mm(radius),
                corner,
            })
            .collect()
    })
}

fn wild() -> impl Strategy<Value = FormSpec> {
    let length = || prop::option::weighted(0.3, measure().prop_map(|m| mm(m / 10.0)));
    let walls = prop::collection::vec((measure(), measure()), 0..4)
        .prop_map(|v| InnerSpec::Wall(v.into_iter().map(|(z, t)| (mm(z), mm(t / 10.0))).collect()));
    let inner = prop_oneof![walls, curve(true).prop_map(InnerSpec::Points)];
    let outer = prop_oneof![8 => curve(true), 1 => curve(false)];
    (
        outer,
        any::<bool>(),
        inner,
        length(),
        length(),
        length(),
        length(),
    )
        .prop_map(
            |(outer, straight, inner, floor, foot_recess, foot_width, rim_easing)| FormSpec {
                outer,
                straight,
                inner,
                floor,
                foot_recess,
                foot_width,
                rim_easing,
            },
        )
}

proptest! {
    // A regressions file needs the crate's sources beside it.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn wild_forms_are_told_or_sound(spec in wild()) {
        let (form, problems) = Form::build(&spec);
        prop_assert!(form.is_some() || !problems.is_empty());
        for p in &problems {
            prop_assert!(p.height.as_mm().is_finite());
            prop_assert!(p.amount.is_none_or(|a| a.as_mm().is_finite()));
            prop_assert!(!p.what.contains("NaN") && !p.what.contains("inf"), "{}", p.what);
            prop_assert!(!p.remedy.contains("unknown") && !p.what.contains("unknown"), "{p:?}");
        }
        if let Some(form) = form {
            let areas = form.surface_areas();
            let figures = [
                form.wood_volume().as_mm3(),
                form.capacity().as_mm3(),
                areas.outside,
                areas.inside,
                areas.rim,
                areas.underside,
                form.centre_of_gravity_height().as_mm(),
                form.tipping_angle().as_rad(),
                form.thinnest_wall().0.as_mm(),
                form.floor().as_mm(),
            ];
            prop_assert!(figures.iter().all(|f| f.is_finite() && *f >= 0.0), "{figures:?}");
            let solid = form.wood_volume().as_mm3() + form.capacity().as_mm3();
            let recess = form.foot_recess().as_mm()
                * PI * (form.foot_radius().as_mm() - form.foot_width().as_mm()).powi(2);
            // Wood, hollow and recess together are what the outer side encloses.
            let outside = form.outside().points();
            let whole: f64 = outside.windows(2).map(|w| {
                PI / 3.0 * (w[1].y - w[0].y) * (w[0].x * w[0].x + w[0].x * w[1].x + w[1].x * w[1].x)
            }).sum();
            prop_assert!((solid + recess - whole).abs() <= 1e-6 * (1.0 + whole), "{solid} {recess} {whole}");
            for k in 0..=50 {
                let z = form.height().as_mm() * f64::from(k) / 50.0;
                let spans = form.outline().spans(z);
                prop_assert!(spans.windows(2).all(|w| w[0].1 <= w[1].0));
                prop_assert!(form.wall_at(mm(z)).is_none_or(|w| w.as_mm() > 0.0 && w.as_mm().is_finite()));
                if let (Some(o), Some(i)) = (form.outside().radius(z), form.inside().radius(z)) {
                    prop_assert!(i <= o, "{z} {i} {o}");
                }
            }
        }
    }
}
