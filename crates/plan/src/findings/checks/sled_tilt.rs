//! A tilt that the sled cannot be set to.

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

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
            let say = Say::of(view.piece);
            let flatter = view
                .flatter(say, |l| !l.tilt.exceeds(*limit + slack))
                .unwrap_or_else(|| "another height of the loops' middle".into());
            Some(Finding {
                key: self.key().into(),
                severity: Severity::Stops,
                subject: view.subject(),
                path: view.tilt_path(),
                what: format!(
                    "the cuts for {} are tilted by {}; the sled goes to {}",
                    view.name(),
                    say.angle(tilt),
                    say.angle(*limit)
                ),
                remedy: format!("{flatter}; or a sled that goes further"),
                against: Some(Against {
                    figure: Amount::Angle(tilt),
                    limit: Amount::Angle(*limit),
                    working: Working::new(
                        "tilt <= largest tilt of the sled",
                        limits::SLED_TILT.source,
                    ),
                }),
            })
        });
        found.collect()
    }
}
