//! Segments that run to a point at the axis.

use crate::findings::ways::{disc, panel};
use files::remedy::Remedy;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::message::Value;
use files::say;

/// A floor made of wedges.
pub struct RingToAPoint;

impl Check for RingToAPoint {
    fn key(&self) -> &'static str {
        "ring-to-a-point"
    }

    fn asks(&self) -> &'static str {
        "do segments run to a point at the axis?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::POINT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let form = &piece.form;
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                // With a width of its own it has a hole, and that is told elsewhere.
                if !ring.to_a_point || ring.sizes.corner_in.exceeds(limits::SKIN) {
                    continue;
                }
                let floor = (form.floor_top().min(ring.spans.1)
                    - form.foot_recess().max(ring.spans.0))
                .max(Length::ZERO);
                out.push(found(self, Said {
severity: Severity::Risky,
subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
path: ring_path(piece, s, r).solid(),
what: say!(
                        "the {segments} segments of {ring} run to points at the axis, for {floor} of floor lie in it",
                        segments = ring.sizes.segments,
                        ring = ring_name(piece, s, r),
                        floor = floor,
                    ),
remedy: Remedy::from(say!(
                        "one disc {flat_out} across, or a floor panel in a groove",
                        flat_out = Value::up(ring.sizes.flat_out * 2.0),
                    )).or(disc(piece, s, r)).or_any(panel(piece, (s, r), None)),
},
(Amount::Length(ring.sizes.corner_in), Amount::Length(Length::ZERO)),
Working::new("corner radius inside > 0", limits::POINT.source)
                            .with("segments", Amount::Count(ring.sizes.segments)),
));
            }
        }
        out
    }
}
