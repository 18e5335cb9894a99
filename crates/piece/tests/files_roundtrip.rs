//! A design or workshop written and read again is the same, to 1e-9 mm.

use std::collections::BTreeMap;

use geometry::{Angle, Length};
use piece::design::{
    BandSpec, BlankShape, Design, FloorSpec, LayerMake, OwnWood, RingSpec, RingsSpec, SectionSpec,
    SplitSpec,
};
use piece::form::{FormPoint, FormSpec, InnerSpec};
use piece::read::{read_design, read_workshop};
use piece::report::render;
use piece::units::Unit;
use piece::workshop::{Block, Fixing, HoldingSpec, Saw, SawKind, Workshop};
use piece::write::{design_text, workshop_text};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

/// Every field of two values by their debug text: words equal, numbers within 1e-9.
/// A field that is added later is compared without a change here.
fn assert_same(a: &impl std::fmt::Debug, b: &impl std::fmt::Debug) -> Result<f64, String> {
    let (a, b) = (format!("{a:?}"), format!("{b:?}"));
    let token = |c: char| c.is_whitespace() || "(),[]{}:\"°".contains(c);
    let (ta, tb): (Vec<&str>, Vec<&str>) = (a.split(token).collect(), b.split(token).collect());
    if ta.len() != tb.len() {
        return Err(format!("{a}\n{b}"));
    }
    let mut worst: f64 = 0.0;
    for (x, y) in ta.into_iter().zip(tb) {
        if x == y {
            continue;
        }
        match (x.parse::<f64>(), y.parse::<f64>()) {
            (Ok(p), Ok(q)) if (p - q).abs() <= 1e-9 => worst = worst.max((p - q).abs()),
            _ => return Err(format!("{x} became {y}\n{a}\n{b}")),
        }
    }
    Ok(worst)
}

fn length(least: f64, most: f64) -> impl Strategy<Value = Length> {
    prop_oneof![
        (least..most).prop_map(Length::mm),
        // What makers have on their rules: tenths, and 64ths of an inch.
        (least..most).prop_map(move |v| Length::mm(((v * 10.0).round() / 10.0).clamp(least, most))),
        (least..most).prop_map(move |v| {
            let inches = (v / 25.4 * 64.0).round() / 64.0;
            Length::inches(inches.clamp(least / 25.4 + 1e-9, most / 25.4 - 1e-9))
        }),
    ]
}

fn degrees(least: f64, most: f64) -> impl Strategy<Value = Angle> {
    prop_oneof![
        (least..most).prop_map(Angle::deg),
        (least..most).prop_map(|v| Angle::deg(v.round())),
    ]
}

fn text() -> impl Strategy<Value = String> {
    let odd = "[a-zA-Z\"\\\\'#=\\[\\]äß½ \\t\\n\\r\u{7f}\u{1}☃]{0,20}";
    (odd, "[a-z]").prop_map(|(odd, end)| format!("{odd}{end}"))
}

fn woods(most: usize) -> impl Strategy<Value = Vec<String>> {
    let one = prop::sample::select(vec![
        "hard maple",
        "walnut",
        "Cherry, black",
        "my plum",
        "#1\"",
    ]);
    vec(one.prop_map(String::from), 0..=most)
}

fn point() -> impl Strategy<Value = FormPoint> {
    (length(0.0, 50.0), length(0.0, 1500.0), any::<bool>()).prop_map(|(height, radius, corner)| {
        FormPoint {
            height,
            radius,
            corner,
        }
    })
}

/// Points, each above the one before.
fn points() -> impl Strategy<Value = Vec<FormPoint>> {
    vec(point(), 2..12).prop_map(|mut points| {
        let mut below = Length::ZERO;
        for p in &mut points {
            p.height = below + p.height + Length::mm(0.01);
            below = p.height;
        }
        points
    })
}

fn inner() -> impl Strategy<Value = InnerSpec> {
    let entry = (length(0.01, 50.0), length(0.3, 99.0));
    let walls = vec(entry, 2..6).prop_map(|mut walls| {
        let mut below = Length::ZERO;
        for (height, _) in &mut walls {
            *height = below + *height;
            below = *height;
        }
        InnerSpec::Wall(walls)
    });
    prop_oneof![
        length(0.3, 99.0).prop_map(|w| InnerSpec::Wall(vec![(Length::ZERO, w)])),
        walls,
        points().prop_map(InnerSpec::Points),
    ]
}

