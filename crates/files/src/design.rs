//! The project as the maker wrote it: what is wanted, with what was left out left out.
//!
//! What was not in the file is `None` or empty; `settle` fills it from the workshop, the
//! form or common practice and remembers which.

mod band;
mod board;
mod form;
pub(crate) mod id;
mod ring;
mod section;
mod split;
mod wood;

use crate::keys::{Format, Quantity, Rules, Usual, keys};
use crate::reader::{LONGEST_NAME, LONGEST_TEXT, Table};
use crate::units::Unit;
use crate::workshop::Holding;

pub(crate) use band::GLUE_LINE;
pub use band::{BandPath, BandSpec, BlankShape, FLATTEST, LayerMake, STEEPEST};
pub use board::Board;
pub use form::{FormPath, FormPoint, FormSpec, InnerSide, WallPoint};
pub use ring::{FloorPath, FloorSpec, RingPath, RingSpec};
pub(crate) use section::{BOARD, SEGMENTS};
pub use section::{MOST_RINGS_IN_SECTION, RingsGiven, SectionPath, SectionSpec};
pub use split::{SplitPath, SplitSpec};
pub use wood::{OwnWood, WoodPath};

/// Most sections in a project.
pub const MOST_SECTIONS: usize = 50;
/// Most rings in a project. A thousand at a quarter inch is a piece as high as a house.
pub const MOST_RINGS: usize = 1000;

/// The number of the file format, in both files.
pub(crate) const FORMAT_USUAL: Usual = Usual::Must(
    "it says which file format this is",
    "add the line ringwright = 1 at the top",
);
/// What plain numbers are in, in both files.
pub(crate) const UNIT_USUAL: Usual = Usual::Must(
    "it says what plain numbers are in",
    "add the line unit = \"mm\" or unit = \"inch\" near the top",
);

keys! {
    /// A project file's contents.
    pub struct Design, DesignPath, "" {
        /// the file format, 1
        format as ringwright: Format = "file format", Quantity::Format, FORMAT_USUAL;
        /// what you call the piece
        title: String = "title", Quantity::Text(LONGEST_NAME), Usual::Follows("the file's name");
        /// what plain numbers are in, and what the plan is written in
        unit: Unit = "unit", Quantity::Choice(Unit::WORDS), UNIT_USUAL;
        /// anything to be printed with the plan; `"""` for several lines
        notes: Option<String> = "notes", Quantity::Text(LONGEST_TEXT), Usual::Nothing("none");
        /// the finished outside and inside
        @table form: FormSpec = "form", Quantity::Table(FormSpec::KEYS), Usual::Must(
            "it gives the shape that the rings are turned to",
            "add [form] with outer = [[height, radius], ...] and wall = thickness",
        );
        /// woods that the built-in list has not, or that you have weighed
        @named woods: OwnWood = "own woods", Quantity::Named(OwnWood::KEYS), Usual::Nothing("none");
        /// what holds the piece on the lathe, where it is not as the workshop file says
        @table holding: Holding = "holding", Quantity::Table(Holding::KEYS),
            Usual::Workshop("holding");
        /// rings that are stacked and worked together, from the bottom up
        @list sections as section: SectionSpec = "section",
            Quantity::Tables(SectionSpec::KEYS, MOST_SECTIONS), Usual::Must(
                "a piece has one section at least",
                "add [[section]] with its rings below",
            );
    }
}

impl Rules for Design {
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[
        ("saw", "saws belong in the workshop file"),
        (
            "stock",
            "write stock in a section; boards in stock belong in the workshop file",
        ),
        ("allowances", "allowances belong in the workshop file"),
        ("lathe", "the lathe belongs in the workshop file"),
        ("climate", "the climate belongs in the workshop file"),
        ("sled", "the sled belongs in the workshop file"),
        ("glue", "glue belongs in the workshop file"),
        ("defaults", "defaults belong in the workshop file"),
    ];

    fn check(&self, table: &Table<'_>) {
        names_differ(self, table);
        id::differ(self, table);
        let rings: usize = self.sections.iter().map(SectionSpec::rings_counted).sum();
        if rings > MOST_RINGS {
            table.trouble(
                "section",
                format!("{rings} rings in all are more than {MOST_RINGS}"),
                "take some out",
            );
        }
    }
}

fn names_differ(design: &Design, table: &Table<'_>) {
    let named = |at: usize| design.sections.get(at).map(|s| s.name.as_str());
    for (at, section) in table.below("section").iter().enumerate() {
        let Some(name) = named(at).filter(|name| !name.is_empty()) else {
            continue;
        };
        if let Some(earlier) = (0..at).find(|other| named(*other) == Some(name)) {
            let (first, this) = (earlier + 1, at + 1);
            section.trouble(
                "name",
                format!("sections {first} and {this} are both called {name}"),
                "give each section a name of its own",
            );
        }
    }
}
