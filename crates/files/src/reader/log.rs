//! What was found while reading one file.

use std::cell::{Cell, RefCell};
use std::collections::BTreeSet;
use std::ops::Range;

use crate::key::KeyPath;
use crate::report::{Lines, Places, Problem};
use crate::units::Unit;

/// The most problems that are told of one file; whoever has more begins with these.
const MOST: usize = 40;

pub(crate) struct Log<'t> {
    text: &'t str,
    lines: Lines<'t>,
    problems: RefCell<Vec<Problem>>,
    places: RefCell<Places>,
    /// Lines that could not be read at all; nothing more is said about them.
    unreadable: RefCell<BTreeSet<usize>>,
    unit: Cell<Option<Unit>>,
    /// What problems are told in, where that is not the file's own unit.
    told_in: Option<Unit>,
}

impl<'t> Log<'t> {
    pub fn new(text: &'t str, told_in: Option<Unit>) -> Self {
        Log {
            text,
            lines: Lines::new(text),
            problems: RefCell::default(),
            places: RefCell::default(),
            unreadable: RefCell::default(),
            unit: Cell::new(None),
            told_in,
        }
    }

    /// What bare numbers are in; millimetres until the file has said.
    pub fn unit(&self) -> Unit {
        self.unit.get().unwrap_or_default()
    }

    /// What problems are told in.
    pub fn told_in(&self) -> Unit {
        self.told_in.unwrap_or(self.unit())
    }

    /// Is it known what bare numbers are in?
    pub fn unit_is_known(&self) -> bool {
        self.unit.get().is_some()
    }

    pub fn set_unit(&self, unit: Unit) {
        self.unit.set(Some(unit));
    }

    pub fn source(&self, bytes: Range<usize>) -> &'t str {
        self.text.get(bytes).unwrap_or("")
    }

    /// A line that is not TOML.
    pub fn unreadable(&self, bytes: Range<usize>, what: String, remedy: String) {
        let place = self.lines.place(bytes);
        // One slip makes the parser stumble several times; the first says it best.
        if self.unreadable.borrow_mut().insert(place.line) {
            self.problems.borrow_mut().push(Problem {
                place: Some(place),
                key_path: KeyPath::default(),
                what,
                remedy,
            });
        }
    }

    /// Which line bytes begin on.
    pub fn line_of(&self, bytes: Range<usize>) -> usize {
        self.lines.place(bytes).line
    }

    /// A line that was swallowed by what went wrong before it.
    pub fn swallowed(&self, bytes: Range<usize>) {
        let line = self.line_of(bytes);
        self.unreadable.borrow_mut().insert(line);
    }

    pub fn problem(&self, bytes: Range<usize>, path: &KeyPath, what: String, remedy: String) {
        let place = self.lines.place(bytes);
        if self.unreadable.borrow().contains(&place.line) {
            return;
        }
        self.problems.borrow_mut().push(Problem {
            place: Some(place),
            key_path: path.clone(),
            what,
            remedy,
        });
    }

    /// Something that is not there. After a syntax error it may stand in the part that
    /// could not be read, so nothing is said then.
    pub fn missing(&self, around: Range<usize>, path: &KeyPath, what: String, remedy: &str) {
        if !self.unreadable.borrow().is_empty() {
            return;
        }
        // The top level has no line of its own.
        let place = (around.end > 0).then(|| self.lines.place(around));
        self.problems.borrow_mut().push(Problem {
            place,
            key_path: path.clone(),
            what,
            remedy: remedy.into(),
        });
    }

    pub fn note_place(&self, path: &KeyPath, bytes: Range<usize>) {
        let place = self.lines.place(bytes);
        self.places.borrow_mut().insert(path.clone(), place);
    }

    pub fn has_problems(&self) -> bool {
        !self.problems.borrow().is_empty()
    }

    pub fn into_parts(self) -> (Places, Vec<Problem>) {
        let mut problems = self.problems.into_inner();
        problems.sort();
        problems.dedup();
        let more = problems.len().saturating_sub(MOST);
        if more > 0 {
            problems.truncate(MOST);
            problems.push(Problem {
                place: problems.last().and_then(|p| p.place),
                // Sorts behind everything at the same place.
                key_path: KeyPath::behind_all(),
                what: format!("and {more} more from here on"),
                remedy: "put these right first, then look again".into(),
            });
        }
        (self.places.into_inner(), problems)
    }
}
