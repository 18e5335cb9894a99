//! A ring that covers the form, but with less to turn away than the workshop reckons.

use crate::findings::ways::{outside_of, width_of};
use files::key::KeyPath;
use files::remedy::Remedy;
use geometry::Length;
use piece::course::Course;
use piece::piece::Piece;

use super::ring_narrow_inside::{smallest_inside, width_for};
use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::found::{Said, told};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::message::{Message, Reading, Value};
use files::say;

/// The allowance is not all there.
pub struct RingBarelyCovers;

impl Check for RingBarelyCovers {
    fn key(&self) -> &'static str {
        "ring-barely-covers"
    }

    fn asks(&self) -> &'static str {
        "is the workshop's allowance left outside and inside the finished wall?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::OUTSIDE, &limits::INSIDE]
    }

    fn of_the_wall(&self) -> bool {
        true
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                out.extend(self.outside(piece, (s, r), ring));
                out.extend(self.inside(piece, (s, r), ring));
            }
        }
        out
    }
}

/// Is there some wood to spare, but less than there should be?
fn barely(margin: Length, allowance: Length) -> bool {
    (margin + limits::SKIN).exceeds(Length::ZERO) && (allowance - limits::UNSEEN).exceeds(margin)
}

impl RingBarelyCovers {
    fn outside(&self, piece: &Piece, at: (usize, usize), ring: &Course) -> Option<Finding> {
        let allow = piece.workshop.allowances.outside;
        let (radius, height) = ring.needs.outside?;
        let margin = ring.sizes.flat_out - radius;
        let would_do = Reading::up((radius + *allow) * 2.0);
        barely(margin, *allow).then(|| {
            self.finding(
                at,
                ring_path(piece, at.0, at.1).outside(),
                say!(
                    "{ring} has {margin} to turn away outside at a height of {height}, not the {allow} that the workshop reckons with",
                    ring = ring_name(piece, at.0, at.1),
                    margin = Value::By(margin.max(Length::ZERO)),
                    height = height,
                    allow = *allow,
                ),
                outside_of(piece, at, would_do),
                Against {
                    figure: Amount::Length(margin),
                    limit: Amount::Length(*allow),
                    working: Working::new(
                        "flat radius outside - largest finished radius over the ring's height",
                        limits::OUTSIDE.source,
                    )
                    .with("flat radius outside", Amount::Length(ring.sizes.flat_out))
                    .with("largest finished radius", Amount::Length(radius)),
                },
            )
        })
    }

    fn inside(&self, piece: &Piece, at: (usize, usize), ring: &Course) -> Option<Finding> {
        let allow = piece.workshop.allowances.inside;
        let (radius, height) = smallest_inside(&piece.form, ring)?;
        // A mouth narrower than the allowance: there is no more wood than all of it.
        let allow = allow.min(radius);
        let margin = radius - ring.sizes.corner_in;
        let would_do = Reading::up(width_for(ring, radius - allow));
        barely(margin, allow).then(|| {
            self.finding(
                at,
                ring_path(piece, at.0, at.1).width(),
                say!(
                    "{ring} has {margin} to turn away inside at a height of {height}, not the {allow} that the workshop reckons with",
                    ring = ring_name(piece, at.0, at.1),
                    margin = Value::By(margin.max(Length::ZERO)),
                    height = height,
                    allow = allow,
                ),
                width_of(piece, at, would_do),
                Against {
                    figure: Amount::Length(margin),
                    limit: Amount::Length(allow),
                    working: Working::new(
                        "smallest finished inner radius over the ring's height - corner radius inside",
                        limits::INSIDE.source,
                    )
                    .with("corner radius inside", Amount::Length(ring.sizes.corner_in))
                    .with("smallest finished inner radius", Amount::Length(radius)),
                },
            )
        })
    }

    fn finding(
        &self,
        at: (usize, usize),
        path: KeyPath,
        what: Message,
        remedy: Remedy,
        against: Against,
    ) -> Finding {
        told(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject {
                    section: Some(at.0),
                    ring: Some(at.1),
                    ..Subject::default()
                },
                path,
                what,
                remedy,
            },
            Some(against),
        )
    }
}
