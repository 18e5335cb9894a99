//! A floor of one board that the wall holds while it moves.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::ways::{any_of, panel, ring_key};
use crate::findings::{Check, Limit, Survey, limits};
use crate::movement::{FloorKind, panel_change};
use files::design::Board;
use files::message::{Reading, Value};
use files::remedy::{Remedy, Way};
use files::say;
use files::units::Unit;
use geometry::Length;

/// How a floor's movement is worked out.
fn moved_by(board: Board) -> &'static str {
    match board {
        Board::FlatSawn => {
            "D x (M_F - M_I)/(3000/S - 30 + M_I), flat sawn, less the same along the grain"
        }
        Board::QuarterSawn => {
            "D x (M_F - M_I)/(3000/S - 30 + M_I), quarter sawn, less the same along the grain"
        }
        Board::Plywood => "D x 0.0002 x (M_F - M_I), veneers crosswise",
    }
}

/// A solid disc or a glued panel moves more than glue and wood give.
pub struct FloorMoves;

impl Check for FloorMoves {
    fn key(&self) -> &'static str {
        "floor-moves"
    }

    fn asks(&self) -> &'static str {
        "does a floor that is glued in move little enough?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FLOOR_MOVES]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let Some(all) = survey.movement() else {
            return Vec::new();
        };
        let limit = limits::FLOOR_GIVES;
        let moving = all.floors.iter().filter(|f| {
            let held = f.kind != FloorKind::Floating;
            // Nothing stands on a lone disc, so nothing holds it.
            let alone = piece.ring_count() == 1;
            held && !alone && f.worst().exceeds(limit)
        });
        let found = moving.map(|f| {
            let worst = f.worst();
            let wood = piece.wood_name(f.wood);
            let gap = Reading::up_fine(f.across.1.max(Length::ZERO) / 2.0);
            let shrinks = (-f.across.0).max(Length::ZERO) / 2.0;
            let groove = Reading::up((limits::STAYS_IN + shrinks + gap.length(Unit::Mm)).max(f.groove));
            let loose = say!(
                "a panel loose in a groove with a gap of at least {gap} at its edge",
                gap = gap,
            );
            let key = ring_key(piece, f.at.0, f.at.1);
            let board = match f.kind {
                FloorKind::Disc => key.board(),
                FloorKind::Glued | FloorKind::Floating => key.floor().board(),
            };
            let mut ways = vec![
                Remedy::from(loose).or_any(panel(piece, f.at, Some((gap, groove)))),
            ];
            if let Some(quartered) = f.worst_quartered().filter(|q| !q.exceeds(limit)) {
                ways.push(
                    Remedy::from(say!(
                        "a quarter-sawn board, which moves {quartered}",
                        quartered = Value::fine(quartered),
                    ))
                    .or(Way::new(say!("take a quarter-sawn board")).set(board.clone(), "quarter-sawn")),
                );
            }
            let narrow = Value::down(f.diameter * (limit.as_mm() / worst.as_mm()));
            ways.push(say!("a floor of at most {narrow} across", narrow = narrow).into());
            let ply = panel_change(&all.moisture, f.diameter);
            if !ply.exceeds(limit) {
                ways.push(
                    Remedy::from(say!(
                        "a veneered plywood panel, which moves {ply}",
                        ply = Value::fine(ply),
                    ))
                    .or(Way::new(say!("take a veneered plywood panel")).set(board, "plywood")),
                );
            }
            let how = match f.kind {
                FloorKind::Disc => "solid, glued to the ring above",
                _ => "glued into its ring",
            };
            let ring = ring_path(piece, f.at.0, f.at.1);
        let path = if f.kind == FloorKind::Disc { ring.solid() } else { ring.floor().path() };
            found(
                self,
                Said {
                    severity: Severity::Risky,
                    subject: of_ring(f.at),
                    path,
                    what: say!(
                        "the floor of {wood} in {ring} is {diameter} across and {how}; between shop and home it moves {worst} across the grain and hardly along it",
                        wood = Value::name(wood),
                        ring = ring_name(piece, f.at.0, f.at.1),
                        diameter = f.diameter,
                        how = how,
                        worst = Value::fine(worst),
                    ),
                    remedy: any_of(ways).unwrap_or_default(),
                },
                (Amount::Fine(worst), Amount::Fine(limit)),
                Working::new(moved_by(f.board), "Wood Handbook eq. 13-2 and 4-5")
                .with("diameter D", Amount::Length(f.diameter))
                .with("moisture in the shop", Amount::Percent(all.moisture.shop))
                .with("moisture when dry", Amount::Percent(all.moisture.dry))
                .with("moisture when damp", Amount::Percent(all.moisture.damp)),
            )
        });
        found.collect()
    }
}
