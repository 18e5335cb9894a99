//! Marks for the segments of an open ring, and a dry trial in them.

use files::message::Message;
use files::say;
use geometry::{Angle, Length, Portable};
use piece::course::Course;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::{POLYGON, ring as of_ring};

/// What holds for every spacing of segments.
pub static CARD: Card = Card {
    kind: OperationKind::SpaceSegments,
    name: "space segments",
    wording: "Mark where the segments of an open ring stand, and try them dry.",
    cautions: &[SmallPieces, GlueSound],
    picture: Picture::Ring,
};

/// Open rings alike, marked out.
pub struct SpaceSegments<'a>(pub RingGroup<'a>);

/// The pitch of an open ring's segments: a turn by their number.
fn pitch(ring: &Course) -> Angle {
    Angle::full().divided_by(ring.woods.len())
}

impl SpaceSegments<'_> {
    fn gap_at(&self, key: &'static str, label: &'static str, radius: Length) -> Figure {
        let sizes = self.0.sizes();
        Figure::note(key, label, Amount::Fine(sizes.gap(radius))).worked(
            Working::new("gap = 2 · radius · sin(180° / segments − mitre)", POLYGON)
                .with("radius", Amount::Length(radius))
                .with("segments", Amount::Count(sizes.segments))
                .with("mitre", Amount::Angle(sizes.mitre())),
        )
    }

    /// A chord is what a rule or a pair of dividers is set to.
    fn step(&self) -> Figure {
        let (ring, sizes) = (self.0.ring, self.0.sizes());
        let half = pitch(ring).as_rad() / 2.0;
        Figure::setting(
            "corner_step",
            "from one outer corner to the next segment's same corner",
            Amount::Fine(sizes.corner_out() * (2.0 * half.sine())),
            Working::new(
                "step = 2 · corner radius outside · sin(180° / segments)",
                POLYGON,
            )
            .with("corner radius outside", Amount::Length(sizes.corner_out()))
            .with("segments", Amount::Count(sizes.segments)),
        )
    }
}

impl ShopOperation for SpaceSegments<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.0)
    }

    fn title(&self) -> Message {
        say!("Space the segments of {name}", name = self.0.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let (ring, sizes) = (self.0.ring, self.0.sizes());
        let mut out = vec![
            Figure::setting(
                "pitch",
                "from segment to segment",
                Amount::Angle(pitch(ring)),
                Working::new("pitch = 360° / segments", POLYGON)
                    .with("segments", Amount::Count(sizes.segments)),
            ),
            self.step(),
            Figure::note("gap_angle", "angle of each gap", Amount::Angle(ring.gap())).worked(
                Working::new("gap = 360° / segments − 2 · mitre", POLYGON)
                    .with("segments", Amount::Count(sizes.segments))
                    .with("mitre", Amount::Angle(sizes.mitre())),
            ),
            self.gap_at(
                "gap_corners",
                "gap between outer corners, as glued",
                sizes.corner_out(),
            ),
        ];
        if sizes.corner_in.exceeds(Length::ZERO) {
            out.push(self.gap_at(
                "gap_corners_in",
                "gap between inner corners, as glued",
                sizes.corner_in,
            ));
        }
        // What their tops are faced to once they stand.
        let loss = *self.0.piece.workshop.allowances.flattening;
        out.push(of_ring::height(ring.height, ring.stock, loss));
        if let Some((radius, _)) = ring.needs.outside {
            out.push(self.gap_at("gap_finished", "gap in the finished outside", radius));
        }
        out.extend(of_ring::outside(sizes));
        out.extend(of_ring::inside(sizes));
        out
    }

    fn doing(&self) -> Vec<Message> {
        let n = self.0.ring.woods.len();
        vec![
            say!(
                "Draw {n} lines through the middle of a flat board, a pitch apart, and on each \
                 the two flats: between them a segment stands, its middle on the line.",
                n = n,
            ),
            "Glue thin stops to the board, or step the corners off with dividers, so that every \
             segment finds its place without being measured again."
                .into(),
            "Lay out the whole ring dry. The last step must close on the first.".into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec!["The gaps at four places round the ring: alike to a feeler gauge.".into()]
    }

    fn minutes(&self) -> f64 {
        15.0 + 0.3 * (self.0.count() * self.0.ring.woods.len()) as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    /// Against a ring of twelve segments at 68 % made outside the project: mitre 10.2°,
    /// gaps of 9.6°, 13.6034 mm between outer corners, 13.0537 mm at a radius of 78 mm.
    #[test]
    fn gaps_are_those_of_the_closed_form() {
        let piece = trial::open();
        let group = RingGroup::of_section(&piece, 1).remove(0);
        let figures = SpaceSegments(group).figures();
        let shown = |key: &str| {
            let found = figures.iter().find(|f| f.key == key);
            found.unwrap().amount.number().unwrap()
        };
        assert!((shown("gap_angle") - 9.6).abs() < 1e-9);
        assert!((shown("pitch") - 30.0).abs() < 1e-9);
        assert!((shown("gap_corners") - 13.603_449_177).abs() < 1e-6);
        assert!((shown("gap_finished") - 13.053_743_56).abs() < 1e-6);
        assert_eq!(figures[0].amount.show(Unit::Inch), "30.00°");
    }
}
