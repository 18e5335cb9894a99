//! A split through a ring and not at a glue line.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::ring_name;
use crate::findings::ways::one;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::Reading;
use files::remedy::Way;
use files::say;

/// The ring will show as two.
pub struct SplitInRing;

impl Check for SplitInRing {
    fn key(&self) -> &'static str {
        "split-in-ring"
    }

    fn asks(&self) -> &'static str {
        "is every split at a glue line between rings?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::GLUE_LINE_SPLIT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (k, split) in section.splits.iter().enumerate() {
                let half = split.saw.kerf / 2.0;
                let at = split.spec.height;
                // The ring of which something stays on both sides.
                let divided = section.rings.iter().position(|r| {
                    (at - half).exceeds(r.bottom) && (r.bottom + r.height).exceeds(at + half)
                });
                let Some(r) = divided else {
                    continue;
                };
                let ring = &section.rings[r];
                let (low, high) = (
                    at - half - ring.bottom,
                    ring.bottom + ring.height - at - half,
                );
                let lines = [ring.bottom, ring.bottom + ring.height];
                let nearest = lines
                    .into_iter()
                    .filter(|l| {
                        l.exceeds(limits::UNSEEN) && (section.stacked - limits::UNSEEN).exceeds(*l)
                    })
                    .reduce(|a, b| {
                        if (a - at).abs().exceeds((b - at).abs()) {
                            b
                        } else {
                            a
                        }
                    });
                let remedy = match nearest {
                    Some(line) => {
                        let line = Reading::nearest(line);
                        one(
                            say!(
                                "for a split at a glue line, a height of {line}",
                                line = line
                            ),
                            Way::new(say!("put the split at {line}", line = line))
                                .set(key::section(s).split(k).height(), line),
                        )
                    }
                    None => {
                        say!("a section of two rings or more can be split at a glue line").into()
                    }
                };
                out.push(found(self, Said {
severity: Severity::WorthKnowing,
subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
path: key::section(s).split(k).height(),
what: say!(
                        "the split at {at} goes through {ring}: its joints will show {low} below and {high} above the new glue line",
                        at = at,
                        ring = ring_name(piece, s, r),
                        low = low,
                        high = high,
                    ),
remedy,
},
(Amount::Length(at), Amount::Length(nearest.unwrap_or(at))),
Working::new(
                            "height of the split = a glue line's, within half a kerf",
                            limits::GLUE_LINE_SPLIT.source,
                        )
                        .with("ring's underside", Amount::Length(ring.bottom))
                        .with("ring's height", Amount::Length(ring.height))
                        .with("kerf", Amount::Fine(split.saw.kerf)),
));
            }
        }
        out
    }
}
