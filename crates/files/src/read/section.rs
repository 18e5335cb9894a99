//! `[[section]]`: rings, loop bands and splits that are worked together.

use std::collections::BTreeMap;

use geometry::Angle;

use super::{BOARD, SEGMENTS, band, ring, woods};
use crate::design::{OwnWood, RingsSpec, SectionSpec, SplitSpec};
use crate::reader::{Angles, Lengths, Table, Wholes};

pub(super) const RING_HEIGHT: Lengths = Lengths::new("a ring's height", 0.5, 300.0);
pub(super) const TURN: Angles = Angles {
    of: "a turn",
    least: -360.0,
    most: 360.0,
};
const SECTION_HEIGHT: Lengths = Lengths::new("a section's height", 1.0, 3000.0);
const SPLIT_HEIGHT: Lengths = Lengths::new("the height of a split", 0.5, 3000.0);
const RINGS: Wholes = Wholes {
    rule: "a section has 1 to 400 rings",
    least: 1,
    most: MOST_RINGS,
};

/// Most entries of one kind in a section.
const MOST_RINGS: usize = 400;
const MOST_BANDS: usize = 12;
const MOST_SPLITS: usize = 12;

const ELSEWHERE: [(&str, &str); 8] = [
    ("tilt", "it belongs in a [[section.band]]"),
    ("reach", "it belongs in a [[section.band]]"),
    ("loops", "it belongs in a [[section.band]]"),
    ("layer", "it belongs in a [[section.band]]"),
    ("spacer", "it belongs in a [[section.band]]"),
    (
        "floor",
        "it belongs in a [[section.ring]]; the form's own floor in [form]",
    ),
    ("width", "it belongs in a [[section.ring]]"),
    ("outside", "it belongs in a [[section.ring]]"),
];

pub(super) fn read(table: &Table<'_>, own: &BTreeMap<String, OwnWood>) -> SectionSpec {
    let name = table.text("name");
    table.need(
        "name",
        "every section has one, to be told by in the plan",
        "write name = \"body\" or the like",
    );
    let mut section = SectionSpec {
        // A name of its own, so that two unnamed sections are not told to be alike.
        name: name.unwrap_or_else(|| table.path.clone()),
        wood: woods::pattern(table, own),
        segments: table.whole("segments", &SEGMENTS),
        stock: table.length("stock", &BOARD),
        ring_height: table.length("ring_height", &RING_HEIGHT),
        joint_turn: joint_turn(table),
        turn: table.angle("turn", &TURN),
        ..SectionSpec::default()
    };
    if let (Some(stock), Some(height)) = (section.stock, section.ring_height)
        && height.exceeds(stock)
    {
        let unit = table.log.unit();
        table.trouble(
            "ring_height",
            format!(
                "a ring of {} cannot be had from {} stock",
                unit.length(height),
                unit.length(stock)
            ),
            "make ring_height less than stock by what flattening takes, or use thicker stock",
        );
    }
    section.rings = rings(table, &section, own);
    section.bands = table
        .tables("band", MOST_BANDS)
        .iter()
        .map(|t| band::read(t, own))
        .collect();
    section.splits = table
        .tables("split", MOST_SPLITS)
        .iter()
        .map(split)
        .collect();
    table.finish(&ELSEWHERE);
    section
}

fn joint_turn(table: &Table<'_>) -> Option<Angle> {
    let item = table.get("joint_turn")?;
    // Half a segment is what is taken where nothing is said.
    if item.is_word("half") {
        return None;
    }
    if item.is_text() {
        item.trouble("no such turn", "write degrees as a number, or \"half\"");
        return None;
    }
    item.angle(&TURN)
}

fn rings(table: &Table<'_>, section: &SectionSpec, own: &BTreeMap<String, OwnWood>) -> RingsSpec {
    let height = table.length("height", &SECTION_HEIGHT);
    let count = table.get("rings").and_then(|item| {
        if item.is_word("auto") {
            return None;
        }
        if item.is_text() {
            item.trouble("no such choice", "write how many rings, or \"auto\"");
            return None;
        }
        item.whole(&RINGS)
    });
    let listed = table.tables("ring", MOST_RINGS);
    let listed: Vec<_> = listed.iter().map(|t| ring::read(t, section, own)).collect();
    if table.has("ring") {
        table.both("ring", "rings", "the rings are either listed or counted");
        if table.has("height") {
            table.trouble(
                "height",
                "height goes with rings = \"auto\", but these rings are listed".into(),
                "leave height out; the listed rings make it",
            );
        }
        let all: usize = listed.iter().map(|r| r.repeat.unwrap_or(1)).sum();
        if all > MOST_RINGS {
            let what = format!("{all} rings: {}", RINGS.rule);
            table.trouble("ring", what, "spread them over several sections");
        }
        return RingsSpec::Listed(listed);
    }
    match count {
        Some(count) => {
            if table.has("height") {
                table.trouble(
                    "height",
                    format!("height goes with rings = \"auto\", but rings = {count}"),
                    "leave one of the two out",
                );
            }
            RingsSpec::Count(count)
        }
        None => RingsSpec::Auto { height },
    }
}

fn split(table: &Table<'_>) -> SplitSpec {
    let height = table.length("height", &SPLIT_HEIGHT);
    table.need(
        "height",
        "it says where the section is sawn apart",
        "write it above the section's underside",
    );
    let turn = table.angle("turn", &TURN);
    table.need(
        "turn",
        "it says how far the upper part is turned",
        "write it in degrees, as in turn = 15",
    );
    if turn.is_some_and(|t| t.within(Angle::ZERO, Angle::deg(1e-9))) {
        table.trouble(
            "turn",
            "a split that is not turned changes nothing but the height".into(),
            "write the turn in degrees, or take the split out",
        );
    }
    let split = SplitSpec {
        height: height.unwrap_or_default(),
        turn: turn.unwrap_or_default(),
        saw: table.text("saw"),
    };
    table.finish(&[]);
    split
}
