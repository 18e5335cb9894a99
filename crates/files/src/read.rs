//! From the two files' text to a [`Design`] and a [`Workshop`].
//!
//! Both readers tell every problem of a file at once. A design or workshop comes
//! back only if there was none.

mod check;

use std::collections::BTreeMap;

use crate::design::{Design, OwnWood};
use crate::keys::{Around, Giver, WholeTable, read_keys};
use crate::reader::{Log, Table, parse};
use crate::report::{Places, Problem};
use crate::units::Unit;
use crate::workshop::Workshop;

pub use check::check_against_workshop;

/// The file format that this program reads and writes, the `ringwright` key of both files.
pub const FORMAT: usize = 1;

/// Fewest segments that close a ring.
pub const FEWEST_SEGMENTS: usize = 3;
/// Most segments in a ring.
pub const MOST_SEGMENTS: usize = 144;

/// Reads a project file. `name` is what the piece is called if the file does not say.
///
/// Every problem of the file is in the last part, in the order of the file; there
/// is a design only if there was none. Never panics, whatever the text.
///
/// ```
/// use files::read::read_design;
/// let (design, _, problems) = read_design("bowl", "ringwright = 1\nunit = \"cm\"\n");
/// assert!(design.is_none());
/// assert!(problems.iter().any(|p| p.remedy == "write \"mm\" or \"inch\""));
/// ```
pub fn read_design(name: &str, text: &str) -> (Option<Design>, Places, Vec<Problem>) {
    read_project(name, text, None)
}

/// As [`read_design`], for a reader of a unit: problems are told in it, whatever the file's.
pub fn read_design_for(
    name: &str,
    text: &str,
    reader: Unit,
) -> (Option<Design>, Places, Vec<Problem>) {
    read_project(name, text, Some(reader))
}

fn read_project(
    name: &str,
    text: &str,
    reader: Option<Unit>,
) -> (Option<Design>, Places, Vec<Problem>) {
    let from = (Giver::File, reader);
    let (design, places, problems) = read_file::<Design>(text, "project", from);
    let named = |mut design: Design| {
        if design.title.is_empty() {
            design.title = name.into();
        }
        design
    };
    (design.map(named), places, problems)
}

/// Reads a workshop file. What it does not say is common practice, as in
/// [`Workshop::default`].
///
/// Every problem of the file is in the last part, in the order of the file; there
/// is a workshop only if there was none. Never panics, whatever the text.
///
/// ```
/// use files::read::read_workshop;
/// let text = "ringwright = 1\nunit = \"inch\"\nstock = [\"13/16\", 1.5]\n";
/// let (workshop, _, problems) = read_workshop(text);
/// assert!(problems.is_empty());
/// assert!(workshop.is_some_and(|w| w.stock.len() == 2 && w.stock.is_said()));
/// ```
pub fn read_workshop(text: &str) -> (Option<Workshop>, Places, Vec<Problem>) {
    read_file(text, "workshop", (Giver::Workshop, None))
}

/// Reads a project file and holds it against the workshop that it is made in: a design
/// that can be used, or every problem. They are told in the unit of `reader`; in the file's
/// own where there is none.
///
/// # Errors
/// Every problem of the file, in its order.
///
/// ```
/// use files::read::read_usable_design;
/// use files::workshop::Workshop;
/// let text = "ringwright = 1\nunit = \"mm\"\nkerf = 2\n";
/// let problems = read_usable_design("bowl", text, &Workshop::default(), None).unwrap_err();
/// assert!(problems.iter().all(|p| !p.remedy.is_empty()));
/// ```
pub fn read_usable_design(
    name: &str,
    text: &str,
    shop: &Workshop,
    reader: Option<Unit>,
) -> Result<(Design, Places), Vec<Problem>> {
    let (design, places, mut problems) = read_project(name, text, reader);
    let Some(design) = design.filter(|_| problems.is_empty()) else {
        return Err(problems);
    };
    problems.extend(check_against_workshop(&design, shop, &places));
    if problems.is_empty() {
        Ok((design, places))
    } else {
        Err(problems)
    }
}

/// Reads a workshop file: one that can be used, or every problem.
///
/// # Errors
/// Every problem of the file, in its order.
pub fn read_usable_workshop(text: &str) -> Result<Workshop, Vec<Problem>> {
    let (shop, _, problems) = read_workshop(text);
    shop.filter(|_| problems.is_empty()).ok_or(problems)
}

/// Reads one file: parses, checks the format and the unit, then every key.
fn read_file<T: WholeTable>(
    text: &str,
    kind: &str,
    (by, reader): (Giver, Option<Unit>),
) -> (Option<T>, Places, Vec<Problem>) {
    let log = Log::new(text, reader);
    let read = parse(text, kind, &log).and_then(|table| {
        // The table borrows the log, so it must be gone before the log is opened.
        let top = Table::top(&log, &table);
        if !right_format(&top) {
            return None;
        }
        set_unit(&top);
        let woods = &own_woods(&top);
        Some(read_keys(&top, &Around { woods, by }))
    });
    let clean = !log.has_problems();
    let (places, problems) = log.into_parts();
    (read.filter(|_| clean), places, problems)
}

/// Is the file of a format that we read? A newer one is not read on: its keys would
/// all seem wrong.
fn right_format(top: &Table<'_>) -> bool {
    let Some(item) = top.peek("ringwright") else {
        return true;
    };
    match item.plain_whole() {
        Some(FORMAT) => true,
        Some(format) if format > FORMAT => {
            item.trouble(
                &format!("this program reads format {FORMAT}; the file is newer"),
                "use a newer version of Ringwright",
            );
            false
        }
        _ => {
            item.trouble(
                "the file format is a whole number",
                &format!("write ringwright = {FORMAT}"),
            );
            true
        }
    }
}

/// Bare numbers are in the file's unit from here on.
fn set_unit(top: &Table<'_>) {
    let is = |unit: &Unit| {
        top.peek("unit")
            .is_some_and(|item| item.is_word(unit.word()))
    };
    if let Some(unit) = [Unit::Mm, Unit::Inch].into_iter().find(is) {
        top.log.set_unit(unit);
    }
}

/// The names of the project's own woods, which count wherever a wood is named. A wood
/// counts even where what it says is wrong: that is told at its own place.
fn own_woods(top: &Table<'_>) -> BTreeMap<String, OwnWood> {
    let names = top.peek("woods").map(|item| item.names_of_tables());
    let named = names.unwrap_or_default().into_iter();
    named.map(|name| (name, OwnWood::default())).collect()
}
