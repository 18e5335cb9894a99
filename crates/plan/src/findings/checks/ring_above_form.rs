//! Rings that lie wholly above the form: wood for nothing.

use crate::findings::ways::of_rings;
use files::remedy::{Remedy, To, Way};
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::rings_name;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::Value;
use files::say;

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
            let (path, remedy, way) = if first == 0 {
                let leave = say!(
                    "leave {section} out",
                    section = Value::name(section.name.as_str())
                );
                (
                    key::section(s).path(),
                    say!(
                        "leave {section} out",
                        section = Value::name(section.name.as_str())
                    ),
                    Some(Way::new(leave).set(key::section(s).path(), To::Gone)),
                )
            } else {
                (
                    key::section(s).rings(),
                    say!(
                        "{first} rings in {section} instead of {count}",
                        first = first,
                        section = Value::name(section.name.as_str()),
                        count = count,
                    ),
                    of_rings(piece, s, first),
                )
            };
            let (lie, name) = (
                if count - first == 1 { "lies" } else { "lie" },
                rings_name(piece, s, first, count - 1),
            );
            out.push(found(self, Said {
severity: Severity::WorthKnowing,
subject: Subject {
                    section: Some(s),
                    ring: Some(first),
                    ..Subject::default()
                },
path,
what: say!(
                    "{name} {lie} wholly above the finished form, which is {form} high: {over} of stack too much",
                    name = name,
                    lie = lie,
                    form = form,
                    over = over,
                ),
remedy: Remedy::from(say!(
                    "{remedy}, unless it is wanted for holding the piece",
                    remedy = remedy,
                )).or_any(way),
},
(Amount::Length(section.rings[first].spans.0), Amount::Length(form)),
Working::new(
                        "underside of the ring < height of the form",
                        limits::FORM_HEIGHT.source,
                    ),
));
        }
        out
    }
}
