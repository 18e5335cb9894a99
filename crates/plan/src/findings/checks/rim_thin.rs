//! A rim that is eased to an edge.

use crate::findings::ways::wall_of;
use files::remedy::Remedy;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::say;

/// Little of the rim is left between its two easings.
pub struct RimThin;

impl Check for RimThin {
    fn key(&self) -> &'static str {
        "rim-thin"
    }

    fn asks(&self) -> &'static str {
        "is enough of the rim left to be gripped and knocked?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::RIM]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let form = &piece.form;
        let (outside, inside) = (form.outside().highest(), form.inside().highest());
        let just_below = (outside.min(inside) - form.rim_easing().as_mm() - 1e-3).max(0.0);
        let (Some(out), Some(inner)) = (
            form.outside().radius(just_below),
            form.inside().radius(just_below),
        ) else {
            return Vec::new();
        };
        let rim = Length::mm(out - inner);
        let limit = limits::THIN_RIM;
        if !limit.exceeds(rim + Length::mm(1e-3)) {
            return Vec::new();
        }
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::form().wall(),
                what: say!(
                    "the rim is {rim} wide: it chips where it is gripped or knocked",
                    rim = rim,
                ),
                remedy: Remedy::from(say!("a wall of at least {limit} at the rim", limit = limit))
                    .or_any(wall_of(piece, limit)),
            },
            (Amount::Length(rim), Amount::Length(limit)),
            Working::new("level width just under the easing", "the form's own curves")
                .with("easing", Amount::Length(form.rim_easing())),
        )]
    }
}
