//! `[[section]]`: rings, loop bands and splits that are worked together.

use geometry::{Angle, Length};

use super::ring::fits_its_stock;
use super::split::MOST_SPLITS;
use super::{BandSpec, BlankShape, Board, RingSpec, SplitSpec};
use crate::keys::{
    Angles, Around, Counts, Lengths, Numbers, Quantity, Rules, Scalar, Usual, keys, number, word,
};
use crate::read::{FEWEST_SEGMENTS, MOST_SEGMENTS};
use crate::reader::{LONGEST_NAME, Table};

/// Most rings in one section: more is a slip of the pen, not a piece.
pub const MOST_RINGS_IN_SECTION: usize = 400;
/// Most bands in a section.
pub const MOST_BANDS: usize = 12;

/// Segments in a ring.
pub(crate) const FILLED: Numbers = Numbers::new(
    "what segments fill of a ring",
    ("percent", "%"),
    20.0,
    100.0,
);
pub(crate) const SEGMENTS: Counts = Counts::new(
    "a ring needs 3 to 144 segments",
    FEWEST_SEGMENTS,
    MOST_SEGMENTS,
);
/// A board's thickness.
pub(crate) const BOARD: Lengths = Lengths::new("a board's thickness", 0.5, 300.0);
pub(super) const RING_HEIGHT: Lengths = Lengths::new("a ring's height", 0.5, 300.0);
pub(super) const TURN: Angles = Angles::new("a turn", -360.0, 360.0);
const HEIGHT: Lengths = Lengths::new("a section's height", 1.0, 3000.0);
const RINGS: Counts = Counts::new("a section has 1 to 400 rings", 1, MOST_RINGS_IN_SECTION);

keys! {
    /// One section: rings stacked on a faceplate and worked before it is joined to the
    /// others.
    pub struct SectionSpec, SectionPath, "[[section]]" {
        /// its name in the plan, each different
        name: String = "name of the section", Quantity::Text(LONGEST_NAME), Usual::Must(
            "every section has one, to be told by in the plan",
            "write name = \"body\" or the like",
        );
        /// one wood, or several repeated segment by segment
        wood: Vec<String> = "wood", Quantity::Woods(MOST_SEGMENTS),
            Usual::Workshop("defaults.wood");
        /// segments in each ring
        segments: Option<usize> = "segments in a ring", Quantity::Count(SEGMENTS),
            Usual::Workshop("defaults.segments");
        /// percent of each closed ring's angle that segments fill: less than 100 makes
        /// open-segment rings, with gaps to be seen through; discs and rings with a floor
        /// panel are closed
        filled: Option<f64> = "filled by segments", Quantity::Number(FILLED), number(100.0);
        /// board thickness as milled
        stock: Option<Length> = "board thickness", Quantity::Length(BOARD),
            Usual::Workshop("defaults.board");
        /// how the boards of its rings were sawn from the log
        board: Option<Board> = "boards", Quantity::Choice(Board::SAWN), word("flat-sawn");
        /// ring height after flattening; not more than `stock`
        ring_height: Option<Length> = "ring height", Quantity::Length(RING_HEIGHT),
            Usual::Follows("`stock` less flattening on two faces");
        /// each ring's joints against the ring below
        joint_turn: Option<Angle> = "turn of each ring against the ring below",
            Quantity::Turn(TURN), Usual::Follows("half a segment, to and fro");
        /// the section against the section below
        turn: Option<Angle> = "turn against the section below", Quantity::Angle(TURN),
            Usual::Follows("joints half a segment apart");
        /// of the section, with `rings = "auto"` only
        height: Option<Length> = "height", Quantity::Length(HEIGHT),
            Usual::Follows("up to the top of the form");
        /// as it is sawn: trued to a cylinder first, or as it left the glue
        blank: Option<BlankShape> = "blank as sawn", Quantity::Choice(BlankShape::WORDS),
            word("cylinder");
        /// how many, or `"auto"`: as many as reach `height`
        rings: Option<usize> = "rings", Quantity::Rings(RINGS), Usual::Follows("`\"auto\"`");
        /// told by, whatever its name and place; written by the program when it is needed
        id: Option<String> = "id", Quantity::Id, Usual::Nothing("none");
        /// each ring on its own from the bottom up, instead of `rings`
        @list listed as ring: RingSpec = "ring",
            Quantity::Tables(RingSpec::KEYS, MOST_RINGS_IN_SECTION), Usual::Nothing("none");
        /// loops sawn into the section, in the order they are sawn
        @list bands as band: BandSpec = "loop band",
            Quantity::Tables(BandSpec::KEYS, MOST_BANDS), Usual::Nothing("none");
        /// places where the section is sawn apart, turned and glued again, after the bands
        @list splits as split: SplitSpec = "split",
            Quantity::Tables(SplitSpec::KEYS, MOST_SPLITS), Usual::Nothing("none");
    }
}

