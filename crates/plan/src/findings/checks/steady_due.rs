//! A tall piece that is hollowed standing free.

use crate::findings::ways::{one, steady_way};
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::Support;
use crate::operation::Subject;
use crate::operations::OperationKind;
use files::key;
use files::message::{Reading, Value};
use files::say;

/// No steady rest, though the piece is many times as tall as it is wide at the block.
pub struct SteadyDue;

impl Check for SteadyDue {
    fn key(&self) -> &'static str {
        "steady-due"
    }

    fn asks(&self) -> &'static str {
        "is a tall piece steadied while it is hollowed?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FREE_HEIGHT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let rim = piece.form.height();
        if let Some(steady) = piece.workshop.holding.steady.filter(|s| s.exceeds(rim)) {
            let lower = Reading::nearest(rim * 0.8);
            return vec![found(
                self,
                Said {
                    severity: Severity::Risky,
                    subject: Subject::default(),
                    path: key::holding().steady(),
                    what: say!(
                        "the steady rest at {steady} stands above the rim, which is {rim} up",
                        steady = steady,
                        rim = rim,
                    ),
                    remedy: one(
                        say!("a steady rest near the rim, at {lower}", lower = lower),
                        steady_way(lower),
                    ),
                },
                (Amount::Length(steady), Amount::Length(rim)),
                Working::new("the form's height", "the form's own curves"),
            )];
        }
        let mut all = survey.held().iter().map(|h| &h.stage);
        let Some(stage) = all.find(|s| s.kind == OperationKind::Hollow) else {
            return Vec::new();
        };
        let limit = Length::mm(stage.joint.outside * limits::FREE_TIMES);
        let free = Length::mm(stage.top);
        if stage.support != Support::None || !free.exceeds(limit) {
            return Vec::new();
        }
        let at = Reading::nearest(piece.form.height() * 0.8);
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::holding().steady(),
                what: say!(
                    "hollowed near the rim the piece stands free for {free}, {e} times the {outside} that hold it",
                    free = free,
                    e = Value::Number(stage.top / stage.joint.outside.max(1e-9), 1),
                    outside = Length::mm(stage.joint.outside),
                ),
                remedy: one(
                    say!("a steady rest near the rim, at {at}", at = at),
                    steady_way(at),
                ),
            },
            (Amount::Length(free), Amount::Length(limit)),
            Working::new(
                "3 x diameter of the joint on the block",
                limits::FREE_HEIGHT.source,
            )
            .with(
                "diameter of the joint",
                Amount::Length(Length::mm(stage.joint.outside)),
            ),
        )]
    }
}
