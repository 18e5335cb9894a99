//! Segments too small to be held beside a blade.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::rings_name;
use crate::findings::ways::{of_segments, segments_key};
use crate::findings::{Check, Limit, Survey, limits};
use crate::ring_group::RingGroup;
use files::message::Value;
use files::remedy::Remedy;
use files::say;
use geometry::Portable;

/// A segment's long edge is shorter than is safely cut.
pub struct SegmentsTiny;

impl Check for SegmentsTiny {
    fn key(&self) -> &'static str {
        "segments-tiny"
    }

    fn asks(&self) -> &'static str {
        "are the segments large enough to be held beside the blade?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::TINY]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let limit = limits::TINY_SEGMENT;
        let mut out = Vec::new();
        for number in 0..piece.sections.len() {
            for group in RingGroup::of_section(piece, number) {
                let long = group.sizes().long_edge();
                if !group.segmented() || !limit.exceeds(long) {
                    continue;
                }
                let (first, last) = (group.rings[0], group.rings[group.count() - 1]);
                // Long edge 2 R tan(180°/n): the most segments that keep it.
                let half = (limit / 2.0).as_mm() / group.sizes().flat_out.as_mm().max(1e-9);
                let most = (std::f64::consts::PI / half.arctangent()).floor().max(3.0);
                out.push(found(
                    self,
                    Said {
                        severity: Severity::Risky,
                        subject: of_ring((number, first)),
                        path: segments_key(piece, number, first),
                        what: say!(
                            "the segments of {rings} are {long} long outside: too small to be held beside a blade",
                            rings = rings_name(piece, number, first, last),
                            long = long,
                        ),
                        remedy: Remedy::from(say!(
                            "at most {most} segments; or cut them with a clamp on the sled and a stick, never with fingers",
                            most = Value::Number(most, 0),
                        )).or(of_segments(piece, number, &group.rings, most as usize)),
                    },
                    (Amount::Length(long), Amount::Length(limit)),
                    Working::new("2 x flat radius outside x tan(180°/segments)", "regular polygon")
                        .with("flat radius outside", Amount::Length(group.sizes().flat_out))
                        .with("segments", Amount::Count(group.sizes().segments)),
                ).about(&group.rings));
            }
        }
        out
    }
}
