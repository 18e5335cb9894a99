//! `[holding]`: what holds the piece on the lathe, in either file.

use super::woods;
use crate::reader::{Lengths, Numbers, Table, Wholes};
use crate::units::Unit;
use crate::wood;
use crate::workshop::{Block, Fixing, HoldingSpec};

const THICKNESS: Lengths = Lengths::new("a waste block's thickness", 1.0, 500.0);
const DIAMETER: Lengths = Lengths::new("a diameter of the holding", 5.0, 3000.0);
const RECESS: Lengths = Lengths::new("what is cut away in the block", 0.0, 3000.0);
const SCREW: Lengths = Lengths::new("a screw's diameter", 1.0, 20.0);
const BITE: Lengths = Lengths::new("a screw's bite", 1.0, 300.0);
const STEADY: Lengths = Lengths::new("a steady rest's height", 1.0, 3000.0);
const BAR: Lengths = Lengths::new("a tool's bar", 3.0, 100.0);
const SCREWS: Wholes = Wholes {
    rule: "a faceplate has 2 to 48 screws",
    least: 2,
    most: 48,
};
const SAFETY: Numbers = Numbers {
    of: "the safety",
    in_what: "times",
    least: 1.0,
    most: 20.0,
};
const NEWTONS: Numbers = Numbers {
    of: "the tool's force",
    in_what: "newtons",
    least: 1.0,
    most: 2000.0,
};
const POUNDS: Numbers = Numbers {
    of: "the tool's force",
    in_what: "pounds of force",
    least: 0.25,
    most: 450.0,
};

/// Words for how the block hangs on the spindle.
pub(crate) const FIXINGS: [(&str, Fixing); 2] =
    [("screws", Fixing::Screws), ("tenon", Fixing::Tenon)];

/// Keys that stand in a project's `[holding]` only.
const IN_PROJECT: [(&str, &str); 2] = [
    (
        "thickness",
        "in the workshop file it is waste_block in [sled]",
    ),
    ("steady", "it belongs in the project file"),
];

/// What a project says.
pub(super) fn of_project(table: &Table<'_>) -> HoldingSpec {
    let mut said = common(table);
    said.thickness = table.length("thickness", &THICKNESS);
    said.steady = table.length("steady", &STEADY);
    table.finish(&[]);
    said
}

/// What a workshop says.
pub(super) fn of_workshop(table: &Table<'_>) -> HoldingSpec {
    let said = common(table);
    table.finish(&IN_PROJECT);
    said
}

fn common(table: &Table<'_>) -> HoldingSpec {
    let unit = table.log.unit();
    let forces = match unit {
        Unit::Mm => &NEWTONS,
        Unit::Inch => &POUNDS,
    };
    let force = table.get("tool_force").and_then(|i| i.figure(forces));
    let force = force.map(|f| unit.newtons(f));
    let said = HoldingSpec {
        block: block(table),
        diameter: table.length("diameter", &DIAMETER),
        recess: table.length("recess", &RECESS),
        recess_depth: table.length("recess_depth", &THICKNESS),
        fixing: table.get("fixing").and_then(|i| i.choice(&FIXINGS)),
        screws: table.whole("screws", &SCREWS),
        screw_diameter: table.length("screw_diameter", &SCREW),
        screw_bite: table.length("screw_bite", &BITE),
        screw_circle: table.length("screw_circle", &DIAMETER),
        tenon: table.length("tenon", &DIAMETER),
        tool_force: force,
        safety: table.get("safety").and_then(|i| i.figure(&SAFETY)),
        tool_bar: table.length("tool_bar", &BAR),
        thickness: None,
        steady: None,
    };
    if let (Some(recess), Some(whole)) = (said.recess, said.diameter)
        && !whole.exceeds(recess)
    {
        table.trouble(
            "recess",
            "what is cut away is as wide as the block: nothing is left to hold".into(),
            "make recess smaller than diameter",
        );
    }
    said
}

fn block(table: &Table<'_>) -> Option<Block> {
    const PANELS: [Block; 3] = [Block::Particleboard, Block::Mdf, Block::Plywood];
    let item = table.get("block")?;
    let text = item.text()?;
    if let Some(panel) = Block::panel(&text) {
        return Some(panel);
    }
    let short: String = text.to_lowercase().chars().take(40).collect();
    let near = PANELS
        .iter()
        .find(|p| strsim::jaro_winkler(&short, p.word()) > 0.85);
    if wood::find(&text).is_err()
        && let Some(near) = near
    {
        item.trouble(
            "no such block",
            &format!("did you mean \"{}\"?", near.word()),
        );
        return None;
    }
    woods::built_in(&item).map(Block::Wood)
}
