//! A stack of rings that ends below the form's rim.

use crate::findings::ways::{more_rings, one};
use files::remedy::{Remedy, Way};
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Reading, Value};
use files::say;

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
        let lower = say!("or a form at most {stack} high", stack = Value::down(stack));
        let auto = key::section(last).rings();
        let (path, remedy) = if piece.chosen.iter().any(|c| c.path == auto) {
            let tall = Reading::up(section.height + short);
            let what = say!(
                "make {section} {tall} high",
                section = Value::name(section.name.as_str()),
                tall = tall,
            );
            (
                key::section(last).height(),
                one(
                    say!(
                        "make the height of {section} at least {tall}; {lower}",
                        section = Value::name(section.name.as_str()),
                        tall = tall,
                        lower = lower,
                    ),
                    Way::new(what).set(key::section(last).height(), tall),
                ),
            )
        } else {
            let count = section.rings.len();
            let more = (short.as_mm() / each.as_mm()).ceil().clamp(1.0, 1e6) as usize;
            (
                auto,
                Remedy::from(say!(
                    "{more} rings in {section} instead of {count}, the new ones {each} high like the last; {lower}",
                    more = count + more,
                    section = Value::name(section.name.as_str()),
                    count = count,
                    each = each,
                    lower = lower,
                ))
                .or_any(more_rings(piece, last, more)),
            )
        };
        vec![found(
            self,
            Said {
                severity: Severity::Stops,
                subject: Subject {
                    section: Some(last),
                    ..Subject::default()
                },
                path,
                what: say!(
                    "the stack of rings is {stack} high, {short} lower than the finished form",
                    stack = stack,
                    short = Value::By(short),
                ),
                remedy,
            },
            (Amount::Length(stack), Amount::Length(form)),
            Working::new(
                "sum of the rings' heights - kerfs of the splits >= height of the form",
                limits::FORM_HEIGHT.source,
            )
            .with("rings", Amount::Count(piece.ring_count()))
            .with("height of the form", Amount::Length(form)),
        )]
    }
}
