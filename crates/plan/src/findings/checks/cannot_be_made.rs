//! Figures that contradict each other, found while the piece was settled.

use crate::finding::{Finding, Severity};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

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
            .map(|t| Finding {
                key: self.key().into(),
                severity: Severity::Stops,
                subject: Subject {
                    section: number(&t.path, "section["),
                    band: number(&t.path, ".band["),
                    ..Subject::default()
                },
                path: t.path.clone(),
                what: t.what.clone(),
                remedy: t.remedy.clone(),
                against: None,
            })
            .collect()
    }
}

/// The number in a path behind `before`.
fn number(path: &str, before: &str) -> Option<usize> {
    let rest = &path[path.find(before)? + before.len()..];
    rest.split_once(']')?.0.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn a_path_says_what_it_is_about() {
        assert_eq!(number("section[3].band[1].reach", "section["), Some(3));
        assert_eq!(number("section[3].band[1].reach", ".band["), Some(1));
        assert_eq!(number("section[3].wood", ".band["), None);
        assert_eq!(number("section", "section["), None);
    }
}
