//! A floor glued in by its end grain.

use crate::findings::ways::ring_key;
use files::remedy::{Remedy, Way};

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use files::say;

/// A glued panel's edge is end grain on two sides.
pub struct EndGrainJoint;

impl Check for EndGrainJoint {
    fn key(&self) -> &'static str {
        "end-grain-joint"
    }

    fn asks(&self) -> &'static str {
        "is no joint made of end grain against long grain?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::END_GRAIN]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                let Some(panel) = &ring.let_in else {
                    continue;
                };
                if panel.floating {
                    continue;
                }
                out.push(found(
                    self,
                    Said {
                        severity: Severity::WorthKnowing,
                        subject: of_ring((s, r)),
                        path: ring_path(piece, s, r).floor().floating(),
                        what: say!(
                            "the floor of {ring} is glued in; at both ends of its grain that joint is end grain to long grain and holds little",
                            ring = ring_name(piece, s, r),
                        ),
                        remedy: Remedy::from(say!("let it lie loose: the groove holds it, not the glue")).or(Way::new(say!("let the floor of {ring} lie loose in its groove", ring = ring_name(piece, s, r))).set(ring_key(piece, s, r).floor().floating(), true)),
                    },
                    (Amount::Text("glued".into()), Amount::Text("loose in its groove".into())),
                    Working::new("a panel's edge shows end grain on two sides", limits::END_GRAIN.source),
                ));
            }
        }
        out
    }
}
