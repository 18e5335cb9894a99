//! Rings that lie wholly above the form: wood for nothing.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::say::{Say, rings_name};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// Nothing of a ring is in the finished piece.
pub struct RingAboveForm;

impl Check for RingAboveForm {
    fn key(&self) -> &'static str {
        "ring-above-form"
    }

    fn asks(&self) -> &'static str {
        "is something of every ring in the finished piece?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FORM_HEIGHT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let say = Say::of(piece);
        let form = piece.form.height();
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            let count = section.rings.len();
            let Some(first) = section
                .rings
                .iter()
                .position(|r| !(form - limits::UNSEEN).exceeds(r.spans.0))
            else {
                continue;
            };
            let top = section.rings.last().map_or(Length::ZERO, |r| r.spans.1);
            let over = top - form;
            let (path, remedy) = if first == 0 {
                (
                    format!("section[{s}]"),
                    format!("leave {} out", section.name),
                )
            } else {
                (
                    format!("section[{s}].rings"),
                    format!("{first} rings in {} instead of {count}", section.name),
                )
            };
            let (lie, name) = (
                if count - first == 1 { "lies" } else { "lie" },
                rings_name(piece, s, first, count - 1),
            );
            out.push(Finding {
                key: self.key().into(),
                severity: Severity::WorthKnowing,
                subject: Subject {
                    section: Some(s),
                    ring: Some(first),
                    ..Subject::default()
                },
                path,
                what: format!(
                    "{name} {lie} wholly above the finished form, which is {} high: {} of stack too much",
                    say.length(form),
                    say.length(over)
                ),
                remedy: format!("{remedy}, unless it is wanted for holding the piece"),
                against: Some(Against {
                    figure: Amount::Length(section.rings[first].spans.0),
                    limit: Amount::Length(form),
                    working: Working::new(
                        "underside of the ring < height of the form",
                        limits::FORM_HEIGHT.source,
                    ),
                }),
            });
        }
        out
    }
}
