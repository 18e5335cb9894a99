//! Sheet 4: sections, joint offsets, glue order, waste blocks.

use drawings::views::{Options, half_section};
use files::units::degrees;
use geometry::Length;
use plan::operations::OperationKind;
use serde::Serialize;

use super::Source;
use super::art::{Art, Picture};
use super::steps::Steps;

/// Room for the half-section.
const ROOM: Length = Length::mm(136.0);

/// The stacking sheet.
#[derive(Debug, Serialize)]
pub struct Stacking {
    picture: Picture,
    sections: Vec<Section>,
    steps: Steps,
}

#[derive(Debug, Serialize)]
struct Section {
    name: String,
    facts: String,
    rings: Vec<Row>,
}

/// One ring in its stack.
#[derive(Debug, Serialize)]
struct Row {
    number: String,
    height: String,
    stacked: String,
    turn: String,
    arc: String,
    across: String,
}

const KINDS: [OperationKind; 5] = [
    OperationKind::StackSection,
    OperationKind::TrueSection,
    OperationKind::TrueAgain,
    OperationKind::SplitTurnGlue,
    OperationKind::JoinSections,
];

/// The stacking sheet of a piece.
pub fn stacking(source: &Source<'_>, art: &mut Art) -> Stacking {
    let piece = source.piece;
    let unit = source.unit;
    let block = piece.workshop.sled.waste_block;
    let sections = piece
        .sections
        .iter()
        .enumerate()
        .map(|(s, section)| {
            let mut at = Length::ZERO;
            let rings = section
                .rings
                .iter()
                .enumerate()
                .map(|(r, ring)| {
                    at += ring.height;
                    let arc = ring.sizes.flat_out * ring.turn.as_rad();
                    Row {
                        number: piece.ring_number(s, r).to_string(),
                        height: unit.fine_bare(ring.height),
                        stacked: unit.length_bare(at),
                        turn: if r == 0 {
                            "lowest".into()
                        } else {
                            degrees(ring.turn, 2)
                        },
                        arc: if r == 0 {
                            String::new()
                        } else {
                            unit.length_bare(arc)
                        },
                        across: unit.length_bare(ring.sizes.flat_out * 2.0),
                    }
                })
                .collect();
            let mut facts = format!(
                "Waste block {} thick. Stacked {}",
                unit.length(*block),
                unit.length(section.stacked)
            );
            if !section.stacked.within(section.height, Length::mm(1e-6)) {
                facts += &format!(", {} when all is glued", unit.length(section.height));
            }
            if s > 0 {
                facts += &format!(
                    "; turned {} against the lowest section",
                    degrees(section.turn.wrapped(), 2)
                );
            }
            Section {
                name: section.name.clone(),
                facts: facts + ".",
                rings,
            }
        })
        .collect();
    let drawing = half_section(piece, &Options::within(source.plan.language(), ROOM));
    let ops = source.plan.operations.iter();
    Stacking {
        picture: art.without(drawing, &["heading"]),
        sections,
        steps: Steps::of(
            ops.filter(|o| KINDS.contains(&o.kind)),
            &[OperationKind::StackSection],
            source.plan.spelling,
        ),
    }
}
