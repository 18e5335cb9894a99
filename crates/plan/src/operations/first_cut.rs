//! The first cut of a loop.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every first cut.
pub static CARD: Card = Card {
    kind: OperationKind::FirstCut,
    name: "first cut",
    wording: "Saw the section apart along the loop's upper face.",
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

/// One loop's first cut.
pub struct FirstCut<'a>(pub LoopAt<'a>);

impl ShopOperation for FirstCut<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("First cut of {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0.at;
        let [kerf, _] = at.shop_quantities();
        vec![at.first_cut(), at.tilt(), kerf]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "No spacer. Faceplate against its stop; the figure is to the middle of the kerf.".into(),
            "The dowels are drawn out. Prop the free part so that it cannot drop or turn when it \
             comes off."
                .into(),
            "Saw through at an even, slow feed. Stop the saw, and let the blade stand still before \
             anything is taken away."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "From the faceplate's face to the kerf's middle on both level sides; half of the sum \
             is the figure."
                .into(),
        ]
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
    fn it_lies_half_a_spacer_beyond_the_loops_middle() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let cut = FirstCut(LoopAt { at, number: 0 }).figures().remove(0);
        // Waste block 38 mm, loops' middle 37 mm above the section's underside.
        let wanted = 38.0 + 37.0 + at.band.cuts.spacer.as_mm() / 2.0;
        assert!((cut.amount.number().unwrap() - wanted).abs() < 1e-9);
    }

    #[test]
    fn all_loops_of_a_band_are_cut_at_one_distance() {
        let piece = trial::ordered();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let at_loop = |number| {
            FirstCut(LoopAt { at, number })
                .figures()
                .remove(0)
                .amount
                .number()
        };
        assert_eq!(at_loop(0), at_loop(2));
    }
}
