//! Blanks for a band's layers.

use files::design::LayerMake;
use files::message::{Message, Value};
use files::say;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::BandAt;
use crate::words;

/// What holds for every making of layers.
pub static CARD: Card = Card {
    kind: OperationKind::MakeLayers,
    name: "make layers",
    wording: "Make the blanks that the loops' layers are sanded from.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        SmallPieces,
        BladeGuard,
        FaceShield,
        Dust,
        Noise,
        GlueSound,
    ],
    picture: Picture::Layer,
};

/// A band's layers.
pub struct MakeLayers<'a>(pub BandAt<'a>);

impl ShopOperation for MakeLayers<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        let layers = words::count(self.0.count(), "layer");
        say!(
            "Make {layers} for {name}",
            layers = layers,
            name = self.0.name()
        )
    }

    fn figures(&self) -> Vec<Figure> {
        let mut out = self.0.layer_blank();
        out.push(self.0.rough_layer());
        let mut woods: Vec<(String, usize)> = Vec::new();
        for number in 0..self.0.count() {
            let wood = self.0.wood(number);
            match woods.iter_mut().find(|(w, _)| *w == wood) {
                Some((_, n)) => *n += 1,
                None => woods.push((wood, 1)),
            }
        }
        for (k, (wood, count)) in woods.into_iter().enumerate() {
            out.push(Figure::note(
                format!("layers_{}", k + 1),
                say!("layers of {wood}", wood = Value::name(wood)),
                Amount::Count(count),
            ));
        }
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = Vec::new();
        match self.0.band.blank.make {
            LayerMake::Solid => out.push(
                "Cut one board for each layer; its grain runs the long way of the oval.".into(),
            ),
            LayerMake::RoundRing => out.push(
                "Cut and glue a segmented ring for each layer, as large round as the oval is long."
                    .into(),
            ),
            LayerMake::LongRing => {
                out.push(
                    "Cut and glue a segmented ring for each layer; two opposite segments are \
                     longer by the figure, so that the ring is as long as the oval."
                        .into(),
                );
            }
        }
        out.push("Plane all blanks to one thickness; they are sanded to fit later.".into());
        out.push("Mark the long way of the oval on each: it lies the way the loop climbs.".into());
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Thickness at four places; the faces are parallel.".into()]
    }

    fn minutes(&self) -> f64 {
        let each = match self.0.band.blank.ring.as_ref() {
            Some(ring) => 20.0 + 1.2 * ring.segments as f64,
            None => 10.0,
        };
        10.0 + each * self.0.count() as f64
    }

    fn wait_hours(&self) -> f64 {
        match self.0.band.blank.ring {
            Some(_) => self.0.piece.workshop.glue.cure_hours.max(0.0),
            None => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn a_board_covers_the_oval_and_its_edge() {
        let piece = trial::tube();
        let make = MakeLayers(BandAt::of_section(&piece, 1).remove(0));
        let value = |key: &str| {
            let figures = make.figures();
            let figure = figures.iter().find(|f| f.key == key).unwrap();
            figure.amount.number().unwrap()
        };
        assert!((value("blank_length") - value("oval_length") - 6.0).abs() < 1e-9);
        assert!((value("oval_width") - 122.0).abs() < 1e-6);
        assert_eq!(make.wait_hours(), 0.0);
    }

    #[test]
    fn a_long_ring_is_longer_by_what_the_oval_is() {
        let piece = trial::long_layers();
        let make = MakeLayers(BandAt::of_section(&piece, 1).remove(0));
        let figures = make.figures();
        let value = |key: &str| {
            let figure = figures.iter().find(|f| f.key == key).unwrap();
            figure.amount.number().unwrap()
        };
        let longer = value("oval_length") - value("oval_width");
        assert!((value("lengthened") - longer).abs() < 1e-9 && longer > 0.0);
        assert!(make.wait_hours() > 0.0);
    }
}
