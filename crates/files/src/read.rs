//! From the two files' text to a [`Design`] and a [`Workshop`].
//!
//! Both readers tell every problem of a file at once. A design or workshop comes
//! back only if there was none.

mod band;
mod check;
mod climate;
mod exactness;
mod form;
mod holding;
mod project;
mod ring;
mod section;
mod shop;
mod woods;

pub use check::check_against_workshop;
pub(crate) use holding::FIXINGS;
pub use project::read_design;
pub(crate) use shop::SAW_KINDS;
pub use shop::read_workshop;

use crate::reader::{Lengths, Log, Table, Wholes, parse};
use crate::report::{Places, Problem};
use crate::units::Unit;

/// The file format that this program reads and writes, the `ringwright` key of both files.
pub const FORMAT: usize = 1;

/// Fewest segments that close a ring.
pub const FEWEST_SEGMENTS: usize = 3;
/// Most segments in a ring.
pub const MOST_SEGMENTS: usize = 144;

const SEGMENTS: Wholes = Wholes {
    rule: "a ring needs 3 to 144 segments",
    least: FEWEST_SEGMENTS,
    most: MOST_SEGMENTS,
};
const BOARD: Lengths = Lengths::new("a board's thickness", 0.5, 300.0);

/// Reads one file of a kind: parses, checks the format and the unit, then `body`.
fn read_file<T>(
    text: &str,
    kind: &str,
    body: impl FnOnce(&Table<'_>) -> T,
) -> (Option<T>, Places, Vec<Problem>) {
    let log = Log::new(text);
    let read = parse(text, kind, &log).and_then(|table| {
        // The table borrows the log, so it must be gone before the log is opened.
        let top = Table::new(&log, &table, 0..0, String::new());
        if !right_format(&top) {
            return None;
        }
        read_unit(&top);
        Some(body(&top))
    });
    let clean = !log.has_problems();
    let (places, problems) = log.into_parts();
    (read.filter(|_| clean), places, problems)
}

/// Is the file of a format that we read? A newer one is not read on: its keys would
/// all seem wrong.
fn right_format(top: &Table<'_>) -> bool {
    top.need(
        "ringwright",
        "it says which file format this is",
        "add the line ringwright = 1 at the top",
    );
    let Some(item) = top.get("ringwright") else {
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

fn read_unit(top: &Table<'_>) {
    top.need(
        "unit",
        "it says what plain numbers are in",
        "add the line unit = \"mm\" or unit = \"inch\" near the top",
    );
    let unit = top.get("unit");
    if let Some(unit) = unit.and_then(|i| i.choice(&[("mm", Unit::Mm), ("inch", Unit::Inch)])) {
        top.log.set_unit(unit);
    }
}
