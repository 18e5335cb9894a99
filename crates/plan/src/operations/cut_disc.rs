//! A solid disc.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::SUM;
use crate::words;
use files::message::Message;
use files::say;

/// What holds for every cutting of discs.
pub static CARD: Card = Card {
    kind: OperationKind::CutDisc,
    name: "cut disc",
    wording: "Saw a solid disc round.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        BladeGuard,
        FaceShield,
        Dust,
        Noise,
    ],
    picture: Picture::HalfSection,
};

/// Discs alike.
pub struct CutDisc<'a>(pub RingGroup<'a>);

impl ShopOperation for CutDisc<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.0)
    }

    fn title(&self) -> Message {
        say!("Cut {name} as a solid disc", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let group = &self.0;
        let radius = group.sizes().flat_out;
        let wood = group.ring.woods.first();
        let wood = wood.map_or("", |id| group.piece.wood_name(*id));
        vec![
            Figure::setting(
                "diameter",
                "saw to a diameter of",
                Amount::Length(radius * 2.0),
                Working::new(
                    "diameter = 2 · (largest finished radius over its height + allowance \
                     outside), or as given",
                    SUM,
                )
                .with("radius", Amount::Length(radius))
                .with(
                    "allowance outside",
                    Amount::Length(*group.piece.workshop.allowances.outside),
                ),
            ),
            Figure::note(
                "wood",
                "wood",
                Amount::Text(Message::name(words::plain(wood))),
            ),
        ]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Mark the centre and the circle; saw just outside the line with the board flat on \
             the table."
                .into(),
            "Glue the disc up from jointed boards if none is wide enough.".into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Diameter in two directions.".into()]
    }

    fn minutes(&self) -> f64 {
        15.0 * self.0.count() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn a_disc_is_as_wide_as_the_form_and_its_allowance() {
        let piece = trial::solid();
        let cut = CutDisc(RingGroup::of_section(&piece, 0).remove(0));
        // A tube of radius 40 mm and 3 mm to turn off: 86 mm.
        assert!((cut.figures()[0].amount.number().unwrap() - 86.0).abs() < 1e-6);
    }

    #[test]
    fn discs_alike_are_cut_together() {
        let piece = trial::solid();
        let cut = CutDisc(RingGroup::of_section(&piece, 0).remove(0));
        assert_eq!(
            cut.title().said(Unit::Mm),
            "Cut rings 1 and 2 as a solid disc"
        );
        assert_eq!(cut.minutes(), 30.0);
    }
}
