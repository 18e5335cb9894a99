//! A cut that runs along glue lines.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::say;

/// Loops tilted so little that the blade follows a glue line between rings.
pub struct CutGlancing;

impl Check for CutGlancing {
    fn key(&self) -> &'static str {
        "cut-glancing"
    }

    fn asks(&self) -> &'static str {
        "does the blade cross the glue lines rather than follow them?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::GLANCING]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let limit = limits::LEAST_CROSSING;
        let found = BandView::each(piece).filter_map(|view| {
            let tilt = view.band.loops.tilt;
            let slack = geometry::Angle::deg(1e-6);
            if !limit.exceeds(tilt + slack) || view.section.rings.len() < 2 {
                return None;
            }
            Some(found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: view.subject(),
                    path: view.tilt_path(),
                    what: say!(
                        "{loops} are cut at {tilt}: the blade meets the glue lines between rings at a glancing angle and follows them",
                        loops = view.name(),
                        tilt = Value::tenth(tilt),
                    ),
                    remedy: view
                        .steeper(|l| !limit.exceeds(l.tilt + slack))
                        .unwrap_or_else(|| say!("a higher section, with room for steeper loops").into()),
                },
                (Amount::Angle(tilt), Amount::Angle(limit)),
                Working::new("the glue lines lie square to the axis, so they are crossed at the tilt", limits::GLANCING.source),
            ))
        });
        found.collect()
    }
}
