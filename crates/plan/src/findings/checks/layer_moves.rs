//! A layer of one board that moves across its grain against the wall.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_band};
use crate::findings::{Check, Limit, Survey, limits};
use crate::movement::LayerMove;
use files::design::Board;
use files::key;
use files::message::{Message, Value};
use files::remedy::{Remedy, Way};
use files::say;

/// A ring's grain runs with the wall's; a quarter-sawn board moves about half as far.
fn remedy(layer: &LayerMove) -> Remedy {
    let band = key::section(layer.at.0).band(layer.at.1);
    let ring = Way::new(say!("make the layers as a round ring")).set(band.make(), "round ring");
    let as_ring = "layers made as a round ring, whose grain runs with the wall's";
    if layer.board == Board::QuarterSawn {
        return Remedy::from(Message::plain(as_ring)).or(ring);
    }
    let quartered = Way::new(say!("take quarter-sawn boards")).set(band.board(), "quarter-sawn");
    Remedy::from(say!("{ring}; or quarter-sawn boards", ring = as_ring))
        .or(ring)
        .or(quartered)
}

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
                    path: key::section(l.at.0).band(l.at.1).make(),
                    what: say!(
                        "the layers of {wood} in {name} are single boards {diameter} across in the wall; with the seasons they move {worst} against it",
                        wood = Value::name(piece.wood_name(l.wood)),
                        name = Value::name(piece.sections[l.at.0].name.as_str()),
                        diameter = l.diameter,
                        worst = Value::fine(l.worst),
                    ),
                    remedy: remedy(l),
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
