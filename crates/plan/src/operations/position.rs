//! Positioning blocks across the coming cut.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use files::message::Message;
use files::say;

/// What holds for every positioning.
pub static CARD: Card = Card {
    kind: OperationKind::Position,
    name: "positioning blocks",
    wording: "Glue pairs of blocks across the coming cut and key each pair with a dowel.",
    cautions: &[StoppedToSet, SmallPieces, GlueSound, FaceShield],
    picture: Picture::OutsideWall,
};

/// Blocks for one loop.
pub struct Position<'a>(pub LoopAt<'a>);

impl ShopOperation for Position<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!(
            "Glue on positioning blocks for {name}",
            name = self.0.name()
        )
    }

    fn figures(&self) -> Vec<Figure> {
        let sled = &self.0.at.piece.workshop.sled;
        let mut out = self.0.at.blocks(self.0.number);
        out.push(Figure::note("dowel", "dowel", Amount::Length(*sled.dowel)));
        out.push(Figure::note(
            "block_length",
            "each block's length along the axis",
            Amount::Length(*sled.block_length),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let sled = &self.0.at.piece.workshop.sled;
        vec![
            "With the saw unplugged slide the section up to the blade and mark where the cut will \
             run at the three places."
                .into(),
            say!(
                "At each place glue one block above and one below the wood to be removed, at \
                 least {keep_off} clear of it.",
                keep_off = *sled.keep_off,
            ),
            "When the glue holds, drill one hole along the axis through both blocks of a pair and \
             push a dowel in: it finds the place again when the slice is gone."
                .into(),
            "Number the dowels, mark how they point, and draw them out before the saw starts."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "Each dowel slides by hand without play.".into(),
            "No block touches sled, table or guide along the whole travel.".into(),
        ]
    }

    fn minutes(&self) -> f64 {
        25.0
    }

    fn wait_hours(&self) -> f64 {
        self.0.at.piece.workshop.glue.clamp_minutes.max(0.0) / 60.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;

    #[test]
    fn blocks_turn_with_their_loop() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let azimuth = |number: usize| {
            let figures = Position(LoopAt { at, number }).figures();
            let figure = figures.iter().find(|f| f.key == "block_1").unwrap();
            figure.amount.number().unwrap()
        };
        let apart = (azimuth(1) - azimuth(0)).rem_euclid(360.0);
        assert!((apart - 120.0).abs() < 1e-6);
    }

    #[test]
    fn there_are_three_places_even_where_there_is_little_room() {
        let piece = trial::short_knot();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let figures = Position(LoopAt { at, number: 0 }).figures();
        assert_eq!(figures.iter().filter(|f| f.sort() == "block").count(), 3);
        assert!(!at.band.blocks.fit(&piece.workshop.sled));
    }
}
