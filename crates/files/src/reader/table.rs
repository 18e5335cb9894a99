//! One table of a file: which keys were asked for, and which nobody knows.

use std::cell::RefCell;
use std::ops::Range;

use toml::de::DeTable;

use super::{Item, Log};
use crate::key::{KeyPath, Step};

/// What makers write for what the format calls otherwise.
const OTHER_WORDS: [(&str, &str); 17] = [
    ("angle", "tilt"),
    ("cut_angle", "tilt"),
    ("count", "loops"),
    ("color", "colour"),
    ("density_kg_m3", "density"),
    ("thickness", "wall"),
    ("thickness", "layer"),
    ("thickness", "stock"),
    ("material", "wood"),
    ("species", "wood"),
    ("units", "unit"),
    ("rotation", "turn"),
    ("rotate", "turn"),
    ("diameter", "outside"),
    ("method", "make"),
    ("sections", "section"),
    ("profile", "outer"),
];

/// A table that notes which keys are asked for.
pub(crate) struct Table<'a> {
    pub log: &'a Log<'a>,
    table: &'a DeTable<'a>,
    bytes: Range<usize>,
    pub path: KeyPath,
    asked: RefCell<Vec<&'static str>>,
    /// What is not there, told at the end: a misspelt key is not missing as well.
    missing: RefCell<Vec<Missing>>,
}

struct Missing {
    /// Any of these would do.
    keys: Vec<&'static str>,
    what: String,
    remedy: &'static str,
}

impl<'a> Table<'a> {
    pub fn new(
        log: &'a Log<'a>,
        table: &'a DeTable<'a>,
        bytes: Range<usize>,
        path: KeyPath,
    ) -> Self {
        let new = Table {
            log,
            table,
            bytes,
            path,
            asked: RefCell::default(),
            missing: RefCell::default(),
        };
        for (key, value) in table {
            log.note_place(&new.path_of(key.get_ref()), value.span());
        }
        if !new.path.is_root() {
            log.note_place(&new.path, new.bytes.clone());
        }
        new
    }

    /// The whole file.
    pub fn top(log: &'a Log<'a>, table: &'a DeTable<'a>) -> Self {
        Table::new(log, table, 0..0, KeyPath::root())
    }

    fn path_of(&self, key: &str) -> KeyPath {
        self.path.below(key)
    }

