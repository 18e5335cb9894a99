//! Problems in a file: where, what, and what to do about it.
//!
//! Rendered by hand: the layout is fixed, has no colours, and is part of the
//! command's promise to other programs, so a reporting library would be all
//! dependency and no help.

mod harmless;
mod lines;

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde::Serialize;

pub use harmless::{harmless, is_control, on_one_line};
pub use lines::Lines;

use crate::key::{KeyPath, Step};

/// A stretch of one line of a file; lines and columns count from 1, in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// Characters marked, at least 1.
    pub length: usize,
}

/// Something in a file that must be changed before the file can be used.
///
/// They sort by where they stand; those that are nowhere in particular come first.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Problem {
    /// Where it stands, if it stands anywhere.
    pub place: Option<Place>,
    /// The key it is about, counted from 0: `section[1].band[0].reach`.
    pub key_path: KeyPath,
    /// What is wrong.
    pub what: String,
    /// What to do about it.
    pub remedy: String,
}

/// Where each key of a file stands.
#[derive(Debug, Clone, Default)]
pub struct Places(BTreeMap<KeyPath, Place>);

impl Places {
    pub(crate) fn insert(&mut self, path: KeyPath, place: Place) {
        self.0.insert(path, place);
    }

    /// Where a path such as `section[1].band[0].reach` stands; where it was left out,
    /// where the nearest thing around it stands.
    pub fn at(&self, path: impl AsRef<str>) -> Option<Place> {
        let mut path = KeyPath::parse(path.as_ref())?;
        while !path.is_root() {
            if let Some(place) = self.0.get(&path) {
                return Some(*place);
            }
            path = path.parent();
        }
        None
    }

    /// Was this very path in the file?
    pub fn has(&self, path: &KeyPath) -> bool {
        self.0.contains_key(path)
    }
}

/// A path as people count, from 1: `section 2, band 1, reach`.
///
/// ```
/// use files::key;
/// use files::report::said;
/// assert_eq!(said(&key::section(1).band(0).reach()), "section 2, band 1, reach");
/// ```
pub fn said(path: impl AsRef<str>) -> String {
    let mut out = String::new();
    let path = KeyPath::parse(path.as_ref()).unwrap_or_default();
    for step in path.steps() {
        match step {
            Step::Key(key) if out.is_empty() => out.push_str(&key),
            // Writing to a String cannot fail, here and below.
            Step::Key(key) => {
                let _ = write!(out, ", {key}");
            }
            Step::At(at) | Step::Real(at) => {
                let _ = write!(out, " {}", at + 1);
            }
        }
    }
    out
}

/// Writes problems in the order of the file, each with its line and a mark under it.
///
/// `file` is what the reader calls the file. Ends in a newline; empty without problems.
pub fn render(file: &str, text: &str, problems: &[Problem]) -> String {
    let (lines, file) = (Lines::new(text), &on_one_line(file));
    let mut sorted: Vec<&Problem> = problems.iter().collect();
    sorted.sort();
    let mut out = String::new();
    for problem in &sorted {
        render_one(&mut out, file, &lines, problem);
        out.push('\n');
    }
    if !sorted.is_empty() {
        let many = if sorted.len() == 1 { "" } else { "s" };
        let _ = writeln!(out, "{} problem{many} in {file}", sorted.len());
    }
    out
}

fn render_one(out: &mut String, file: &str, lines: &Lines<'_>, problem: &Problem) {
    // Writing to a String cannot fail, so its results are let go.
    let what = on_one_line(&problem.what);
    match problem.place {
        None => {
            let _ = writeln!(out, "{file}: {what}");
        }
        Some(place) => {
            let Place { line, column, .. } = place;
            let _ = writeln!(out, "{file}:{line}:{column}: {what}");
            let shown = lines.shown(place);
            let _ = writeln!(out, "{line:>5} | {}", shown.text);
            let mark = "^".repeat(shown.length);
            let _ = writeln!(out, "      | {:indent$}{mark}", "", indent = shown.indent);
        }
    }
    // At the top level the line itself says where; inside lists it does not.
    let around = problem.key_path.setting().parent();
    if around.counts() {
        let _ = writeln!(out, "    where: {}", on_one_line(&said(&around)));
    }
    let _ = writeln!(out, "    remedy: {}", on_one_line(&problem.remedy));
}
