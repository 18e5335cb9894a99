//! A layer to its thickness.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every fitting of layers.
pub static CARD: Card = Card {
    kind: OperationKind::FitLayer,
    name: "fit layer",
    wording: "Sand the layer until it fills the room with its glue lines.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        FaceShield,
        Dust,
        Noise,
        LooseThings,
    ],
    picture: Picture::InsideWall,
};

/// One loop's layer.
pub struct FitLayer<'a>(pub LoopAt<'a>);

impl ShopOperation for FitLayer<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Fit the layer of {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0.at;
        let [_, glue_line] = at.shop_quantities();
        vec![
            at.layer(),
            glue_line,
            Figure::note(
                "wood",
                "layer's wood",
                Amount::Text(Message::name(at.wood(self.0.number))),
            ),
        ]
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![
            "Sand both faces by turns to the figure, or to what was measured if that differs."
                .into(),
            "Dress the two sawn faces only until the saw's marks are gone; what is taken off there \
             makes the layer thicker by as much."
                .into(),
            "Put it together dry with the dowels in: they slide, and both joints close.".into(),
        ];
        if self.0.turn() > 0 {
            out.push(
                "Sight along the loops that are in already: their edges meet across the layer."
                    .into(),
            );
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Thickness at eight places round the layer.".into()]
    }

    fn minutes(&self) -> f64 {
        25.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;

    #[test]
    fn the_layer_is_what_was_wanted() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let layer = FitLayer(LoopAt { at, number: 1 }).figures().remove(0);
        assert!((layer.amount.number().unwrap() - 5.0).abs() < 1e-9);
    }

    #[test]
    fn the_first_loop_has_no_others_to_sight_along() {
        let piece = trial::ordered();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let sights = |number| FitLayer(LoopAt { at, number }).doing().len() == 4;
        // Cut in the order 2, 3, 1.
        assert_eq!([sights(0), sights(1), sights(2)], [true, false, true]);
    }
}
