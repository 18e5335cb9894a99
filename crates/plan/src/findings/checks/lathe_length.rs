//! A piece longer than the lathe's bed.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Message, Value};
use files::say;

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
        let limit = piece.workshop.lathe.length;
        let waste = piece.workshop.sled.waste_block;
        let stack = Length::mm(piece.stack.height());
        let long = stack + *waste;
        if !long.exceeds(*limit) {
            return Vec::new();
        }
        let room = *limit - *waste;
        let lower = if room.exceeds(Length::ZERO) {
            say!("a stack of at most {room}; or ", room = Value::down(room))
        } else {
            Message::default()
        };
        vec![found(
            self,
            Said {
                severity: Severity::Stops,
                subject: Subject::default(),
                path: key::form().outer(),
                what: say!(
                    "the stack and its waste block are {long} long; the lathe takes {limit} between centres",
                    long = long,
                    limit = *limit,
                ),
                remedy: say!(
                    "{lower}a lathe that takes at least {long}",
                    lower = lower,
                    long = Value::up(long),
                )
                .into(),
            },
            (Amount::Length(long), Amount::Length(*limit)),
            Working::new("stack + waste block", limits::BETWEEN_CENTRES.source)
                .with("stack", Amount::Length(stack))
                .with("waste block", Amount::Length(*waste)),
        )]
    }
}
