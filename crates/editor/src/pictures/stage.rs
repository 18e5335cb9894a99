//! The piece as it would look with only some of its loops sawn.

use piece::model::{SectionBody, Stack, StepKind};
use piece::piece::Piece;

/// The piece with, in each section, only the loops that are done, as (section, loops).
/// Splits stay: without them nothing above would stand in its place.
pub fn piece_at(piece: &Piece, done: &[(usize, usize)]) -> Piece {
    let sections = piece.stack.sections().iter().enumerate();
    let stack = Stack::new(
        sections
            .map(|(i, placed)| {
                let loops: usize = done.iter().filter(|(s, _)| *s == i).map(|(_, n)| n).sum();
                let mut left = loops;
                let steps = placed
                    .body
                    .steps()
                    .iter()
                    .filter(|step| match step.kind {
                        StepKind::Loop { .. } if left == 0 => false,
                        StepKind::Loop { .. } => {
                            left -= 1;
                            true
                        }
                        StepKind::Split { .. } | StepKind::Joint { .. } => true,
                    })
                    .cloned()
                    .collect();
                (
                    SectionBody::new(placed.body.rings().to_vec(), steps),
                    placed.turn,
                )
            })
            .collect(),
    );
    Piece {
        stack,
        ..piece.clone()
    }
}
