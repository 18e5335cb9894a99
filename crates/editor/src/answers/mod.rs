//! What the page asks for and is answered, as functions: a server puts them on the network,
//! and in a browser without one they are called as they are.

pub mod look;
pub mod piece;
pub mod shelf;
pub mod workshop;

use files::units::Unit;
use serde::Deserialize;

use crate::open_projects::Revision;
use crate::view::unit;
use crate::wire::PageUnit;

/// Whom an answer is for.
#[derive(Debug, Clone, Copy, Default, Deserialize)]
pub struct Reader {
    /// The unit to read in; the file's own where it is left out.
    pub unit: Option<PageUnit>,
}

impl Reader {
    /// The unit for what is said of a piece.
    pub fn unit(self, revision: Option<&Revision>) -> Unit {
        self.unit
            .map(unit)
            .or(revision.map(|m| m.design.unit))
            .unwrap_or_default()
    }
}
