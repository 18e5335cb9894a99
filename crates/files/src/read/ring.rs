//! `[[section.ring]]`: one ring, where it differs from its section.

use std::collections::BTreeMap;

use super::section::{RING_HEIGHT, TURN};
use super::{BOARD, SEGMENTS, woods};
use crate::design::{FloorSpec, OwnWood, RingSpec, SectionSpec};
use crate::reader::{Lengths, Table, Wholes};

const OUTSIDE: Lengths = Lengths::new("a ring's diameter across flats", 2.0, 3000.0);
const WIDTH: Lengths = Lengths::new("a board's width", 1.0, 1500.0);
const PANEL: Lengths = Lengths::new("a floor panel's thickness", 0.5, 100.0);
const ABOVE: Lengths = Lengths::new(
    "the height of a panel above its ring's underside",
    0.0,
    300.0,
);
const GROOVE: Lengths = Lengths::new("the depth of a groove", 0.0, 100.0);
const GAP: Lengths = Lengths::new("the room at a panel's edge", 0.0, 20.0);
const REPEAT: Wholes = Wholes {
    rule: "1 to 400 rings can be alike",
    least: 1,
    most: 400,
};

pub(super) fn read(
    table: &Table<'_>,
    section: &SectionSpec,
    own: &BTreeMap<String, OwnWood>,
) -> RingSpec {
    let ring = RingSpec {
        repeat: table.whole("repeat", &REPEAT),
        wood: woods::pattern(table, own),
        segments: table.whole("segments", &SEGMENTS),
        stock: table.length("stock", &BOARD),
        height: table.length("height", &RING_HEIGHT),
        turn: table.angle("turn", &TURN),
        outside: table.length("outside", &OUTSIDE),
        width: table.length("width", &WIDTH),
        solid: table.flag("solid").unwrap_or(false),
        floor: table
            .get("floor")
            .and_then(|item| item.table())
            .map(|t| floor(&t, own)),
    };
    only_of_segments(table, &ring);
    fits_its_stock(table, &ring, section);
    if let (Some(outside), Some(width)) = (ring.outside, ring.width)
        && (width * 2.0).exceeds(outside)
    {
        let unit = table.log.unit();
        table.trouble(
            "width",
            format!(
                "a board {} wide is more than half of a ring of {}",
                unit.length(width),
                unit.length(outside)
            ),
            "make the board narrower, or write solid = true for a disc",
        );
    }
    table.finish(&[]);
    ring
}

fn only_of_segments(table: &Table<'_>, ring: &RingSpec) {
    if !ring.solid {
        return;
    }
    for key in ["segments", "width", "floor"] {
        if table.has(key) {
            table.trouble(
                key,
                format!("a solid ring has no {key}"),
                &format!("take out {key} or solid = true"),
            );
        }
    }
    if ring.wood.len() > 1 {
        table.trouble(
            "wood",
            "a solid ring is of one wood".into(),
            "name one wood, or take solid = true out",
        );
    }
}

fn fits_its_stock(table: &Table<'_>, ring: &RingSpec, section: &SectionSpec) {
    if ring.stock.is_none() && ring.height.is_none() {
        return;
    }
    let stock = ring.stock.or(section.stock);
    let height = ring.height.or(section.ring_height);
    if let (Some(stock), Some(height)) = (stock, height)
        && height.exceeds(stock)
    {
        let unit = table.log.unit();
        table.trouble(
            if ring.height.is_some() {
                "height"
            } else {
                "stock"
            },
            format!(
                "a ring of {} cannot be had from {} stock",
                unit.length(height),
                unit.length(stock)
            ),
            "make the ring lower than the stock by what flattening takes, or use thicker stock",
        );
    }
}

fn floor(table: &Table<'_>, own: &BTreeMap<String, OwnWood>) -> FloorSpec {
    let wood = table.get("wood").and_then(|item| woods::known(&item, own));
    table.need(
        "wood",
        "a floor panel needs one",
        "write floor = { wood = \"cherry\" } or the like",
    );
    let floor = FloorSpec {
        wood: wood.unwrap_or_default(),
        thickness: table.length("thickness", &PANEL),
        above: table.length("above", &ABOVE),
        groove: table.length("groove", &GROOVE),
        // Solid wood across a ring moves; a panel floats unless the maker says otherwise.
        floating: table.flag("floating").unwrap_or(true),
        gap: table.length("gap", &GAP),
    };
    if table.has("gap") && !floor.floating {
        table.trouble(
            "gap",
            "a glued panel has no room at its edge".into(),
            "take gap out, or write floating = true",
        );
    }
    table.finish(&[]);
    floor
}
