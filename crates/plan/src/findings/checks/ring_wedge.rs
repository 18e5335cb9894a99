//! A ring of so many segments that small errors of its mitres take more than there is.

use crate::findings::ways::{of_segments, segments_key};
use files::remedy::Remedy;
use geometry::Angle;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::rings_name;
use crate::findings::{Check, Limit, Survey, limits};
use crate::ring_group::RingGroup;
use crate::settings::ring::SMALL_ERROR;
use files::message::Value;
use files::say;

/// The wedge at a half-ring's joint is more than the wood outside allows.
pub struct RingWedge;

impl Check for RingWedge {
    fn key(&self) -> &'static str {
        "ring-wedge"
    }

    fn asks(&self) -> &'static str {
        "does a ring close within the wood that is left outside, if each mitre is a little off?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::CLOSES]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let limit = piece.workshop.allowances.outside;
        let mut out = Vec::new();
        for number in 0..piece.sections.len() {
            for group in RingGroup::of_section(piece, number) {
                let sizes = group.sizes();
                // Half of the wedge is sanded off each half-ring's end.
                let lost = |segments: usize, error: Angle| {
                    let ring = piece::ring::RingSizes { segments, ..*sizes };
                    ring.half_ring_wedge(error) / 2.0
                };
                let own = lost(sizes.segments, SMALL_ERROR);
                if !group.segmented() || !own.exceeds(*limit) {
                    continue;
                }
                let mut fewer = sizes.segments;
                while fewer > 4 && lost(fewer, SMALL_ERROR).exceeds(*limit) {
                    fewer -= 1;
                }
                let exact = SMALL_ERROR.as_deg() * limit.as_mm() / own.as_mm();
                let exact = (exact * 1000.0).floor() / 1000.0;
                let (first, last) = (group.rings[0], group.rings[group.count() - 1]);
                out.push(found(
                    self,
                    Said {
                        severity: Severity::WorthKnowing,
                        subject: of_ring((number, first)),
                        path: segments_key(piece, number, first),
                        what: say!(
                            "if each cut of {rings} is off by {error}, closing its half-rings takes {own} at the outside; {limit} is left there",
                            rings = rings_name(piece, number, first, last),
                            error = Value::tenth(SMALL_ERROR),
                            own = Value::fine(own),
                            limit = Value::fine(*limit),
                        ),
                        remedy: Remedy::from(say!(
                            "at most {fewer} segments; or mitres true to {exact}°; or more wood outside",
                            fewer = fewer,
                            exact = Value::Number(exact, 3),
                        )).or(of_segments(piece, number, &group.rings, fewer)),
                    },
                    (Amount::Fine(own), Amount::Fine(*limit)),
                    Working::new(
                        "half of 2 x corner radius x sin(cuts x error / 2)",
                        "angles add up across the diameter",
                    )
                    .with("segments", Amount::Count(sizes.segments))
                    .with("error of a cut", Amount::Angle(SMALL_ERROR)),
                ).about(&group.rings));
            }
        }
        out
    }
}
