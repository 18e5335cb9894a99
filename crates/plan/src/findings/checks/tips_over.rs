//! A piece that falls over when it is nudged.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Reading, Value};
use files::remedy::{Remedy, Way};
use files::say;
use geometry::Length;
use geometry::Portable;
use piece::piece::Piece;

/// The foot is narrow for the height of the middle of the weight.
pub struct TipsOver;

impl Check for TipsOver {
    fn key(&self) -> &'static str {
        "tips-over"
    }

    fn asks(&self) -> &'static str {
        "does the piece stand when it is nudged?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::TIPPING]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let form = &piece.form;
        let limit = limits::LEAST_TIPPING;
        // The middle of the weight is no higher than the piece: most need no weighing.
        let highest = form.height().as_mm() * limit.as_rad().tangent() * SURELY;
        if form.foot_radius().as_mm() > highest {
            return Vec::new();
        }
        let Some(weight) = survey.weight() else {
            return Vec::new();
        };
        let angle = weight.tipping(piece);
        if !limit.exceeds(angle + geometry::Angle::deg(1e-6)) {
            return Vec::new();
        }
        let middle = weight.height;
        let least = middle * limit.as_rad().tangent() + weight.off_axis;
        let wide = Reading::up(least * 2.0);
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::form().outer(),
                what: say!(
                    "tilted by {angle} the piece falls over: its foot is {foot_radius} across, the middle of its weight {middle} up",
                    angle = Value::tenth(angle),
                    foot_radius = form.foot_radius() * 2.0,
                    middle = middle,
                ),
                remedy: Remedy::from(say!("a foot at least {wide} across", wide = wide))
                    .or_any(foot_way(piece, wide)),
            },
            (Amount::Angle(angle), Amount::Angle(limit)),
            Working::new(
                "tan(angle) = (foot's radius − centre's distance from the axis) / centre's height",
                "closed form",
            )
            .with("foot's radius", Amount::Length(form.foot_radius()))
            .with(
                "centre's distance from the axis",
                Amount::Fine(weight.off_axis),
            )
            .with("centre's height", Amount::Length(middle)),
        )]
    }
}

/// A foot that is so many times wider than what the highest middle on the axis asks for has
/// room for one that lies off it.
const SURELY: f64 = 1.5;

/// A wider foot, where the form's first point is its edge.
fn foot_way(piece: &Piece, wide: Reading) -> Option<Way> {
    let first = piece.design.form.outer.first()?;
    if first.height.exceeds(Length::ZERO) {
        return None;
    }
    let what = say!("make the foot {wide} across", wide = wide);
    let radius = Reading::tried(true, |unit| Some(wide.length(unit) / 2.0))?;
    Some(Way::new(what).set(key::form().outer().entry(0).entry(1), radius))
}
