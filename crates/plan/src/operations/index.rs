//! A section turned to a loop's mark.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every indexing.
pub static CARD: Card = Card {
    kind: OperationKind::Index,
    name: "index",
    wording: "Turn the section to the loop's mark.",
    cautions: &[StoppedToSet, Holding],
    picture: Picture::OutsideWall,
};

/// A section indexed for one loop.
pub struct Index<'a>(pub LoopAt<'a>);

impl ShopOperation for Index<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Index to {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        self.0.at.mark(self.0.number)
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Find the mark on the blank, measured from the start mark, anticlockwise seen \
             from the free end."
                .into(),
            "Turn the section until the mark lies level with the axis, on the side where the cut \
             runs farther from the faceplate. Clamp it there."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec!["The mark against the pointer on the sled, once more after clamping.".into()]
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

    #[test]
    fn three_loops_are_a_third_of_a_turn_apart() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let figures = Index(LoopAt { at, number: 2 }).figures();
        // The first loop starts at 15°; arcs on a radius of 61 mm.
        assert!((figures[0].amount.number().unwrap() - 255.0).abs() < 1e-9);
        let arc = 61.0 * 255.0_f64.to_radians();
        assert!((figures[1].amount.number().unwrap() - arc).abs() < 1e-6);
    }

    #[test]
    fn a_loop_that_is_not_there_has_no_mark() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        assert!(Index(LoopAt { at, number: 99 }).figures().is_empty());
    }
}
