//! Operations as a sheet prints them: those that say the same are printed once.

use files::message::{Said, Spelling};
use std::collections::BTreeSet;

use files::units::fixed;
use plan::caution::Caution;
use plan::figure::Figure;
use plan::operation::Operation;
use plan::operations::OperationKind;
use serde::Serialize;

use super::{Setting, held, notes, settings};

/// One operation, or several that differ only in what they are done to.
#[derive(Debug, Clone, Serialize)]
pub struct Step {
    /// Numbers in the route: `12`, `12 to 15`, `12, 18 and 24`.
    pub numbers: String,
    /// What is done.
    pub title: String,
    /// What it is for.
    pub wording: String,
    /// What is set; empty where several operations differ in it.
    pub settings: Vec<Setting>,
    /// Figures for information.
    pub notes: Vec<Setting>,
    /// What is done, in order.
    pub doing: Vec<String>,
    /// What to measure before going on.
    pub measure: Vec<String>,
    /// Cautions called to mind; their words stand on the sheet.
    pub cautions: Vec<&'static str>,
    /// Time, and waiting after it.
    pub time: String,
}

/// A caution's words.
#[derive(Debug, Clone, Serialize)]
pub struct Words {
    /// Two or three words.
    pub heading: String,
    /// The whole.
    pub words: String,
}

/// Steps of a sheet and the cautions that they need.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Steps {
    /// In the order of the route.
    pub steps: Vec<Step>,
    /// Each caution of any of them, once.
    pub cautions: Vec<Words>,
}

impl Steps {
    /// The steps of some operations. What is set for kinds in `elsewhere` stands in a
    /// card or table of the sheet and is left out.
    pub fn of<'a>(
        operations: impl Iterator<Item = &'a Operation<Said>>,
        elsewhere: &[OperationKind],
        spelling: Spelling,
    ) -> Steps {
        let mut merged: Vec<(&Operation<Said>, Vec<&Operation<Said>>)> = Vec::new();
        let mut needed: BTreeSet<Caution> = BTreeSet::new();
        for op in operations {
            needed.extend(op.cautions.iter().copied());
            // What is set must not be lost: operations that differ in it stay apart.
            let same = merged.iter_mut().find(|(first, _)| {
                first.kind == op.kind
                    && first.doing == op.doing
                    && first.measure == op.measure
                    && (elsewhere.contains(&op.kind) || shown(first) == shown(op))
            });
            match same {
                Some((_, all)) => all.push(op),
                None => merged.push((op, vec![op])),
            }
        }
        Steps {
            steps: merged
                .iter()
                .map(|(first, all)| step(all, elsewhere.contains(&first.kind), spelling))
                .collect(),
            cautions: needed.into_iter().map(|c| words(c, spelling)).collect(),
        }
    }
}

/// Figures as they are shown.
fn shown(op: &Operation<Said>) -> Vec<(&str, &str)> {
    op.figures
        .iter()
        .map(|f| (f.label.as_ref(), f.shown.as_str()))
        .collect()
}

/// A caution's words, as they are printed.
pub fn words(caution: Caution, spelling: Spelling) -> Words {
    Words {
        heading: spelling.of_words(caution.heading()),
        words: spelling.of_words(caution.words()),
    }
}

fn step(all: &[&Operation<Said>], bare: bool, spelling: Spelling) -> Step {
    // There is at least the one that opened the group.
    let first = all[0];
    let numbers: Vec<usize> = all.iter().map(|o| o.number).collect();
    let figures: &[Figure<Said>] = if bare { &[] } else { &first.figures };
    let mut cautions: Vec<Caution> = all
        .iter()
        .flat_map(|o| o.cautions.iter().copied())
        .collect();
    cautions.sort_unstable();
    cautions.dedup();
    let minutes: f64 = all.iter().map(|o| o.minutes).sum();
    let wait = all.iter().map(|o| o.wait_hours).fold(0.0, f64::max);
    let each = if all.len() > 1 { " in all" } else { "" };
    Step {
        numbers: said(&numbers),
        title: if all.len() == 1 {
            first.title.clone()
        } else {
            capital(first.kind.name())
        },
        wording: spelling.of_words(first.kind.card().wording),
        settings: settings(figures),
        notes: notes(figures),
        doing: first.doing.iter().map(|line| held(line)).collect(),
        measure: first.measure.iter().map(|line| held(line)).collect(),
        cautions: cautions.iter().map(|c| c.heading()).collect(),
        time: match (minutes >= 0.5, wait > 0.0) {
            (true, true) => format!("{}{each}, then wait {}", time(minutes), hours(wait)),
            (true, false) => format!("{}{each}", time(minutes)),
            (false, true) => format!("wait {}", hours(wait)),
            (false, false) => String::new(),
        },
    }
}

/// Minutes as they are said: `25 min`, `3 h 40 min`.
pub fn time(minutes: f64) -> String {
    if !(minutes.is_finite() && minutes >= 0.0) {
        return "unknown".into();
    }
    // To five minutes above half an hour: these are estimates.
    let rounded = if minutes > 30.0 {
        (minutes / 5.0).round() * 5.0
    } else {
        minutes.round()
    };
    if rounded < 60.0 {
        format!("{} min", fixed(rounded, 0))
    } else {
        let (h, m) = ((rounded / 60.0).floor(), rounded % 60.0);
        if m < 0.5 {
            format!("{} h", fixed(h, 0))
        } else {
            format!("{} h {} min", fixed(h, 0), fixed(m, 0))
        }
    }
}

/// Hours of waiting: `45 min`, `24 h`.
pub fn hours(hours: f64) -> String {
    if hours < 1.5 {
        time(hours * 60.0)
    } else {
        format!("{} h", fixed(hours, 0))
    }
}

/// Rising numbers as they are said.
pub fn said(numbers: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &n in numbers {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == n => run.1 = n,
            _ => runs.push((n, n)),
        }
    }
    let mut out: Vec<String> = Vec::new();
    for (a, b) in runs {
        match b - a {
            0 => out.push(a.to_string()),
            1 => out.extend([a.to_string(), b.to_string()]),
            _ => out.push(format!("{a} to {b}")),
        }
    }
    match out.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// The first letter large.
pub fn capital(words: &str) -> String {
    let mut chars = words.chars();
    match chars.next() {
        Some(first) => first.to_uppercase().chain(chars).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_times_are_said_as_at_the_bench() {
        assert_eq!(said(&[4]), "4");
        assert_eq!(said(&[4, 5]), "4 and 5");
        assert_eq!(said(&[1, 4, 5, 6, 9]), "1, 4 to 6 and 9");
        assert_eq!(time(12.4), "12 min");
        assert_eq!(time(58.0), "1 h");
        assert_eq!(time(223.0), "3 h 45 min");
        assert_eq!(hours(0.75), "45 min");
        assert_eq!(hours(24.0), "24 h");
        assert_eq!(time(f64::NAN), "unknown");
    }
}
