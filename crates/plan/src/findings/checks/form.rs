//! A form that cannot be: curves that cross, walls that vanish, floors too thick.

use piece::form::{FormPart, FormProblem};

use crate::finding::{Finding, Severity};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// Everything that is wrong with the form's curves and measures.
pub struct FormWrong;

impl Check for FormWrong {
    fn key(&self) -> &'static str {
        "form"
    }

    fn asks(&self) -> &'static str {
        "do the form's curves and measures bound a piece of wood?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::WHOLE_FORM]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let problems = survey.settled.form.iter();
        problems
            .map(|p| Finding {
                key: self.key().into(),
                severity: Severity::Stops,
                subject: Subject::default(),
                path: path(p),
                what: plain(&p.what),
                remedy: plain(&p.remedy),
                against: None,
            })
            .collect()
    }
}

/// A sentence as findings are written: a small letter first, no full stop.
fn plain(sentence: &str) -> String {
    let text = sentence.trim_end_matches('.');
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_lowercase().chain(letters).collect(),
        None => String::new(),
    }
}

fn path(problem: &FormProblem) -> String {
    let key = match problem.part {
        FormPart::Outer => "outer",
        FormPart::Inner => "inner",
        FormPart::Wall => "wall",
        FormPart::Floor => "floor",
        FormPart::FootRecess => "foot_recess",
        FormPart::FootWidth => "foot_width",
        FormPart::RimEasing => "rim_easing",
    };
    match problem.entry {
        Some(entry) => format!("form.{key}[{entry}]"),
        None => format!("form.{key}"),
    }
}
