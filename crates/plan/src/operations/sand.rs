//! Both sides sanded.

use files::message::Message;
use files::say;
use geometry::Length;
use piece::piece::Piece;

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::speed;

/// What holds for sanding.
pub static CARD: Card = Card {
    kind: OperationKind::Sand,
    name: "sand",
    wording: "Sand both sides through the grits.",
    cautions: &[FaceShield, Dust, Speed, StandClear, LooseThings, Holding],
    picture: Picture::OutsideWall,
};

/// The piece, sanded.
pub struct Sand<'a>(pub &'a Piece);

impl ShopOperation for Sand<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn cautions(&self) -> Vec<Caution> {
        super::with_gaps(&CARD, super::courses(self.0))
    }

    fn subject(&self) -> Subject {
        Subject::default()
    }

    fn title(&self) -> Message {
        "Sand inside and outside".into()
    }

    fn figures(&self) -> Vec<Figure> {
        let piece = self.0;
        let (radius, _) = piece.form.largest_radius();
        let areas = piece.form.surface_areas();
        let mut out: Vec<Figure> =
            speed::figures(radius * 2.0, &piece.workshop.lathe, speed::Work::Sanding).into();
        out.push(Figure::note(
            "surface",
            "surface, both sides and rim",
            Amount::Area(areas.outside + areas.inside + areas.rim),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let easing = self.0.form.rim_easing();
        let eased = easing.exceeds(Length::ZERO).then(|| {
            say!(
                "Ease both edges of the rim to a radius of {easing} first: the diameters of the \
                 turning are those before.",
                easing = easing,
            )
        });
        let sanded = [
            "Work from coarse to fine, each grit until the scratches of the last are gone; slow \
             speed, light hand."
                .into(),
            "Wipe or blow the dust off between grits: dark dust stains light woods beside it."
                .into(),
        ];
        eased.into_iter().chain(sanded).collect()
    }

    fn measure(&self) -> Vec<Message> {
        vec!["No scratch or glue shows in a light held low across the wall.".into()]
    }

    fn minutes(&self) -> f64 {
        let areas = self.0.form.surface_areas();
        15.0 + (areas.outside + areas.inside + areas.rim) / 2000.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn a_larger_piece_takes_longer() {
        assert!(Sand(&trial::bowl()).minutes() > Sand(&trial::solid()).minutes());
    }

    #[test]
    fn dust_and_loose_things_are_warned_of() {
        let piece = trial::solid();
        let cautions = Sand(&piece).cautions();
        assert!(cautions.contains(&Dust) && cautions.contains(&LooseThings));
        assert!(Sand(&piece).minutes().is_finite());
    }
}
