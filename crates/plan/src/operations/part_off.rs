//! Off the waste block; the foot.

use files::message::Message;
use geometry::Length;
use piece::piece::Piece;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::SUM;
use crate::speed;

/// What holds for parting off.
pub static CARD: Card = Card {
    kind: OperationKind::PartOff,
    name: "part off",
    wording: "Part the piece off its waste block and turn the foot.",
    cautions: &[
        FaceShield,
        Speed,
        StandClear,
        LooseThings,
        Holding,
        Dust,
        Vapour,
        OilyRags,
        Estimate,
    ],
    picture: Picture::HalfSection,
};

/// The piece, parted off.
pub struct PartOff<'a>(pub &'a Piece);

impl ShopOperation for PartOff<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        Subject::default()
    }

    fn title(&self) -> Message {
        "Part off and turn the foot".into()
    }

    fn figures(&self) -> Vec<Figure> {
        let (piece, form) = (self.0, &self.0.form);
        let (largest, _) = form.largest_radius();
        let mut out: Vec<Figure> =
            speed::figures(largest * 2.0, &piece.workshop.lathe, speed::Work::RimHeld).into();
        let foot = form.foot_radius();
        out.push(Figure::setting(
            "foot_diameter",
            "foot, diameter",
            Amount::Length(foot * 2.0),
            Working::new(
                "2 · radius of the outer curve at its lowest point",
                "the form",
            ),
        ));
        if form.foot_recess().exceeds(Length::ZERO) {
            let width = form.foot_width();
            out.push(Figure::setting(
                "recess_diameter",
                "recess, diameter",
                Amount::Length((foot - width) * 2.0),
                Working::new("diameter = 2 · (foot's radius − foot's width)", SUM)
                    .with("foot's radius", Amount::Length(foot))
                    .with("foot's width", Amount::Length(width)),
            ));
            out.push(Figure::setting(
                "recess_depth",
                "recess, depth",
                Amount::Length(form.foot_recess()),
                Working::new("as given", crate::settings::GIVEN),
            ));
        }
        out.push(Figure::note(
            "floor",
            "floor above it, thickness",
            Amount::Length(form.floor()),
        ));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![
            "Part nearly through beside the waste block; saw the last of it with the lathe \
             stopped."
                .into(),
            "Hold the piece by its rim against a soft-faced disc or in wide jaws, tailstock at \
             the foot, at the lowest speeds."
                .into(),
        ];
        if self.0.form.foot_recess().exceeds(Length::ZERO) {
            out.push("Turn the recess, sand and finish the underside, and sign it.".into());
        } else {
            out.push("Turn the underside a trifle hollow, sand and finish it, and sign it.".into());
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Depth inside against height outside: their difference is floor and recess.".into()]
    }

    fn minutes(&self) -> f64 {
        40.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn the_recess_leaves_the_foots_width() {
        let piece = trial::tube();
        let figures = PartOff(&piece).figures();
        let value = |key: &str| {
            let figure = figures.iter().find(|f| f.key == key).unwrap();
            figure.amount.number().unwrap()
        };
        assert!((value("foot_diameter") - value("recess_diameter") - 14.0).abs() < 1e-6);
        assert!((value("recess_depth") - 2.0).abs() < 1e-9);
    }

    #[test]
    fn without_a_recess_none_is_asked_for() {
        let piece = trial::solid();
        let figures = PartOff(&piece).figures();
        assert!(figures.iter().all(|f| !f.key.starts_with("recess")));
    }
}
