//! A section on the sled.

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::Figure;
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::settings::band::LoopAt;
use crate::words;
use files::message::{Message, Value};
use files::say;

/// What holds for every mounting.
pub static CARD: Card = Card {
    kind: OperationKind::Mount,
    name: "mount",
    wording: "Clamp the faceplate to the sled with its axis level and at the tilt.",
    cautions: &[StoppedToSet, Holding, Estimate],
    picture: Picture::Sled,
};

/// A section mounted for one loop.
pub struct Mount<'a>(pub LoopAt<'a>);

impl Mount<'_> {
    /// The band's first cut: the sled still has to be set.
    fn sets_up(&self) -> bool {
        self.0.turn() == 0
    }
}

impl ShopOperation for Mount<'_> {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.0.subject()
    }

    fn title(&self) -> Message {
        let name = self.0.name();
        if self.sets_up() {
            say!("Set the sled and mount the section for {name}", name = name)
        } else {
            say!("Mount the section for {name}", name = name)
        }
    }

    fn figures(&self) -> Vec<Figure> {
        let at = &self.0.at;
        let mut out = vec![at.tilt(), at.centre_height()];
        if self.sets_up() {
            out.extend([at.travel(), at.blade_height(), at.blank_diameter()]);
            out.extend(at.sides());
        }
        out
    }

    fn doing(&self) -> Vec<Message> {
        let at = &self.0.at;
        let saw = Value::name(words::plain(&at.band.saw.name));
        if !self.sets_up() {
            return vec![
                "The sled stays as it was set; check the tilt against its stop and that the \
                 spacer is taken out."
                    .into(),
                "Clamp the faceplate by its edge or bolt it down.".into(),
            ];
        }
        let (free, room) = at.band.sled.narrower_side();
        let side = if free { "free end" } else { "faceplate" };
        vec![
            say!("{saw}: set the blade square to the table.", saw = saw),
            "Set the axis level, at the tilt from square to the line of travel. A cut straight \
             across would be a tilt of nothing."
                .into(),
            say!(
                "Turn the sled so that the {side}'s side, the narrower one at {room}, passes between \
                 blade and column.",
                side = side,
                room = room,
            ),
            "Clamp the faceplate by its edge or bolt it down: round work must not turn.".into(),
            "Slide the sled through its whole travel by hand, saw unplugged: nothing touches but \
             where it is to be cut."
                .into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        let mut out = vec!["Tilt, with a bevel set to the figure or with a set-up block.".into()];
        if self.sets_up() {
            out.push("Axis over the table at both ends of the section: level.".into());
        }
        out
    }

    fn minutes(&self) -> f64 {
        if self.sets_up() { 35.0 } else { 8.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::band::BandAt;
    use crate::trial;

    #[test]
    fn the_axis_stands_over_the_table_by_base_clearance_and_radius() {
        let piece = trial::tube();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let mount = Mount(LoopAt { at, number: 0 });
        let figures = mount.figures();
        let height = figures.iter().find(|f| f.key == "centre_height").unwrap();
        // The plain shop's sled: 18 mm of base and 20 mm of clearance; radius 61 mm.
        assert!((height.amount.number().unwrap() - 99.0).abs() < 1e-6);
    }

    #[test]
    fn the_sled_is_set_once_whatever_the_order() {
        let piece = trial::ordered();
        let at = BandAt::of_section(&piece, 1).remove(0);
        let set: Vec<bool> = (0..3)
            .map(|number| Mount(LoopAt { at, number }).sets_up())
            .collect();
        // Cut in the order 2, 3, 1.
        assert_eq!(set, [false, true, false]);
    }
}
