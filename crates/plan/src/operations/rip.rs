//! Boards to strips.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::ring;
use crate::words;
use files::message::Message;
use files::say;

/// What holds for every ripping.
pub static CARD: Card = Card {
    kind: OperationKind::Rip,
    name: "rip",
    wording: "Rip strips and joint their edges to the segments' width.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        BladeGuard,
        FaceShield,
        Dust,
        Noise,
    ],
    picture: Picture::Ring,
};

/// Strips for rings alike.
pub struct Rip<'a>(pub RingGroup<'a>);

impl ShopOperation for Rip<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.0)
    }

    fn title(&self) -> Message {
        say!("Rip the strips for {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let group = &self.0;
        let shop = &group.piece.workshop;
        let kerf = shop.segment_saw().kerf;
        let mut out = vec![
            ring::rip_width(group.sizes(), *shop.allowances.jointing),
            ring::board_width(group.sizes()),
        ];
        for (k, (wood, count)) in group.woods().into_iter().enumerate() {
            out.push(ring::strip_length(
                format!("strip_length_{}", k + 1),
                words::plain(group.piece.wood_name(wood)),
                group.sizes(),
                (group.count(), count),
                kerf,
            ));
        }
        out
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Joint one edge, rip to the wider figure, then joint the sawn edge to the strip's \
             width."
                .into(),
            "Strips for one ring come from one setting, so that all its segments are equally \
             wide."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Width at both ends of each strip; the edges are parallel and square.".into()]
    }

    fn minutes(&self) -> f64 {
        8.0 + 3.0 * self.0.count() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn the_strip_is_narrower_than_the_fence_by_two_jointings() {
        let piece = trial::bowl();
        let group = RingGroup::of_section(&piece, 1).remove(0);
        let figures = Rip(group).figures();
        let value = |i: usize| figures[i].amount.number().unwrap();
        assert!((value(0) - value(1) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn each_wood_of_a_pattern_has_its_own_strip() {
        let piece = trial::bowl();
        // The belly repeats maple, maple, cherry: eight and four of twelve.
        let group = RingGroup::of_section(&piece, 1).remove(0);
        assert_eq!(
            group.woods().iter().map(|w| w.1).collect::<Vec<_>>(),
            [8, 4]
        );
        let strips = Rip(group).figures();
        let strips: Vec<&Figure> = strips
            .iter()
            .filter(|f| f.sort() == "strip_length")
            .collect();
        assert_eq!(strips.len(), 2);
        assert!(strips[0].amount.number() > strips[1].amount.number());
    }
}
