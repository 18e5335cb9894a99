//! How a board lies in its log.

use crate::keys::{Word, words};

words! {
    /// How a board lies in its log, which says how far it moves.
    pub enum Board {
        /// The growth rings lie along its face.
        FlatSawn = "flat-sawn", "flat-sawn";
        /// The growth rings stand on its face.
        QuarterSawn = "quarter-sawn", "quarter-sawn";
        /// A panel of veneers glued crosswise.
        Plywood = "plywood", "veneered plywood";
    }
}

impl Board {
    /// What is sawn from a log: what rings of segments and layers are made of.
    pub(crate) const SAWN: &'static [Word] = &[Board::WORDS[0], Board::WORDS[1]];
}
