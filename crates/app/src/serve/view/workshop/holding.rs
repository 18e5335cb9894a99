//! What holds the piece on the lathe: the workshop's, and a project's own.

use files::workshop::{Fixing, Holding, HoldingSpec};
use piece::piece::Piece;

use super::settings::{Setting, Value};
use crate::serve::view::blanks::Sheet;
use crate::serve::wire::Origin;
use files::edit::Quantity;

/// The settings of a holding.
pub fn held(h: &Holding) -> Vec<Setting> {
    let length = |key: &str, label: &str, value, least, most| {
        let path = format!("holding.{key}");
        Setting::new(path, label, Value::Length(value), least, most)
    };
    let fixings = &[
        ("screws", "screws through a faceplate"),
        ("tenon", "a tenon in a chuck's jaws"),
    ];
    let fixing = match h.fixing {
        Fixing::Screws => "screws",
        Fixing::Tenon => "tenon",
    };
    let force = Value::Measured(Quantity::Force, h.tool_force);
    vec![
        Setting::words(
            "holding.block",
            "waste block, a panel or a wood",
            Value::Text(h.block.word().into()),
        ),
        length("diameter", "its diameter", h.diameter, 5.0, 3000.0),
        length(
            "recess",
            "cut away in its middle, across",
            Some(h.recess),
            0.0,
            3000.0,
        ),
        length("recess_depth", "depth of that", h.recess_depth, 1.0, 500.0),
        Setting::words("holding.fixing", "fixed by", Value::Choice(fixing, fixings)),
        Setting::new(
            "holding.screws",
            "screws",
            Value::Whole(h.screws),
            2.0,
            48.0,
        ),
        length(
            "screw_diameter",
            "diameter of their threads",
            Some(h.screw_diameter),
            1.0,
            20.0,
        ),
        length(
            "screw_bite",
            "how deep they go into the block",
            Some(h.screw_bite),
            1.0,
            300.0,
        ),
        length(
            "screw_circle",
            "circle they stand on, across",
            Some(h.screw_circle),
            5.0,
            3000.0,
        ),
        length("tenon", "tenon, across", Some(h.tenon), 5.0, 3000.0),
        Setting::new(
            "holding.tool_force",
            "force of the tool",
            force,
            1.0,
            2000.0,
        ),
        Setting::new(
            "holding.safety",
            "how many times that must be borne",
            Value::Number(Some(h.safety), "times"),
            1.0,
            20.0,
        ),
        length(
            "tool_bar",
            "bar of the hollowing tool",
            Some(h.tool_bar),
            3.0,
            100.0,
        ),
    ]
}

/// A project's own blanks of it: what the piece is held by, from whoever says so.
pub fn holding(sheet: &mut Sheet, own: &HoldingSpec, piece: &Piece) {
    let shop = &piece.workshop;
    let mut settings = held(&shop.holding);
    settings.push(Setting::new(
        "holding.thickness",
        "thickness of the waste block",
        Value::Length(Some(shop.sled.waste_block)),
        1.0,
        500.0,
    ));
    settings.push(Setting::new(
        "holding.steady",
        "height of a steady rest above the foot",
        Value::Length(shop.holding.steady),
        1.0,
        3000.0,
    ));
    for setting in settings {
        let origin = match setting.path.trim_start_matches("holding.") {
            key if says(own, key) => Origin::Maker,
            "thickness" if shop.gives("sled.waste_block") => Origin::Workshop,
            _ if shop.gives(&setting.path) => Origin::Workshop,
            _ => Origin::Default,
        };
        setting.put(sheet, origin);
    }
}

/// Whether a project says a key itself.
fn says(own: &HoldingSpec, key: &str) -> bool {
    match key {
        "block" => own.block.is_some(),
        "thickness" => own.thickness.is_some(),
        "diameter" => own.diameter.is_some(),
        "recess" => own.recess.is_some(),
        "recess_depth" => own.recess_depth.is_some(),
        "fixing" => own.fixing.is_some(),
        "screws" => own.screws.is_some(),
        "screw_diameter" => own.screw_diameter.is_some(),
        "screw_bite" => own.screw_bite.is_some(),
        "screw_circle" => own.screw_circle.is_some(),
        "tenon" => own.tenon.is_some(),
        "tool_force" => own.tool_force.is_some(),
        "safety" => own.safety.is_some(),
        "steady" => own.steady.is_some(),
        "tool_bar" => own.tool_bar.is_some(),
        _ => false,
    }
}
