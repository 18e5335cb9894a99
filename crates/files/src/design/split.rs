//! `[[section.split]]`: a section sawn apart across the axis, one part turned, and glued
//! again.

use geometry::{Angle, Length};

use super::section::TURN;
use crate::keys::{Lengths, Quantity, Rules, Usual, keys};
use crate::reader::Table;

/// Most splits in a section.
pub const MOST_SPLITS: usize = 12;

keys! {
    /// A section sawn apart across the axis, one part turned, and glued again.
    pub struct SplitSpec, SplitPath, "[[section.split]]" {
        /// the cut's middle above the section's underside
        height: Length = "height",
            Quantity::Length(Lengths::new("the height of a split", 0.5, 3000.0)),
            Usual::Must(
                "it says where the section is sawn apart",
                "write it above the section's underside",
            );
        /// of the upper part, not 0
        turn: Angle = "turn", Quantity::Angle(TURN), Usual::Must(
            "it says how far the upper part is turned",
            "write it in degrees, as in turn = 15",
        );
        /// a saw of the workshop by name
        saw: Option<String> = "saw", Quantity::Saw, Usual::Follows("the first band saw");
        /// told by, whatever its name and place; written by the program when it is needed
        id: Option<String> = "id", Quantity::Id, Usual::Nothing("none");
    }
}

impl Rules for SplitSpec {
    fn check(&self, table: &Table<'_>) {
        let turn = table.peek("turn").and_then(|item| item.degrees());
        if turn.is_some_and(|degrees| degrees.abs() <= 1e-9) {
            table.trouble(
                "turn",
                "a split that is not turned changes nothing but the height".into(),
                "write the turn in degrees, or take the split out",
            );
        }
    }
}
