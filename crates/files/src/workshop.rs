//! What the maker has: saws, stock, lathe, sled, and the losses they reckon with.
//!
//! Every figure says who gave it: the workshop's file, or common practice.

mod climate;
mod exactness;
mod glue;
mod holding;
mod machines;
mod saw;

use geometry::Length;

use crate::design::{BOARD, FORMAT_USUAL, SEGMENTS, UNIT_USUAL};
use crate::key::KeyPath;
use crate::keys::{
    Fixed, Format, Given, Lengths, Numbers, Quantity, Rules, Setting, Usual, count, keys, mm,
    number, word,
};
use crate::units::Unit;

pub use climate::{Air, Climate, ClimatePath};
pub use exactness::{Exactness, ExactnessPath};
pub use glue::{Glue, GluePath};
pub use holding::{Block, Fixing, Holding, HoldingPath};
pub use machines::{Lathe, LathePath, Sled, SledPath};
pub use saw::{Saw, SawKind, SawPath};

/// Most saws and board thicknesses.
const MOST: usize = 50;

keys! {
    /// A workshop file's contents. `Workshop::default()` is a plain small shop, each
    /// figure of it common practice; the plan shows which figures came from it.
    pub struct Workshop, WorkshopPath, "" {
        /// the file format, 1
        format as ringwright: Format = "file format", Quantity::Format, FORMAT_USUAL;
        /// what plain numbers are in
        unit: Unit = "unit", Quantity::Choice(Unit::WORDS), UNIT_USUAL;
        /// board thicknesses on the rack
        stock: Given<Vec<Length>> = "board thicknesses in stock",
            Quantity::Lengths(BOARD, MOST), Usual::Is(Fixed::Lengths(&[
                Length::mm(19.0), Length::mm(25.4), Length::mm(38.0),
            ]));
        /// saws, the first of a kind being the one used where none is named
        @rack saws as saw: Saw = "saw", Quantity::Tables(Saw::KEYS, MOST),
            Usual::Nothing("a band saw with a kerf of 1.2 mm and a table saw with 3 mm");
        /// losses and allowances
        @table allowances: Allowances = "allowances", Quantity::Table(Allowances::KEYS),
            Usual::Nothing("as below");
        /// the lathe
        @table lathe: Lathe = "lathe", Quantity::Table(Lathe::KEYS), Usual::Nothing("as below");
        /// the sliding jig that carries the faceplate past the blade
        @table sled: Sled = "sled", Quantity::Table(Sled::KEYS), Usual::Nothing("as below");
        /// what holds the piece on the lathe
        @table holding: Holding = "what holds the piece", Quantity::Table(Holding::KEYS),
            Usual::Nothing("as below");
        /// glue, as you use it
        @table glue: Glue = "glue", Quantity::Table(Glue::KEYS), Usual::Nothing("as below");
        /// the air of shop and home
        @table climate: Climate = "air of shop and home", Quantity::Table(Climate::KEYS),
            Usual::Nothing("as below");
        /// how exactly you work: 19 of 20 settings within
        @table exactness: Exactness = "how exactly you work: 19 of 20 settings within",
            Quantity::Table(Exactness::KEYS), Usual::Nothing("as below");
        /// what a project gets where it does not say
        @table defaults: ShopDefaults = "where a project does not say",
            Quantity::Table(ShopDefaults::KEYS), Usual::Nothing("as below");
    }
}

impl Rules for Workshop {
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[
        ("form", "the form belongs in the project file"),
        ("section", "sections belong in the project file"),
        ("title", "the title belongs in the project file"),
        ("notes", "notes belong in the project file"),
        ("woods", "own woods belong in the project file"),
    ];

    fn check(&self, table: &crate::reader::Table<'_>) {
        saw::names_differ(&self.saws, table);
    }
}

impl Workshop {
    /// Every setting with its value and who gave it.
    pub fn settings(&self) -> Vec<Setting> {
        let mut out = Vec::new();
        for (key, slot) in crate::keys::Slots::slots(self) {
            slot.settings(KeyPath::root().below(key.name), key, &mut out);
        }
        out
    }

    /// The saw that segments are cut with: the first table saw, else the first mitre
    /// saw, else whichever there is, else a usual table saw.
    pub fn segment_saw(&self) -> Saw {
        let first = |kind| self.saws.iter().find(|s| s.kind == kind);
        first(SawKind::Table)
            .or(first(SawKind::Mitre))
            .or(self.saws.first())
            .cloned()
            .unwrap_or_else(|| Saw::usual(SawKind::Table))
    }

    /// The band saw of a name, or the first band saw, or whichever there is, else a usual
    /// band saw.
    pub fn band_saw(&self) -> Given<Saw> {
        let first = self.saws.iter().find(|s| s.kind == SawKind::Band);
        Given {
            value: first
                .or(self.saws.first())
                .cloned()
                .unwrap_or_else(|| Saw::usual(SawKind::Band)),
            by: self.saws.by,
        }
    }
}

const ALLOWANCE: Lengths = Lengths::new("an allowance", 0.0, 50.0);
const LOSS: Lengths = Lengths::fine("a loss", 0.0, 10.0);

keys! {
    /// Losses and allowances, all shop quantities.
    pub struct Allowances, AllowancesPath, "[allowances]" {
        /// wood left outside the finished wall, at a flat
        outside: Given<Length> = "wood left outside the wall, at a flat",
            Quantity::Length(ALLOWANCE), mm(3.0);
        /// wood left inside the finished wall, at a corner
        inside: Given<Length> = "wood left inside the wall, at a corner",
            Quantity::Length(ALLOWANCE), mm(3.0);
        /// loss to each face of a ring when it is flattened
        flattening: Given<Length> = "loss to each face of a ring", Quantity::Length(LOSS),
            mm(0.5);
        /// thickness of one in a loop
        glue_line: Given<Length> = "one glue line in a loop",
            Quantity::Length(crate::design::GLUE_LINE), mm(0.05);
        /// wood left round a layer's oval
        layer_edge: Given<Length> = "wood left round a layer's oval",
            Quantity::Length(ALLOWANCE), mm(3.0);
        /// loss to each edge of a strip when it is jointed
        jointing: Given<Length> = "loss to each edge of a strip", Quantity::Length(LOSS),
            mm(0.5);
    }
}

impl Rules for Allowances {}

const DAY: Numbers = Numbers::new("a day's work", ("hours", "h"), 0.5, 24.0);

keys! {
    /// What a project gets where it does not say.
    pub struct ShopDefaults, ShopDefaultsPath, "[defaults]" {
        /// segments in a ring
        segments: Given<usize> = "segments in a ring", Quantity::Count(SEGMENTS), count(12);
        /// of a ring
        wood: Given<String> = "wood of a ring", Quantity::ListedWood, word("hard maple");
        /// board thickness before flattening
        board: Given<Length> = "board thickness", Quantity::Length(BOARD), mm(19.0);
        /// hours of work in a day in the shop, for the calendar
        hours_a_day: Given<f64> = "hours of work a day", Quantity::Number(DAY), number(4.0);
    }
}

impl Rules for ShopDefaults {
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[("stock", "did you mean board?")];
}
