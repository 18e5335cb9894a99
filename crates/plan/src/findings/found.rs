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
    Finding {
        key: check.key(),
        severity: said.severity,
        subject: said.subject,
        path: said.path,
        what: said.what,
        remedy: said.remedy,
        against: Some(Against {
            figure,
            limit,
            working,
        }),
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
