//! A section on the one below.

use files::message::{Message, Value};
use files::say;
use geometry::{Angle, Length};
use piece::piece::{Piece, Section};

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::ring::arc;
use crate::settings::{GIVEN, SUM};
use crate::words;

/// What holds for every joining.
pub static CARD: Card = Card {
    kind: OperationKind::JoinSections,
    name: "join sections",
    wording: "Glue a section on the one below, centred and turned to its mark.",
    cautions: &[
        FaceShield,
        Speed,
        StandClear,
        LooseThings,
        Holding,
        GlueSound,
        Dust,
    ],
    picture: Picture::HalfSection,
};

/// A section joined to the one below it.
pub struct JoinSections<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The upper section's number, from 1 up.
    pub number: usize,
    /// The section below.
    pub below: &'a Section,
    /// The section.
    pub section: &'a Section,
}

impl JoinSections<'_> {
    /// Turn against the section below.
    fn turn(&self) -> Angle {
        self.section.turn - self.below.turn
    }

    /// Radius outside at the joint: the smaller of what meets there.
    fn radius(&self) -> Length {
        let below = self.below.rings.last().map(|r| r.sizes.flat_out);
        let above = self.section.rings.first().map(|r| r.sizes.flat_out);
        [below, above]
            .into_iter()
            .flatten()
            .reduce(Length::min)
            .unwrap_or(Length::ZERO)
    }
}

impl ShopOperation for JoinSections<'_> {
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
        let name = |s: &Section| Value::name(words::plain(&s.name));
        say!(
            "Join section {upper} on {lower}",
            upper = name(self.section),
            lower = name(self.below),
        )
    }

    fn figures(&self) -> Vec<Figure> {
        let (turn, radius) = (self.turn(), self.radius());
        let top = self.section.bottom + self.section.height;
        let mut out = vec![
            Figure::setting(
                "section_turn",
                "start mark turned against the one below",
                Amount::Angle(turn),
                Working::new(
                    "turn as given, or half a segment against the ring below",
                    GIVEN,
                ),
            ),
            Figure::setting(
                "section_turn_arc",
                "the same round the outside, at the flats",
                Amount::Length(arc(radius, turn)),
                Working::new(
                    "arc = flat radius at the joint · turn (in radians)",
                    "closed form",
                )
                .with("flat radius at the joint", Amount::Length(radius))
                .with("turn", Amount::Angle(turn)),
            ),
        ];
        out.extend(crate::speed::figures(
            super::section_diameter(self.section),
            &self.piece.workshop.lathe,
            crate::speed::Work::Turning,
        ));
        out.push(
            Figure::note(
                "top",
                "height of the stack when joined",
                Amount::Length(top),
            )
            .worked(
                Working::new("sum of the sections' heights", SUM)
                    .with("sections", Amount::Count(self.number + 1)),
            ),
        );
        let glue = crate::glue::joins(self.piece, self.number);
        out.extend(glue.iter().flat_map(|g| g.figures(1)));
        out
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Part the upper section off its waste block. Hold it by its free end and face its \
             underside true and no more."
                .into(),
            "Carry the start marks over the joint before either face is cleaned away.".into(),
            "Glue it on the lower section on the lathe, centred by the tailstock, its start mark \
             turned by the figure; positive is anticlockwise seen from above."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "Both faces against a straightedge before glueing: no light.".into(),
            "Height when joined, and that it runs true.".into(),
        ]
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

    fn join(piece: &Piece, number: usize) -> JoinSections<'_> {
        JoinSections {
            piece,
            number,
            below: &piece.sections[number - 1],
            section: &piece.sections[number],
        }
    }

    #[test]
    fn a_given_turn_is_against_the_section_below() {
        let piece = trial::turned_sections();
        let turn = |number| join(&piece, number).figures()[0].amount.number().unwrap();
        // 10° and then 20° as the file gives them, not 10° and 30°.
        assert!((turn(1) - 10.0).abs() < 1e-9 && (turn(2) - 20.0).abs() < 1e-9);
    }

    #[test]
    fn the_last_joint_makes_the_whole_height() {
        let piece = trial::bowl();
        let last = piece.sections.len() - 1;
        let figures = join(&piece, last).figures();
        let top = figures.iter().find(|f| f.key == "top").unwrap();
        assert!((top.amount.number().unwrap() - piece.stack.height()).abs() < 1e-9);
    }
}
