//! Designs by chance.

use std::collections::BTreeMap;

use files::design::{
    BandSpec, BlankShape, Design, FloorSpec, LayerMake, OwnWood, RingSpec, RingsSpec, SectionSpec,
    SplitSpec,
};
use files::form::{FormPoint, FormSpec, InnerSpec};
use files::units::Unit;
use geometry::{Angle, Length};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

use crate::shops::holding;

pub fn length(least: f64, most: f64) -> impl Strategy<Value = Length> {
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

pub fn degrees(least: f64, most: f64) -> impl Strategy<Value = Angle> {
    prop_oneof![
        (least..most).prop_map(Angle::deg),
        (least..most).prop_map(|v| Angle::deg(v.round())),
    ]
}

pub fn text() -> impl Strategy<Value = String> {
    let odd = "[a-zA-Z\"\\\\'#=\\[\\]äß½ \\t\\n\\r\u{7f}\u{1}☃]{0,20}";
    (odd, "[a-z]").prop_map(|(odd, end)| format!("{odd}{end}"))
}

pub fn woods(most: usize) -> impl Strategy<Value = Vec<String>> {
    let one = prop::sample::select(vec![
        "hard maple",
        "walnut",
        "Cherry, black",
        "my plum",
        "#1\"",
    ]);
    vec(one.prop_map(String::from), 0..=most)
}

pub fn point() -> impl Strategy<Value = FormPoint> {
    (length(0.0, 50.0), length(0.0, 1500.0), any::<bool>()).prop_map(|(height, radius, corner)| {
        FormPoint {
            height,
            radius,
            corner,
        }
    })
}

/// Points, each above the one before.
pub fn points() -> impl Strategy<Value = Vec<FormPoint>> {
    vec(point(), 2..12).prop_map(|mut points| {
        let mut below = Length::ZERO;
        for p in &mut points {
            p.height = below + p.height + Length::mm(0.01);
            below = p.height;
        }
        points
    })
}

pub fn inner() -> impl Strategy<Value = InnerSpec> {
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

pub fn form() -> impl Strategy<Value = FormSpec> {
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

pub fn floor() -> impl Strategy<Value = FloorSpec> {
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

pub fn ring() -> impl Strategy<Value = RingSpec> {
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

pub fn band() -> impl Strategy<Value = BandSpec> {
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

pub fn rings() -> impl Strategy<Value = RingsSpec> {
    prop_oneof![
        option::of(length(1.1, 2999.0)).prop_map(|height| RingsSpec::Auto { height }),
        (1..40_usize).prop_map(RingsSpec::Count),
        vec(ring(), 1..5).prop_map(RingsSpec::Listed),
    ]
}

pub fn split() -> impl Strategy<Value = SplitSpec> {
    (length(0.6, 2999.0), degrees(0.6, 360.0), option::of(text()))
        .prop_map(|(height, turn, saw)| SplitSpec { height, turn, saw })
}

pub fn section() -> impl Strategy<Value = SectionSpec> {
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

pub fn design() -> impl Strategy<Value = Design> {
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
