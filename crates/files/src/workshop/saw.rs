//! `[[saw]]`.

use geometry::Length;

use crate::keys::{Lengths, Quantity, Rules, Usual, keys, words};
use crate::reader::{LONGEST_NAME, Table};

const KERF: Lengths = Lengths::fine("a saw's kerf", 0.2, 10.0);
/// What a machine measures.
pub(super) const MACHINE: Lengths = Lengths::new("a machine's measure", 5.0, 5000.0);

words! {
    /// Kinds of saw.
    pub enum SawKind {
        /// Band saw.
        Band = "band", "band saw";
        /// Table saw.
        Table = "table", "table saw";
        /// Mitre saw.
        Mitre = "mitre", "mitre saw";
    }
}

keys! {
    /// A saw. Once one is listed, the shop has the listed ones and no others.
    pub struct Saw, SawPath, "[[saw]]" {
        /// each different
        name: String = "name of the saw", Quantity::Text(LONGEST_NAME),
            Usual::Follows("`\"band saw\"` / `\"table saw\"` / `\"mitre saw\"`");
        /// what it is used for
        kind: SawKind = "kind", Quantity::Choice(SawKind::WORDS), Usual::Must(
            "it says what the saw is used for",
            "write kind = \"band\", \"table\" or \"mitre\"",
        );
        /// width of the cut
        kerf: Length = "kerf", Quantity::Length(KERF), Usual::Must(
            "every cut is reckoned with it",
            "saw a notch in scrap, measure its width and write it here",
        );
        /// tallest piece that passes under the guide or over the table
        cutting_height: Length = "cutting height", Quantity::Length(MACHINE),
            Usual::Follows("300 / 75 / 90 mm");
        /// blade to column
        room_beside: Length = "room beside the blade", Quantity::Length(MACHINE),
            Usual::Follows("340 / 600 / 300 mm");
        /// along the cut
        table_length: Length = "table length along the cut", Quantity::Length(MACHINE),
            Usual::Follows("400 / 650 / 300 mm");
        /// across the cut
        table_width: Length = "table width", Quantity::Length(MACHINE),
            Usual::Follows("550 / 900 / 600 mm");
    }
}

/// Usual saws by kind: kerf, cutting height, room beside, table's length and width, mm.
const USUAL: [(SawKind, [f64; 5]); 3] = [
    (SawKind::Band, [1.2, 300.0, 340.0, 400.0, 550.0]),
    (SawKind::Table, [3.0, 75.0, 600.0, 650.0, 900.0]),
    (SawKind::Mitre, [3.0, 90.0, 300.0, 300.0, 600.0]),
];

impl Saw {
    /// A usual saw of a kind.
    pub fn usual(kind: SawKind) -> Saw {
        let found = USUAL.iter().find(|(of, _)| *of == kind);
        // Every kind stands in the list.
        let figures = found.map_or([0.0; 5], |(_, figures)| *figures);
        let [kerf, cutting_height, room_beside, table_length, table_width] =
            figures.map(Length::mm);
        Saw {
            name: format!("{} saw", kind.word()),
            kind,
            kerf,
            cutting_height,
            room_beside,
            table_length,
            table_width,
        }
    }
}

impl Rules for Saw {
    const ELSEWHERE: &'static [(&'static str, &'static str)] =
        &[("cut_height", "did you mean cutting_height?")];

    fn usual_list() -> Vec<Self> {
        vec![Saw::usual(SawKind::Band), Saw::usual(SawKind::Table)]
    }

    fn start(table: &Table<'_>) -> Option<Self> {
        let is = |word: &str| table.peek("kind").is_some_and(|item| item.is_word(word));
        let kind = USUAL.iter().map(|(kind, _)| *kind).find(|k| is(k.word()));
        // Where the kind is wrong, the rest is read all the same for its troubles.
        Some(Saw::usual(kind.unwrap_or(SawKind::Band)))
    }
}

/// Tells of saws that share a name.
pub(super) fn names_differ(saws: &[Saw], table: &Table<'_>) {
    for (at, (saw, below)) in saws.iter().zip(table.below("saw")).enumerate() {
        if saws[..at].iter().any(|other| other.name == saw.name) {
            below.trouble(
                "name",
                format!("two saws are called {}", saw.name),
                "give each saw a name of its own",
            );
        }
    }
}
