//! A sled that travels further than the saw's table is long.

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

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
        let say = Say::of(piece);
        let found = BandView::each(piece).filter_map(|view| {
            let (saw, sled) = (&view.band.saw, &view.band.sled);
            if !sled.travel.exceeds(saw.table_length) {
                return None;
            }
            Some(Finding {
                key: self.key().into(),
                severity: Severity::Risky,
                subject: view.subject(),
                path: view.path("saw"),
                what: format!(
                    "cutting {}, the sled travels {}; the table of the {} is {} long",
                    view.name(),
                    say.length(sled.travel),
                    saw.name,
                    say.length(saw.table_length)
                ),
                remedy: format!(
                    "lengthen the table to at least {} along the cut",
                    say.length(say.at_least(sled.travel))
                ),
                against: Some(Against {
                    figure: Amount::Length(sled.travel),
                    limit: Amount::Length(saw.table_length),
                    working: Working::new(
                        "2 x radius of the blank / cos(tilt) + 2 x run-out",
                        limits::TABLE_LENGTH.source,
                    )
                    .with(
                        "radius of the blank",
                        Amount::Length(view.section.blank_radius),
                    )
                    .with("tilt", Amount::Angle(sled.tilt))
                    .with("run-out", Amount::Length(*piece.workshop.sled.run_out)),
                }),
            })
        });
        found.collect()
    }
}
