//! One cause in many rings is one finding.
//!
//! Findings of one kind in one section that are put right at one key, be it the section's
//! or that of an entry which stands for several rings, are told together: of which rings,
//! and the worst of them. What was found of each stands behind it.

use files::design::RingsGiven;
use files::key::{self, KeyPath};
use files::message::{Message, Round};
use files::remedy::To;
use files::say;
use files::units::Unit;
use piece::piece::Piece;

use super::say::{ring_numbers, section_name};
use crate::finding::{Case, Finding};

/// The findings, those of one cause as one, in the order of the first of each.
pub(super) fn grouped(found: Vec<Finding>, piece: &Piece) -> Vec<Finding> {
    let mut groups: Vec<(Option<KeyPath>, Vec<Finding>)> = Vec::new();
    for finding in found {
        let cause = cause(&finding, piece);
        let same = |(other, members): &&mut (Option<KeyPath>, Vec<Finding>)| {
            let first = members
                .first()
                .map(|f| (f.key, f.severity, f.subject.section));
            cause.is_some()
                && *other == cause
                && first == Some((finding.key, finding.severity, finding.subject.section))
        };
        match groups.iter_mut().find(same) {
            Some((_, members)) => members.push(finding),
            None => groups.push((cause, vec![finding])),
        }
    }
    let groups = groups.into_iter().map(|(_, members)| members);
    groups.filter_map(|members| one(members, piece)).collect()
}

/// The key at which a finding about rings is put right. Rings that a section only counts
/// have no keys of their own, so that it is the section's.
fn cause(finding: &Finding, piece: &Piece) -> Option<KeyPath> {
    let (section, _) = (finding.subject.section?, finding.subject.ring?);
    let path = finding.path.clone();
    let given = piece.design.sections.get(section)?.rings_given();
    let own = key::section(section).ring(0).path().list();
    let counted = !matches!(given, RingsGiven::Listed(_));
    Some(if counted && path.is_in(&own) {
        own
    } else {
        path
    })
}

/// One finding of all of a group; the only one as it is.
fn one(mut members: Vec<Finding>, piece: &Piece) -> Option<Finding> {
    if members.len() < 2 {
        return members.pop();
    }
    let section = members.first()?.subject.section?;
    let mut rings: Vec<usize> = members.iter().flat_map(Finding::rings).collect();
    rings.sort_unstable();
    rings.dedup();
    let cases = members.iter().map(|f| Case {
        subject: f.subject,
        what: f.what.clone(),
        against: f.against.clone(),
    });
    let cases: Vec<Case> = cases.collect();
    let worst = members
        .iter()
        .enumerate()
        .reduce(|a, b| if asks_more(b.1, a.1) { b } else { a })
        .map(|(at, _)| at)?;
    let subject = members.first()?.subject;
    let worst = members.swap_remove(worst);
    Some(Finding {
        what: of_rings(&rings, section, worst.what.clone(), piece),
        subject,
        of_rings: rings,
        cases,
        ..worst
    })
}

fn of_rings(rings: &[usize], section: usize, what: Message, piece: &Piece) -> Message {
    let numbers = rings.iter().map(|ring| piece.ring_number(section, *ring));
    let numbers: Vec<usize> = numbers.collect();
    say!(
        "{rings} ({section}) have one cause; the worst: {what}",
        rings = ring_numbers(&numbers),
        section = section_name(piece, section),
        what = what,
    )
}

/// Does a finding's first way go further than another's, so that it does for both?
fn asks_more(one: &Finding, other: &Finding) -> bool {
    let first = |f: &Finding| Some(f.remedy.ways.first()?.settings.first()?.to.clone());
    match (first(one), first(other)) {
        (Some(To::Length(a)), Some(To::Length(b))) => {
            let (more, less) = (a.length(Unit::Mm), b.length(Unit::Mm));
            match a.round() {
                Round::Up => more.exceeds(less),
                Round::Down => less.exceeds(more),
                Round::Nearest => false,
            }
        }
        // A count in a remedy is the most that will do.
        (Some(To::Count(a)), Some(To::Count(b))) => a < b,
        _ => false,
    }
}
