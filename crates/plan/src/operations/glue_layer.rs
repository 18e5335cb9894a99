//! A layer into its place.

use files::message::Message;
use files::say;
use geometry::Length;
use geometry::Portable;

use super::OperationKind;
use crate::caution::Caution::{self, *};
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;

/// What holds for every glueing of layers.
pub static CARD: Card = Card {
    kind: OperationKind::GlueLayer,
    name: "glue layer",
    wording: "Glue the layer in, the dowels back in their blocks.",
    cautions: &[Epoxy, GlueSound, Holding],
    picture: Picture::OutsideWall,
};

/// One loop's layer, glued in.
pub struct GlueLayer<'a>(pub LoopAt<'a>);

/// Volume of a film of glue, mm³: area times thickness.
pub fn film(area_mm2: f64, thickness: Length) -> f64 {
    area_mm2 * thickness.as_mm()
}

impl ShopOperation for GlueLayer<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        say!("Glue in the layer of {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0.at;
        let [_, glue_line] = at.shop_quantities();
        let radius = at.section.blank_radius.as_mm();
        // The cut's face as if there were no hole in the rings: enough glue at any rate.
        let face = std::f64::consts::PI * radius * radius / at.band.cuts.tilt.as_rad().cosine();
        let subject = self.0.subject();
        let place = (subject.section.unwrap_or(0), subject.band.unwrap_or(0));
        let glue = crate::glue::layer(at.piece, place.0, place.1);
        let mut out = vec![
            glue_line,
            Figure::note(
                "glue",
                "glue that fills both joints",
                Amount::Capacity(film(2.0 * face, at.band.glue_line)),
            )
            .worked(
                Working::new(
                    "2 · π · radius² / cos(tilt) · glue line, at most; as much again is pressed out",
                    "area times film",
                )
                .with("radius", Amount::Length(at.section.blank_radius))
                .with("tilt", Amount::Angle(at.band.cuts.tilt))
                .with("glue line", Amount::Fine(at.band.glue_line)),
            ),
        ];
        out.extend(glue.iter().flat_map(|g| g.figures(1)));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let glue = if *self.0.at.piece.workshop.glue.epoxy_for_layers {
            "Spread epoxy thinly on both faces of each joint; oily woods are wiped with solvent \
             just before."
        } else {
            "Spread glue on both faces of each joint; work fast enough to close both before it \
             skins."
        };
        vec![
            glue.into(),
            "Lay the layer in with its long way along the climb, put the upper part on, and push \
             the waxed dowels in."
                .into(),
            "Clamp along the axis, not square to the cut, and only as hard as closes the joints: \
             the parts must not slide down the slope."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![say!(
            "Height of the section at four places round: {height}, as before the cut.",
            height = self.0.at.section.stacked,
        )]
    }

    fn cautions(&self) -> Vec<Caution> {
        let epoxy = self.0.at.piece.workshop.glue.epoxy_for_layers;
        let all = CARD.cautions.iter().copied();
        all.filter(|c| *epoxy || *c != Epoxy).collect()
    }

    fn minutes(&self) -> f64 {
        20.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn a_film_is_that_of_the_published_example() {
        // reference/trade_cases.json, epoxy-film: 1800 in² at 0.01 in is 294.97 ml.
        let ml = film(1800.0 * 25.4 * 25.4, Length::inches(0.01)) / 1000.0;
        assert!((ml - 294.97).abs() < 0.01);
    }

    #[test]
    fn without_epoxy_there_is_no_caution_for_it() {
        let mut piece = trial::tube();
        piece.workshop.glue.epoxy_for_layers.value = false;
        let at = BandAt::of_section(&piece, 1).remove(0);
        let glue = GlueLayer(LoopAt { at, number: 0 });
        assert!(!glue.cautions().contains(&Epoxy) && glue.cautions().contains(&GlueSound));
        assert!(
            !glue
                .doing()
                .iter()
                .any(|d| d.said(Unit::Mm).contains("epoxy"))
        );
    }
}
