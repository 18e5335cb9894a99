//! The second cut of a loop.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every second cut.
pub static CARD: Card = Card {
    kind: OperationKind::SecondCut,
    name: "second cut",
    wording: "Saw the slice off along the loop's lower face.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        RoundWork,
        BladeGuard,
        FaceShield,
        Dust,
        Noise,
        Estimate,
    ],
    picture: Picture::Sled,
};

/// One loop's second cut.
pub struct SecondCut<'a>(pub LoopAt<'a>);

impl ShopOperation for SecondCut<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Second cut of {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0.at;
        vec![at.second_cut(), at.tilt(), at.slice()]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "With the spacer in; stop and tilt as for the first cut.".into(),
            "Tape or hold the slice with a stick so that it cannot be caught, and saw at the same \
             feed as before."
                .into(),
            "Let the blade stand still before the slice is picked up. Keep the slice: it is \
             measured next."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec!["The two sawn faces: flat and without steps.".into()]
    }

    fn minutes(&self) -> f64 {
        8.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;

    #[test]
    fn the_cuts_are_a_spacer_apart_on_the_axis() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let second = SecondCut(LoopAt { at, number: 0 }).figures().remove(0);
        let first = at.first_cut().amount.number().unwrap();
        let apart = first - second.amount.number().unwrap();
        assert!((apart - at.band.cuts.spacer.as_mm()).abs() < 1e-9);
    }
}