    /// Was the key written?
    pub fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    /// A key's value, if it was written.
    pub fn get(&self, key: &'static str) -> Option<Item<'a>> {
        self.ask(key);
        self.peek(key)
    }

    /// A key that is known here.
    pub fn ask(&self, key: &'static str) {
        self.asked.borrow_mut().push(key);
    }

    /// A key's value, if it was written, for a second look: the key is not known by that.
    pub fn peek(&self, key: &'static str) -> Option<Item<'a>> {
        let value = self.table.get(key)?;
        Some(Item {
            log: self.log,
            value: value.get_ref(),
            bytes: value.span(),
            path: self.path_of(key),
            label: key.into(),
        })
    }

    /// The tables of a list that has been read, for a second look.
    pub fn below(&self, key: &'static str) -> Vec<Table<'a>> {
        let entries = self.peek(key).and_then(|item| item.entries("entry"));
        let entries = entries.unwrap_or_default();
        entries.iter().filter_map(Item::as_table).collect()
    }

    /// Every key and value, whatever they are called.
    pub fn everything(&self) -> Vec<(String, Item<'a>)> {
        let items = self.table.iter().map(|(key, value)| {
            let item = Item {
                log: self.log,
                value: value.get_ref(),
                bytes: value.span(),
                path: self.path_of(key.get_ref()),
                label: key.get_ref().to_string(),
            };
            (key.get_ref().to_string(), item)
        });
        items.collect()
    }

    /// A list of tables, written `[[key]]`; a single table counts as a list of one.
    pub fn tables(&self, key: &'static str, most: usize) -> Vec<Table<'a>> {
        let Some(item) = self.get(key) else {
            return Vec::new();
        };
        if !item.is_list() {
            let heading = heading(&item.path);
            if item.source() == format!("[{heading}]") {
                self.trouble(
                    key,
                    format!("[{heading}] needs double brackets, as there may be several"),
                    &format!("write it as [[{heading}]]"),
                );
            } else {
                item.trouble(
                    "this must be a list of tables",
                    &format!("write each as [[{heading}]] with its keys below"),
                );
            }
            return Vec::new();
        }
        let items = item.list("entry", most).unwrap_or_default();
        items.iter().filter_map(Item::table).collect()
    }

    /// Tells a trouble with the table as a whole, at its heading.
    pub fn trouble(&self, key: &str, what: String, remedy: &str) {
        if self.has(key) {
            let bytes = self.table.get(key).map_or(0..0, |v| v.span());
            self.log
                .problem(bytes, &self.path_of(key), what, remedy.into());
        } else {
            self.log
                .missing(self.bytes.clone(), &self.path_of(key), what, remedy);
        }
    }

    /// Tells, if a key was not written, why it must be.
    pub fn need(&self, key: &'static str, why: &str, remedy: &'static str) {
        if !self.has(key) {
            let what = format!("{key} is missing: {why}");
            self.need_any(&[key], what, remedy);
        }
    }

    /// Tells, if none of the keys was written, what is wrong with that.
    pub fn need_any(&self, keys: &[&'static str], what: String, remedy: &'static str) {
        if !keys.iter().any(|key| self.has(key)) {
            let keys = keys.to_vec();
            self.missing
                .borrow_mut()
                .push(Missing { keys, what, remedy });
        }
    }

    /// Tells if both of two keys were written; were they?
    pub fn both(&self, one: &str, other: &str, why: &str) -> bool {
        let both = self.has(one) && self.has(other);
        if both {
            self.trouble(
                other,
                format!("both {one} and {other}: {why}"),
                "keep one of the two",
            );
        }
        both
    }

    /// Tells of every key that was not asked for, then of what is missing; to be called
    /// last. `elsewhere` says where keys belong that are known in another place, `old` are
    /// keys that once stood here and are read by the table above.
    pub fn finish(&self, elsewhere: &[(&'static str, &str)], old: &[&str]) {
        let asked = self.asked.borrow();
        let moved: Vec<&'static str> = elsewhere.iter().map(|(key, _)| *key).collect();
        let mut meant: Vec<&'static str> = Vec::new();
        for (key, value) in self.table {
            let name: &str = key.get_ref();
            if asked.contains(&name) || old.contains(&name) {
                continue;
            }
            let belongs = |key: &str| elsewhere.iter().find(|(k, _)| *k == key).map(|(_, w)| *w);
            let remedy = if let Some(where_to) = belongs(name) {
                where_to.to_string()
            } else if let Some(near) = nearest(name, &asked) {
                meant.push(near);
                format!("did you mean {near}?")
            } else if let Some(near) = nearest(name, &moved) {
                format!("did you mean {near}? {}", belongs(near).unwrap_or_default())
            } else {
                format!("the keys here are: {}", asked.join(", "))
            };
            // A table's own span is its heading; a value's key stands before it.
            let bytes = if key.span().is_empty() {
                value.span()
            } else {
                key.span()
            };
            let shown: String = name.chars().take(40).collect();
            let shown = if shown.is_empty() { "\"\"" } else { &shown };
            let what = format!("unknown key {shown}");
            self.log.problem(bytes, &self.path_of(name), what, remedy);
        }
        for missing in self.missing.borrow().iter() {
            if let Some(first) = missing.keys.first()
                && !missing.keys.iter().any(|key| meant.contains(key))
            {
                self.trouble(first, missing.what.clone(), missing.remedy);
            }
        }
    }
}

fn nearest(name: &str, known: &[&'static str]) -> Option<&'static str> {
    // No key is longer; a longer one is nothing near.
    if name.chars().count() > 40 {
        return None;
    }
    let lower = name.to_lowercase().replace('-', "_");
    let said_otherwise = OTHER_WORDS
        .iter()
        .find(|(word, means)| *word == lower && known.contains(means));
    if let Some((_, means)) = said_otherwise {
        return known.iter().find(|k| *k == means).copied();
    }
    let mut best: Option<(usize, &'static str)> = None;
    for candidate in known {
        let distance = strsim::damerau_levenshtein(&lower, candidate);
        let allowed = candidate.len().min(lower.len()).div_ceil(3);
        if distance <= allowed && best.is_none_or(|(d, _)| distance < d) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// `section.band` for `section[0].band`.
pub(super) fn heading(path: &KeyPath) -> String {
    let mut out = String::new();
    for step in path.steps() {
        if let Step::Key(key) = step {
            if !out.is_empty() {
                out.push('.');
            }
            out.push_str(&key);
        }
    }
    out
}
