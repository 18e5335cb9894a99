//! Waiting, and clearing up after it.

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every cure.
pub static CARD: Card = Card {
    kind: OperationKind::Cure,
    name: "cure",
    wording: "Let the layer's glue cure, then take the blocks and the overhang off.",
    cautions: &[GlueSound, Epoxy, HandsClear, FaceShield, Dust],
    picture: Picture::OutsideWall,
};

/// One loop's glue, cured.
pub struct Cure<'a>(pub LoopAt<'a>);

impl ShopOperation for Cure<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Let the layer of {name} cure", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        vec![Figure::note(
            "cure_hours",
            "before the next cut",
            Amount::Hours(self.wait_hours()),
        )]
    }

    fn doing(&self) -> Vec<Message> {
        let last = self.0.turn() + 1 == self.0.at.count();
        let mut out = vec![
            "Leave it in clamps and warm as the glue asks.".into(),
            "Draw the dowels, pare or saw the blocks off, and trim the layer's edge flush all \
             round."
                .into(),
        ];
        if !last {
            out.push("Renew the index marks that went with the overhang.".into());
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Every joint of the layer, all round: closed, without voids.".into()]
    }

    fn cautions(&self) -> Vec<Caution> {
        let epoxy = self.0.at.piece.workshop.glue.epoxy_for_layers;
        let all = CARD.cautions.iter().copied();
        all.filter(|c| *epoxy || *c != Epoxy).collect()
    }

    fn minutes(&self) -> f64 {
        15.0
    }

    fn wait_hours(&self) -> f64 {
        let glue = &self.0.at.piece.workshop.glue;
        let hours = if *glue.epoxy_for_layers {
            glue.epoxy_cure_hours
        } else {
            glue.cure_hours
        };
        hours.max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;

    #[test]
    fn epoxy_cures_in_its_own_time() {
        let mut piece = trial::tube();
        piece.workshop.glue.epoxy_cure_hours.value = 36.0;
        let at = BandAt::of_section(&piece, 1).remove(0);
        assert_eq!(Cure(LoopAt { at, number: 0 }).wait_hours(), 36.0);
    }

    #[test]
    fn after_the_last_loop_no_marks_are_renewed() {
        let piece = trial::ordered();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let renews = |number| Cure(LoopAt { at, number }).doing().len() == 3;
        // Cut in the order 2, 3, 1.
        assert_eq!([renews(0), renews(1), renews(2)], [false, true, true]);
    }
}
