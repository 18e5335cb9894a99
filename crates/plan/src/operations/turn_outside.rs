//! The outer side.

use files::message::Message;
use files::say;
use files::units::Unit;
use geometry::Length;
use piece::piece::Piece;

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::form;
use crate::speed;

/// What holds for turning outside.
pub static CARD: Card = Card {
    kind: OperationKind::TurnOutside,
    name: "turn outside",
    wording: "Turn the outer side to the form.",
    cautions: &[
        FaceShield,
        Speed,
        StandClear,
        LooseThings,
        Holding,
        GlueSound,
        Dust,
        Estimate,
    ],
    picture: Picture::OutsideWall,
};

/// The piece's outer side.
pub struct TurnOutside<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The unit whose round heights it is measured at.
    pub unit: Unit,
}

impl ShopOperation for TurnOutside<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn cautions(&self) -> Vec<Caution> {
        super::with_gaps(&CARD, super::courses(self.piece))
    }

    fn subject(&self) -> Subject {
        Subject::default()
    }

    fn title(&self) -> Message {
        "Turn the outside".into()
    }

    fn figures(&self) -> Vec<Figure> {
        let piece = self.piece;
        let swing = piece.sections.iter().map(super::section_diameter);
        let swing = swing.reduce(Length::max).unwrap_or(Length::ZERO);
        let mut out: Vec<Figure> =
            speed::figures(swing, &piece.workshop.lathe, speed::Work::Turning).into();
        out.extend(form::outside_diameters(&piece.form, self.unit));
        let (radius, at) = piece.form.largest_radius();
        out.push(Figure::note(
            "largest",
            say!("largest diameter, at height {height}", height = at),
            Amount::Length(radius * 2.0),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![
            "Bring the tailstock up. Turn away the corners first, from the middle outwards.".into(),
            "Part down to each diameter with a calliper at its height, then turn from one to the \
             next; heights are from the foot's underside."
                .into(),
        ];
        if self.piece.sections.iter().any(|s| !s.bands.is_empty()) {
            out.push(
                "Hold the loops' tops and bottoms against the drawing of the outside wall as they \
                 come up; a form a little higher or lower moves them."
                    .into(),
            );
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Diameters at their heights, with a calliper, the lathe stopped.".into()]
    }

    fn minutes(&self) -> f64 {
        // About a square foot of wall an hour, and the mounting.
        20.0 + self.piece.form.surface_areas().outside / 1500.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    fn outside(piece: &Piece) -> TurnOutside<'_> {
        TurnOutside {
            piece,
            unit: Unit::Mm,
        }
    }

    #[test]
    fn a_straight_tube_has_one_diameter() {
        let piece = trial::tube();
        for figure in outside(&piece).figures() {
            if figure.sort() == "outside" {
                assert!((figure.amount.number().unwrap() - 116.0).abs() < 1e-6);
            }
        }
    }

    #[test]
    fn it_starts_as_slow_as_the_corners_ask() {
        let piece = trial::tube();
        let corner = piece.sections[1].rings[0].sizes.corner_out() * 2.0;
        let figures = outside(&piece).figures();
        let (low, _) = speed::band(corner);
        assert!((figures[0].amount.number().unwrap() - low).abs() < 1e-9);
    }
}
