//! A ring so wide that its mitres work open with the seasons.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::movement::RingMove;
use files::design::Board;
use files::key;
use files::message::Value;
use files::remedy::{Remedy, Way};
use files::say;

/// Boards that move less, where these are not so already, or a wall that leaves less of them.
fn remedy(ring: &RingMove, narrow: Value) -> Remedy {
    if ring.board == Board::QuarterSawn {
        return say!(
            "a width of at most {narrow} left in the wall, as by a floor loose in a groove",
            narrow = narrow,
        )
        .into();
    }
    let board = key::section(ring.at.0).board();
    Remedy::from(say!(
        "quarter-sawn boards; or a width of at most {narrow} left in the wall, as by a floor loose in a groove",
        narrow = narrow,
    ))
    .or(Way::new(say!("take quarter-sawn boards")).set(board, "quarter-sawn"))
}

/// What is left of a ring's width in the wall is wide enough to open its joints.
pub struct RingOpens;

impl Check for RingOpens {
    fn key(&self) -> &'static str {
        "ring-opens"
    }

    fn asks(&self) -> &'static str {
        "are rings narrow enough that their joints stay closed over the seasons?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::WEDGE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let limit = limits::WEDGE_GIVES;
        let Some(all) = survey.movement() else {
            return Vec::new();
        };
        // The worst of each section says it for its neighbours.
        let mut out: Vec<Finding> = Vec::new();
        for s in 0..piece.sections.len() {
            let of = all.rings.iter().filter(|r| r.at.0 == s);
            let worst = of.reduce(|a, b| if b.wedge.exceeds(a.wedge) { b } else { a });
            let Some(ring) = worst.filter(|r| r.wedge.exceeds(limit)) else {
                continue;
            };
            let segments = piece.sections[ring.at.0].rings[ring.at.1].sizes.segments;
            let narrow = Value::down(ring.width * (limit.as_mm() / ring.wedge.as_mm()));
            out.push(found(
                self,
                Said {
                    severity: Severity::WorthKnowing,
                    subject: of_ring(ring.at),
                    path: ring_path(piece, ring.at.0, ring.at.1).width(),
                    what: say!(
                        "{ring} of {wood} keeps a width of {width} in the wall; with the seasons each of its joints would open by {wedge} if the boards are {sawn}",
                        ring = ring_name(piece, ring.at.0, ring.at.1),
                        wood = Value::name(piece.wood_name(ring.wood)),
                        width = ring.width,
                        wedge = Value::fine(ring.wedge),
                        sawn = ring.board.label(),
                    ),
                    remedy: remedy(ring, narrow),
                },
                (Amount::Fine(ring.wedge), Amount::Fine(limit)),
                Working::new(
                    "2 x change across the grain x sin(180°/segments)",
                    "the mitre's angle; Wood Handbook eq. 13-2",
                )
                .with("width", Amount::Length(ring.width))
                .with("segments", Amount::Count(segments))
                .with("change across, dry", Amount::Fine(ring.across.0))
                .with("change across, damp", Amount::Fine(ring.across.1)),
            ));
        }
        out
    }
}
