//! An id written into the file, for what is to refer to a part of the piece.

use toml_edit::{DocumentMut, Item, TableLike};

use super::asked::Refused;
use super::change::{EditContext, settle};
use super::place::{Place, give};
use crate::key::KeyPath;

/// The text with an id for a part (a section, ring, band or split), and the id: the part's own
/// where it has one, else the first of `s1`, `s2`, ... that neither the file has nor `taken`,
/// which are ids that something still refers to.
///
/// A ring that is only counted becomes an entry of its own.
///
/// # Errors
/// What stands in the way; nothing is changed then.
pub fn identify(
    text: &str,
    part: &KeyPath,
    taken: &[&str],
    ground: &EditContext,
) -> Result<(String, String), Refused> {
    let refuse = |what: &str| Refused {
        path: Some(part.clone()),
        what: what.into(),
        remedy: "nothing was changed".into(),
    };
    let mut document: DocumentMut = text
        .parse()
        .map_err(|_| refuse("the file cannot be read as it is"))?;
    let letter = match part.pattern().as_str() {
        "section[]" => "s",
        "section[].ring[]" => "r",
        "section[].band[]" => "b",
        "section[].split[]" => "k",
        _ => return Err(refuse("this is no part that has an id")),
    };
    let mut known: Vec<String> = taken.iter().map(|id| (*id).to_string()).collect();
    ids(document.as_table(), &mut known);
    let path = settle(&mut document, part, ground).map_err(|what| refuse(&what))?;
    let table = Place::Table(&mut document)
        .at(&path.steps())
        .and_then(Place::table)
        .ok_or_else(|| refuse("there is no such part"))?;
    if let Some(own) = table.get("id").and_then(Item::as_str) {
        // As it was: a ring was not listed out for what is there already.
        return Ok((text.to_string(), own.to_string()));
    }
    let new = (1..=known.len() + 1)
        .map(|n| format!("{letter}{n}"))
        .find(|id| !known.contains(id));
    let new = new.ok_or_else(|| refuse("there are too many ids"))?;
    give(table, "id", new.as_str().into(), &[]);
    Ok((document.to_string(), new))
}

/// Every id of a file, however its tables are written.
fn ids(table: &dyn TableLike, out: &mut Vec<String>) {
    for (key, item) in table.iter() {
        if let (true, Some(id)) = (key == "id", item.as_str()) {
            out.push(id.into());
        }
        if let Some(below) = item.as_table_like() {
            ids(below, out);
        }
        if let Some(tables) = item.as_array_of_tables() {
            tables.iter().for_each(|below| ids(below, out));
        }
        let inline = item.as_array().into_iter().flatten();
        inline
            .filter_map(|value| value.as_inline_table())
            .for_each(|below| ids(below, out));
    }
}
