//! A hollow deeper than the tool's bar is stiff for.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::Reading;
use files::remedy::{Remedy, Way};
use files::say;

/// The tool hangs too far over its rest at the bottom of the hollow.
pub struct HollowDeep;

impl Check for HollowDeep {
    fn key(&self) -> &'static str {
        "hollow-deep"
    }

    fn asks(&self) -> &'static str {
        "does the hollowing tool's bar reach the floor without whipping?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::BAR_REACH]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let bar = piece.workshop.holding.tool_bar;
        let depth = piece.form.height() - piece.form.floor_top();
        let limit = *bar * limits::BAR_TIMES;
        if !depth.exceeds(limit) {
            return Vec::new();
        }
        let thicker = Reading::up(depth / limits::BAR_TIMES);
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::holding().tool_bar(),
                what: say!(
                    "at the floor the hollowing tool hangs {depth} over its rest; its {bar} bar is good for {limit}",
                    depth = depth,
                    bar = *bar,
                    limit = limit,
                ),
                remedy: Remedy::from(say!(
                    "a bar of at least {thicker}; or a guided bar or a rest that reaches inside",
                    thicker = thicker,
                ))
                .or(Way::new(say!("take a bar of {thicker}", thicker = thicker))
                    .set(key::holding().tool_bar(), thicker)),
            },
            (Amount::Length(depth), Amount::Length(limit)),
            Working::new("14 x the bar's diameter", limits::BAR_REACH.source)
                .with("bar", Amount::Length(*bar)),
        )]
    }
}
