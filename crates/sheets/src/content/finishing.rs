//! Sheet 7: sanding, finish, parting off, and what waits for what.

use plan::operation::Operation;
use plan::operations::Kind;
use serde::Serialize;

use super::Source;
use super::steps::{Steps, hours, time};

/// The finishing sheet.
#[derive(Debug, Serialize)]
pub struct Finishing {
    calendar: Vec<Wait>,
    work: String,
    waiting: String,
    steps: Steps,
}

/// Something that waits.
#[derive(Debug, Serialize)]
struct Wait {
    number: String,
    what: String,
    hours: String,
    next: String,
}

/// The finishing sheet of a piece.
pub fn finishing(source: &Source<'_>) -> Finishing {
    let ops = &source.plan.operations;
    let last = |o: &&Operation| matches!(o.kind, Kind::Sand | Kind::Finish | Kind::PartOff);
    Finishing {
        calendar: ops
            .iter()
            .enumerate()
            .filter(|(_, o)| o.wait_hours > 0.0)
            .map(|(i, o)| Wait {
                number: o.number.to_string(),
                what: o.title.clone(),
                hours: hours(o.wait_hours),
                next: waits(ops, i),
            })
            .collect(),
        work: time(source.plan.minutes),
        waiting: hours(source.plan.wait_hours),
        steps: Steps::of(ops.iter().filter(last), false),
    }
}

/// What may not begin before an operation's glue is dry: the next on the same section
/// or ring, or the next of all.
fn waits(ops: &[Operation], at: usize) -> String {
    let me = &ops[at].subject;
    let mine = |o: &&Operation| {
        let s = &o.subject;
        let same_ring = me.ring.is_none() || s.ring.is_none() || s.ring == me.ring;
        s.section == me.section && same_ring
    };
    let later = &ops[at + 1..];
    match later.iter().find(mine).or(later.first()) {
        Some(next) => format!("{}  {}", next.number, next.title),
        None => "the piece is done".into(),
    }
}
