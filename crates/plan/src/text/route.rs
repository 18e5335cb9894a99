//! The numbered route.

use std::collections::BTreeSet;

use files::units::fixed;

use super::page::Page;
use crate::caution::Caution;
use crate::operation::Operation;
use crate::plan::Plan;
use crate::words::{wide, wrapped};

pub(super) fn route(page: &mut Page, plan: &Plan) {
    page.heading("Route through the shop");
    page.text(
        &format!(
            "{} operations, {} of work and {} of waiting if nothing is done meanwhile; times \
             are estimates. > marks what a machine, stop or rule is set to.",
            plan.operations.len(),
            hours(plan.minutes),
            hours(plan.wait_hours * 60.0),
        ),
        2,
    );
    let mut said: BTreeSet<Caution> = BTreeSet::new();
    for operation in &plan.operations {
        one(page, operation, &mut said);
    }
}

fn one(page: &mut Page, operation: &Operation, said: &mut BTreeSet<Caution>) {
    page.row("");
    let mut time = format!("{} min", fixed(operation.minutes, 0));
    if operation.wait_hours > 0.0 {
        time += &format!(", then {}", hours(operation.wait_hours * 60.0));
    }
    let mark = format!("{:>3}. ", operation.number);
    page.ends(&mark, &operation.title, &time);
    page.figures(&operation.figures);
    for doing in &operation.doing {
        page.item("- ", doing, 2);
    }
    for measure in &operation.measure {
        page.item("Measure: ", measure, 2);
    }
    let mut before = Vec::new();
    for &caution in &operation.cautions {
        if said.insert(caution) {
            page.item("Take care: ", caution.words(), 2);
        } else {
            before.push(caution.heading());
        }
    }
    if !before.is_empty() {
        page.item(
            "Take care as before: ",
            &format!("{}.", before.join(", ")),
            2,
        );
    }
}

/// Minutes as hours and minutes.
fn hours(minutes: f64) -> String {
    let all = minutes.round().clamp(0.0, 1e9) as u64;
    match (all / 60, all % 60) {
        (0, m) => format!("{m} min"),
        (h, 0) => format!("{h} h"),
        (h, m) => format!("{h} h {m} min"),
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
    use super::hours;

    #[test]
    fn times_are_said_in_hours_and_minutes() {
        assert_eq!(hours(45.0), "45 min");
        assert_eq!(hours(24.0 * 60.0), "24 h");
        assert_eq!(hours(75.4), "1 h 15 min");
        assert_eq!(hours(f64::NAN), "0 min");
    }
}
