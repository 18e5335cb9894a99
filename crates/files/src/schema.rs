//! The two files as JSON Schema (draft 2020-12), so that an editor completes and checks
//! them as they are typed.
//!
//! ```text
//!   KeyTable ──► object with properties, required keys and rivals
//!     Key ──► quantity as a type with its range, documentation, usual value
//! ```
//!
//! A schema knows neither the unit of a plain number nor what follows from another key's
//! value. A range for plain numbers therefore reaches from its least in inches to its most
//! in millimetres, and the reader remains the law.

mod quantity;

use serde_json::{Map, Value, json};

use crate::keys::{File, Fixed, Key, KeyTable, Quantity, Usual};
use crate::units::Unit;

/// The schema of one of the two files.
///
/// ```
/// use files::keys::File;
/// use files::schema::schema;
/// let project = schema(File::Project);
/// let ring = &project["properties"]["section"]["items"]["properties"]["ring"]["items"];
/// assert_eq!(ring["properties"]["repeat"]["maximum"], 400);
/// assert_eq!(project["additionalProperties"], false);
/// ```
pub fn schema(file: File) -> Value {
    let mut root = table(file, file.table());
    root.insert(
        "$schema".into(),
        "https://json-schema.org/draft/2020-12/schema".into(),
    );
    let title = match file {
        File::Project => "Ringwright project",
        File::Workshop => "Ringwright workshop",
    };
    root.insert("title".into(), title.into());
    root.insert("$defs".into(), quantity::shared());
    Value::Object(root)
}

/// A table of keys as an object.
fn table(file: File, table: &'static KeyTable) -> Map<String, Value> {
    let mut properties = Map::new();
    let mut required: Vec<Value> = Vec::new();
    for key in table.keys_of(file) {
        properties.insert(key.name.into(), property(file, key));
        if matches!(key.usual, Usual::Must(..) | Usual::Meanwhile(..)) {
            required.push(key.name.into());
        }
    }
    for moved in table.moved {
        let mut old = quantity::taken(file, moved.quantity);
        let said = format!("{} now; still read here", moved.to);
        old.insert("description".into(), said.into());
        old.insert("deprecated".into(), true.into());
        properties.insert(moved.name.into(), Value::Object(old));
    }
    let mut out = Map::new();
    out.insert("type".into(), "object".into());
    out.insert("description".into(), table.doc().into());
    out.insert("properties".into(), Value::Object(properties));
    out.insert("additionalProperties".into(), false.into());
    if !required.is_empty() {
        out.insert("required".into(), required.into());
    }
    let mut rules = rivals(table);
    rules.extend(displaced(table));
    if !rules.is_empty() {
        out.insert("allOf".into(), rules.into());
    }
    out
}

/// Keys that exclude each other, and of which one must be there.
fn rivals(table: &KeyTable) -> Vec<Value> {
    let mut rules = Vec::new();
    for pair in table.rivals {
        let (one, other) = (pair.one, pair.other);
        rules.push(json!({ "not": { "required": [one, other] } }));
        if pair.neither.is_some() {
            rules.push(json!({ "anyOf": [{ "required": [one] }, { "required": [other] }] }));
        }
    }
    rules
}

/// Keys that take the place of others: where one stands, or says `true`, the others do not.
fn displaced(table: &KeyTable) -> impl Iterator<Item = Value> {
    table.displaces.iter().map(|(by, others)| {
        let none: Vec<Value> = others
            .iter()
            .map(|o| json!({ "not": { "required": [o] } }))
            .collect();
        let is_flag = table
            .keys
            .iter()
            .any(|key| key.name == *by && matches!(key.quantity, Quantity::Flag));
        let stands = if is_flag {
            json!({ "required": [by], "properties": { *by: { "const": true } } })
        } else {
            json!({ "required": [by] })
        };
        json!({ "if": stands, "then": { "allOf": none } })
    })
}

fn property(file: File, key: &'static Key) -> Value {
    let mut out = quantity::taken(file, key.quantity);
    let mut said = key.doc();
    if let Some(usual) = left_out(key) {
        said += &format!(" (left out: {usual})");
    }
    out.insert("description".into(), said.into());
    if let Usual::Is(fixed) = key.usual
        && let Some(value) = value(fixed)
    {
        out.insert("default".into(), value);
    }
    Value::Object(out)
}

/// What holds where a key is left out, in words; nothing where it stands as `default` or
/// the key must be there.
fn left_out(key: &Key) -> Option<String> {
    match key.usual {
        Usual::Nothing(words) | Usual::Follows(words) | Usual::Above(words) => Some(words.into()),
        Usual::Workshop(path) => Some(format!("the workshop file's {path}")),
        Usual::Must(..) | Usual::Meanwhile(..) | Usual::OneOf(..) | Usual::Is(_) => None,
    }
}

/// A value as a file may write it whatever its unit.
fn value(fixed: Fixed) -> Option<Value> {
    let text = |length| Value::from(Unit::Mm.length(length));
    Some(match fixed {
        Fixed::Nothing => return None,
        Fixed::Length(length) => text(length),
        Fixed::Lengths(all) => all.iter().map(|l| text(*l)).collect(),
        Fixed::Angle(angle) => json!(angle.as_deg()),
        Fixed::Count(count) => count.into(),
        Fixed::Number(number) => json!(number),
        Fixed::Flag(flag) => flag.into(),
        Fixed::Word(word) => word.into(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every object of a schema.
    fn each(value: &Value, see: &mut impl FnMut(&Map<String, Value>)) {
        match value {
            Value::Object(map) => {
                see(map);
                map.values().for_each(|v| each(v, see));
            }
            Value::Array(all) => all.iter().for_each(|v| each(v, see)),
            _ => {}
        }
    }

    #[test]
    fn every_key_of_both_files_is_there_with_its_documentation() {
        fn count(file: File, table: &'static KeyTable) -> usize {
            let below = |key: &'static Key| key.quantity.table().map_or(0, |t| count(file, t));
            let keys: usize = table.keys_of(file).map(|key| 1 + below(key)).sum();
            keys + table.moved.len()
        }
        for file in [File::Project, File::Workshop] {
            let mut properties = 0;
            each(&schema(file), &mut |object| {
                // A rule between keys has properties too, but allows all others.
                if let (Some(Value::Object(all)), Some(_)) =
                    (object.get("properties"), object.get("additionalProperties"))
                {
                    properties += all.len();
                    for (name, property) in all {
                        let said = property["description"].as_str().unwrap_or_default();
                        assert!(!said.is_empty(), "{name} says nothing");
                    }
                }
            });
            assert_eq!(properties, count(file, file.table()));
        }
    }

    #[test]
    fn a_default_lies_within_its_own_range() {
        for file in [File::Project, File::Workshop] {
            each(&schema(file), &mut |object| {
                let number = |name: &str| object.get(name).and_then(Value::as_f64);
                if let Some(usual) = number("default") {
                    assert!(number("minimum").is_none_or(|least| least <= usual));
                    assert!(number("maximum").is_none_or(|most| usual <= most));
                }
            });
        }
    }
}
