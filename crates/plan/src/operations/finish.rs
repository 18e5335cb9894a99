//! The finish.

use files::message::Message;
use piece::piece::Piece;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};

/// What holds for finishing.
pub static CARD: Card = Card {
    kind: OperationKind::Finish,
    name: "finish",
    wording: "Put the finish on inside and outside alike.",
    cautions: &[Vapour, OilyRags, LooseThings],
    picture: Picture::OutsideWall,
};

/// The piece, finished.
pub struct Finish<'a>(pub &'a Piece);

impl Finish<'_> {
    fn has_floating_floor(&self) -> bool {
        let rings = self.0.sections.iter().flat_map(|s| &s.rings);
        rings.filter_map(|r| r.let_in.as_ref()).any(|p| p.floating)
    }
}

impl ShopOperation for Finish<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        Subject::default()
    }

    fn title(&self) -> Message {
        "Finish".into()
    }

    fn figures(&self) -> Vec<Figure> {
        let areas = self.0.form.surface_areas();
        vec![Figure::note(
            "surface",
            "surface, all sides",
            Amount::Area(areas.total()),
        )]
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![
            "Try it on offcuts of all the woods glued together: strong colours bleed into light \
             woods with some finishes."
                .into(),
            "Finish inside and outside alike, so that both sides take up moisture alike; the \
             underside follows when the foot is done."
                .into(),
        ];
        if self.has_floating_floor() {
            out.push("Keep finish out of the floating floor's groove: it must stay free.".into());
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Dry to the touch before it is held for the foot.".into()]
    }

    fn minutes(&self) -> f64 {
        40.0
    }

    fn wait_hours(&self) -> f64 {
        24.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn a_floating_floor_is_kept_free_of_finish() {
        assert!(
            Finish(&trial::tube())
                .doing()
                .iter()
                .any(|d| d.said(Unit::Mm).contains("groove"))
        );
    }

    #[test]
    fn a_glued_floor_needs_no_word_about_it() {
        assert_eq!(Finish(&trial::glued_floor()).doing().len(), 2);
    }
}
