//! A section sawn across, turned and glued again.

use files::message::{Message, Value};
use files::say;
use piece::piece::{Piece, Section, Split};

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::ring::arc;
use crate::settings::{GIVEN, SUM};
use crate::words;

/// What holds for every split.
pub static CARD: Card = Card {
    kind: OperationKind::SplitTurnGlue,
    name: "split, turn and glue",
    wording: "Saw a section straight across, turn its upper part, and glue it again.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        RoundWork,
        BladeGuard,
        FaceShield,
        Dust,
        Noise,
        GlueSound,
        Estimate,
    ],
    picture: Picture::OutsideWall,
};

/// One split.
pub struct SplitTurnGlue<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The section's number, from 0.
    pub number: usize,
    /// The section.
    pub section: &'a Section,
    /// The split.
    pub split: &'a Split,
}

impl ShopOperation for SplitTurnGlue<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        Subject {
            section: Some(self.number),
            ..Subject::default()
        }
    }

    fn title(&self) -> Message {
        say!(
            "Split section {name}, turn its upper part by {turn}, and glue",
            name = Value::name(words::plain(&self.section.name)),
            turn = self.split.spec.turn,
        )
    }

    fn figures(&self) -> Vec<Figure> {
        let block = self.piece.workshop.sled.waste_block;
        let spec = &self.split.spec;
        let radius = self.section.blank_radius;
        vec![
            Figure::setting(
                "split_height",
                "faceplate's face to the cut's middle",
                Amount::Length(*block + spec.height),
                Working::new("distance = waste block + split's height", SUM)
                    .with("waste block", Amount::Length(*block))
                    .with("split's height", Amount::Length(spec.height)),
            ),
            Figure::setting(
                "split_turn",
                "turn the upper part, anticlockwise from above",
                Amount::Angle(spec.turn),
                Working::new("as given", GIVEN),
            ),
            Figure::setting(
                "split_arc",
                "the same round the outside",
                Amount::Length(arc(radius, spec.turn)),
                Working::new("arc = radius · turn (in radians)", "closed form")
                    .with("radius", Amount::Length(radius))
                    .with("turn", Amount::Angle(spec.turn)),
            ),
            Figure::note(
                "kerf",
                "kerf, lost in height",
                Amount::Fine(self.split.saw.kerf),
            ),
        ]
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            say!(
                "Draw a line along the outside across the coming cut. Saw straight across on the \
                 sled with {saw}, a tilt of nothing.",
                saw = Value::name(words::plain(&self.split.saw.name)),
            ),
            "Sand both faces flat; take off as little as will do.".into(),
            "Glue the upper part back, its end of the line moved by the arc, centred on the axis."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![say!(
            "Height of the section: {height} when all its splits are glued.",
            height = self.section.height,
        )]
    }

    fn minutes(&self) -> f64 {
        35.0
    }

    fn wait_hours(&self) -> f64 {
        self.piece.workshop.glue.cure_hours.max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    fn split(piece: &Piece) -> SplitTurnGlue<'_> {
        SplitTurnGlue {
            piece,
            number: 0,
            section: &piece.sections[0],
            split: &piece.sections[0].splits[0],
        }
    }

    #[test]
    fn the_cut_is_found_from_the_faceplate() {
        let piece = trial::odd();
        let figures = split(&piece).figures();
        // Waste block 38 mm, split 30 mm above the section's underside.
        assert!((figures[0].amount.number().unwrap() - 68.0).abs() < 1e-9);
        let arc = piece.sections[0].blank_radius.as_mm() * 8.0_f64.to_radians();
        assert!((figures[2].amount.number().unwrap() - arc).abs() < 1e-9);
    }

    #[test]
    fn the_section_loses_a_kerf() {
        let piece = trial::odd();
        let section = &piece.sections[0];
        assert!(((section.stacked - section.height).as_mm() - 1.2).abs() < 1e-9);
        assert!(
            split(&piece).measure()[0]
                .said(Unit::Mm)
                .contains(&Unit::Mm.length(section.height))
        );
    }
}
