//! A sled that travels further than the saw's table is long.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::say;

/// The sled would tip off the table.
pub struct SawTable;

impl Check for SawTable {
    fn key(&self) -> &'static str {
        "saw-table"
    }

    fn asks(&self) -> &'static str {
        "is the saw's table as long as the sled travels?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::TABLE_LENGTH]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let (saw, sled) = (&view.band.saw, &view.band.sled);
            if !sled.travel.exceeds(saw.table_length) {
                return None;
            }
            Some(found(self, Said {
severity: Severity::Risky,
subject: view.subject(),
path: view.path().saw(),
what: say!(
                    "cutting {loops}, the sled travels {travel}; the table of the {saw} is {table_length} long",
                    loops = view.name(),
                    travel = sled.travel,
                    saw = Value::name(saw.name.as_str()),
                    table_length = saw.table_length,
                ),
remedy: say!(
                    "lengthen the table to at least {travel} along the cut",
                    travel = Value::up(sled.travel),
                ).into(),
},
(Amount::Length(sled.travel), Amount::Length(saw.table_length)),
Working::new(
                        "2 x radius of the blank / cos(tilt) + 2 x run-out",
                        limits::TABLE_LENGTH.source,
                    )
                    .with(
                        "radius of the blank",
                        Amount::Length(view.section.blank_radius),
                    )
                    .with("tilt", Amount::Angle(sled.tilt))
                    .with("run-out", Amount::Length(*piece.workshop.sled.run_out)),
))
        });
        found.collect()
    }
}
