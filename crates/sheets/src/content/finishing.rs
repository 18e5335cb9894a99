//! Sheet 7: sanding, finish, parting off, and what waits for what.

use files::message::Said;
use plan::operation::Operation;
use plan::operations::OperationKind;
use serde::Serialize;

use super::Source;
use super::steps::{Steps, hours, time};

/// The finishing sheet.
#[derive(Debug, Serialize)]
pub struct Finishing {
    calendar: Vec<Wait>,
    /// What only stands in clamps for a while, in a sentence.
    clamps: String,
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
    let last = |o: &&Operation<Said>| {
        matches!(
            o.kind,
            OperationKind::Sand | OperationKind::Finish | OperationKind::PartOff
        )
    };
    Finishing {
        calendar: ops
            .iter()
            .enumerate()
            .filter(|(_, o)| o.wait_hours >= LONG)
            .map(|(i, o)| Wait {
                number: o.number.to_string(),
                what: o.title.clone(),
                hours: hours(o.wait_hours),
                next: waits(ops, i),
            })
            .collect(),
        clamps: clamps(ops),
        work: time(source.plan.minutes),
        waiting: hours(source.plan.wait_hours),
        steps: Steps::of(ops.iter().filter(last), &[], source.plan.spelling),
    }
}

/// Waits shorter than this stand in no calendar, hours.
const LONG: f64 = 2.0;

/// Short waits by kind: `In clamps: glue ring 45 min (13 times)`.
fn clamps(ops: &[Operation<Said>]) -> String {
    let mut kinds: Vec<(&Operation<Said>, usize)> = Vec::new();
    for op in ops
        .iter()
        .filter(|o| o.wait_hours > 0.0 && o.wait_hours < LONG)
    {
        match kinds.iter_mut().find(|(k, _)| k.kind == op.kind) {
            Some((_, count)) => *count += 1,
            None => kinds.push((op, 1)),
        }
    }
    let said: Vec<String> = kinds
        .into_iter()
        .map(|(op, count)| {
            let times = if count > 1 {
                format!(", {count} times")
            } else {
                String::new()
            };
            format!("{} {}{times}", op.kind.name(), hours(op.wait_hours))
        })
        .collect();
    if said.is_empty() {
        String::new()
    } else {
        format!("In clamps, before work goes on: {}.", said.join("; "))
    }
}

/// What may not begin before an operation's glue is dry: the next on the same section
/// or ring, or the next of all.
fn waits(ops: &[Operation<Said>], at: usize) -> String {
    let me = &ops[at].subject;
    let mine = |o: &&Operation<Said>| {
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
