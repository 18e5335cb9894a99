//! A layer of one board that moves across its grain against the wall.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_band};
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

/// A solid layer's movement is more than glue and wood give.
pub struct LayerMoves;

impl Check for LayerMoves {
    fn key(&self) -> &'static str {
        "layer-moves"
    }

    fn asks(&self) -> &'static str {
        "do layers of one board move little enough against the wall?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::LAYER_MOVES]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let say = Say::of(piece);
        let limit = limits::LAYER_GIVES;
        let Some(all) = survey.movement() else {
            return Vec::new();
        };
        let moving = all.layers.iter().filter(|l| l.worst.exceeds(limit));
        let found = moving.map(|l| {
            found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: of_band(l.at),
                    path: format!("section[{}].band[{}].make", l.at.0, l.at.1),
                    what: format!(
                        "the layers of {} in {} are single boards {} across in the wall; with the seasons they move {} against it",
                        piece.wood_name(l.wood),
                        piece.sections[l.at.0].name,
                        say.length(l.diameter),
                        say.fine(l.worst)
                    ),
                    remedy: "layers made as a round ring, whose grain runs with the wall's; or quarter-sawn boards".into(),
                },
                (Amount::Fine(l.worst), Amount::Fine(limit)),
                Working::new(
                    "diameter x change across the grain, less the same along it",
                    "Wood Handbook eq. 13-2 and 4-5",
                )
                .with("diameter", Amount::Length(l.diameter)),
            )
        });
        found.collect()
    }
}
