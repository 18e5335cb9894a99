//! A tall piece that is hollowed standing free.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::Support;
use crate::operation::Subject;
use crate::operations::Kind;

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
        let say = Say::of(piece);
        let rim = piece.form.height();
        if let Some(steady) = piece.workshop.holding.steady.filter(|s| s.exceeds(rim)) {
            let lower = say.nearest(rim * 0.8);
            return vec![found(
                self,
                Said {
                    severity: Severity::Risky,
                    subject: Subject::default(),
                    path: "holding.steady".into(),
                    what: format!(
                        "the steady rest at {} stands above the rim, which is {} up",
                        say.length(steady),
                        say.length(rim)
                    ),
                    remedy: format!("a steady rest near the rim, at {}", say.length(lower)),
                },
                (Amount::Length(steady), Amount::Length(rim)),
                Working::new("the form's height", "the form's own curves"),
            )];
        }
        let mut all = survey.held().iter().map(|h| &h.stage);
        let Some(stage) = all.find(|s| s.kind == Kind::Hollow) else {
            return Vec::new();
        };
        let limit = Length::mm(stage.joint.outside * limits::FREE_TIMES);
        let free = Length::mm(stage.top);
        if stage.support != Support::None || !free.exceeds(limit) {
            return Vec::new();
        }
        let at = say.nearest(piece.form.height() * 0.8);
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: "holding.steady".into(),
                what: format!(
                    "hollowed near the rim the piece stands free for {}, {} times the {} that hold it",
                    say.length(free),
                    files::units::fixed(stage.top / stage.joint.outside.max(1e-9), 1),
                    say.length(Length::mm(stage.joint.outside)),
                ),
                remedy: format!(
                    "a steady rest near the rim, at {}: steady in [holding]",
                    say.length(at)
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
