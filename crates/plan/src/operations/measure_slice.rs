//! Kerf and slice as they came out.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every measuring.
pub static CARD: Card = Card {
    kind: OperationKind::MeasureSlice,
    name: "measure",
    wording: "Measure slice and kerf before the layer is sanded.",
    cautions: &[StoppedToSet],
    picture: Picture::Sled,
};

/// One loop, measured.
pub struct MeasureSlice<'a>(pub LoopAt<'a>);

impl ShopOperation for MeasureSlice<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Measure slice and kerf of {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0.at;
        let [kerf, glue_line] = at.shop_quantities();
        vec![at.slice(), at.removed(), kerf, glue_line]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Put the parts together with the slice in its place and strips as thick as the kerf \
             at both cuts: the dowels must go in."
                .into(),
            "Where slice or kerf differ from the plan, the layer changes with them: layer = \
             measured slice + 2 measured kerfs − 2 glue lines."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "Slice at its thick and thin places, four round: the differences show how far the \
             sled moved."
                .into(),
            "Kerf in an offcut that was sawn with the same blade.".into(),
        ]
    }

    fn minutes(&self) -> f64 {
        6.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;

    #[test]
    fn all_that_is_gone_is_slice_and_two_kerfs() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let figures = MeasureSlice(LoopAt { at, number: 0 }).figures();
        let value = |i: usize| figures[i].amount.number().unwrap();
        assert!((value(1) - value(0) - 2.0 * value(2)).abs() < 1e-9);
    }

    #[test]
    fn a_spacer_without_tilt_is_slice_and_kerf() {
        let piece = trial::level();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let figures = MeasureSlice(LoopAt { at, number: 0 }).figures();
        // Straight across nothing is lost to the slant.
        let slice = figures[0].amount.number().unwrap();
        assert!((slice + 1.2 - at.band.cuts.spacer.as_mm()).abs() < 1e-9);
    }
}