/// How a section's rings are given.
#[derive(Debug, Clone, Copy)]
pub enum RingsGiven<'a> {
    /// As many equal rings as reach a height, or the top of the form.
    Auto(Option<Length>),
    /// That many rings alike.
    Count(usize),
    /// Each ring on its own, from the bottom up.
    Listed(&'a [RingSpec]),
}

impl SectionSpec {
    /// How its rings are given.
    pub fn rings_given(&self) -> RingsGiven<'_> {
        match self.rings {
            _ if !self.listed.is_empty() => RingsGiven::Listed(&self.listed),
            Some(count) => RingsGiven::Count(count),
            None => RingsGiven::Auto(self.height),
        }
    }

    /// How many rings the file itself counts.
    pub(super) fn rings_counted(&self) -> usize {
        match self.rings_given() {
            RingsGiven::Auto(_) => 0,
            RingsGiven::Count(count) => count,
            RingsGiven::Listed(rings) => rings.iter().map(|r| r.repeat.unwrap_or(1)).sum(),
        }
    }
}

impl Rules for SectionSpec {
    const DISPLACES: &'static [(&'static str, &'static [&'static str])] = &[("height", &["ring"])];
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[
        ("tilt", "it belongs in a [[section.band]]"),
        ("reach", "it belongs in a [[section.band]]"),
        ("loops", "it belongs in a [[section.band]]"),
        ("layer", "it belongs in a [[section.band]]"),
        ("spacer", "it belongs in a [[section.band]]"),
        (
            "floor",
            "it belongs in a [[section.ring]]; the form's own floor in [form]",
        ),
        ("width", "it belongs in a [[section.ring]]"),
        ("outside", "it belongs in a [[section.ring]]"),
    ];

    fn gather(&mut self, table: &Table<'_>, around: &Around<'_>) {
        let Some(key) = Self::KEYS.key("blank") else {
            return;
        };
        for band in table.below("band") {
            let Some(item) = band.peek(key.name) else {
                continue;
            };
            let Some(shape) = BlankShape::read(&item, key, around) else {
                continue;
            };
            if *self.blank.get_or_insert(shape) != shape {
                item.trouble(
                    "the bands of a section are sawn into one blank, and another one is named above",
                    "take blank out here, and write it in the [[section]]",
                );
            }
        }
    }

    fn check(&self, table: &Table<'_>) {
        if let (Some(stock), Some(height)) = (self.stock, self.ring_height)
            && height.exceeds(stock)
        {
            let unit = table.log.told_in();
            table.trouble(
                "ring_height",
                format!(
                    "a ring of {} cannot be had from {} stock",
                    unit.length(height),
                    unit.length(stock)
                ),
                "make ring_height less than stock by what flattening takes, or use thicker stock",
            );
        }
        rings(self, table);
        for (ring, below) in self.listed.iter().zip(table.below("ring")) {
            fits_its_stock(ring, self, &below);
        }
    }
}

/// Rings are counted, listed, or fill a height.
fn rings(section: &SectionSpec, table: &Table<'_>) {
    if table.has("ring") {
        table.both("ring", "rings", "the rings are either listed or counted");
        if table.has("height") {
            table.trouble(
                "height",
                "height goes with rings = \"auto\", but these rings are listed".into(),
                "leave height out; the listed rings make it",
            );
        }
        let all: usize = section.listed.iter().map(|r| r.repeat.unwrap_or(1)).sum();
        if all > MOST_RINGS_IN_SECTION {
            let what = format!("{all} rings: {}", RINGS.rule);
            table.trouble("ring", what, "spread them over several sections");
        }
    } else if let (Some(count), true) = (section.rings, table.has("height")) {
        table.trouble(
            "height",
            format!("height goes with rings = \"auto\", but rings = {count}"),
            "leave one of the two out",
        );
    }
}
