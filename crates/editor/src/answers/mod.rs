//! What the page asks for and is answered, as functions: a server puts them on the network,
//! and in a browser without one they are called as they are.

pub mod look;
pub mod piece;
pub mod shelf;
pub mod workshop;

use files::message::{Language, Spelling};
use serde::Deserialize;

use crate::open_projects::Revision;
use crate::view::unit;
use crate::wire::{PageSpelling, PageUnit};

/// Whom an answer is for.
#[derive(Debug, Clone, Copy, Default, Deserialize)]
pub struct Reader {
    /// The unit to read in; the file's own where it is left out.
    pub unit: Option<PageUnit>,
    /// How words are spelled; as those do who use the file's unit where it is left out.
    #[serde(default)]
    pub spelling: Option<PageSpelling>,
}

impl Reader {
    /// The language for what is said of a piece.
    pub fn language(self, revision: Option<&Revision>) -> Language {
        let file = revision.map(|m| m.design.unit);
        let unit = self.unit.map(unit).or(file).unwrap_or_default();
        let usual = Spelling::of(file.unwrap_or(unit));
        Language::new(unit, self.spelling.map_or(usual, Spelling::from))
    }
}
