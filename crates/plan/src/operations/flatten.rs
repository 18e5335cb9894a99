//! A ring to its height.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::ring;
use files::message::Message;
use files::say;

/// What holds for every flattening.
pub static CARD: Card = Card {
    kind: OperationKind::Flatten,
    name: "flatten",
    wording: "Sand or turn both faces of a ring flat, parallel and to height.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        FaceShield,
        Dust,
        Noise,
        LooseThings,
    ],
    picture: Picture::HalfSection,
};

/// Rings alike, flattened.
pub struct Flatten<'a>(pub RingGroup<'a>);

impl ShopOperation for Flatten<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.0)
    }

    fn title(&self) -> Message {
        say!("Flatten {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let ring = self.0.ring;
        let loss = self.0.piece.workshop.allowances.flattening;
        vec![ring::height(ring.height, ring.stock, *loss)]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Flatten one face on a drum sander, a flat board with abrasive, or the lathe.".into(),
            "Turn the ring over and bring it to height.".into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Height at four places round the ring; note what it really is.".into()]
    }

    fn minutes(&self) -> f64 {
        8.0 * self.0.count() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn a_ring_is_its_board_less_two_faces() {
        let piece = trial::bowl();
        let flatten = Flatten(RingGroup::of_section(&piece, 1).remove(0));
        let stock = flatten.0.ring.stock.as_mm();
        let height = flatten.figures()[0].amount.number().unwrap();
        assert!((stock - height - 1.0).abs() < 1e-9);
    }

    #[test]
    fn many_rings_take_as_many_times_as_long() {
        let piece = trial::tube();
        let group = RingGroup::of_section(&piece, 1).remove(0);
        let count = group.count() as f64;
        assert!((Flatten(group).minutes() - 8.0 * count).abs() < 1e-9);
    }
}
