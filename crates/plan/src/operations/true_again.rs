//! A section with its knot, round again.

use files::design::BlankShape;
use files::message::Message;
use files::say;
use geometry::Length;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::BandAt;
use crate::speed;

/// What holds for every second truing.
pub static CARD: Card = Card {
    kind: OperationKind::TrueAgain,
    name: "true again",
    wording: "Turn the section round and its end flat when all layers are in.",
    cautions: &[
        FaceShield,
        Speed,
        StandClear,
        LooseThings,
        Holding,
        GlueSound,
        Dust,
        Estimate,
    ],
    picture: Picture::OutsideWall,
};

/// A section trued after a band.
pub struct TrueAgain<'a>(pub BandAt<'a>);

impl ShopOperation for TrueAgain<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("True the section again after {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0;
        let diameter = match at.section.blank {
            BlankShape::Cylinder => at.section.blank_radius * 2.0,
            BlankShape::Polygon => super::section_diameter(at.section),
        };
        // The layers stand out by their edge until they are turned off.
        let swing = diameter + at.band.blank.edge.max(Length::ZERO) * 2.0;
        let mut out: Vec<Figure> =
            speed::figures(swing, &at.piece.workshop.lathe, speed::Work::Turning).into();
        out.push(Figure::note(
            "stacked",
            "height of the section, as it was stacked",
            Amount::Length(at.section.stacked),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![
            "Look at every joint before the lathe starts.".into(),
            "Turn off what stands out, slowly: the first touch is on the layers' edges only."
                .into(),
        ];
        if self.0.section.splits.is_empty() {
            out.push("Face the free end flat and square to the axis.".into());
        } else {
            out.push(
                "Face the free end flat; it is a reference for the split that follows.".into(),
            );
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "Tops and bottoms of the loops against the table of heights: note what they are."
                .into(),
            "Height of the section at four places round: within the flattening loss of each other."
                .into(),
        ]
    }

    fn minutes(&self) -> f64 {
        30.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use geometry::Portable;

    #[test]
    fn it_turns_slower_than_the_cylinder_alone_would_allow() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let figures = TrueAgain(at).figures();
        let (low, _) = speed::band(at.section.blank_radius * 2.0);
        assert!(figures[0].amount.number().unwrap() < low);
    }

    #[test]
    fn a_polygon_swings_over_its_corners() {
        let piece = trial::polygon();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let start = TrueAgain(at).figures().remove(0).amount.number().unwrap();
        let corners = 122.0 / (std::f64::consts::PI / 12.0).cosine() + 6.0;
        assert!((start - 6000.0 * 25.4 / corners).abs() < 1e-6);
    }
}
