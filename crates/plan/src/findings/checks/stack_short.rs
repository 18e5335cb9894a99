//! A stack of rings that ends below the form's rim.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// The stack is shorter than the form.
pub struct StackShort;

impl Check for StackShort {
    fn key(&self) -> &'static str {
        "stack-short"
    }

    fn asks(&self) -> &'static str {
        "is the stack of rings as high as the form?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FORM_HEIGHT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let say = Say::of(piece);
        let stack = Length::mm(piece.stack.height());
        let form = piece.form.height();
        let short = form - stack;
        let last = piece.sections.len().saturating_sub(1);
        let Some(section) = piece.sections.last() else {
            return Vec::new();
        };
        let each = section.rings.last().map_or(Length::mm(1.0), |r| r.height);
        if !short.exceeds(limits::UNSEEN) {
            return Vec::new();
        }
        let lower = format!("or a form at most {} high", say.length(say.at_most(stack)));
        let auto = format!("section[{last}].rings");
        let (path, remedy) = if piece.chosen.iter().any(|c| c.path == auto) {
            let tall = say.at_least(section.height + short);
            (
                format!("section[{last}].height"),
                format!(
                    "make the height of {} at least {}; {lower}",
                    section.name,
                    say.length(tall)
                ),
            )
        } else {
            let count = section.rings.len();
            let more = (short.as_mm() / each.as_mm()).ceil().clamp(1.0, 1e6) as usize;
            (
                auto,
                format!(
                    "{} rings in {} instead of {count}, the new ones {} high like the last; {lower}",
                    count + more,
                    section.name,
                    say.length(each)
                ),
            )
        };
        vec![Finding {
            key: self.key().into(),
            severity: Severity::Stops,
            subject: Subject {
                section: Some(last),
                ..Subject::default()
            },
            path,
            what: format!(
                "the stack of rings is {} high, {} lower than the finished form",
                say.length(stack),
                say.by(short)
            ),
            remedy,
            against: Some(Against {
                figure: Amount::Length(stack),
                limit: Amount::Length(form),
                working: Working::new(
                    "sum of the rings' heights - kerfs of the splits >= height of the form",
                    limits::FORM_HEIGHT.source,
                )
                .with("rings", Amount::Count(piece.ring_count()))
                .with("height of the form", Amount::Length(form)),
            }),
        }]
    }
}
