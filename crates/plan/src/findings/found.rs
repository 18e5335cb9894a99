//! A finding put together from its parts.

use super::Check;
use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::operation::Subject;
use files::key::KeyPath;
use files::message::Message;
use files::remedy::Remedy;

/// What is said of it.
pub(super) struct Said {
    pub severity: Severity,
    pub subject: Subject,
    pub path: KeyPath,
    pub what: Message,
    pub remedy: Remedy,
}

/// A check's finding with its figure held against its limit.
pub(super) fn found(
    check: &dyn Check,
    said: Said,
    (figure, limit): (Amount, Amount),
    working: Working,
) -> Finding {
    let against = Against {
        figure,
        limit,
        working,
    };
    told(check, said, Some(against))
}

/// The same with its figure and limit as they are, if there are any.
pub(super) fn told(check: &dyn Check, said: Said, against: Option<Against>) -> Finding {
    Finding {
        key: check.key(),
        severity: said.severity,
        subject: said.subject,
        path: said.path,
        what: said.what,
        remedy: said.remedy,
        against,
        of_rings: Vec::new(),
        cases: Vec::new(),
    }
}

/// A ring's subject.
pub(super) fn of_ring((section, ring): (usize, usize)) -> Subject {
    Subject {
        section: Some(section),
        ring: Some(ring),
        ..Subject::default()
    }
}

/// A band's subject.
pub(super) fn of_band((section, band): (usize, usize)) -> Subject {
    Subject {
        section: Some(section),
        band: Some(band),
        ..Subject::default()
    }
}
