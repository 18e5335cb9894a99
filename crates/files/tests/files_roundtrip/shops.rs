//! Workshops by chance.

use files::units::Unit;
use files::workshop::{Block, Fixing, HoldingSpec, Saw, SawKind, Workshop};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

use crate::designs::{degrees, length, text};

pub fn saw(kind: SawKind) -> impl Strategy<Value = Saw> {
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

pub fn holding() -> impl Strategy<Value = HoldingSpec> {
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

pub fn workshop() -> impl Strategy<Value = Workshop> {
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
