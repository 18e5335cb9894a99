//! What parts of a piece are told by: an id stays when a part is renamed or moved.

use std::collections::BTreeMap;

use super::Design;
use crate::key::{self, KeyPath};
use crate::keys::{File, in_words};
use crate::reader::{Item, Table};

/// Most characters of an id.
pub(crate) const LONGEST: usize = 40;
/// What an id is, as JSON Schema has it.
pub(crate) const PATTERN: &str = "^[A-Za-z0-9_-]{1,40}$";

/// A key's value, if it is an id; what is wrong is told.
pub(crate) fn read(item: &Item<'_>, text: String) -> Option<String> {
    let known = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if text.is_empty() || text.len() > LONGEST || !text.chars().all(known) {
        item.trouble(
            &format!("an id is of letters, digits, - and _, {LONGEST} at most"),
            "write one like id = \"s1\", or take it out: the program writes one when it needs it",
        );
        return None;
    }
    Some(text)
}

impl Design {
    /// Every id of the file with the path of its part, in the order of the file.
    pub fn ids(&self) -> Vec<(&str, KeyPath)> {
        let mut out: Vec<(&Option<String>, KeyPath)> = Vec::new();
        for (s, section) in self.sections.iter().enumerate() {
            let at = key::section(s);
            out.push((&section.id, at.path()));
            let rings = section.listed.iter().enumerate();
            out.extend(rings.map(|(r, ring)| (&ring.id, at.ring(r).path())));
            let bands = section.bands.iter().enumerate();
            out.extend(bands.map(|(b, band)| (&band.id, at.band(b).path())));
            let splits = section.splits.iter().enumerate();
            out.extend(splits.map(|(k, split)| (&split.id, at.split(k).path())));
        }
        let given = out.into_iter();
        given
            .filter_map(|(id, path)| Some((id.as_deref()?, path)))
            .collect()
    }

    /// Where the part of an id stands now.
    ///
    /// ```
    /// use files::read::read_design;
    /// let text = "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 40], [60, 60]]\nwall = 8\n\
    ///             [[section]]\nname = \"foot\"\n[[section]]\nname = \"body\"\nid = \"s2\"\n";
    /// let design = read_design("bowl", text).0.expect("a good file");
    /// let at = design.part_of("s2").map(|path| path.to_string());
    /// assert_eq!(at.as_deref(), Some("section[1]"));
    /// ```
    pub fn part_of(&self, id: &str) -> Option<KeyPath> {
        let mut all = self.ids().into_iter();
        all.find(|(known, _)| *known == id).map(|(_, path)| path)
    }
}

/// Tells of parts that share an id.
pub(super) fn differ(design: &Design, table: &Table<'_>) {
    let ids: BTreeMap<KeyPath, &str> = design.ids().into_iter().map(|(id, at)| (at, id)).collect();
    let mut seen: BTreeMap<&str, KeyPath> = BTreeMap::new();
    for part in parts(table) {
        let Some(id) = ids.get(&part.path) else {
            continue;
        };
        let Some(first) = seen.get(id) else {
            seen.insert(id, part.path.clone());
            continue;
        };
        let first = in_words(File::Project, first).unwrap_or_default();
        part.trouble(
            "id",
            format!("{first} has the id {id} already"),
            "give one of the two another id, or take it out: the program writes one when it needs it",
        );
    }
}

/// Every table that may have an id, in the order of [`Design::ids`].
fn parts<'a>(table: &Table<'a>) -> Vec<Table<'a>> {
    let mut out = Vec::new();
    for section in table.below("section") {
        let below = ["ring", "band", "split"].map(|key| section.below(key));
        out.push(section);
        out.extend(below.into_iter().flatten());
    }
    out
}
