//! A piece longer than the lathe's bed.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// No room for the stack on its waste block.
pub struct LatheLength;

impl Check for LatheLength {
    fn key(&self) -> &'static str {
        "lathe-length"
    }

    fn asks(&self) -> &'static str {
        "does the stack on its waste block go between the lathe's centres?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::BETWEEN_CENTRES]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let say = Say::of(piece);
        let limit = piece.workshop.lathe.length;
        let waste = piece.workshop.sled.waste_block;
        let stack = Length::mm(piece.stack.height());
        let long = stack + *waste;
        if !long.exceeds(*limit) {
            return Vec::new();
        }
        let room = *limit - *waste;
        let lower = if room.exceeds(Length::ZERO) {
            format!("a stack of at most {}; or ", say.length(say.at_most(room)))
        } else {
            String::new()
        };
        vec![Finding {
            key: self.key().into(),
            severity: Severity::Stops,
            subject: Subject::default(),
            path: "form.outer".into(),
            what: format!(
                "the stack and its waste block are {} long; the lathe takes {} between centres",
                say.length(long),
                say.length(*limit)
            ),
            remedy: format!(
                "{lower}a lathe that takes at least {}",
                say.length(say.at_least(long))
            ),
            against: Some(Against {
                figure: Amount::Length(long),
                limit: Amount::Length(*limit),
                working: Working::new("stack + waste block", limits::BETWEEN_CENTRES.source)
                    .with("stack", Amount::Length(stack))
                    .with("waste block", Amount::Length(*waste)),
            }),
        }]
    }
}
