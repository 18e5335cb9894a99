//! What will go wrong, before wood is spoiled.
//!
//! ```text
//!   Settled ──► Survey ──► every Check of the registry ──► findings, worst first
//!                              └── figures held against the table of limits
//! ```
//!
//! A check is one struct in one file. It has a passing and a failing fixture of its
//! key's name in `tests/findings/`, and every figure that its remedy names has been
//! tried there: with it the finding is gone.

mod band_remedy;
mod band_view;
mod checks;
mod found;
mod group;
mod limits;
mod say;
mod ways;

use std::cell::OnceCell;

use files::message::Wording;
use piece::piece::Piece;
use piece::settle::Settled;

use crate::finding::Finding;
use crate::holding::{self, Held};
use crate::movement::{self, Movement};
use crate::weight::Weight;

pub use limits::{LIMITS, Limit, Mark};

/// What a check looks at.
pub struct Survey<'a> {
    /// The piece and its troubles.
    pub settled: &'a Settled,
    /// What the checks before this one have found.
    pub found: &'a [Finding],
    held: OnceCell<Vec<Held>>,
    movement: OnceCell<Option<Movement>>,
    weight: OnceCell<Option<Weight>>,
}

impl<'a> Survey<'a> {
    /// A survey of a settled piece before anything is found.
    pub fn new(settled: &'a Settled) -> Self {
        Self {
            settled,
            found: &[],
            held: OnceCell::new(),
            movement: OnceCell::new(),
            weight: OnceCell::new(),
        }
    }

    /// How it is held at each stage, worked out when first asked for.
    pub fn held(&self) -> &[Held] {
        self.held
            .get_or_init(|| self.piece().map(holding::study).unwrap_or_default())
    }

    /// How it moves, worked out when first asked for.
    pub fn movement(&self) -> Option<&Movement> {
        let movement = self
            .movement
            .get_or_init(|| self.piece().map(movement::study));
        movement.as_ref()
    }

    /// What it weighs, worked out when first asked for.
    pub fn weight(&self) -> Option<&Weight> {
        let weight = self.weight.get_or_init(|| self.piece().map(Weight::of));
        weight.as_ref()
    }

    /// The piece, if it could be settled at all.
    pub fn piece(&self) -> Option<&'a Piece> {
        self.settled.piece.as_ref()
    }
}

/// One kind of finding.
pub trait Check: Sync {
    /// Its key, which is also its findings' and its fixtures': `ring-narrow-outside`.
    fn key(&self) -> &'static str;

    /// What it asks, in a sentence for the table of limits.
    fn asks(&self) -> &'static str;

    /// The limits it holds figures against.
    fn limits(&self) -> &'static [&'static Limit];

    /// Is it about a ring with too little wood for the finished wall?
    fn of_the_wall(&self) -> bool {
        false
    }

    /// What it finds.
    fn find(&self, survey: &Survey<'_>) -> Vec<Finding>;
}

/// Every check, in the order in which they look: those that tell a cause come before
/// those that would only see its effect.
pub fn registry() -> &'static [&'static dyn Check] {
    checks::REGISTRY
}

/// Is a finding about a ring with too little wood for the finished wall?
pub fn of_the_wall<W: Wording>(finding: &Finding<W>) -> bool {
    let check = registry().iter().find(|check| check.key() == finding.key);
    check.is_some_and(|check| check.of_the_wall())
}

/// Everything that will or may go wrong, worst first, then from the bottom up.
pub fn find(settled: &Settled) -> Vec<Finding> {
    surveyed(settled).findings
}

/// What was found, with what was worked out for it, if it was.
pub(crate) struct Surveyed {
    /// What was found.
    pub findings: Vec<Finding>,
    /// How the piece is held at each stage.
    pub held: Option<Vec<Held>>,
    /// What it weighs.
    pub weight: Option<Weight>,
}

/// As [`find`], for who goes on with what was worked out.
pub(crate) fn surveyed(settled: &Settled) -> Surveyed {
    let mut found: Vec<Finding> = Vec::new();
    // What is worked out for one check serves those after it.
    let (mut held, mut movement) = (OnceCell::new(), OnceCell::new());
    let mut weight = OnceCell::new();
    for check in registry() {
        let survey = Survey {
            settled,
            found: &found,
            held,
            movement,
            weight,
        };
        let more = check.find(&survey);
        (held, movement, weight) = (survey.held, survey.movement, survey.weight);
        found.extend(more);
    }
    if let Some(piece) = &settled.piece {
        found = group::grouped(found, piece);
    }
    // Stable: what is alike in all of these stays in the registry's order.
    found.sort_by_key(|f| {
        let s = &f.subject;
        (f.severity, s.section, s.ring, s.band, s.loop_number)
    });
    Surveyed {
        findings: found,
        held: held.into_inner(),
        weight: weight.into_inner().flatten(),
    }
}
