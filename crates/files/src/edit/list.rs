//! Entries of lists: points, rings, sections, bands, splits, saws.

use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, Value};

use super::asked::Words;
use super::change::{EditContext, SectionContext, section, settle};
use super::place::{Place, give, take};
use super::rings;
use super::value::{Units, drag_degrees, drag_length, value};
use crate::design::BandSpec;
use crate::key::{KeyPath, Step};
use crate::keys::{File, Fixed, Found, KeyTable, Quantity, find};

type Done = Result<(), String>;

/// Puts a new entry into a list.
pub fn add(
    document: &mut DocumentMut,
    path: &KeyPath,
    at: usize,
    words: Option<&Words>,
    ground: &EditContext,
) -> Done {
    let steps = path.steps();
    let list = find(ground.file, path).map(|found| found.quantity);
    if let Some(list @ (Quantity::Points(_) | Quantity::Wall(_))) = list {
        let words = words.ok_or("a new point needs its place")?;
        let point = list.entry(at).ok_or("nothing can be added here")?;
        let point = value(point, words, ground.units)?;
        let array = Place::Table(document).at(&steps).and_then(Place::array);
        insert(array.ok_or("there is no such list")?, at, point);
        return Ok(());
    }
    match path.pattern().as_str() {
        "section" => add_section(document, at),
        "section[].ring" => add_ring(document, path, at, ground),
        "section[].band" => add_made(document, path, at, ground, new_band),
        "section[].split" => add_made(document, path, at, ground, new_split),
        "saw" if ground.file == File::Workshop => {
            let item = document
                .entry("saw")
                .or_insert(Item::ArrayOfTables(ArrayOfTables::new()));
            let saws = rings::tables(item)?;
            let mut saw = Table::new();
            saw.insert(
                "name",
                toml_edit::value(unused("band saw", |n| {
                    saws.iter()
                        .any(|s| s.get("name").and_then(Item::as_str) == Some(n))
                })),
            );
            saw.insert("kind", toml_edit::value("band"));
            give(&mut saw, "kerf", length(1.2, ground.units)?, &[]);
            saws.insert(at.min(saws.len()), saw);
            Ok(())
        }
        _ => Err("nothing can be added here".into()),
    }
}

/// Takes an entry out of its list.
pub fn remove(document: &mut DocumentMut, path: &KeyPath, ground: &EditContext) -> Done {
    let path = settle(document, path, ground)?;
    let steps = path.steps();
    let (last, parents) = steps.split_last().ok_or("this is no entry")?;
    let Step::At(at) = last else {
        return Err("this is no entry of a list".into());
    };
    let empty = match Place::Table(document).at(parents) {
        Some(Place::Item(Item::ArrayOfTables(tables))) if *at < tables.len() => {
            tables.remove(*at);
            tables.is_empty()
        }
        Some(place) => {
            let array = place.array().filter(|a| *at < a.len());
            let array = array.ok_or_else(|| format!("there is no entry {}", at + 1))?;
            array.remove(*at);
            false
        }
        None => return Err("there is no such list".into()),
    };
    // An empty list of tables cannot be written; the file's reader says what is missing.
    if empty
        && let Some((above, Step::Key(key))) = parents.split_last().map(|(l, r)| (r, l))
        && let Some(table) = Place::Table(document).at(above).and_then(Place::table)
    {
        table.remove(key);
    }
    Ok(())
}

/// Moves an entry within its list.
pub fn shift(document: &mut DocumentMut, path: &KeyPath, to: usize, ground: &EditContext) -> Done {
    let real = matches!(path.steps().last(), Some(Step::Real(_)));
    let path = settle(document, path, ground)?;
    let steps = path.steps();
    let (last, parents) = steps.split_last().ok_or("this is no entry")?;
    let Step::At(at) = last else {
        return Err("this is no entry of a list".into());
    };
    match Place::Table(document).at(parents) {
        Some(Place::Item(Item::ArrayOfTables(tables))) if *at < tables.len() => {
            let mut entry = tables.get(*at).cloned().unwrap_or_default();
            tables.remove(*at);
            let to = if real {
                rings::gap(tables, to)?
            } else {
                to.min(tables.len())
            };
            rings::unplace(&mut entry);
            tables.insert(to, entry);
        }
        Some(place) => {
            let array = place.array().filter(|a| *at < a.len());
            let array = array.ok_or_else(|| format!("there is no entry {}", at + 1))?;
            let entry = array.remove(*at);
            array.insert_formatted(to.min(array.len()), entry);
            return Ok(());
        }
        None => return Err("there is no such list".into()),
    }
    // Tables are written in the order of the lists, not where they once stood.
    rings::unplace(document);
    Ok(())
}

/// Sets or clears a point's corner.
pub fn corner(document: &mut DocumentMut, point: &[Step], words: &Words) -> Done {
    let point = Place::Table(document).at(point).and_then(Place::array);
    let point = point
        .filter(|p| p.len() >= 2)
        .ok_or("there is no such point")?;
    let corner = match words {
        Words::Flag(yes) => *yes,
        Words::Text(word) => word == "corner",
        Words::None(()) => false,
        _ => return Err("a point is a corner or it is none".into()),
    };
    while point.len() > 2 {
        point.remove(point.len() - 1);
    }
    if corner {
        point.push("corner");
    }
    Ok(())
}

