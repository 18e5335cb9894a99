//! A loose floor without room to move, or that comes out of its groove.

use crate::findings::ways::{one, ring_key};
use files::design::Board;
use files::message::Reading;
use files::remedy::Way;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::movement::FloorKind;
use files::message::Value;
use files::say;

/// A floating panel swells against its ring, or shrinks out of its groove.
pub struct FloorGap;

impl Check for FloorGap {
    fn key(&self) -> &'static str {
        "floor-gap"
    }

    fn asks(&self) -> &'static str {
        "has a loose floor room to swell, and groove enough when it shrinks?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FLOOR_ROOM, &limits::GROOVE_LEFT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for f in survey.movement().map_or(&[][..], |m| &m.floors) {
            if f.kind != FloorKind::Floating {
                continue;
            }
            let floor = ring_key(piece, f.at.0, f.at.1).floor();
            let name = || ring_name(piece, f.at.0, f.at.1);
            let swells = f.across.1.max(Length::ZERO) / 2.0;
            let formula = match f.board {
                Board::FlatSawn => "half of D x (M_F - M_I)/(3000/S - 30 + M_I), flat sawn",
                Board::QuarterSawn => "half of D x (M_F - M_I)/(3000/S - 30 + M_I), quarter sawn",
                Board::Plywood => "half of D x 0.0002 x (M_F - M_I), veneers crosswise",
            };
            let working = || {
                Working::new(formula, "Wood Handbook eq. 13-2 and 4-5")
                    .with("diameter D", Amount::Length(f.diameter))
                    .with("gap", Amount::Fine(f.gap))
                    .with("reach into the wall", Amount::Length(f.groove))
            };
            if swells.exceeds(f.gap + Length::mm(1e-6)) {
                let gap = Reading::up_fine(swells);
                out.push(found(
                    self,
                    Said {
                        severity: Severity::Risky,
                        subject: of_ring(f.at),
                        path: ring_path(piece, f.at.0, f.at.1).floor().gap(),
                        what: say!(
                            "the loose floor of {name} swells by {swells} at its edge in the damp season, but has {gap} of room: it bursts the ring",
                            name = name(),
                            swells = Value::fine(swells),
                            gap = Value::fine(f.gap),
                        ),
                        remedy: one(
                            say!("a gap of at least {gap}", gap = gap),
                            Way::new(say!("leave {gap} of room at the floor's edge", gap = gap))
                                .set(floor.gap(), gap),
                        ),
                    },
                    (Amount::Fine(swells), Amount::Fine(f.gap)),
                    working(),
                ));
            }
            let shrinks = (-f.across.0).max(Length::ZERO) / 2.0;
            let left = f.groove - shrinks - f.gap;
            if limits::STAYS_IN.exceeds(left + Length::mm(1e-6)) {
                let groove = Reading::up(limits::STAYS_IN + shrinks + f.gap);
                out.push(found(
                    self,
                    Said {
                        severity: Severity::Risky,
                        subject: of_ring(f.at),
                        path: ring_path(piece, f.at.0, f.at.1).floor().groove(),
                        what: say!(
                            "pushed to one side, the loose floor of {name} keeps {left} in its groove in the dry season",
                            name = name(),
                            left = Value::fine(left),
                        ),
                        remedy: one(
                            say!("a reach into the wall of at least {groove}", groove = groove),
                            Way::new(say!("let the floor reach {groove} into the wall", groove = groove))
                                .set(floor.groove(), groove),
                        ),
                    },
                    (Amount::Fine(left), Amount::Fine(limits::STAYS_IN)),
                    working(),
                ));
            }
        }
        out
    }
}
