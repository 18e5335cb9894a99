//! Figures that contradict each other, found while the piece was settled.

use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, told};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key::{KeyPath, Step};

/// Reaches that run off the wall, cuts that run into each other, splits outside their
/// section.
pub struct CannotBeMade;

impl Check for CannotBeMade {
    fn key(&self) -> &'static str {
        "cannot-be-made"
    }

    fn asks(&self) -> &'static str {
        "can the piece be put together as it is written?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::POSSIBLE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let troubles = survey.settled.troubles.iter();
        troubles
            .map(|t| {
                told(
                    self,
                    Said {
                        severity: Severity::Stops,
                        subject: Subject {
                            section: number(&t.path, 0, "section"),
                            band: number(&t.path, 2, "band"),
                            ..Subject::default()
                        },
                        path: t.path.clone(),
                        what: t.what.clone(),
                        remedy: t.remedy.clone(),
                    },
                    None,
                )
            })
            .collect()
    }
}

/// The number of the list's entry in which a path lies, the list being its step `at`.
fn number(path: &KeyPath, at: usize, list: &str) -> Option<usize> {
    match path.steps().get(at..at + 2)? {
        [Step::Key(key), Step::At(entry)] if key == list => Some(*entry),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use files::key;

    use super::number;

    #[test]
    fn a_path_says_what_it_is_about() {
        let reach = key::section(3).band(1).reach();
        assert_eq!(number(&reach, 0, "section"), Some(3));
        assert_eq!(number(&reach, 2, "band"), Some(1));
        assert_eq!(number(&key::section(3).wood(), 2, "band"), None);
        assert_eq!(number(&key::section(0).path().list(), 0, "section"), None);
    }
}
