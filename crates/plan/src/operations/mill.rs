//! Boards to thickness.

use files::message::{Message, Value};
use files::say;
use geometry::Length;
use geometry::Portable;
use piece::piece::Piece;

use super::OperationKind;
use crate::caution::Caution::*;
use crate::figure::{Amount, Figure, Working};
use crate::operation::{Card, Picture, ShopOperation, Subject};
use crate::ring_group::RingGroup;
use crate::settings::band::BandAt;
use crate::settings::layer::rough_layer;
use crate::settings::ring::strip_for;
use crate::settings::{GIVEN, PRACTICE};
use crate::words;

/// What holds for every milling.
pub static CARD: Card = Card {
    kind: OperationKind::Mill,
    name: "mill",
    wording: "Plane boards flat and to an even thickness.",
    cautions: &[StoppedToSet, HandsClear, FaceShield, Dust, Noise],
    picture: Picture::HalfSection,
};

/// What boards are milled for.
enum What {
    /// Rings, by their numbers through the piece.
    Rings(Vec<usize>),
    /// Something else, in words.
    Part(Message),
}

/// Boards of one thickness.
pub struct Mill {
    subject: Subject,
    what: What,
    thickness: Length,
    working: Working,
    /// Woods and the board's face that each takes, mm².
    woods: Vec<(String, f64)>,
}

impl Mill {
    /// Every thickness that a piece needs: rings first, then floor panels, then layers.
    pub fn of_piece(piece: &Piece) -> Vec<Mill> {
        let mut rings: Vec<Mill> = Vec::new();
        let mut others: Vec<Mill> = Vec::new();
        for section in 0..piece.sections.len() {
            for group in RingGroup::of_section(piece, section) {
                let same = |m: &&mut Mill| (m.thickness - group.ring.stock).as_mm().abs() < 1e-6;
                if rings.iter_mut().find(same).is_none() {
                    rings.push(Self::for_rings(piece, &group));
                }
                if let Some(mill) = rings.iter_mut().find(same) {
                    if let What::Rings(numbers) = &mut mill.what {
                        numbers.extend(group.numbers());
                        numbers.sort_unstable();
                    }
                    for (wood, area) in ring_boards(piece, &group) {
                        mill.take(wood, area);
                    }
                }
                others.extend(Self::for_panel(piece, &group));
            }
            for at in BandAt::of_section(piece, section) {
                others.push(Self::for_layers(at));
            }
        }
        rings.extend(others);
        rings
    }

    fn for_rings(piece: &Piece, group: &RingGroup<'_>) -> Self {
        let loss = piece.workshop.allowances.flattening;
        Mill {
            subject: Subject::default(),
            what: What::Rings(Vec::new()),
            thickness: group.ring.stock,
            working: Working::new(
                "thickness = ring's height + 2 · flattening loss or more, or as given",
                PRACTICE,
            )
            .with("ring's height", Amount::Fine(group.ring.height))
            .with("flattening loss", Amount::Fine(*loss)),
            woods: Vec::new(),
        }
    }

    fn for_panel(piece: &Piece, group: &RingGroup<'_>) -> Option<Self> {
        let Some(panel) = &group.ring.let_in else {
            return None;
        };
        let side = panel.diameter.as_mm();
        Some(Mill {
            subject: Subject {
                section: Some(group.section),
                ring: group.rings.first().copied(),
                ..Subject::default()
            },
            what: What::Part(say!("the floor panel of {ring}", ring = group.name())),
            thickness: panel.thickness,
            working: Working::new("floor's thickness, or as given", GIVEN),
            woods: vec![(
                words::of_board(piece.wood_name(panel.wood), panel.board),
                side * side,
            )],
        })
    }

    fn for_layers(at: BandAt<'_>) -> Self {
        let blank = &at.band.blank;
        let saw = at.piece.workshop.segment_saw();
        let each = match (&blank.ring, blank.strip_length(saw.kerf)) {
            (Some(ring), Some(strip)) => {
                let width = ring.board_width() + *at.piece.workshop.allowances.jointing * 2.0;
                strip.as_mm() * width.as_mm()
            }
            _ => {
                let edge = blank.edge * 2.0;
                (blank.length + edge).as_mm() * (blank.width + edge).as_mm()
            }
        };
        let mut mill = Mill {
            subject: at.subject(),
            what: What::Part(say!("the layers of {band}", band = at.name())),
            thickness: rough_layer(&at),
            working: Working::new("thickness = layer + 2 · flattening loss", PRACTICE)
                .with("layer", Amount::Fine(at.band.layer))
                .with(
                    "flattening loss",
                    Amount::Fine(*at.piece.workshop.allowances.flattening),
                ),
            woods: Vec::new(),
        };
        for number in 0..at.count() {
            mill.take(words::of_board(&at.wood(number), at.band.board), each);
        }
        mill
    }

