//! Woods so different on one side and the other that the piece shakes.

use files::key;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::Stage;
use crate::operation::Subject;
use crate::operations::OperationKind;
use crate::speed;
use files::message::Value;
use files::say;

/// The middle of the weight lies off the axis.
pub struct OffBalance;

impl Check for OffBalance {
    fn key(&self) -> &'static str {
        "off-balance"
    }

    fn asks(&self) -> &'static str {
        "does the weight lie near enough to the axis at full speed?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::BALANCE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let lathe = &piece.workshop.lathe;
        let limit = *piece.workshop.holding.tool_force * limits::BALANCE_SHARE;
        let mut worst: Option<(f64, f64, &Stage)> = None;
        for held in survey.held() {
            let stage = &held.stage;
            let work = match stage.kind {
                OperationKind::Sand => speed::Work::Sanding,
                _ => speed::Work::Turning,
            };
            let fastest = speed::limit(Length::mm(stage.swings), lathe, work);
            let turn = fastest * std::f64::consts::TAU / 60.0;
            // g·mm to kg·m by 1e-6.
            let pull = stage.body.grams * stage.body.off_axis() * 1e-6 * turn * turn;
            if worst.as_ref().is_none_or(|w| pull > w.0) {
                worst = Some((pull, fastest, stage));
            }
        }
        let Some((pull, fastest, stage)) = worst.filter(|w| w.0 > limit) else {
            return Vec::new();
        };
        let off = Length::mm(stage.body.off_axis());
        let slow = (fastest * (limit / pull).sqrt() / 10.0).floor() * 10.0;
        let (figure, most) = (Amount::Force(pull), Amount::Force(limit));
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject {
                    section: stage.section,
                    ..Subject::default()
                },
                path: key::section(0).path().list(),
                what: say!(
                    "{name}: the woods' weights lie {off} off the axis and pull with {figure} at {fastest} rpm",
                    name = stage.name.clone(),
                    off = Value::fine(off),
                    figure = figure.clone(),
                    fastest = Value::Number(fastest, 0),
                ),
                remedy: say!(
                    "stay under {slow} rpm until it is round and light; or a pattern that repeats round the ring",
                    slow = Value::Number(slow, 0),
                ).into(),
            },
            (figure, most),
            Working::new(
                "weight x distance off the axis x (2π x turns)²",
                "closed form; layers not counted",
            )
            .with("weight", Amount::Weight(stage.body.grams))
            .with("off the axis", Amount::Fine(off))
            .with("never above", Amount::Speed(fastest)),
        )]
    }
}
