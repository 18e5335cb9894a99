//! `[woods.NAME]`: the project's own woods; and wood names wherever they stand.

use std::collections::BTreeMap;

use crate::design::OwnWood;
use crate::reader::{Item, Numbers, Table};
use crate::wood::{self, Colour};

const DENSITY: Numbers = Numbers {
    of: "a wood's density",
    in_what: "kg/m³",
    least: 50.0,
    most: 1600.0,
};

/// Most woods in one repeating pattern: one for each segment of the largest ring.
const MOST_IN_PATTERN: usize = super::MOST_SEGMENTS;

pub(super) fn read(table: &Table<'_>) -> BTreeMap<String, OwnWood> {
    let mut woods = BTreeMap::new();
    for (name, item) in table.everything() {
        let Some(table) = item.table() else { continue };
        if name.trim().is_empty() {
            item.trouble("a wood needs a name", "write it as [woods.plum]");
            continue;
        }
        let own = OwnWood {
            like: table.get("like").and_then(|item| built_in(&item)),
            density: table.get("density").and_then(|item| item.figure(&DENSITY)),
            colour: table.get("colour").and_then(|item| colour(&item)),
        };
        table.need_any(
            &["like", "density", "colour"],
            format!("nothing is said about the wood {name}"),
            "give it like = \"a known wood\", density in kg/m³, or colour = \"#rrggbb\"",
        );
        table.finish(&[]);
        woods.insert(name, own);
    }
    woods
}

fn colour(item: &Item<'_>) -> Option<String> {
    let text = item.text()?;
    if Colour::parse(&text).is_none() {
        item.trouble(
            "this is not a colour",
            "write # and six digits, as in \"#8a4a2c\"",
        );
        return None;
    }
    Some(text)
}

/// A wood's name that is known, built in or own.
pub(super) fn known(item: &Item<'_>, own: &BTreeMap<String, OwnWood>) -> Option<String> {
    let name = item.text()?;
    // An own wood counts even where its `like` is wrong: that is told at its own place.
    if own.contains_key(&name) {
        return Some(name);
    }
    let Err(unknown) = wood::find_among(&name, own) else {
        return Some(name);
    };
    let short: String = name.chars().take(40).collect();
    let bare = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    let own_wood = if short.chars().all(bare) {
        format!("describe it under [woods.{short}]")
    } else {
        let quoted = short.replace(['"', '\\', '\n'], " ");
        format!("describe it under [woods.\"{quoted}\"]")
    };
    let remedy = if unknown.nearest.is_empty() {
        format!("{own_wood}, or choose a wood of the list")
    } else {
        let nearest = unknown.nearest.join(" or ");
        format!("did you mean {nearest}? Otherwise {own_wood}")
    };
    item.trouble("no wood of that name is known", &remedy);
    None
}

/// A wood of the built-in table.
pub(super) fn built_in(item: &Item<'_>) -> Option<String> {
    let name = item.text()?;
    let Err(unknown) = wood::find(&name) else {
        return Some(name);
    };
    let remedy = if unknown.nearest.is_empty() {
        "choose a wood of the list".into()
    } else {
        format!("did you mean {}?", unknown.nearest.join(" or "))
    };
    item.trouble("no wood of that name is in the list", &remedy);
    None
}

/// One wood, or the woods of a pattern repeated round a ring.
pub(super) fn pattern(table: &Table<'_>, own: &BTreeMap<String, OwnWood>) -> Vec<String> {
    let Some(item) = table.get("wood") else {
        return Vec::new();
    };
    let items = item.texts(MOST_IN_PATTERN).unwrap_or_default();
    if items.is_empty() && item.is_list() {
        item.trouble("this list is empty", "name one wood at least");
    }
    items.iter().filter_map(|item| known(item, own)).collect()
}
