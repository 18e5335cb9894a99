//! A ring that covers the form, but with less to turn away than the workshop reckons.

use geometry::Length;
use piece::piece::{Piece, Ring};

use super::ring_narrow_inside::{smallest_inside, width_for};
use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::say::{Say, ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

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
    fn outside(&self, piece: &Piece, at: (usize, usize), ring: &Ring) -> Option<Finding> {
        let say = Say::of(piece);
        let allow = piece.workshop.allowances.outside;
        let (radius, height) = ring.needs.outside?;
        let margin = ring.sizes.flat_out - radius;
        let would_do = say.at_least((radius + *allow) * 2.0);
        barely(margin, *allow).then(|| {
            self.finding(
                piece,
                at,
                "outside",
                format!(
                    "{} has {} to turn away outside at a height of {}, not the {} that the workshop reckons with",
                    ring_name(piece, at.0, at.1),
                    say.by(margin.max(Length::ZERO)),
                    say.length(height),
                    say.length(*allow)
                ),
                format!("an outside of at least {} flat to flat", say.length(would_do)),
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

    fn inside(&self, piece: &Piece, at: (usize, usize), ring: &Ring) -> Option<Finding> {
        let say = Say::of(piece);
        let allow = piece.workshop.allowances.inside;
        let (radius, height) = smallest_inside(&piece.form, ring)?;
        // A mouth narrower than the allowance: there is no more wood than all of it.
        let allow = allow.min(radius);
        let margin = radius - ring.sizes.corner_in;
        let would_do = say.at_least(width_for(ring, radius - allow));
        barely(margin, allow).then(|| {
            self.finding(
                piece,
                at,
                "width",
                format!(
                    "{} has {} to turn away inside at a height of {}, not the {} that the workshop reckons with",
                    ring_name(piece, at.0, at.1),
                    say.by(margin.max(Length::ZERO)),
                    say.length(height),
                    say.length(allow)
                ),
                format!("a board width of at least {}", say.length(would_do)),
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
        piece: &Piece,
        at: (usize, usize),
        key: &str,
        what: String,
        remedy: String,
        against: Against,
    ) -> Finding {
        Finding {
            key: self.key().into(),
            severity: Severity::WorthKnowing,
            subject: Subject {
                section: Some(at.0),
                ring: Some(at.1),
                ..Subject::default()
            },
            path: ring_path(piece, at.0, at.1, key),
            what,
            remedy,
            against: Some(against),
        }
    }
}
