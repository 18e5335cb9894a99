//! More faces than can be spread before the glue skins.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::{ring_path, rings_name};
use crate::findings::{Check, Limit, Survey, limits};
use crate::glue;
use crate::ring_group::RingGroup;

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
                let (first, last) = (group.rings[0], group.rings[group.count() - 1]);
                out.push(found(
                    self,
                    Said {
                        severity: Severity::Risky,
                        subject: of_ring((number, first)),
                        path: ring_path(piece, number, first, "segments"),
                        what: format!(
                            "a half-ring of {} has {} faces to spread, which takes {} min; the glue stays open for {} min",
                            rings_name(piece, number, first, last),
                            glue.faces,
                            files::units::fixed(glue.spreading, 1),
                            files::units::fixed(glue.open, 1)
                        ),
                        remedy: format!(
                            "glue at most {} segments in one go and join the parts later; or rings of at most {} segments; or a slower glue",
                            most + 1,
                            2 * (most + 1)
                        ),
                    },
                    (Amount::Minutes(glue.spreading), Amount::Minutes(glue.open)),
                    Working::new(
                        "faces x seconds a face + area of both sides x 0.15 s/cm²",
                        "common practice",
                    )
                    .with("faces", Amount::Count(glue.faces))
                    .with("joint area", Amount::Area(glue.area)),
                ));
            }
        }
        out
    }
}
