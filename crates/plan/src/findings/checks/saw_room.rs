//! Not enough room between the blade and the saw's column.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::ways::one;
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::remedy::Remedy;
use files::say;

/// The blank hits the column.
pub struct SawRoom;

impl Check for SawRoom {
    fn key(&self) -> &'static str {
        "saw-room"
    }

    fn asks(&self) -> &'static str {
        "does the narrower side of the blank pass between the blade and the column?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::ROOM_BESIDE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let (saw, sled) = (&view.band.saw, &view.band.sled);
            sled.room_short(saw)?;
            let (free, width) = sled.narrower_side();
            let side = if free { "free end" } else { "faceplate" };
            let remedy = match view.other_saw() {
                Some(other) => one(
                    say!(
                        "the {saw}, which has {room} beside the blade",
                        saw = Value::name(other.name.as_str()),
                        room = other.room_beside,
                    ),
                    view.saw_way(other),
                ),
                None => Remedy::from(say!(
                    "a saw with at least {width} beside the blade",
                    width = Value::up(width),
                )),
            };
            Some(found(self, Said {
severity: Severity::Stops,
subject: view.subject(),
path: view.path().saw(),
what: say!(
                    "cutting {loops}, even the side of the {side} needs {width} beside the blade; the {saw} has {room_beside}",
                    loops = view.name(),
                    side = side,
                    width = width,
                    saw = Value::name(saw.name.as_str()),
                    room_beside = saw.room_beside,
                ),
remedy,
},
(Amount::Length(width), Amount::Length(saw.room_beside)),
Working::new(
                        "wood from the cut to the end of the blank x cos(tilt) + radius x sin(tilt)",
                        limits::ROOM_BESIDE.source,
                    )
                    .with("tilt", Amount::Angle(sled.tilt))
                    .with("radius of the blank", Amount::Length(view.section.blank_radius))
                    .with("section's height", Amount::Length(view.section.stacked)),
))
        });
        found.collect()
    }
}
