//! More faces than can be spread before the glue skins.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::rings_name;
use crate::findings::ways::{of_segments, segments_key};
use crate::findings::{Check, Limit, Survey, limits};
use crate::glue;
use crate::ring_group::RingGroup;
use files::message::Value;
use files::remedy::Remedy;
use files::say;

/// Spreading takes longer than the glue stays open.
pub struct GlueOpenTime;

impl Check for GlueOpenTime {
    fn key(&self) -> &'static str {
        "glue-open-time"
    }

    fn asks(&self) -> &'static str {
        "are all faces of a glue-up spread before the glue skins?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::OPEN_TIME]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for number in 0..piece.sections.len() {
            for group in RingGroup::of_section(piece, number) {
                let Some(glue) = glue::rings(&group) else {
                    continue;
                };
                if glue.spreading <= glue.open {
                    continue;
                }
                let joints = glue.faces / 2;
                let most = ((joints as f64 * glue.open / glue.spreading).floor() as usize).max(1);
                // As many as the glue gives time for, an even number for two halves.
                let fewer = 2 * (most + 1);
                let (first, last) = (group.rings[0], group.rings[group.count() - 1]);
                out.push(found(
                    self,
                    Said {
                        severity: Severity::Risky,
                        subject: of_ring((number, first)),
                        path: segments_key(piece, number, first),
                        what: say!(
                            "a half-ring of {rings} has {faces} faces to spread, which takes {spreading} min; the glue stays open for {open} min",
                            rings = rings_name(piece, number, first, last),
                            faces = glue.faces,
                            spreading = Value::Number(glue.spreading, 1),
                            open = Value::Number(glue.open, 1),
                        ),
                        remedy: Remedy::from(say!(
                            "glue at most {most} segments in one go and join the parts later; or rings of at most {most_2} segments; or a slower glue",
                            most = most + 1,
                            most_2 = 2 * (most + 1),
                        )).or(of_segments(piece, number, &group.rings, fewer)),
                    },
                    (Amount::Minutes(glue.spreading), Amount::Minutes(glue.open)),
                    Working::new(
                        "faces x seconds a face + area of both sides x 0.15 s/cm²",
                        "common practice",
                    )
                    .with("faces", Amount::Count(glue.faces))
                    .with("joint area", Amount::Area(glue.area)),
                ).about(&group.rings));
            }
        }
        out
    }
}
