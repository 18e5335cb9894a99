//! A form that cannot be: curves that cross, walls that vanish, floors too thick.

use files::key::{self, KeyPath};
use files::remedy::{Remedy, Way};
use files::say;
use piece::form::{FormPart, FormProblem};

use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, told};
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
            .map(|p| {
                told(
                    self,
                    Said {
                        severity: Severity::Stops,
                        subject: Subject::default(),
                        path: path(p),
                        what: p.what.clone(),
                        remedy: Remedy::from(p.remedy.clone()).or_any(way(p)),
                    },
                    None,
                )
            })
            .collect()
    }
}

/// The measure that would do, where it is one key's.
fn way(problem: &FormProblem) -> Option<Way> {
    let measure = problem.amount?;
    let what = match problem.part {
        FormPart::Floor => say!("make the floor {measure} thick", measure = measure),
        FormPart::FootRecess => say!("make the foot's recess {measure} deep", measure = measure),
        FormPart::FootWidth => say!("make the foot's ring {measure} wide", measure = measure),
        FormPart::RimEasing => say!("ease the rim to {measure}", measure = measure),
        FormPart::Outer | FormPart::Inner | FormPart::Wall => return None,
    };
    Some(Way::new(what).set(path(problem), measure))
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
