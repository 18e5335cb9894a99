//! Strips to segments.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::ring;
use crate::words;
use files::message::{Message, Value};
use files::say;

/// What holds for every cutting of segments.
pub static CARD: Card = Card {
    kind: OperationKind::CutSegments,
    name: "cut segments",
    wording: "Mitre the strips to segments against a stop.",
    cautions: &[
        StoppedToSet,
        HandsClear,
        SmallPieces,
        BladeGuard,
        FaceShield,
        Dust,
        Noise,
    ],
    picture: Picture::Ring,
};

/// Segments for rings alike.
pub struct CutSegments<'a>(pub RingGroup<'a>);

impl ShopOperation for CutSegments<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        super::group_subject(&self.0)
    }

    fn title(&self) -> Message {
        let group = &self.0;
        let all = words::count(group.count() * group.sizes().segments, "segment");
        say!("Cut {all} for {name}", all = all, name = group.name())
    }

    fn figures(&self) -> Vec<Figure> {
        let group = &self.0;
        let sizes = group.sizes();
        let mut out = vec![
            ring::mitre(sizes),
            ring::long_edge(sizes),
            ring::short_edge(sizes),
        ];
        for (k, (wood, count)) in group.woods().into_iter().enumerate() {
            let wood = words::plain(group.piece.wood_name(wood));
            out.push(Figure::note(
                format!("segments_{}", k + 1),
                say!("segments of {wood}", wood = Value::name(wood)),
                Amount::Count(count * group.count()),
            ));
        }
        out
    }

    fn doing(&self) -> Vec<Message> {
        let mut out = vec![
            "Set the mitre, trim the strip's end, and set the stop to the long edge.".into(),
            "After each cut flip the strip end for end: the mitre just made is the next \
             segment's."
                .into(),
            "Cut a full ring of scrap first and close it dry; a light that shows at its joints \
             is an error times twice the number of segments."
                .into(),
        ];
        if self.0.woods().len() > 1 {
            out.push(say!(
                "Lay the segments out in order: {pattern}.",
                pattern = Value::name(self.0.pattern()),
            ));
        }
        out
    }

    fn measure(&self) -> Vec<Message> {
        vec![
            "Long edges of the first and the last segment: alike to the eye against a square."
                .into(),
        ]
    }

    fn minutes(&self) -> f64 {
        12.0 + 0.6 * (self.0.count() * self.0.sizes().segments) as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn a_ring_of_twelve_is_mitred_at_fifteen_degrees() {
        let piece = trial::bowl();
        let cut = CutSegments(RingGroup::of_section(&piece, 1).remove(0));
        assert!((cut.figures()[0].amount.number().unwrap() - 15.0).abs() < 1e-9);
        assert!(
            cut.doing()
                .iter()
                .any(|d| d.said(Unit::Mm).contains("hard maple, hard maple, cherry"))
        );
    }

    #[test]
    fn one_wood_needs_no_pattern() {
        let piece = trial::tube();
        let cut = CutSegments(RingGroup::of_section(&piece, 1).remove(0));
        assert!(
            !cut.doing()
                .iter()
                .any(|d| d.said(Unit::Mm).contains("order"))
        );
    }
}
