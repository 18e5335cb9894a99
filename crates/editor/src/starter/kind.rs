//! The kinds of piece to start from.

use files::units::Unit;
use geometry::Length;

/// A kind of piece to start from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceKind {
    /// An open bowl.
    Bowl,
    /// A vase with a belly and a neck.
    Vase,
    /// A wide platter with a low wall.
    Platter,
    /// A straight-sided box with a floor that is free to move.
    Box,
}

impl PieceKind {
    /// Every kind.
    pub const ALL: [PieceKind; 4] = [
        PieceKind::Bowl,
        PieceKind::Vase,
        PieceKind::Platter,
        PieceKind::Box,
    ];

    /// What to ask for.
    pub const fn word(self) -> &'static str {
        match self {
            PieceKind::Bowl => "bowl",
            PieceKind::Vase => "vase",
            PieceKind::Platter => "platter",
            PieceKind::Box => "box",
        }
    }

    /// What to show.
    pub const fn label(self) -> &'static str {
        match self {
            PieceKind::Bowl => "Bowl",
            PieceKind::Vase => "Vase",
            PieceKind::Platter => "Platter",
            PieceKind::Box => "Box",
        }
    }

    /// Usual overall height and largest diameter, round in the unit. Any number of loops
    /// fits them in the usual workshop.
    pub fn usual_size(self, unit: Unit) -> (Length, Length) {
        let ((height, diameter), (tall, wide)) = match self {
            PieceKind::Bowl => ((110.0, 220.0), (4.5, 9.0)),
            PieceKind::Vase => ((250.0, 160.0), (10.0, 6.5)),
            PieceKind::Platter => ((100.0, 250.0), (4.0, 10.0)),
            PieceKind::Box => ((100.0, 120.0), (4.0, 4.75)),
        };
        match unit {
            Unit::Mm => (Length::mm(height), Length::mm(diameter)),
            Unit::Inch => (Length::inches(tall), Length::inches(wide)),
        }
    }

    /// Outer curve as (share of the height, share of the largest radius).
    pub(super) fn curve(self) -> &'static [(f64, f64)] {
        match self {
            PieceKind::Bowl => &[
                (0.0, 0.46),
                (0.1, 0.53),
                (0.35, 0.78),
                (0.68, 0.95),
                (1.0, 1.0),
            ],
            PieceKind::Vase => &[
                (0.0, 0.48),
                (0.06, 0.5),
                (0.26, 0.82),
                (0.46, 1.0),
                (0.64, 0.88),
                (0.84, 0.5),
                (0.93, 0.42),
                (1.0, 0.5),
            ],
            PieceKind::Platter => &[(0.0, 0.6), (0.2, 0.66), (0.6, 0.88), (1.0, 1.0)],
            PieceKind::Box => &[(0.0, 1.0), (1.0, 1.0)],
        }
    }
}
