//! `[[section.ring]]`: one ring, where it differs from its section; and a floor panel let
//! into it.

use geometry::{Angle, Length};

use super::Board;
use super::section::{
    BOARD, FILLED, MOST_RINGS_IN_SECTION, RING_HEIGHT, SEGMENTS, SectionSpec, TURN,
};
use crate::keys::{Counts, Lengths, Quantity, Rules, Usual, count, flag, keys, mm, word};
use crate::read::MOST_SEGMENTS;
use crate::reader::Table;

const SECTIONS: Usual = Usual::Above("the section's");
const FROM_FORM: Usual = Usual::Follows("from the form");

const REPEAT: Counts = Counts::new("1 to 400 rings can be alike", 1, MOST_RINGS_IN_SECTION);
const OUTSIDE: Lengths = Lengths::new("a ring's diameter across flats", 2.0, 3000.0);
const WIDTH: Lengths = Lengths::new("a board's width", 1.0, 1500.0);

keys! {
    /// One ring, where it differs from its section.
    pub struct RingSpec, RingPath, "[[section.ring]]" {
        /// so many rings like this one, one on another
        repeat: Option<usize> = "rings alike", Quantity::Count(REPEAT), count(1);
        /// one wood, or several repeated segment by segment
        wood: Vec<String> = "wood", Quantity::Woods(MOST_SEGMENTS), SECTIONS;
        /// segments in the ring
        segments: Option<usize> = "segments", Quantity::Count(SEGMENTS), SECTIONS;
        /// board thickness as milled
        stock: Option<Length> = "board thickness", Quantity::Length(BOARD), SECTIONS;
        /// how its boards were sawn from the log; `"plywood"` for a disc only
        board: Option<Board> = "boards", Quantity::Choice(Board::WORDS), SECTIONS;
        /// height after flattening; not more than `stock`
        height: Option<Length> = "height", Quantity::Length(RING_HEIGHT), SECTIONS;
        /// its joints against the ring below
        turn: Option<Angle> = "turn against the ring below", Quantity::Angle(TURN),
            Usual::Above("the section's `joint_turn`");
        /// diameter flat to flat
        outside: Option<Length> = "diameter across flats", Quantity::Length(OUTSIDE), FROM_FORM;
        /// board width (outside flat to inside flat), at most half of `outside`
        width: Option<Length> = "board width", Quantity::Length(WIDTH), FROM_FORM;
        /// percent of the closed ring's angle that its segments fill: less than 100 makes an
        /// open-segment ring, with gaps to be seen through; then no `floor`
        filled: Option<f64> = "filled by segments", Quantity::Number(FILLED), SECTIONS;
        /// one disc instead of a ring; then no `segments`, `width`, `filled` or `floor`, and one wood
        solid: bool = "one disc", Quantity::Flag, flag(false);
        /// told by, whatever its name and place; written by the program when it is needed
        id: Option<String> = "id", Quantity::Id, Usual::Nothing("none");
        /// a panel let into the ring
        @part floor: FloorSpec = "floor panel", Quantity::Table(FloorSpec::KEYS),
            Usual::Nothing("none");
    }
}

impl Rules for RingSpec {
    const DISPLACES: &'static [(&'static str, &'static [&'static str])] =
        &[("solid", &["segments", "width", "filled", "floor"])];

    fn check(&self, table: &Table<'_>) {
        only_of_segments(self, table);
        if self.floor.is_some() && self.filled.is_some_and(|filled| filled < 100.0) {
            table.trouble(
                "filled",
                "a floor panel is let into a closed ring".into(),
                "write filled = 100, or take floor out",
            );
        }
        if self.board == Some(Board::Plywood) && !self.solid {
            table.trouble(
                "board",
                "segments are not cut from plywood: its edges would show and its veneers split"
                    .into(),
                "write board = \"flat-sawn\" or \"quarter-sawn\", or solid = true for a disc",
            );
        }
        if let (Some(outside), Some(width)) = (self.outside, self.width)
            && (width * 2.0).exceeds(outside)
        {
            let unit = table.log.told_in();
            table.trouble(
                "width",
                format!(
                    "a board {} wide is more than half of a ring of {}",
                    unit.length(width),
                    unit.length(outside)
                ),
                "make the board narrower, or write solid = true for a disc",
            );
        }
    }
}

fn only_of_segments(ring: &RingSpec, table: &Table<'_>) {
    if !ring.solid {
        return;
    }
    for key in ["segments", "width", "filled", "floor"] {
        if table.has(key) {
            table.trouble(
                key,
                format!("a solid ring has no {key}"),
                &format!("take out {key} or solid = true"),
            );
        }
    }
    if ring.wood.len() > 1 {
        table.trouble(
            "wood",
            "a solid ring is of one wood".into(),
            "name one wood, or take solid = true out",
        );
    }
}

/// Tells of a ring that is higher than its board.
pub(super) fn fits_its_stock(ring: &RingSpec, section: &SectionSpec, table: &Table<'_>) {
    if ring.stock.is_none() && ring.height.is_none() {
        return;
    }
    let stock = ring.stock.or(section.stock);
    let height = ring.height.or(section.ring_height);
    if let (Some(stock), Some(height)) = (stock, height)
        && height.exceeds(stock)
    {
        let unit = table.log.told_in();
        table.trouble(
            if ring.height.is_some() {
                "height"
            } else {
                "stock"
            },
            format!(
                "a ring of {} cannot be had from {} stock",
                unit.length(height),
                unit.length(stock)
            ),
            "make the ring lower than the stock by what flattening takes, or use thicker stock",
        );
    }
}

const PANEL: Lengths = Lengths::new("a floor panel's thickness", 0.5, 100.0);
const ABOVE: Lengths = Lengths::new(
    "the height of a panel above its ring's underside",
    0.0,
    300.0,
);
const GROOVE: Lengths = Lengths::new("the depth of a groove", 0.0, 100.0);
const GAP: Lengths = Lengths::new("the room at a panel's edge", 0.0, 20.0);

keys! {
    /// A floor panel let into a ring.
    pub struct FloorSpec, FloorPath, "floor = { ... }" {
        /// its wood
        wood: String = "wood", Quantity::Wood, Usual::Must(
            "a floor panel needs one",
            "write floor = { wood = \"cherry\" } or the like",
        );
        /// how its board was sawn from the log, or a veneered panel
        board: Option<Board> = "floor panel's board", Quantity::Choice(Board::WORDS),
            word("flat-sawn");
        /// of the panel
        thickness: Option<Length> = "floor panel's thickness", Quantity::Length(PANEL),
            Usual::Follows("from the form's floor");
        /// underside of the panel above the ring's underside
        above: Option<Length> = "floor panel above the ring's underside",
            Quantity::Length(ABOVE), Usual::Follows("from the form's recess");
        /// how far the panel reaches into the finished wall
        groove: Option<Length> = "depth of the floor panel's groove", Quantity::Length(GROOVE),
            Usual::Follows("half the wall");
        /// loose in its groove (true) or glued (false): solid wood across a ring moves
        floating: bool = "floor panel floats in its groove", Quantity::Flag, flag(true);
        /// room at the edge, floating only
        gap: Option<Length> = "room at the edge of a floating floor", Quantity::Length(GAP),
            mm(1.0);
    }
}

impl Rules for FloorSpec {
    fn check(&self, table: &Table<'_>) {
        if table.has("gap") && !self.floating {
            table.trouble(
                "gap",
                "a glued panel has no room at its edge".into(),
                "take gap out, or write floating = true",
            );
        }
    }
}
