//! `[[section.band]]`: a loop band.

use std::collections::BTreeMap;

use geometry::Angle;

use super::{SEGMENTS, woods};
use crate::design::{BandSpec, BlankShape, LayerMake, OwnWood};
use crate::reader::{Angles, Lengths, Table, Wholes};

const LOOPS: Wholes = Wholes {
    rule: "a band has 2 to 16 loops",
    least: 2,
    most: 16,
};
const ORDER: Wholes = Wholes {
    rule: "a loop's number is from 1 to how many there are",
    least: 1,
    most: 16,
};
const AZIMUTH: Angles = Angles {
    of: "an azimuth",
    least: -360.0,
    most: 360.0,
};
const TILT: Angles = Angles {
    of: "a tilt (0° is straight across)",
    least: 1.0,
    most: 75.0,
};
const HEIGHT: Lengths = Lengths::new("the height of a band's middle", 0.5, 3000.0);
const REACH: Lengths = Lengths::new("a reach", 1.0, 2000.0);
const LAYER: Lengths = Lengths::new("a layer", 0.2, 100.0);
const SPACER: Lengths = Lengths::new("a spacer", 0.2, 200.0);
const GLUE_LINE: Lengths = Lengths::new("a glue line", 0.0, 1.0);

const ELSEWHERE: [(&str, &str); 3] = [
    ("stock", "a layer's thickness is given by layer or spacer"),
    ("rings", "rings belong in the [[section]]"),
    (
        "turn",
        "a turn belongs in the [[section]] or a [[section.split]]; azimuths are set by start",
    ),
];

pub(super) fn read(table: &Table<'_>, own: &BTreeMap<String, OwnWood>) -> BandSpec {
    let azimuths = azimuths(table);
    let mut band = BandSpec {
        loops: table.whole("loops", &LOOPS),
        azimuths,
        start: table.angle("start", &AZIMUTH),
        height: table.length("height", &HEIGHT),
        tilt: table.angle("tilt", &TILT),
        reach: table.length("reach", &REACH),
        wood: woods::pattern(table, own),
        layer: table.length("layer", &LAYER),
        spacer: table.length("spacer", &SPACER),
        saw: table.text("saw"),
        glue_line: table.length("glue_line", &GLUE_LINE),
        order: Vec::new(),
        make: table.get("make").and_then(|item| {
            item.choice(&[
                ("solid", LayerMake::Solid),
                ("round ring", LayerMake::RoundRing),
                ("long ring", LayerMake::LongRing),
            ])
        }),
        segments: table.whole("segments", &SEGMENTS),
        blank: table.get("blank").and_then(|item| {
            item.choice(&[
                ("cylinder", BlankShape::Cylinder),
                ("polygon", BlankShape::Polygon),
            ])
        }),
    };
    band.order = order(table, &band);
    one_of_each(table);
    goes_together(table, &band);
    table.finish(&ELSEWHERE);
    band
}

/// Two keys of which one is wanted, and why.
const PAIRS: [(&str, &str, &str, &str); 3] = [
    (
        "loops",
        "azimuths",
        "loops evenly spaced or each at its own azimuth",
        "write loops = 4 or the like, or azimuths = [0, 90, ...]",
    ),
    (
        "tilt",
        "reach",
        "one gives the other",
        "write tilt in degrees, or reach from the lowest to the highest edge on the wall",
    ),
    (
        "layer",
        "spacer",
        "one gives the other",
        "write the layer's thickness, or the spacer that stands under the faceplate",
    ),
];

fn one_of_each(table: &Table<'_>) {
    for (one, other, why, remedy) in PAIRS {
        table.both(one, other, why);
        table.need_any(
            &[one, other],
            format!("neither {one} nor {other}: a band needs one of them"),
            remedy,
        );
    }
    table.need(
        "height",
        "it says where the loops' middle is",
        "write it above the section's underside",
    );
    table.need(
        "wood",
        "a layer needs one",
        "write wood = \"holly\" or the like, one that stands out from the section's",
    );
}

fn goes_together(table: &Table<'_>, band: &BandSpec) {
    if table.has("start") && table.has("azimuths") {
        table.trouble(
            "start",
            "start goes with loops; azimuths already say where each loop is".into(),
            "take one of the two out",
        );
    }
    if table.has("segments") && band.make == Some(LayerMake::Solid) {
        table.trouble(
            "segments",
            "segments go with a layer made as a ring, but this one is solid".into(),
            "take segments out, or write make = \"round ring\"",
        );
    }
    let count = loops_of(band);
    if count > 0 && band.wood.len() > count {
        table.trouble(
            "wood",
            format!("{} woods for {count} loops", band.wood.len()),
            "name one wood, or one for each loop",
        );
    }
}

fn loops_of(band: &BandSpec) -> usize {
    band.loops.unwrap_or(band.azimuths.len())
}

fn azimuths(table: &Table<'_>) -> Vec<Angle> {
    let Some(item) = table.get("azimuths") else {
        return Vec::new();
    };
    let Some(items) = item.list("azimuth", LOOPS.most) else {
        return Vec::new();
    };
    if items.len() < LOOPS.least {
        item.trouble(LOOPS.rule, "write an azimuth for each loop, as in [0, 90]");
    }
    let angles: Vec<Option<Angle>> = items.iter().map(|i| i.angle(&AZIMUTH)).collect();
    for (at, angle) in angles.iter().enumerate() {
        let Some(angle) = angle else { continue };
        let near = |other: &Angle| {
            let apart = (other.as_deg() - angle.as_deg()).rem_euclid(360.0);
            apart.min(360.0 - apart) < 1e-6
        };
        if angles[..at].iter().flatten().any(near) {
            items[at].trouble(
                "two loops at one azimuth would be one and the same cut",
                "give each loop an azimuth of its own",
            );
        }
    }
    angles.into_iter().flatten().collect()
}

fn order(table: &Table<'_>, band: &BandSpec) -> Vec<usize> {
    let Some(item) = table.get("order") else {
        return Vec::new();
    };
    let items = item.list("entry", 100).unwrap_or_default();
    let numbers: Vec<Option<usize>> = items.iter().map(|i| i.whole(&ORDER)).collect();
    let Some(numbers) = numbers.into_iter().collect::<Option<Vec<usize>>>() else {
        return Vec::new();
    };
    let count = loops_of(band);
    let mut sorted = numbers.clone();
    sorted.sort_unstable();
    // Where the loops themselves are wrong, that is told already.
    if count > 0 && item.is_list() && sorted != (1..=count).collect::<Vec<_>>() {
        item.trouble(
            &format!("the order must name each of the {count} loops once"),
            &format!("write the numbers 1 to {count} in the order of cutting"),
        );
    }
    numbers
}
