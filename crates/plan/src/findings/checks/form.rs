//! A form that cannot be: curves that cross, walls that vanish, floors too thick.

use files::key::{self, KeyPath};
use files::message::Value;
use piece::form::{FormPart, FormProblem};

use crate::finding::{Finding, Severity};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::say;

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
                key: self.key(),
                severity: Severity::Stops,
                subject: Subject::default(),
                path: path(p),
                what: say!("{what}", what = Value::name(plain(&p.what))),
                remedy: say!("{remedy}", remedy = Value::name(plain(&p.remedy))),
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

fn path(problem: &FormProblem) -> KeyPath {
    let form = key::form();
    let key = match problem.part {
        FormPart::Outer => form.outer(),
        FormPart::Inner => form.inner(),
        FormPart::Wall => form.wall(),
        FormPart::Floor => form.floor(),
        FormPart::FootRecess => form.foot_recess(),
        FormPart::FootWidth => form.foot_width(),
        FormPart::RimEasing => form.rim_easing(),
    };
    match problem.entry {
        Some(entry) => key.entry(entry),
        None => key,
    }
}
