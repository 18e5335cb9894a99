//! The spacer under the faceplate.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every spacer.
pub static CARD: Card = Card {
    kind: OperationKind::Spacer,
    name: "spacer",
    wording: "Put the spacer under the faceplate for the second cut.",
    cautions: &[StoppedToSet, Holding],
    picture: Picture::Sled,
};

/// The spacer for one loop.
pub struct Spacer<'a>(pub LoopAt<'a>);

impl ShopOperation for Spacer<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Put the spacer in for {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let [kerf, glue_line] = self.0.at.shop_quantities();
        vec![self.0.at.spacer(), kerf, glue_line]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Loosen the faceplate, put the spacer between it and its stop, and clamp again \
             without turning the section."
                .into(),
            "The spacer moves the section along its axis, not square to the cut.".into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "The spacer's own thickness with a calliper, at the places where it is clamped.".into(),
            "The index mark still meets the pointer.".into(),
        ]
    }

    fn minutes(&self) -> f64 {
        5.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;
    use files::units::Unit;
    use geometry::Portable;

    #[test]
    fn the_spacer_makes_room_for_layer_and_glue() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let spacer = Spacer(LoopAt { at, number: 0 }).figures().remove(0);
        // 5 mm of layer, two glue lines of 0.05 mm, 1.2 mm of kerf.
        let wanted = (5.0 + 0.1 - 1.2) / at.band.cuts.tilt.as_rad().cosine();
        assert!((spacer.amount.number().unwrap() - wanted).abs() < 1e-9);
    }

    #[test]
    fn cuts_that_run_into_each_other_have_no_figures_but_a_reason() {
        let piece = trial::thin_layer();
        let at = BandAt::of_section(&piece, 1).remove(0);
        assert!(at.band.cuts.spacer.as_mm() < 0.0);
        for figure in [
            at.spacer(),
            at.slice(),
            at.removed(),
            at.first_cut(),
            at.second_cut(),
        ] {
            assert_eq!(
                figure.amount.show(Unit::Mm),
                "none: the two cuts run into each other",
                "{}",
                figure.key
            );
            assert!(!figure.cut_to, "{}", figure.key);
        }
        let all = [at.first_cut(), at.slice()].into_iter().chain(at.sides());
        for working in all.filter_map(|f| f.working) {
            for input in working.inputs {
                assert!(
                    input.amount.number().is_none_or(|n| n >= 0.0),
                    "{:?}",
                    input.name
                );
            }
        }
    }

    #[test]
    fn a_spacer_that_the_maker_gives_stays_as_given() {
        let piece = trial::given_spacer();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let spacer = Spacer(LoopAt { at, number: 0 }).figures().remove(0);
        assert!((spacer.amount.number().unwrap() - 5.5).abs() < 1e-12);
        assert_eq!(spacer.working.unwrap().formula.said(Unit::Mm), "as given");
    }
}
