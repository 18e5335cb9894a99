//! One making: its errors, and where they put every cut.

use geometry::Profile;
use glam::DVec2;
use piece::piece::Piece;

use super::erred::SectionCuts;
use super::errors::Errors;

/// A wall that is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Face {
    /// Outside.
    Outside,
    /// Inside.
    Inside,
}

impl Face {
    /// The wall's line.
    pub fn line(self, piece: &Piece) -> &Profile {
        match self {
            Face::Outside => piece.form.outside(),
            Face::Inside => piece.form.inside(),
        }
    }
}

/// One making's cuts in place.
#[derive(Debug)]
pub struct Sample<'a> {
    /// Its errors.
    pub errors: &'a Errors,
    /// By section, from the bottom.
    pub sections: Vec<PlacedCuts>,
}

/// A section's cuts and where it stands.
#[derive(Debug)]
pub struct PlacedCuts {
    /// The cuts.
    pub cuts: SectionCuts,
    /// Its underside above the piece's, mm.
    pub bottom: f64,
    /// The hollow's axis in the section's own directions, mm.
    hollow: DVec2,
}

impl PlacedCuts {
    /// Where a wall's axis stands in the section's own directions, mm.
    pub fn axis(&self, face: Face) -> DVec2 {
        match face {
            Face::Outside => DVec2::ZERO,
            Face::Inside => self.hollow,
        }
    }
}

impl<'a> Sample<'a> {
    /// Puts a piece together with its errors.
    pub fn new(piece: &Piece, errors: &'a Errors) -> Self {
        let mut bottom = 0.0;
        let mut sections = Vec::with_capacity(piece.sections.len());
        let placed = piece.stack.sections().iter();
        for ((section, placed), own) in piece.sections.iter().zip(placed).zip(&errors.sections) {
            let cuts = SectionCuts::new(section, &placed.body, own);
            let hollow = if errors.inside == DVec2::ZERO {
                DVec2::ZERO
            } else {
                DVec2::from_angle(-placed.turn).rotate(errors.inside)
            };
            let height = cuts.height;
            sections.push(PlacedCuts {
                cuts,
                bottom,
                hollow,
            });
            bottom += height;
        }
        Self { errors, sections }
    }
}
