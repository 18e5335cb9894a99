//! The numbered route.

use files::message::{Message, Said, Value};
use files::say;
use std::collections::BTreeSet;

use super::page::Page;
use crate::caution::Caution;
use crate::operation::Operation;
use crate::plan::Plan;
use crate::words::{wide, wrapped};

pub(super) fn route(page: &mut Page, plan: &Plan) {
    page.heading("Route through the shop");
    page.text(
        say!(
            "{count} operations, {work} of work and {waiting} of waiting if nothing is done meanwhile; times \
             are estimates. > marks what a machine, stop or rule is set to.",
            count = plan.operations.len(),
            work = hours(plan.minutes),
            waiting = hours(plan.wait_hours * 60.0),
        ),
        2,
    );
    let mut said: BTreeSet<Caution> = BTreeSet::new();
    for operation in &plan.operations {
        one(page, operation, &mut said);
    }
}

fn one(page: &mut Page, operation: &Operation<Said>, said: &mut BTreeSet<Caution>) {
    page.row("");
    let mut time = say!(
        "{minutes} min",
        minutes = Value::Number(operation.minutes, 0)
    );
    if operation.wait_hours > 0.0 {
        let waiting = hours(operation.wait_hours * 60.0);
        time = say!("{time}, then {waiting}", time = time, waiting = waiting);
    }
    let time = page.said(time);
    let mark = format!("{:>3}. ", operation.number);
    page.ends(&mark, &operation.title, &time);
    page.figures(&operation.figures);
    for doing in &operation.doing {
        page.part("- ", doing, 2);
    }
    for measure in &operation.measure {
        page.item("Measure: ", Message::name(measure), 2);
    }
    let mut before = Vec::new();
    for &caution in &operation.cautions {
        if said.insert(caution) {
            page.item("Take care: ", caution.words(), 2);
        } else {
            before.push(Message::plain(caution.heading()));
        }
    }
    if !before.is_empty() {
        page.item(
            "Take care as before: ",
            say!("{before}.", before = Message::joined(before, ", ")),
            2,
        );
    }
}

/// Minutes as hours and minutes.
fn hours(minutes: f64) -> Message {
    let all = minutes.round().clamp(0.0, 1e9) as usize;
    match (all / 60, all % 60) {
        (0, m) => say!("{m} min", m = m),
        (h, 0) => say!("{h} h", h = h),
        (h, m) => say!("{h} h {m} min", h = h, m = m),
    }
}

impl Page {
    /// A title with its time at the end of its first line.
    fn ends(&mut self, mark: &str, title: &str, time: &str) {
        let width = self.width();
        let room = width.saturating_sub(wide(time) + 2).max(20);
        for (k, line) in wrapped(title, mark, wide(mark), room).iter().enumerate() {
            if k == 0 {
                let gap = width.saturating_sub(wide(line) + wide(time));
                self.row(&format!("{line}{}{time}", " ".repeat(gap)));
            } else {
                self.row(line);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use files::units::Unit;

    use super::*;

    #[test]
    fn times_are_said_in_hours_and_minutes() {
        let hours = |minutes: f64| hours(minutes).said(Unit::Mm);
        assert_eq!(hours(45.0), "45 min");
        assert_eq!(hours(24.0 * 60.0), "24 h");
        assert_eq!(hours(75.4), "1 h 15 min");
        assert_eq!(hours(f64::NAN), "0 min");
    }
}
