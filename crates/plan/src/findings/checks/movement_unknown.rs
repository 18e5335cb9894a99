//! Woods of which nobody says how far they move.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::Value;
use files::say;

/// A wood's shrinkage is not known, so that nothing is said of its movement.
pub struct MovementUnknown;

impl Check for MovementUnknown {
    fn key(&self) -> &'static str {
        "movement-unknown"
    }

    fn asks(&self) -> &'static str {
        "is it known how far every wood moves?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::KNOWN_SHRINKAGE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let Some(all) = survey.movement() else {
            return Vec::new();
        };
        let found = all.unknown.iter().map(|id| {
            let name = piece.wood_name(*id);
            found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: Subject::default(),
                    path: key::project().woods(name).path(),
                    what: say!(
                        "how far {name} moves across its grain is not known: nothing is said of rings and floors of it",
                        name = Value::name(name),
                    ),
                    remedy: say!(
                        "use {name} in narrow rings only; or a wood whose movement is listed, such as cherry",
                        name = Value::name(name),
                    ).into(),
                },
                (Amount::Text("not known".into()), Amount::Text("known".into())),
                Working::new("total shrinkage S of eq. 13-2", limits::KNOWN_SHRINKAGE.source),
            )
        });
        found.collect()
    }
}
