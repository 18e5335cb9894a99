//! Segments to a ring.

use files::message::Message;
use files::say;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::ring;

/// What holds for every glueing of rings.
pub static CARD: Card = Card {
    kind: OperationKind::GlueRing,
    name: "glue ring",
    wording: "Glue half-rings, true their joints, and close the ring.",
    cautions: &[GlueSound, SmallPieces, Dust],
    picture: Picture::Ring,
};

/// Rings alike, glued.
pub struct GlueRing<'a>(pub RingGroup<'a>);

impl GlueRing<'_> {
    /// A ring round a panel is closed when the panel is fitted.
    fn stays_open(&self) -> bool {
        self.0.ring.let_in.is_some()
    }
}

impl ShopOperation for GlueRing<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.0)
    }

    fn title(&self) -> Message {
        let name = self.0.name();
        if self.stays_open() {
            say!("Glue the half-rings of {name}", name = name)
        } else {
            say!("Glue {name}", name = name)
        }
    }

    fn figures(&self) -> Vec<Figure> {
        let sizes = self.0.sizes();
        let mut out = vec![ring::closing(sizes)];
        out.extend(ring::outside(sizes));
        out.extend(ring::inside(sizes));
        let half = crate::glue::rings(&self.0);
        out.extend(half.iter().flat_map(|g| g.figures(2 * self.0.count())));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let sizes = self.0.sizes();
        let mut out = Vec::new();
        if sizes.segments.is_multiple_of(2) {
            let (a, _) = sizes.halves();
            out.push(say!(
                "Glue two half-rings of {a} segments each; leave their ends dry.",
                a = a,
            ));
            out.push(
                "Lay the halves together. Every mitre's error adds up at their joint as a wedge: \
                 sand the ends of both halves flat on a disc or board until no light shows."
                    .into(),
            );
            if !self.stays_open() {
                out.push("Glue the halves together.".into());
            }
        } else {
            let (a, b) = sizes.halves();
            out.push(say!(
                "An odd count has no straight joint across. Close the ring dry in a band clamp \
                 first, then glue {a} and {b} segments, and correct the last joint's mitre \
                 before it is closed.",
                a = a,
                b = b,
            ));
            if !self.stays_open() {
                out.push("Glue the two parts together.".into());
            }
        }
        if self.stays_open() {
            out.push("Do not close the ring yet: the floor panel goes in first.".into());
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec!["Flat to flat in three directions: a round ring measures alike.".into()]
    }

    fn minutes(&self) -> f64 {
        (15.0 + 0.7 * self.0.sizes().segments as f64) * self.0.count() as f64
    }

    fn wait_hours(&self) -> f64 {
        self.0.piece.workshop.glue.clamp_minutes.max(0.0) / 60.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn an_even_ring_is_closed_from_two_halves() {
        let piece = trial::bowl();
        let glue = GlueRing(RingGroup::of_section(&piece, 1).remove(0));
        assert!(
            glue.doing()[0]
                .said(Unit::Mm)
                .contains("half-rings of 6 segments")
        );
        assert_eq!(glue.figures()[0].key, "half_ring_wedge");
    }

    #[test]
    fn an_odd_ring_has_no_half_and_a_panel_keeps_its_ring_open() {
        let vase = trial::odd();
        let glue = GlueRing(RingGroup::of_section(&vase, 0).remove(0));
        assert!(glue.doing()[0].said(Unit::Mm).contains("8 and 7 segments"));
        assert_eq!(glue.figures()[0].key, "closing_gap");
        let tube = trial::tube();
        let open = GlueRing(RingGroup::of_section(&tube, 0).remove(0));
        assert!(
            open.doing()
                .last()
                .unwrap()
                .said(Unit::Mm)
                .contains("floor panel")
        );
    }
}