fn form() -> impl Strategy<Value = FormSpec> {
    (
        points(),
        any::<bool>(),
        inner(),
        option::of(length(0.3, 199.0)),
        option::of(length(0.0, 99.0)),
        option::of(length(0.6, 400.0)),
        option::of(length(0.0, 49.0)),
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

fn floor() -> impl Strategy<Value = FloorSpec> {
    (
        option::of(length(0.6, 99.0)),
        option::of(length(0.0, 99.0)),
        option::of(length(0.0, 99.0)),
        any::<bool>(),
        option::of(length(0.0, 19.0)),
    )
        .prop_map(|(thickness, above, groove, floating, gap)| FloorSpec {
            wood: "walnut".into(),
            thickness,
            above,
            groove,
            floating,
            gap: gap.filter(|_| floating),
        })
}

fn ring() -> impl Strategy<Value = RingSpec> {
    (
        (
            option::of(1..5_usize),
            woods(5),
            option::of(3..=144_usize),
            option::of(length(60.0, 299.0)),
            option::of(length(0.6, 40.0)),
        ),
        (
            option::of(degrees(-360.0, 360.0)),
            option::of(length(100.0, 2999.0)),
            option::of(length(1.1, 50.0)),
            any::<bool>(),
            option::of(floor()),
        ),
    )
        .prop_map(|((repeat, wood, segments, stock, height), rest)| {
            let (turn, outside, width, solid, floor) = rest;
            RingSpec {
                repeat,
                wood: if solid {
                    wood.into_iter().take(1).collect()
                } else {
                    wood
                },
                segments: segments.filter(|_| !solid),
                stock,
                height,
                turn,
                outside,
                width: width.filter(|_| !solid),
                solid,
                floor: floor.filter(|_| !solid),
            }
        })
}

fn band() -> impl Strategy<Value = BandSpec> {
    let make = prop::sample::select(vec![
        LayerMake::Solid,
        LayerMake::RoundRing,
        LayerMake::LongRing,
    ]);
    let blank = prop::sample::select(vec![BlankShape::Cylinder, BlankShape::Polygon]);
    (
        (
            2..=16_usize,
            any::<bool>(),
            option::of(degrees(-360.0, 360.0)),
            0.0..20.0_f64,
        ),
        (
            length(0.6, 2999.0),
            any::<bool>(),
            degrees(1.1, 74.9),
            length(1.1, 1999.0),
        ),
        (any::<bool>(), length(0.3, 99.0), woods(2), any::<bool>()),
        (option::of(text()), option::of(length(0.0, 0.99))),
        (
            option::of(make),
            option::of(3..=144_usize),
            option::of(blank),
        ),
    )
        .prop_map(|(loops, height, layer, saw, make)| {
            let (count, even, start, first) = loops;
            let (height, by_tilt, tilt, reach) = height;
            let (by_layer, thickness, wood, ordered) = layer;
            // Any spacing that keeps them apart will do.
            let azimuth = |i: usize| Angle::deg(first + 21.7 * i as f64 - 180.0);
            BandSpec {
                loops: even.then_some(count),
                azimuths: if even {
                    Vec::new()
                } else {
                    (0..count).map(azimuth).collect()
                },
                start: start.filter(|_| even),
                height: Some(height),
                tilt: by_tilt.then_some(tilt),
                reach: (!by_tilt).then_some(reach),
                wood: if wood.is_empty() {
                    vec!["holly".into()]
                } else {
                    wood
                },
                layer: by_layer.then_some(thickness),
                spacer: (!by_layer).then_some(thickness),
                saw: saw.0,
                glue_line: saw.1,
                order: if ordered {
                    (1..=count).rev().collect()
                } else {
                    Vec::new()
                },
                segments: make.1.filter(|_| make.0 != Some(LayerMake::Solid)),
                make: make.0,
                blank: make.2,
            }
        })
}

fn rings() -> impl Strategy<Value = RingsSpec> {
    prop_oneof![
        option::of(length(1.1, 2999.0)).prop_map(|height| RingsSpec::Auto { height }),
        (1..40_usize).prop_map(RingsSpec::Count),
        vec(ring(), 1..5).prop_map(RingsSpec::Listed),
    ]
}

fn split() -> impl Strategy<Value = SplitSpec> {
    (length(0.6, 2999.0), degrees(0.6, 360.0), option::of(text()))
        .prop_map(|(height, turn, saw)| SplitSpec { height, turn, saw })
}

fn section() -> impl Strategy<Value = SectionSpec> {
    (
        (
            woods(7),
            option::of(3..=144_usize),
            option::of(length(60.0, 299.0)),
        ),
        (option::of(length(0.6, 40.0)), rings()),
        (
            option::of(degrees(-360.0, 360.0)),
            option::of(degrees(-360.0, 360.0)),
        ),
        (vec(band(), 0..3), vec(split(), 0..3)),
    )
        .prop_map(
            |((wood, segments, stock), (ring_height, rings), turns, (bands, splits))| SectionSpec {
                name: String::new(),
                wood,
                segments,
                stock,
                ring_height,
                rings,
                joint_turn: turns.0,
                turn: turns.1,
                bands,
                splits,
            },
        )
}

fn design() -> impl Strategy<Value = Design> {
    (
        text(),
        any::<bool>(),
        option::of(text()),
        form(),
        holding(),
        vec((text(), section()), 1..4),
    )
        .prop_map(|(title, inch, notes, form, holding, named)| {
            let sections = named.into_iter().enumerate().map(|(at, (name, section))| {
                let name = format!("{name}{at}");
                SectionSpec { name, ..section }
            });
            let own = |like: Option<&str>, density, colour: Option<&str>| OwnWood {
                like: like.map(String::from),
                density,
                colour: colour.map(String::from),
            };
            let woods = BTreeMap::from([
                (
                    "my plum".to_string(),
                    own(Some("cherry"), Some(781.25), None),
                ),
                ("#1\"".to_string(), own(None, None, Some("#a0b0c0"))),
            ]);
            Design {
                title,
                unit: if inch { Unit::Inch } else { Unit::Mm },
                notes,
                form,
                woods,
                holding,
                sections: sections.collect(),
            }
        })
}

fn saw(kind: SawKind) -> impl Strategy<Value = Saw> {
    (
        text(),
        length(0.3, 9.0),
        length(5.1, 4900.0),
        length(5.1, 4900.0),
        length(5.1, 4900.0),
        length(5.1, 4900.0),
    )
        .prop_map(
            move |(name, kerf, cutting_height, room_beside, table_length, table_width)| Saw {
                name: format!("{kind:?} {name}"),
                kind,
                kerf,
                cutting_height,
                room_beside,
                table_length,
                table_width,
            },
        )
}

fn holding() -> impl Strategy<Value = HoldingSpec> {
    let block = prop::sample::select(vec![
        Block::Particleboard,
        Block::Mdf,
        Block::Plywood,
        Block::Wood("hard maple".into()),
        Block::Wood("Pine, ponderosa".into()),
    ]);
    (
        (
            option::of(block),
            option::of(length(1.1, 499.0)),
            option::of(length(1000.0, 2999.0)),
            option::of(length(0.0, 999.0)),
            option::of(length(1.1, 99.0)),
        ),
        (
            any::<Option<bool>>(),
            option::of(2..=48_usize),
            option::of(length(1.1, 19.0)),
            option::of(1.2..1999.0_f64),
            option::of(1.0..19.9_f64),
        ),
        option::of(length(5.1, 99.0)),
    )
        .prop_map(|(block, screws, other)| HoldingSpec {
            block: block.0,
            thickness: block.1,
            diameter: block.2,
            recess: block.3,
            recess_depth: block.4,
            fixing: screws
                .0
                .map(|t| if t { Fixing::Tenon } else { Fixing::Screws }),
            screws: screws.1,
            screw_diameter: screws.2,
            screw_bite: other,
            screw_circle: other,
            tenon: other,
            tool_force: screws.3,
            safety: screws.4,
            steady: other,
            tool_bar: other,
        })
}

fn workshop() -> impl Strategy<Value = Workshop> {
    let saws = prop_oneof![
        Just(None),
        Just(Some(Vec::new())),
        (saw(SawKind::Band), saw(SawKind::Mitre)).prop_map(|(a, b)| Some(vec![a, b])),
    ];
    (
        (
            any::<bool>(),
            saws,
            option::of(vec(length(0.6, 299.0), 1..6)),
        ),
        (
            option::of(length(0.0, 9.9)),
            option::of(length(0.0, 0.9)),
            option::of(length(5.1, 4900.0)),
        ),
        (
            option::of(50.1..19_999.0_f64),
            option::of(degrees(1.1, 79.0)),
            option::of(0.0..999.0_f64),
        ),
        (
            any::<bool>(),
            option::of(3..=144_usize),
            any::<bool>(),
            option::of(length(0.6, 299.0)),
        ),
        (
            holding(),
            5.1..94.9_f64,
            -9.0..59.0_f64,
            option::of(60.0..9999.0_f64),
        ),
        (
            option::of(length(0.0, 4.9)),
            option::of(degrees(0.0, 4.9)),
            any::<bool>(),
        ),
    )
        .prop_map(
            |((inch, saws, stock), lengths, figures, defaults, air, exactness)| {
                let mut shop = Workshop {
                    unit: if inch { Unit::Inch } else { Unit::Mm },
                    ..Workshop::default()
                };
                fn put<T>(value: Option<T>, place: &mut T) {
                    if let Some(value) = value {
                        *place = value;
                    }
                }
                put(saws, &mut shop.saws);
                put(stock, &mut shop.stock);
                put(lengths.0, &mut shop.allowances.inside);
                put(lengths.0, &mut shop.sled.keep_off);
                put(lengths.1, &mut shop.allowances.glue_line);
                put(lengths.2, &mut shop.lathe.swing);
                put(figures.0, &mut shop.lathe.fastest);
                put(figures.1, &mut shop.sled.largest_tilt);
                put(figures.2, &mut shop.glue.cure_hours);
                shop.glue.epoxy_for_layers = defaults.0;
                put(defaults.1, &mut shop.defaults.segments);
                put(
                    defaults.2.then(|| "Ash, white".to_string()),
                    &mut shop.defaults.wood,
                );
                put(defaults.3, &mut shop.defaults.board);
                let held = HoldingSpec {
                    steady: None,
                    ..air.0
                };
                held.over(&mut shop);
                shop.climate.damp.humidity = air.1;
                shop.climate.shop.temperature = air.2;
                shop.glue.coldest = air.2;
                shop.glue.spread = air.1.max(20.0);
                shop.lathe.jaws_fastest = air.3;
                put(exactness.0, &mut shop.exactness.layer_wedge);
                put(exactness.0, &mut shop.exactness.run_out);
                put(exactness.1, &mut shop.exactness.index);
                shop.exactness.sled_stays_set = exactness.2;
                shop
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_design_comes_back(design in design()) {
        let text = design_text(&design);
        let (again, _, problems) = read_design("another name", &text);
        prop_assert!(problems.is_empty(), "{}\n{text}", render("written", &text, &problems));
        let again = again.expect("no problems");
        let same = assert_same(&design, &again);
        prop_assert!(same.is_ok(), "{}\n{text}", same.unwrap_err());
        // Saved ten times it is still the same: nothing creeps.
        let saved = (0..10).try_fold(again, |d, _| read_design("x", &design_text(&d)).0);
        let same = assert_same(&design, &saved.expect("no problems"));
        prop_assert!(same.is_ok(), "{}\n{text}", same.unwrap_err());
    }

    #[test]
    fn a_workshop_comes_back(shop in workshop()) {
        let text = workshop_text(&shop);
        let (again, _, problems) = read_workshop(&text);
        prop_assert!(problems.is_empty(), "{}\n{text}", render("written", &text, &problems));
        let mut again = again.expect("no problems");
        for key in &again.given {
            prop_assert!(text.contains(key.rsplit(['.', ']']).next().unwrap_or(key)));
        }
        again.given.clear();
        let same = assert_same(&shop, &again);
        prop_assert!(same.is_ok(), "{}\n{text}", same.unwrap_err());
    }
}

#[test]
fn the_comparison_sees_a_difference() {
    let one = SplitSpec {
        height: Length::mm(10.0),
        turn: Angle::deg(15.0),
        saw: None,
    };
    let nudged = SplitSpec {
        height: Length::mm(10.0 + 2e-9),
        ..one.clone()
    };
    let other = SplitSpec {
        saw: Some("band saw".into()),
        ..one.clone()
    };
    assert_eq!(assert_same(&one, &one), Ok(0.0));
    assert!(assert_same(&one, &nudged).is_err());
    assert!(assert_same(&one, &other).is_err());
}
