//! A piece that falls over when it is nudged.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

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
        let say = Say::of(piece);
        let form = &piece.form;
        let angle = form.tipping_angle();
        let limit = limits::LEAST_TIPPING;
        if !limit.exceeds(angle + geometry::Angle::deg(1e-6)) {
            return Vec::new();
        }
        let middle = form.centre_of_gravity_height();
        let wide = say.at_least(middle * (2.0 * limit.as_rad().tan()));
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: "form.outer".into(),
                what: format!(
                    "tilted by {} the piece falls over: its foot is {} across, the middle of its weight {} up",
                    say.angle(angle),
                    say.length(form.foot_radius() * 2.0),
                    say.length(middle)
                ),
                remedy: format!("a foot at least {} across", say.length(wide)),
            },
            (Amount::Angle(angle), Amount::Angle(limit)),
            Working::new(
                "tan(angle) = foot's radius / height of the centre, all wood equally heavy",
                "closed form",
            )
            .with("foot's radius", Amount::Length(form.foot_radius()))
            .with("centre's height", Amount::Length(middle)),
        )]
    }
}