    fn take(&mut self, wood: String, area: f64) {
        match self.woods.iter_mut().find(|(w, _)| *w == wood) {
            Some((_, sum)) => *sum += area,
            None => self.woods.push((wood, area)),
        }
    }
}

/// Woods and board's face of a group of rings, mm².
fn ring_boards(piece: &Piece, group: &RingGroup<'_>) -> Vec<(String, f64)> {
    let kerf = piece.workshop.segment_saw().kerf;
    let sizes = group.sizes();
    let width = sizes.board_width() + *piece.workshop.allowances.jointing * 2.0;
    let woods = group.woods();
    let face = |count: usize| {
        if group.segmented() {
            strip_for(sizes, count, kerf).as_mm() * width.as_mm()
        } else {
            (sizes.flat_out * 2.0).as_mm().to_the(2)
        }
    };
    woods
        .into_iter()
        .map(|(id, count)| {
            let name = words::of_board(piece.wood_name(id), group.ring.board);
            (name, face(count) * group.count() as f64)
        })
        .collect()
}

impl ShopOperation for Mill {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn subject(&self) -> Subject {
        self.subject
    }

    fn title(&self) -> Message {
        match &self.what {
            What::Rings(numbers) => say!(
                "Mill boards for {rings}",
                rings = words::numbered("ring", numbers),
            ),
            What::Part(what) => say!("Mill boards for {what}", what = what.clone()),
        }
    }

    fn figures(&self) -> Vec<Figure> {
        let mut out = vec![Figure::setting(
            "thickness",
            "plane to",
            Amount::Fine(self.thickness),
            self.working.clone(),
        )];
        for (k, (wood, area)) in self.woods.iter().enumerate() {
            let label = say!(
                "{wood}, face of board without waste",
                wood = Value::name(wood),
            );
            out.push(
                Figure::note(format!("board_{}", k + 1), label, Amount::Area(*area)).worked(
                    Working::new(
                        "strip's length · rip width, summed; a disc or board as its square or \
                         oblong",
                        "areas laid side by side",
                    ),
                ),
            );
        }
        out
    }

    fn doing(&self) -> Vec<Message> {
        vec![
            "Flatten one face, then plane the other face parallel to it, all boards of this \
             thickness at one setting."
                .into(),
            "Keep an offcut of each wood for test cuts.".into(),
        ]
    }

    fn measure(&self) -> Vec<Message> {
        vec![say!(
            "Thickness at both ends and both edges: within {step} of each other.",
            step = Value::fine(Length::mm(0.1)),
        )]
    }

    fn minutes(&self) -> f64 {
        10.0 + 8.0 * self.woods.len() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn each_thickness_is_milled_once_for_all_its_rings() {
        let piece = trial::bowl();
        let mills = Mill::of_piece(&piece);
        let ringed: Vec<f64> = mills
            .iter()
            .filter(|m| m.subject == Subject::default())
            .map(|m| m.thickness.as_mm())
            .collect();
        let mut wanted: Vec<f64> = piece
            .sections
            .iter()
            .flat_map(|s| s.rings.iter().map(|r| r.stock.as_mm()))
            .collect();
        wanted.dedup();
        assert_eq!(ringed, wanted);
        // The layer is 6 mm and each face is flattened by half a millimetre.
        let layers = mills.last().unwrap();
        assert!((layers.thickness.as_mm() - 7.0).abs() < 1e-9);
    }

    #[test]
    fn a_panel_is_milled_to_its_own_thickness() {
        let piece = trial::tube();
        let mills = Mill::of_piece(&piece);
        let panel = mills
            .iter()
            .find(|m| m.title().said(Unit::Mm).contains("floor panel"));
        // A recess of 2 mm and a floor of 7 mm: the panel is the floor.
        assert!((panel.unwrap().thickness.as_mm() - 7.0).abs() < 1e-9);
    }
}
