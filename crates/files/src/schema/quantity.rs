//! What a key takes, as a type of JSON Schema.

use serde_json::{Map, Value, json};

use super::table as table_schema;
use crate::design::id;
use crate::keys::{Angles, Counts, File, Lengths, Numbers, Points, Quantity, Word};
use crate::read::FORMAT;
use crate::reader::LONGEST_NAME;
use crate::wood;

/// A length as text, as [`crate::units::parse_length`] takes it: decimals, fractions, feet
/// with inches. What it lets through the reader may still refuse.
const LENGTH: &str = concat!(
    r"^\s*[-−+]?\s*",
    r"(\d+(\.\d*)?|\.\d+|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])[-–\s]*((\d+\s*)?[/⁄]\s*\d+|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])?\s*",
    r#"([mM][mM]|[cC][mM]|[mM]|[mM][iI][lL][lL][iI][mM][eE][tT]([rR][eE]|[eE][rR])[sS]?|"#,
    r#"[iI][nN]([cC][hH]([eE][sS])?|\.)?|[fF]([tT]\.?|[oO][oO][tT]|[eE][eE][tT])|["”“„″′]|['’‘]{1,2})?"#,
    r"([-–\s]*\d.*)?\s*$",
);

/// An angle as text: `15°`.
const ANGLE: &str = r"^\s*[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?\s*(°|deg|degrees)?\s*$";

type Object = Map<String, Value>;

/// What many keys take.
pub(super) fn shared() -> Value {
    let mut names: Vec<&str> = wood::all().iter().map(|w| w.plain.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    json!({
        "length": {
            "description": "a length with its unit: \"6 3/8 in\", \"162 mm\"",
            "type": "string",
            "pattern": LENGTH,
        },
        "angle": { "description": "degrees: \"15°\"", "type": "string", "pattern": ANGLE },
        // Any words, for a project may have woods of its own; those of the list are offered.
        "wood": { "type": "string", "examples": names },
    })
}

/// The type of what a key takes.
pub(super) fn taken(file: File, quantity: Quantity) -> Object {
    let value = match quantity {
        Quantity::Format => json!({ "const": FORMAT }),
        Quantity::Length(range) => length(&range),
        Quantity::Angle(range) => angle(&range),
        Quantity::Turn(range) => either(angle(&range), "half"),
        Quantity::Count(range) => count(&range),
        Quantity::Rings(range) => either(count(&range), "auto"),
        Quantity::Number(range) => number(range.least, range.most),
        Quantity::Scaled(_, metric, inch) => scaled(&metric, &inch),
        Quantity::Flag => json!({ "type": "boolean" }),
        Quantity::Text(most) => text(most),
        Quantity::Saw => json!({ "type": "string" }),
        Quantity::Id => json!({ "type": "string", "pattern": id::PATTERN }),
        Quantity::Colour => json!({ "type": "string", "pattern": "^#[0-9A-Fa-f]{6}$" }),
        Quantity::Choice(words) => choice(words),
        Quantity::ListedWood | Quantity::Wood | Quantity::Block => wood_name(),
        Quantity::Woods(most) => json!({ "anyOf": [
            wood_name(),
            { "type": "array", "items": wood_name(), "minItems": 1, "maxItems": most },
        ] }),
        Quantity::Lengths(range, most) => {
            json!({ "type": "array", "items": length(&range), "minItems": 1, "maxItems": most })
        }
        Quantity::Angles(many, range) => json!({
            "type": "array", "items": angle(&range),
            "minItems": many.least, "maxItems": many.most, "uniqueItems": true,
        }),
        Quantity::Counts(range, most) => json!({
            "type": "array", "items": count(&range), "maxItems": most, "uniqueItems": true,
        }),
        Quantity::Corner => json!({ "const": "corner" }),
        Quantity::Point(points) => point(points),
        Quantity::Points(points) => curve(points),
        Quantity::Wall(points) => json!({ "anyOf": [length(&points.across), curve(points)] }),
        Quantity::Table(table) => return table_schema(file, table),
        Quantity::Tables(table, most) => {
            json!({ "type": "array", "items": table_schema(file, table), "maxItems": most })
        }
        Quantity::Named(table) => json!({
            "type": "object",
            "propertyNames": { "maxLength": LONGEST_NAME, "pattern": r"\S" },
            "additionalProperties": table_schema(file, table),
        }),
    };
    match value {
        Value::Object(object) => object,
        // Every arm above is an object.
        _ => Object::new(),
    }
}

fn number(least: f64, most: f64) -> Value {
    json!({ "type": "number", "minimum": least, "maximum": most })
}

/// A plain number is in the file's unit: from the least in either to the most in either.
fn length(range: &Lengths) -> Value {
    const INCH: f64 = 25.4;
    // A figure at the end of its range stays in it when it was written in inches.
    let inches = |mm: f64| (mm / INCH * 1e6).floor() / 1e6;
    let least = range.least.min(inches(range.least));
    json!({ "anyOf": [
        number(least, range.most),
        { "$ref": "#/$defs/length" },
    ] })
}

fn angle(range: &Angles) -> Value {
    json!({ "anyOf": [
        number(range.least, range.most),
        { "$ref": "#/$defs/angle" },
    ] })
}

fn count(range: &Counts) -> Value {
    json!({ "type": "integer", "minimum": range.least, "maximum": range.most })
}

fn scaled(metric: &Numbers, inch: &Numbers) -> Value {
    number(metric.least.min(inch.least), metric.most.max(inch.most))
}

/// What is taken otherwise, or one word.
fn either(taken: Value, word: &str) -> Value {
    json!({ "anyOf": [taken, { "const": word }] })
}

fn text(most: usize) -> Value {
    json!({ "type": "string", "maxLength": most, "pattern": r"\S" })
}

fn choice(words: &[Word]) -> Value {
    let words: Vec<&str> = words.iter().map(|w| w.word).collect();
    json!({ "enum": words })
}

fn wood_name() -> Value {
    json!({ "$ref": "#/$defs/wood" })
}

fn point(points: &Points) -> Value {
    let mut parts = vec![length(&points.height), length(&points.across)];
    if points.corners {
        parts.push(json!({ "const": "corner" }));
    }
    json!({ "type": "array", "prefixItems": parts, "items": false, "minItems": 2 })
}

fn curve(points: &Points) -> Value {
    json!({
        "type": "array", "items": point(points),
        "minItems": points.least.max(1), "maxItems": points.most,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_in_an_inch_file_is_in_range() {
        // A quarter inch where 2 to 50 mm is taken.
        let range = length(&Lengths::new("a board", 2.0, 50.0));
        let number = &range["anyOf"][0];
        assert!(number["minimum"].as_f64().unwrap() < 0.25);
        assert_eq!(number["maximum"], 50.0);
    }
}
