//! The inner side.

use files::message::{Message, Value};
use files::say;
use files::units::Unit;
use piece::piece::Piece;

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::form;
use crate::speed;
use crate::words;

/// What holds for hollowing.
pub static CARD: Card = Card {
    kind: OperationKind::Hollow,
    name: "hollow",
    wording: "Turn the inner side to the wall's thickness.",
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
    picture: Picture::InsideWall,
};

/// The piece's inner side.
pub struct Hollow<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The unit whose round heights it is measured at.
    pub unit: Unit,
}

impl ShopOperation for Hollow<'_> {
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
        "Hollow the inside".into()
    }

    fn figures(&self) -> Vec<Figure> {
        let piece = self.piece;
        let (radius, _) = piece.form.largest_radius();
        let mut out: Vec<Figure> =
            speed::figures(radius * 2.0, &piece.workshop.lathe, speed::Work::Turning).into();
        out.push(form::depth(&piece.form));
        out.extend(form::inside_diameters(&piece.form, self.unit));
        let (wall, at) = piece.form.thinnest_wall();
        out.push(Figure::note(
            "thinnest_wall",
            say!("thinnest wall, at height {height}", height = at),
            Amount::Length(wall),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Bore to the depth less a little, then hollow from the rim down in steps: finish the \
             wall near the rim before the wood below it is gone."
                .into(),
            "Support a tall piece with a steady rest.".into(),
            "Stop when a loop's layer opens a gap or sounds dull; look at its joints inside."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        let form = &self.piece.form;
        let mut out = vec![Message::plain(
            "Depth with a straightedge across the rim and a rule.",
        )];
        let walls: Vec<Message> = form::stations(form, self.unit)
            .into_iter()
            .filter_map(|z| {
                let wall = form.wall_at(z)?;
                Some(say!(
                    "{wall} at {height}",
                    wall = Value::Bare(wall),
                    height = Value::Bare(z),
                ))
            })
            .collect();
        if !walls.is_empty() {
            out.push(say!(
                "Wall square to the outside, at heights outside, in {unit}: {walls}.",
                unit = words::unit_named(),
                walls = Message::joined(walls, "; "),
            ));
        }
        out
    }

    fn minutes(&self) -> f64 {
        20.0 + self.piece.form.surface_areas().inside / 1000.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    fn hollow(piece: &Piece) -> Hollow<'_> {
        Hollow {
            piece,
            unit: Unit::Mm,
        }
    }

    #[test]
    fn the_hollow_is_the_height_less_floor_and_recess() {
        let piece = trial::tube();
        let figures = hollow(&piece).figures();
        let depth = figures.iter().find(|f| f.key == "depth").unwrap();
        assert!((depth.amount.number().unwrap() - 87.0).abs() < 1e-6);
        let inside: Vec<&Figure> = figures.iter().filter(|f| f.sort() == "inside").collect();
        // Radius 58 mm less a wall of 7 mm; the rim is eased.
        assert!((inside[0].amount.number().unwrap() - 102.0).abs() < 1e-6);
    }

    #[test]
    fn no_diameter_is_asked_for_below_the_floor() {
        let piece = trial::tube();
        for figure in hollow(&piece).figures() {
            if figure.sort() == "inside" {
                let working = figure.working.unwrap();
                let height = working.inputs[0].amount.number().unwrap();
                assert!(height > piece.form.floor_top().as_mm());
            }
        }
    }
}
