//! A section round and square to its axis.

use files::design::BlankShape;
use files::message::{Message, Value};
use files::say;
use piece::piece::{Piece, Section};

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::SUM;
use crate::speed;
use crate::words;

/// What holds for every truing.
pub static CARD: Card = Card {
    kind: OperationKind::TrueSection,
    name: "true section",
    wording: "Turn a section round where it is sawn, and its end flat.",
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
    picture: Picture::HalfSection,
};

/// One section, trued.
pub struct TrueSection<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The section's number, from 0.
    pub number: usize,
    /// The section.
    pub section: &'a Section,
}

impl TrueSection<'_> {
    /// Turned to a cylinder, because loops are sawn into it.
    fn to_cylinder(&self) -> bool {
        !self.section.bands.is_empty() && self.section.blank == BlankShape::Cylinder
    }
}

impl ShopOperation for TrueSection<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn cautions(&self) -> Vec<Caution> {
        super::with_gaps(&CARD, self.section.rings.iter())
    }

    fn subject(&self) -> Subject {
        Subject {
            section: Some(self.number),
            ..Subject::default()
        }
    }

    fn title(&self) -> Message {
        let name = Value::name(words::plain(&self.section.name));
        if self.to_cylinder() {
            say!("True section {name} to a cylinder", name = name)
        } else {
            say!("True the end of section {name}", name = name)
        }
    }

    fn figures(&self) -> Vec<Figure> {
        let mut out = Vec::new();
        if self.to_cylinder() {
            let radius = self.section.blank_radius;
            out.push(Figure::setting(
                "cylinder",
                "turn to a diameter of",
                Amount::Length(radius * 2.0),
                Working::new(
                    "diameter = 2 · largest flat radius outside among the section's rings",
                    SUM,
                )
                .with("flat radius", Amount::Length(radius)),
            ));
        }
        out.extend(speed::figures(
            super::section_diameter(self.section),
            &self.piece.workshop.lathe,
            speed::Work::Turning,
        ));
        out.push(Figure::note(
            "stacked",
            "height of the section",
            Amount::Length(self.section.stacked),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec!["Bring the tailstock up and turn the work once by hand.".into()];
        if self.to_cylinder() {
            out.push(
                "Turn the outside to a cylinder along the whole section: it must lie true on \
                 the sled, and marks are measured round it."
                    .into(),
            );
        } else if !self.section.bands.is_empty() {
            out.push("Leave the outside as it left the glue.".into());
        }
        out.push(
            "Face the free end flat and square to the axis, taking as little as will do.".into(),
        );
        out
    }

    fn measure(&self) -> Vec<Message> {
        let mut out = vec!["A straightedge across the end shows no light.".into()];
        if self.to_cylinder() {
            out.push("Diameter at both ends and the middle.".into());
        }
        out
    }

    fn minutes(&self) -> f64 {
        if self.to_cylinder() { 40.0 } else { 15.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    fn truing(piece: &Piece, number: usize) -> TrueSection<'_> {
        TrueSection {
            piece,
            number,
            section: &piece.sections[number],
        }
    }

    #[test]
    fn a_section_with_a_knot_is_turned_to_its_blank() {
        let piece = trial::tube();
        let figure = truing(&piece, 1).figures().remove(0);
        // Radius 58 mm and 3 mm to turn off.
        assert!((figure.amount.number().unwrap() - 122.0).abs() < 1e-6);
    }

    #[test]
    fn without_a_knot_only_the_end_is_trued() {
        let piece = trial::tube();
        let truing = truing(&piece, 0);
        assert!(truing.title().said(Unit::Mm).contains("end"));
        assert!(truing.figures().iter().all(|f| f.key != "cylinder"));
    }
}
