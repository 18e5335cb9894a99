//! A piece that is heavy to lift.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use crate::weight::UNKNOWN_DENSITY;
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
        // Not even the heaviest of its woods throughout would weigh as much: most need no
        // weighing.
        let heaviest = piece
            .woods
            .iter()
            .filter_map(|w| w.density)
            .fold(UNKNOWN_DENSITY, f64::max);
        if piece.form.wood_volume().as_mm3() * heaviest * 1e-6 <= limits::ONE_HAND {
            return Vec::new();
        }
        let Some(weight) = survey.weight() else {
            return Vec::new();
        };
        let grams = weight.grams;
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
                "sum over the woods of volume x density, layers and floors with them",
                "the woods' densities; 700 kg/m³ where none is known",
            ),
        )]
    }
}
