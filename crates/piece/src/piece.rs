//! The piece with every figure settled: what the plan, the drawings and the model share.

use geometry::{Angle, Length};

use crate::band::{BlockPlaces, CrossingRow, LayerBlank, LoopEdges, Loops, SledSetting, TwoCuts};
use crate::course::Course;
use crate::form::Form;
use crate::model::{Stack, WoodId};
use files::design::{BlankShape, Board, Design, SplitSpec};
use files::key::KeyPath;
use files::wood::Wood;
use files::workshop::{Saw, Workshop};

/// The piece, settled.
#[derive(Debug, Clone)]
pub struct Piece {
    /// What the maker calls it.
    pub title: String,
    /// The maker's notes.
    pub notes: Option<String>,
    /// The finished form.
    pub form: Form,
    /// Every wood in it, by [`WoodId`].
    pub woods: Vec<Wood>,
    /// What the file calls each of them.
    pub wood_names: Vec<String>,
    /// Sections from the bottom up.
    pub sections: Vec<Section>,
    /// The same as wood.
    pub stack: Stack,
    /// What was chosen for the maker.
    pub chosen: Vec<Chosen>,
    /// The shop it is made in.
    pub workshop: Workshop,
    /// What the maker wrote.
    pub design: Design,
}

/// Who chose a figure.
pub use files::keys::Giver as Origin;

/// A figure that the project's file leaves open.
#[derive(Debug, Clone)]
pub struct Chosen {
    /// Its key in the project's file, counted from 0: `section[1].stock`.
    pub path: KeyPath,
    /// What a person calls it.
    pub name: &'static str,
    /// Its value.
    pub value: ChosenValue,
    /// Who chose it.
    pub origin: Origin,
}

/// A chosen value.
#[derive(Debug, Clone)]
pub enum ChosenValue {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A count.
    Count(usize),
    /// A word.
    Word(String),
}

/// One section, settled.
#[derive(Debug, Clone)]
pub struct Section {
    /// The maker's name for it.
    pub name: String,
    /// Its underside above the piece's.
    pub bottom: Length,
    /// Its height as stacked.
    pub stacked: Length,
    /// Its height when all its steps are done.
    pub height: Length,
    /// Its turn against the section below, added up from the bottom.
    pub turn: Angle,
    /// Rings from the bottom up.
    pub rings: Vec<Course>,
    /// Loop bands.
    pub bands: Vec<Band>,
    /// Splits.
    pub splits: Vec<Split>,
    /// What it is when it passes the saw.
    pub blank: BlankShape,
    /// The radius that passes the saw.
    pub blank_radius: Length,
}

/// One loop band, settled.
#[derive(Debug, Clone)]
pub struct Band {
    /// The loops.
    pub loops: Loops,
    /// Each loop's layer wood.
    pub woods: Vec<WoodId>,
    /// How the boards of its layers were sawn from the log.
    pub board: Board,
    /// Loop numbers in cutting order.
    pub order: Vec<usize>,
    /// The saw.
    pub saw: Saw,
    /// The two cuts.
    pub cuts: TwoCuts,
    /// One glue line.
    pub glue_line: Length,
    /// The layer's dry thickness.
    pub layer: Length,
    /// The tilt was solved from the reach.
    pub tilt_solved: bool,
    /// The spacer was worked out from the layer.
    pub spacer_solved: bool,
    /// The sled's setting.
    pub sled: SledSetting,
    /// Each layer's blank.
    pub blank: LayerBlank,
    /// Where positioning blocks go.
    pub blocks: BlockPlaces,
    /// Edges on the finished outside wall.
    pub outside: LoopEdges,
    /// Edges on the finished inside wall.
    pub inside: LoopEdges,
    /// Rows of crossings on the outside, from the top down.
    pub rows_outside: Vec<CrossingRow>,
    /// Rows of crossings on the inside.
    pub rows_inside: Vec<CrossingRow>,
    /// Least height of a section that holds the cuts on the blank, clear of both ends.
    pub least_section: Length,
    /// The same with room for positioning blocks.
    pub least_section_with_blocks: Length,
    /// The pattern's repeats in one turn: loops, and with the section's rings.
    pub repeats: (usize, usize),
}

impl Section {
    /// What a band's heights are counted from, above the piece's foot: the section's
    /// underside, less the kerfs of splits below the loops, which let them down.
    pub fn base_of(&self, band: &Band) -> Length {
        self.bottom - lost_below(&self.splits, band.loops.height)
    }

    /// What a band's azimuths are counted from: the section's turn, and the turns of
    /// splits below the loops.
    pub fn turn_of(&self, band: &Band) -> Angle {
        let height = band.loops.height;
        let below = self.splits.iter().filter(|s| height.exceeds(s.spec.height));
        self.turn + below.map(|s| s.spec.turn).sum::<Angle>()
    }
}

/// Kerfs of the splits below a height of the section as stacked.
pub(crate) fn lost_below(splits: &[Split], height: Length) -> Length {
    splits
        .iter()
        .filter(|s| height.exceeds(s.spec.height))
        .map(|s| s.saw.kerf)
        .sum()
}

impl Band {
    /// A loop's place in the cutting order.
    pub fn cut_at(&self, number: usize) -> usize {
        self.order
            .iter()
            .position(|&k| k == number)
            .unwrap_or(number)
    }
}

/// One split, settled.
#[derive(Debug, Clone)]
pub struct Split {
    /// As the maker gave it.
    pub spec: SplitSpec,
    /// The saw.
    pub saw: Saw,
}

impl Piece {
    /// A wood.
    pub fn wood(&self, id: WoodId) -> &Wood {
        // Every id in a piece was made from this list.
        &self.woods[id.0 as usize]
    }

    /// What the file calls a wood.
    pub fn wood_name(&self, id: WoodId) -> &str {
        &self.wood_names[id.0 as usize]
    }

    /// Rings in all sections.
    pub fn ring_count(&self) -> usize {
        self.sections.iter().map(|s| s.rings.len()).sum()
    }

    /// A ring's number counted through the whole piece from 1.
    pub fn ring_number(&self, section: usize, ring: usize) -> usize {
        self.sections[..section.min(self.sections.len())]
            .iter()
            .map(|s| s.rings.len())
            .sum::<usize>()
            + ring
            + 1
    }
}
