//! A tilt that the sled cannot be set to.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::ways::any_of;
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::say;

/// Steeper than the sled goes.
pub struct SledTilt;

impl Check for SledTilt {
    fn key(&self) -> &'static str {
        "sled-tilt"
    }

    fn asks(&self) -> &'static str {
        "can the sled be set to the tilt?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SLED_TILT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        let found = views.iter().filter_map(|view| {
            let limit = view.piece.workshop.sled.largest_tilt;
            let tilt = view.band.loops.tilt;
            let slack = geometry::Angle::deg(1e-6);
            if !tilt.exceeds(*limit + slack) {
                return None;
            }
            let flatter = view
                .flatter(|l| !l.tilt.exceeds(*limit + slack))
                .unwrap_or_else(|| say!("another height of the loops' middle").into());
            Some(found(
                self,
                Said {
                    severity: Severity::Stops,
                    subject: view.subject(),
                    path: view.tilt_path(),
                    what: say!(
                        "the cuts for {loops} are tilted by {tilt}; the sled goes to {limit}",
                        loops = view.name(),
                        tilt = Value::tenth(tilt),
                        limit = Value::tenth(*limit),
                    ),
                    remedy: any_of([flatter, say!("a sled that goes further").into()])
                        .unwrap_or_default(),
                },
                (Amount::Angle(tilt), Amount::Angle(*limit)),
                Working::new("tilt <= largest tilt of the sled", limits::SLED_TILT.source),
            ))
        });
        found.collect()
    }
}
