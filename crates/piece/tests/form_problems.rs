//! Every problem of a form once, and wild input.

mod form_support;

use std::f64::consts::PI;

use files::design::{FormPoint, FormSpec, WallPoint};
use files::units::Unit;
use form_support::{at, good, mm, points, problems, straight};
use piece::form::{Form, FormPart, FormProblemKind as Kind};
use proptest::prelude::*;

type Case = (FormSpec, Kind, f64, Option<f64>);

fn with(change: &dyn Fn(&mut FormSpec)) -> FormSpec {
    let mut spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 8.0);
    change(&mut spec);
    spec
}

fn wall(thickness: f64) -> Vec<WallPoint> {
    WallPoint::everywhere(mm(thickness))
}

fn at_heights(list: &[(f64, f64)]) -> Vec<WallPoint> {
    let point = |&(height, thickness): &(f64, f64)| WallPoint {
        height: mm(height),
        thickness: mm(thickness),
    };
    list.iter().map(point).collect()
}

fn first_cases() -> Vec<Case> {
    vec![
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
            with(&|s| s.wall = wall(0.0)),
            Kind::WallNotPositive,
            0.0,
            None,
        ),
        (
            with(&|s| s.wall = at_heights(&[(50.0, 5.0), (10.0, 5.0)])),
            Kind::WallOutOfOrder,
            10.0,
            None,
        ),
        (
            with(&|s| s.wall = wall(45.0)),
            Kind::WallFillsUp,
            8.0,
            Some(39.9),
        ),
        (
            // A stem of 5 mm radius with a wall of 6.
            with(&|s| {
                s.outer = points(&[(0.0, 40.0), (50.0, 5.0), (100.0, 40.0)]);
                s.wall = wall(6.0);
            }),
            Kind::WallFillsUp,
            50.0,
            Some(4.9),
        ),
        (
            with(&|s| {
                (s.inner, s.floor) = (points(&[(8.0, 20.0), (60.0, 45.0), (100.0, 20.0)]), None)
            }),
            Kind::InnerOutside,
            60.0,
            Some(39.9),
        ),
    ]
}

fn more_cases() -> Vec<Case> {
    vec![
        (
            // Touching is no wall either.
            with(&|s| {
                (s.inner, s.floor) = (points(&[(8.0, 20.0), (60.0, 40.0), (100.0, 20.0)]), None)
            }),
            Kind::InnerOutside,
            60.0,
            Some(39.9),
        ),
        (
            // A lid over the hollow: the outer side goes in to the axis at the top.
            with(&|s| {
                s.outer.push(at(100.0, 0.0));
                (s.inner, s.floor) = (points(&[(8.0, 20.0), (100.0, 20.0)]), None);
            }),
            Kind::InnerOutside,
            100.0,
            None,
        ),
        (
            with(&|s| s.floor = Some(mm(0.0))),
            Kind::FloorNotPositive,
            0.0,
            None,
        ),
        (
            with(&|s| (s.inner, s.floor) = (points(&[(-2.0, 20.0), (100.0, 30.0)]), None)),
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
            with(&|s| s.inner = points(&[(12.0, 30.0), (100.0, 30.0)])),
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
    ]
}

/// Each kind of problem once: the spec, kind, height and the figure that would do.
#[test]
fn every_problem_is_told_with_height_and_remedy() {
    let mut cases = first_cases();
    cases.extend(more_cases());
    for (spec, kind, height, amount) in &cases {
        let found = problems(spec);
        assert_eq!(found.len(), 1, "{kind:?}: {found:?}");
        let p = &found[0];
        assert_eq!(p.kind, *kind, "{p:?}");
        assert!(p.height.within(mm(*height), mm(0.02)), "{p:?}");
        match (p.amount.map(|a| a.length(Unit::Mm)), amount) {
            (Some(a), Some(b)) => assert!(a.within(mm(*b), mm(1e-6)), "{p:?}"),
            (a, b) => assert!(a.is_none() && b.is_none(), "{p:?}"),
        }
        for text in [&p.what, &p.remedy] {
            let text = text.said(Unit::Mm);
            assert!(!text.ends_with('.') && text.len() > 15, "{text}");
            assert!(!text.contains("NaN") && !text.contains("unknown"), "{text}");
        }
    }
}

#[test]
fn the_figure_that_would_do_does() {
    let mut spec = straight(&[(0.0, 40.0), (50.0, 5.0), (100.0, 40.0)], 6.0, 8.0);
    let amount = problems(&spec)[0].amount.unwrap().length(Unit::Mm);
    spec.wall = WallPoint::everywhere(amount);
    good(&spec);

    let mut spec = straight(&[(0.0, 40.0), (4.0, 30.0), (100.0, 40.0)], 5.0, 8.0);
    spec.foot_recess = Some(mm(4.0));
    spec.foot_width = Some(mm(8.0));
    spec.foot_width = problems(&spec)[0].amount.map(|a| a.length(Unit::Mm));
    good(&spec);

    let mut spec = straight(&[(0.0, 30.0), (100.0, 60.0)], 5.0, 8.0);
    spec.rim_easing = Some(mm(6.0));
    spec.rim_easing = problems(&spec)[0].amount.map(|a| a.length(Unit::Mm));
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
fn a_smooth_curve_that_crosses_itself_is_told() {
    let mut spec = FormSpec {
        outer: points(&[
            (0.0, 113.0),
            (50.0, 12.0),
            (70.0, 101.0),
            (70.0, 70.0),
            (104.0, 62.0),
        ]),
        ..FormSpec::default()
    };
    spec.outer[2].corner = true;
    let found = problems(&spec);
    assert_eq!(found[0].kind, Kind::CrossesItself, "{found:?}");
    // It swings above 70 mm before it comes down to the corner.
    assert!(found[0].height.within(mm(65.0), mm(5.0)), "{found:?}");
    // The remedy, as often as it is given: corners at the points it names.
    for _ in 0..3 {
        if let Some(p) = problems(&spec).first() {
            spec.outer[p.entry.unwrap()].corner = true;
        }
    }
    good(&spec);
}

#[test]
fn words_use_the_reader_s_unit() {
    let spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 127.0);
    let found = problems(&spec);
    let [inch, metric] = [Unit::Inch, Unit::Mm].map(|unit| found[0].what.said(unit));
    assert!(inch.contains("5 in") && !inch.contains("mm"), "{inch}");
    assert!(metric.contains("127.0 mm"), "{metric}");
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
    let walls = prop::collection::vec((measure(), measure()), 0..4).prop_map(|v| {
        let point = |(z, t)| WallPoint {
            height: mm(z),
            thickness: mm(t / 10.0),
        };
        v.into_iter().map(point).collect::<Vec<_>>()
    });
    // The inside by its wall, or by points of its own.
    let inner = prop_oneof![
        walls.prop_map(|walls| (walls, Vec::new())),
        curve(true).prop_map(|points| (Vec::new(), points)),
    ];
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
            |(outer, straight, (wall, inner), floor, foot_recess, foot_width, rim_easing)| {
                FormSpec {
                    outer,
                    straight,
                    wall,
                    inner,
                    floor,
                    foot_recess,
                    foot_width,
                    rim_easing,
                }
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
            prop_assert!(p.amount.is_none_or(|a| a.length(Unit::Mm).as_mm().is_finite()));
            let (what, remedy) = (p.what.said(Unit::Mm), p.remedy.said(Unit::Inch));
            prop_assert!(!what.contains("NaN") && !what.contains("inf"), "{what}");
            prop_assert!(!remedy.contains("unknown") && !what.contains("unknown"), "{p:?}");
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
