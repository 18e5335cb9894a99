//! Real rings: each made an entry of its own in the file when it is to be changed.

use toml_edit::{ArrayOfTables, Item, Table, TableLike, value};

use crate::design::MOST_RINGS_IN_SECTION;

/// The rings of a section as a list of tables, listed out where they were counted.
/// `auto` is how many a count of `auto` gives.
pub fn listed(section: &mut dyn TableLike, auto: usize) -> Result<&mut ArrayOfTables, String> {
    if !section.contains_key("ring") {
        let count = match section.get("rings").and_then(Item::as_integer) {
            Some(count) => usize::try_from(count).unwrap_or(1),
            None => auto,
        };
        let mut rings = ArrayOfTables::new();
        rings.push(repeated(
            Table::new(),
            count.clamp(1, MOST_RINGS_IN_SECTION),
        ));
        super::place::take(section, "rings");
        super::place::take(section, "height");
        section.insert("ring", Item::ArrayOfTables(rings));
    }
    let item = section.get_mut("ring").ok_or("this section has no rings")?;
    tables(item)
}

/// A list of tables, whichever way the file writes it.
pub fn tables(item: &mut Item) -> Result<&mut ArrayOfTables, String> {
    if item.is_array() {
        let old = std::mem::take(item);
        *item = match old.into_array_of_tables() {
            Ok(tables) => Item::ArrayOfTables(tables),
            Err(old) => old,
        };
    }
    item.as_array_of_tables_mut()
        .ok_or_else(|| "this is no list of tables".into())
}

fn repeated(mut table: Table, times: usize) -> Table {
    if times > 1 {
        super::place::give(
            &mut table,
            "repeat",
            value(times as i64).into_value().unwrap_or(1.into()),
            &[],
        );
    } else {
        super::place::take(&mut table, "repeat");
    }
    table
}

fn repeats(table: &Table) -> usize {
    let times = table.get("repeat").and_then(Item::as_integer).unwrap_or(1);
    usize::try_from(times)
        .unwrap_or(1)
        .clamp(1, MOST_RINGS_IN_SECTION)
}

/// How many real rings a list of entries gives.
pub fn count(rings: &ArrayOfTables) -> usize {
    rings.iter().map(repeats).sum()
}

/// The entry of real ring `k` alone; entries that stand for several are parted.
pub fn own(rings: &mut ArrayOfTables, k: usize) -> Result<usize, String> {
    let mut first = 0;
    for at in 0..rings.len() {
        let Some(entry) = rings.get(at) else { break };
        let times = repeats(entry);
        if k >= first + times {
            first += times;
            continue;
        }
        if times == 1 {
            return Ok(at);
        }
        let (before, after) = (k - first, times - 1 - (k - first));
        let entry = entry.clone();
        let single = fresh(entry.clone());
        // The first part keeps the comments that stood above the entry.
        let mut parts = Vec::new();
        if before > 0 {
            parts.push(repeated(entry.clone(), before));
            parts.push(repeated(single.clone(), 1));
        } else {
            parts.push(repeated(entry, 1));
        }
        if after > 0 {
            parts.push(repeated(single, after));
        }
        rings.remove(at);
        for (i, part) in parts.into_iter().enumerate() {
            rings.insert(at + i, part);
        }
        return Ok(at + usize::from(before > 0));
    }
    Err(format!("there is no ring {}", k + 1))
}

/// Where a new ring has to be put to become real ring `k`: entries are parted.
pub fn gap(rings: &mut ArrayOfTables, k: usize) -> Result<usize, String> {
    if k >= count(rings) {
        return Ok(rings.len());
    }
    own(rings, k)
}

/// A copy without what stands above it and without its place in the file.
///
/// It is another part of the piece: the id stays with the first.
pub fn fresh(mut table: Table) -> Table {
    unplace(&mut table);
    super::place::take(&mut table, "id");
    let prefix = table
        .decor()
        .prefix()
        .and_then(|p| p.as_str())
        .unwrap_or("");
    let indent: String = prefix.rsplit('\n').next().unwrap_or("").into();
    let indent = if indent.trim().is_empty() {
        indent
    } else {
        String::new()
    };
    table.decor_mut().set_prefix(format!("\n{indent}"));
    table
}

/// Lets a table and all below it stand where the lists say, not where they once stood.
pub fn unplace(table: &mut Table) {
    table.set_position(None);
    for (_, item) in table.iter_mut() {
        match item {
            Item::Table(table) => unplace(table),
            Item::ArrayOfTables(tables) => tables.iter_mut().for_each(unplace),
            _ => {}
        }
    }
}
