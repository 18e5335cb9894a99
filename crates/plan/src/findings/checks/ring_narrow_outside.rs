//! A ring whose flats lie inside the finished wall.

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::say::{Say, ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// Too small outside: the flats would show.
pub struct RingNarrowOutside;

impl Check for RingNarrowOutside {
    fn key(&self) -> &'static str {
        "ring-narrow-outside"
    }

    fn asks(&self) -> &'static str {
        "do a ring's flats stay outside the finished wall over its whole height?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::COVERS]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let say = Say::of(piece);
        let allow = piece.workshop.allowances.outside;
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                let Some((radius, height)) = ring.needs.outside else {
                    continue;
                };
                let flat = ring.sizes.flat_out;
                if !(radius - limits::SKIN).exceeds(flat) {
                    continue;
                }
                let would_do = say.at_least((radius + *allow) * 2.0);
                out.push(Finding {
                    key: self.key().into(),
                    severity: Severity::Stops,
                    subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
                    path: ring_path(piece, s, r, "outside"),
                    what: format!(
                        "{} is too small outside by {} of radius: {} above the foot the finished wall has a radius of {}, the ring's flats one of {}",
                        ring_name(piece, s, r),
                        say.by(radius - flat),
                        say.length(height),
                        say.length(radius),
                        say.length(flat)
                    ),
                    remedy: format!(
                        "an outside of at least {} flat to flat, {} of it allowance on each side",
                        say.length(would_do),
                        say.length(*allow)
                    ),
                    against: Some(Against {
                        figure: Amount::Length(flat),
                        limit: Amount::Length(radius),
                        working: Working::new(
                            "flat radius outside >= largest finished radius over the ring's height",
                            limits::COVERS.source,
                        )
                        .with("flat radius outside", Amount::Length(flat))
                        .with("largest finished radius", Amount::Length(radius))
                        .with("at a height of", Amount::Length(height)),
                    }),
                });
            }
        }
        out
    }
}
