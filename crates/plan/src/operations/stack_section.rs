//! Rings to a section.

use files::message::{Message, Value};
use files::say;
use geometry::{Angle, Length};
use piece::course::Course;
use piece::piece::{Piece, Section};

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::constructions;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::{SUM, ring};
use crate::words;

/// What holds for every stacking.
pub static CARD: Card = Card {
    kind: OperationKind::StackSection,
    name: "stack section",
    wording: "Glue a section's rings on one another, centred and turned.",
    cautions: &[GlueSound, Holding],
    picture: Picture::HalfSection,
};

/// One section's rings.
pub struct StackSection<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The section's number, from 0.
    pub number: usize,
    /// The section.
    pub section: &'a Section,
}

impl StackSection<'_> {
    fn ring_numbers(&self) -> Vec<usize> {
        let rings = 0..self.section.rings.len();
        rings
            .map(|r| self.piece.ring_number(self.number, r))
            .collect()
    }
}

impl StackSection<'_> {
    fn open_rings(&self) -> impl Iterator<Item = &Course> {
        let open = |ring: &&Course| ring.gap().exceeds(Angle::ZERO);
        self.section.rings.iter().filter(open)
    }
}

impl ShopOperation for StackSection<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    /// A course that is faced on the lathe as it is stacked takes the lathe's cautions along.
    fn cautions(&self) -> Vec<Caution> {
        let rings = &self.section.rings;
        let mut cautions = super::with_gaps(&CARD, rings.iter());
        if cautions.contains(&Gaps) {
            cautions.extend([FaceShield, Speed, StandClear, LooseThings, Dust]);
        }
        cautions
    }

    fn subject(&self) -> Subject {
        Subject {
            section: Some(self.number),
            ..Subject::default()
        }
    }

    fn title(&self) -> Message {
        say!(
            "Stack section {name}: {rings}",
            name = Value::name(words::plain(&self.section.name)),
            rings = words::numbered("ring", &self.ring_numbers()),
        )
    }

    fn figures(&self) -> Vec<Figure> {
        let mut out = Vec::new();
        for (ring, number) in self.section.rings.iter().zip(self.ring_numbers()).skip(1) {
            out.extend(ring::joint_turn(number, ring.turn, ring.sizes.flat_out));
        }
        out.push(
            Figure::note(
                "stacked",
                "height of the stack",
                Amount::Length(self.section.stacked),
            )
            .worked(
                Working::new("sum of the rings' heights", SUM)
                    .with("rings", Amount::Count(self.section.rings.len())),
            ),
        );
        let joints = self.section.rings.len().saturating_sub(1);
        let glue = crate::glue::stack(self.piece, self.number);
        out.extend(glue.iter().flat_map(|g| g.figures(joints)));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![say!(
            "Screw a waste block {block} thick to a faceplate, face it true on the lathe, and \
             glue the lowest ring on it, centred.",
            block = *self.piece.workshop.sled.waste_block,
        )];
        let turned = |a: Angle| a.as_deg().abs() > 1e-6;
        if self.section.rings.iter().skip(1).any(|r| turned(r.turn)) {
            out.push(
                "Glue each ring on the one below, its joints turned by its figure: positive is \
                 anticlockwise seen from above."
                    .into(),
            );
        } else if self.section.rings.len() > 1 {
            out.push("Glue each ring on the one below, joint over joint.".into());
        }
        out.extend(constructions::ALL.iter().filter_map(|making| {
            let rings = self.section.rings.iter().zip(self.ring_numbers());
            let so = |(ring, number)| {
                (constructions::making(ring).word() == making.word()).then_some(number)
            };
            let numbers: Vec<usize> = rings.filter_map(so).collect();
            (!numbers.is_empty()).then(|| making.stacking(&numbers))?
        }));
        out.push("Centre every ring with the tailstock or a cone before clamping.".into());
        let first = self.section.rings.first().map(|r| r.rotation.wrapped());
        let from_middle = match first.filter(|a| turned(*a)) {
            Some(a) => say!("{angle} clockwise from", angle = a),
            None => say!("at"),
        };
        out.push(say!(
            "Make the start mark on faceplate and lowest ring, {from_middle} the middle of the \
             ring's first segment.",
            from_middle = from_middle,
        ));
        out
    }

    fn measure(&self) -> Vec<Message> {
        let mut at = Length::ZERO;
        let heights: Vec<Message> = self
            .section
            .rings
            .iter()
            .map(|r| {
                at += r.height;
                Value::Bare(at).into()
            })
            .collect();
        vec![say!(
            "Height after each ring, in {unit}: {heights}.",
            unit = words::unit_named(),
            heights = Message::joined(heights, "; "),
        )]
    }

    fn minutes(&self) -> f64 {
        // Segments of an open ring are set one by one, and their tops are faced.
        let set: usize = self.open_rings().map(|ring| ring.woods.len()).sum();
        let faced = 10.0 * self.open_rings().count() as f64;
        10.0 + 8.0 * self.section.rings.len() as f64 + set as f64 + faced
    }

    fn wait_hours(&self) -> f64 {
        // Each open ring has to hold before its top is faced.
        let glue = &self.piece.workshop.glue;
        let held = self.open_rings().count() as f64 * glue.clamp_minutes.max(0.0) / 60.0;
        glue.cure_hours.max(0.0) + held
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    fn stack(piece: &Piece, number: usize) -> StackSection<'_> {
        StackSection {
            piece,
            number,
            section: &piece.sections[number],
        }
    }

    #[test]
    fn joints_stand_half_a_segment_apart_to_and_fro() {
        let piece = trial::bowl();
        let figures = stack(&piece, 1).figures();
        let turns: Vec<f64> = figures
            .iter()
            .filter(|f| f.sort() == "joint_turn")
            .filter_map(|f| f.amount.number())
            .collect();
        for (i, turn) in turns.iter().enumerate() {
            let wanted = if i % 2 == 0 { 15.0 } else { -15.0 };
            assert!((turn - wanted).abs() < 1e-9, "{turns:?}");
        }
        assert!(!turns.is_empty());
    }

    #[test]
    fn one_ring_alone_is_turned_against_nothing() {
        let piece = trial::tube();
        assert_eq!(piece.sections[0].rings.len(), 1);
        let figures = stack(&piece, 0).figures();
        assert!(figures.iter().all(|f| f.sort() != "joint_turn"));
        assert!(
            !stack(&piece, 0)
                .doing()
                .iter()
                .any(|d| d.said(Unit::Mm).contains("each ring on"))
        );
    }
}
