//! A ring with a hole where the form has its floor.

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

/// The floor would have a hole.
pub struct FloorOpen;

impl Check for FloorOpen {
    fn key(&self) -> &'static str {
        "floor-open"
    }

    fn asks(&self) -> &'static str {
        "is there wood in the middle of every ring that the floor runs through?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SOLID_FLOOR]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let form = &piece.form;
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                let floor =
                    form.floor_top().min(ring.spans.1) - form.foot_recess().max(ring.spans.0);
                let hole = ring.sizes.corner_in;
                if ring.let_in.is_some()
                    || !floor.exceeds(limits::SKIN)
                    || !hole.exceeds(limits::SKIN)
                {
                    continue;
                }
                out.push(found(self, Said {
severity: Severity::Stops,
subject: Subject {
                        section: Some(s),
                        ring: Some(r),
                        ..Subject::default()
                    },
path: ring_path(piece, s, r).solid(),
what: say!(
                        "{ring} has a hole of {hole} from corner to corner where {floor} of the form's floor run through it",
                        ring = ring_name(piece, s, r),
                        hole = hole * 2.0,
                        floor = Value::By(floor),
                    ),
remedy: Remedy::from(say!("one disc instead of segments, or a floor panel in a groove")).or(disc(piece, s, r)).or_any(panel(piece, (s, r), None)),
},
(Amount::Length(hole), Amount::Length(Length::ZERO)),
Working::new(
                            "corner radius inside = 0 from the foot's recess to the floor's face",
                            limits::SOLID_FLOOR.source,
                        )
                        .with("foot's recess", Amount::Length(form.foot_recess()))
                        .with("floor's face", Amount::Length(form.floor_top()))
                        .with("ring's underside", Amount::Length(ring.spans.0)),
));
            }
        }
        out
    }
}
