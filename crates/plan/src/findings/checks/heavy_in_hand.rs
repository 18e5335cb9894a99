//! A piece that is heavy to lift.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::{Body, Cut};
use crate::operation::Subject;
use files::key;
use files::say;

/// The finished piece weighs more than one hand lifts.
pub struct HeavyInHand;

impl Check for HeavyInHand {
    fn key(&self) -> &'static str {
        "heavy-in-hand"
    }

    fn asks(&self) -> &'static str {
        "is the finished piece light enough to be lifted with one hand?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::HAND]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let last = piece.sections.len().saturating_sub(1);
        let grams = Body::up_to(piece, last, Cut::Finished).grams;
        if grams <= limits::ONE_HAND {
            return Vec::new();
        }
        let (figure, limit) = (Amount::Weight(grams), Amount::Weight(limits::ONE_HAND));
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::form().wall(),
                what: say!(
                    "finished, the piece weighs about {figure}",
                    figure = figure.clone()
                ),
                remedy: say!(
                    "a thinner wall or lighter woods, if it is to be lifted with one hand: {limit} at most",
                    limit = limit.clone(),
                ).into(),
            },
            (figure, limit),
            Working::new(
                "sum of the rings' volumes x their woods' densities",
                "the woods' densities; layers not counted",
            ),
        )]
    }
}