/// Sets a table of keys as a whole: a floor panel, by its wood, or nothing.
pub fn table(
    document: &mut DocumentMut,
    found: Found,
    parents: &[Step],
    words: &Words,
    ground: &EditContext,
) -> Done {
    if found.key.name != "floor" || found.quantity.table().is_none() {
        return Err("this is set part by part".into());
    }
    let ring = Place::Table(document).at(parents).and_then(Place::table);
    let ring = ring.ok_or("there is no such ring")?;
    if matches!(words, Words::None(())) {
        take(ring, "floor");
        return Ok(());
    }
    let mut floor = InlineTable::new();
    floor.insert("wood", value(Quantity::Wood, words, ground.units)?);
    floor.fmt();
    take(ring, "solid");
    give(ring, "floor", Value::InlineTable(floor), &[]);
    Ok(())
}

/// Inserts with the layout of a neighbour.
fn insert(array: &mut Array, at: usize, mut entry: Value) {
    let at = at.min(array.len());
    let like = array.get(at.saturating_sub(1)).map(|v| v.decor().clone());
    if let Some(decor) = like {
        let indent = decor.prefix().and_then(|p| p.as_str()).unwrap_or("");
        // A comment in front of the neighbour is the neighbour's.
        let indent = match indent.rfind('\n') {
            Some(line) => indent[line..].to_string(),
            None if at > 0 && indent.is_empty() => " ".into(),
            None => indent.to_string(),
        };
        entry.decor_mut().set_prefix(indent);
    }
    array.insert_formatted(at, entry);
}

fn add_section(document: &mut DocumentMut, at: usize) -> Done {
    let item = document.get_mut("section").ok_or("there is no section")?;
    let sections = rings::tables(item)?;
    let at = at.min(sections.len());
    let like = sections.get(at.saturating_sub(1)).or(sections.get(0));
    let mut new = rings::fresh(like.cloned().ok_or("there is no section")?);
    let old = new
        .get("name")
        .and_then(Item::as_str)
        .unwrap_or("section")
        .to_string();
    for key in ["band", "split", "turn", "ring", "height"] {
        take(&mut new, key);
    }
    let name = unused(&old, |n| {
        sections
            .iter()
            .any(|s| s.get("name").and_then(Item::as_str) == Some(n))
    });
    give(&mut new, "name", name.into(), &[]);
    give(&mut new, "rings", 1.into(), &[]);
    sections.insert(at, new);
    // A section that filled the form up to the rim would push the new one off it.
    rings::unplace(document);
    Ok(())
}

/// `name`, or the first of `name 2`, `name 3` that is not taken.
fn unused(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let stem = name
        .trim_end_matches(|c: char| c.is_ascii_digit())
        .trim_end();
    let stem = if stem.is_empty() { name } else { stem };
    std::iter::once(name.to_string())
        .chain((2..10_000).map(|n| format!("{stem} {n}")))
        .find(|n| !taken(n))
        .unwrap_or_default()
}

fn add_ring(document: &mut DocumentMut, path: &KeyPath, at: usize, ground: &EditContext) -> Done {
    let steps = path.steps();
    let [_, Step::At(number), _] = steps.as_slice() else {
        return Err("this is no list of rings".into());
    };
    let auto = ground.section(*number).rings;
    let rings = rings::listed(section(document, *number)?, auto)?;
    let gap = rings::gap(rings, at)?;
    let like = rings.get(gap.saturating_sub(1)).or(rings.get(0)).cloned();
    let mut new = rings::fresh(like.unwrap_or_default());
    for key in ["repeat", "solid", "floor", "width", "outside", "turn"] {
        take(&mut new, key);
    }
    rings.insert(gap, new);
    Ok(())
}

fn add_made(
    document: &mut DocumentMut,
    path: &KeyPath,
    at: usize,
    ground: &EditContext,
    make: fn(SectionContext, Units) -> Result<Table, String>,
) -> Done {
    let steps = path.steps();
    let [_, Step::At(number), Step::Key(key)] = steps.as_slice() else {
        return Err("nothing can be added here".into());
    };
    let new = make(ground.section(*number), ground.units)?;
    let section = section(document, *number)?;
    if !section.contains_key(key) {
        section.insert(key, Item::ArrayOfTables(ArrayOfTables::new()));
    }
    let item = section.get_mut(key).ok_or("nothing can be added here")?;
    let tables = rings::tables(item)?;
    tables.insert(at.min(tables.len()), new);
    Ok(())
}

fn length(mm: f64, units: Units) -> Result<Value, String> {
    let units = Units {
        page: units.file,
        file: units.file,
    };
    drag_length(mm, units)
}

/// What stands in the table of keys until the maker says otherwise.
fn usual(into: &mut Table, keys: &KeyTable, name: &str) {
    let value: Option<Value> = match keys.usual(name) {
        Fixed::Count(count) => Some((count as i64).into()),
        Fixed::Word(word) => Some(word.into()),
        _ => None,
    };
    if let Some(value) = value {
        into.insert(name, Item::Value(value));
    }
}

fn new_band(ground: SectionContext, units: Units) -> Result<Table, String> {
    let mut band = Table::new();
    usual(&mut band, BandSpec::KEYS, "loops");
    give(
        &mut band,
        "height",
        length(ground.stacked / 2.0, units)?,
        &[],
    );
    give(&mut band, "reach", length(ground.reach, units)?, &[]);
    usual(&mut band, BandSpec::KEYS, "wood");
    give(
        &mut band,
        "layer",
        length((ground.stacked / 14.0).clamp(3.0, 6.0), units)?,
        &[],
    );
    Ok(band)
}

fn new_split(ground: SectionContext, units: Units) -> Result<Table, String> {
    let mut split = Table::new();
    give(&mut split, "height", length(ground.joint, units)?, &[]);
    let turn = 180.0 / ground.segments.max(3) as f64;
    give(&mut split, "turn", drag_degrees(turn)?, &[]);
    Ok(split)
}
