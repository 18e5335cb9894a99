//! A ring whose inner corners lie outside the finished inner wall.

use crate::findings::ways::width_way;
use files::remedy::Remedy;
use geometry::Length;
use geometry::Portable;
use piece::course::Course;
use piece::form::Form;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::message::{Reading, Value};
use files::say;

/// Boards too narrow: hollowing would open the ring's corners.
pub struct RingNarrowInside;

impl Check for RingNarrowInside {
    fn key(&self) -> &'static str {
        "ring-narrow-inside"
    }

    fn asks(&self) -> &'static str {
        "do a ring's corners stay inside the finished inner wall over its whole height?"
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
        let allow = piece.workshop.allowances.inside;
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                let Some((radius, height)) = smallest_inside(&piece.form, ring) else {
                    continue;
                };
                let corner = ring.sizes.corner_in;
                if !corner.exceeds(radius + limits::SKIN) {
                    continue;
                }
                let would_do = Reading::up(width_for(ring, radius - *allow));
                out.push(found(self, Said {
severity: Severity::Stops,
subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
path: ring_path(piece, s, r).width(),
what: say!(
                        "{ring} is too narrow inside by {radius}: {height} above the foot the finished inner wall has a radius of {radius_2}, the ring's corners one of {corner}",
                        ring = ring_name(piece, s, r),
                        radius = Value::By(corner - radius),
                        height = height,
                        radius_2 = radius,
                        corner = corner,
                    ),
remedy: Remedy::from(say!(
                        "a board width of at least {would_do}, {allow} of it allowance inside",
                        would_do = would_do,
                        allow = *allow,
                    )).or(width_way(piece, (s, r), would_do)),
},
(Amount::Length(corner), Amount::Length(radius)),
Working::new(
                            "(flat radius outside - board width) / cos(180°/segments) <= smallest finished inner radius over the ring's height",
                            limits::COVERS.source,
                        )
                        .with("flat radius outside", Amount::Length(ring.sizes.flat_out))
                        .with("board width", Amount::Length(ring.sizes.board_width()))
                        .with("segments", Amount::Count(ring.sizes.segments))
                        .with("at a height of", Amount::Length(height)),
));
            }
        }
        out
    }
}

/// The smallest finished inner radius that a ring of segments has to reach in to, and
/// its height. Nothing for a disc, or where the form is solid.
pub(super) fn smallest_inside(form: &Form, ring: &Course) -> Option<(Length, Length)> {
    if ring.let_in.is_some() {
        // Below the floor's face the panel is there.
        let side = form.inside();
        let low = form.floor_top().max(ring.spans.0);
        let from = low.as_mm().max(side.lowest());
        let radius = side.min_between(from, ring.spans.1.as_mm().max(from))?;
        return Some((Length::mm(radius), low));
    }
    // What is alike all round has no hole to be too wide.
    ring.repeats().and(ring.needs.inside)
}

/// The board width that brings a ring's corners in to a radius.
pub(super) fn width_for(ring: &Course, corner: Length) -> Length {
    let flat_in = corner.max(Length::ZERO) * ring.sizes.mitre().as_rad().cosine();
    ring.sizes.flat_out - flat_in
}
