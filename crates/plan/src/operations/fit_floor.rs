//! A floor panel into its ring.

use files::message::{Message, Value};
use files::say;
use geometry::Length;
use piece::course::Panel;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::SUM;
use crate::words;

/// What holds for every fitting of floors.
pub static CARD: Card = Card {
    kind: OperationKind::FitFloor,
    name: "fit floor",
    wording: "Let a floor panel into its ring and close the ring round it.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        SmallPieces,
        FaceShield,
        Dust,
        Noise,
        GlueSound,
    ],
    picture: Picture::HalfSection,
};

/// A panel and its ring.
pub struct FitFloor<'a> {
    /// The ring.
    pub group: RingGroup<'a>,
    /// Its panel.
    pub panel: &'a Panel,
}

impl ShopOperation for FitFloor<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.group)
    }

    fn title(&self) -> Message {
        let how = if self.panel.floating {
            "floating"
        } else {
            "glued"
        };
        say!(
            "Fit the {how} floor into {name}",
            how = how,
            name = self.group.name()
        )
    }

    fn figures(&self) -> Vec<Figure> {
        let panel = self.panel;
        let (radius, flat) = (panel.diameter / 2.0, self.group.sizes().flat_in());
        let given = || Working::new("as given, or from the form's floor", "the form");
        vec![
            Figure::setting(
                "panel_diameter",
                "floor panel, diameter",
                Amount::Length(panel.diameter),
                Working::new(
                    "diameter = 2 · (finished radius inside at the floor + panel's reach into \
                     the wall)",
                    SUM,
                )
                .with(
                    "finished radius inside",
                    Amount::Length(radius - panel.groove),
                )
                .with("panel's reach", Amount::Length(panel.groove)),
            ),
            Figure::setting(
                "groove_depth",
                "groove, depth from a flat before the inside is turned",
                Amount::Length(radius + panel.gap - flat),
                Working::new(
                    "depth = panel's radius + room at its edge − flat radius inside",
                    SUM,
                )
                .with("panel's radius", Amount::Length(radius))
                .with("room at its edge", Amount::Length(panel.gap))
                .with("flat radius inside", Amount::Length(flat)),
            ),
            Figure::setting(
                "groove_width",
                "groove, width",
                Amount::Fine(panel.thickness),
                Working::new("width = panel's thickness", SUM)
                    .with("panel's thickness", Amount::Fine(panel.thickness)),
            ),
            Figure::setting(
                "groove_height",
                "groove above the ring's finished underside",
                Amount::Length(panel.above),
                given(),
            ),
            Figure::note(
                "panel_wood",
                "panel's wood",
                Amount::Text(Message::name(words::plain(
                    self.group.piece.wood_name(panel.wood),
                ))),
            ),
        ]
    }

    fn doing(&self) -> Vec<Message> {
        let loss = self.group.piece.workshop.allowances.flattening;
        let mut out = vec![
            "Saw or turn the panel round.".into(),
            say!(
                "Cut the groove round the inside of both half-rings with a slotting cutter, the \
                 same side down each time. Before flattening it lies {loss} higher than the figure \
                 says.",
                loss = Value::fine(*loss),
            ),
            "Close the ring dry round the panel.".into(),
        ];
        if self.panel.floating {
            out.push(
                "Glue only the halves to each other. Wax the panel's edge, so that no glue \
                 holds it: it must be free to swell and shrink."
                    .into(),
            );
        } else {
            out.push("Glue the panel in its groove as the halves are closed.".into());
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        if self.panel.floating && self.panel.gap.exceeds(Length::ZERO) {
            vec!["The panel can be pushed to and fro in its groove.".into()]
        } else {
            vec!["The panel sits at the groove's ground all round.".into()]
        }
    }

    fn minutes(&self) -> f64 {
        45.0
    }

    fn wait_hours(&self) -> f64 {
        self.group.piece.workshop.glue.clamp_minutes.max(0.0) / 60.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;
    use piece::piece::Piece;

    fn fit(piece: &Piece) -> FitFloor<'_> {
        let group = RingGroup::of_section(piece, 0).remove(0);
        let Some(panel) = &group.ring.let_in else {
            unreachable!("the trial has a panel");
        };
        FitFloor { group, panel }
    }

    #[test]
    fn a_floating_floor_has_room_and_no_glue() {
        let piece = trial::tube();
        let fit = fit(&piece);
        // The finished inside is 51 mm in radius; 5 mm of reach, 1 mm of room.
        let depth = 51.0 + 5.0 + 1.0 - fit.group.sizes().flat_in().as_mm();
        assert!((fit.figures()[1].amount.number().unwrap() - depth).abs() < 1e-6);
        assert!(fit.doing().last().unwrap().said(Unit::Mm).contains("Wax"));
    }

    #[test]
    fn a_glued_floor_has_no_room() {
        let piece = trial::glued_floor();
        let fit = fit(&piece);
        let depth = 51.0 + 5.0 - fit.group.sizes().flat_in().as_mm();
        assert!((fit.figures()[1].amount.number().unwrap() - depth).abs() < 1e-6);
        assert!(!fit.doing().iter().any(|d| d.said(Unit::Mm).contains("Wax")));
        assert!(fit.title().said(Unit::Mm).contains("glued"));
    }
}
