//! A ring whose flats lie inside the finished wall.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::ways::outside_way;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::message::{Reading, Value};
use files::remedy::Remedy;
use files::say;

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

    fn of_the_wall(&self) -> bool {
        true
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
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
                let would_do = Reading::up((radius + *allow) * 2.0);
                out.push(found(self, Said {
severity: Severity::Stops,
subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
path: ring_path(piece, s, r).outside(),
what: say!(
                        "{ring} is too small outside by {flat} of radius: {height} above the foot the finished wall has a radius of {radius}, the ring's flats one of {flat_2}",
                        ring = ring_name(piece, s, r),
                        flat = Value::By(radius - flat),
                        height = height,
                        radius = radius,
                        flat_2 = flat,
                    ),
remedy: Remedy::from(say!(
                        "an outside of at least {would_do} flat to flat, {allow} of it allowance on each side",
                        would_do = would_do,
                        allow = *allow,
                    )).or(outside_way(piece, (s, r), would_do)),
},
(Amount::Length(flat), Amount::Length(radius)),
Working::new(
                            "flat radius outside >= largest finished radius over the ring's height",
                            limits::COVERS.source,
                        )
                        .with("flat radius outside", Amount::Length(flat))
                        .with("largest finished radius", Amount::Length(radius))
                        .with("at a height of", Amount::Length(height)),
));
            }
        }
        out
    }
}
