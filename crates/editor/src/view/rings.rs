//! Rings and splits for the page.

use ::plan::tables::SectionTable;
use files::message::Said;
use files::units::Unit;
use geometry::{Angle, Length};
use piece::course::Course as PieceRing;
use piece::piece::{Piece, Section};

use super::plan::figure;
use crate::wire::{Ring, Split};

/// Less than this is not said, mm.
const UNSEEN: f64 = 0.05;

/// A section's rings.
pub fn rings(
    piece: &Piece,
    number: usize,
    table: Option<&SectionTable<Said>>,
    unit: Unit,
) -> Vec<Ring> {
    let Some(section) = piece.sections.get(number) else {
        return Vec::new();
    };
    section
        .rings
        .iter()
        .enumerate()
        .map(|(k, ring)| {
            let count = piece.ring_number(number, k);
            let row = table.and_then(|t| t.rings.iter().find(|r| r.numbers.contains(&count)));
            let solid = ring.repeats().is_none();
            Ring {
                path: format!("section[{number}].ring#{k}"),
                number: count as u32,
                z0: ring.spans.0.as_mm(),
                z1: ring.spans.1.as_mm(),
                solid,
                panel: ring.let_in.is_some(),
                segments: ring.sizes.segments as u32,
                start: start(section, ring).as_deg(),
                woods: (ring.woods.iter().cycle().take(ring.sizes.segments))
                    .map(|w| piece.wood_name(*w).to_string())
                    .collect(),
                inside: ring.sizes.corner_in.as_mm(),
                outside: ring.sizes.flat_out.as_mm(),
                narrow: narrow(ring, unit),
                figures: row.map_or_else(Vec::new, |r| {
                    r.figures.iter().map(|f| figure(f, unit)).collect()
                }),
            }
        })
        .collect()
}

/// Where segment 0 begins in the piece: half a segment before its middle, with the
/// section's turn and the splits below it.
fn start(section: &Section, ring: &PieceRing) -> Angle {
    let half = Angle::full().divided_by(2 * ring.sizes.segments);
    let middle = ring.bottom + ring.height / 2.0;
    let split: Angle = section
        .splits
        .iter()
        .filter(|s| middle.exceeds(s.spec.height))
        .map(|s| s.spec.turn)
        .sum();
    (section.turn + ring.rotation + split - half).wrapped()
}

/// Where the form wants more wood than the ring has.
fn narrow(ring: &PieceRing, unit: Unit) -> Option<String> {
    let mut said = Vec::new();
    if let Some((radius, at)) = ring.needs.outside {
        let short = radius - ring.sizes.flat_out;
        if short.as_mm() > UNSEEN {
            said.push(format!(
                "outside, {} short at height {}",
                unit.length(short),
                unit.length(at)
            ));
        }
    }
    if let (Some((radius, at)), None) = (ring.needs.inside, &ring.let_in) {
        let short: Length = ring.sizes.corner_in - radius;
        if short.as_mm() > UNSEEN {
            said.push(format!(
                "inside, {} short at height {}",
                unit.length(short),
                unit.length(at)
            ));
        }
    }
    (!said.is_empty()).then(|| said.join("; "))
}

/// A section's splits.
pub fn splits(section: &Section, number: usize) -> Vec<Split> {
    section
        .splits
        .iter()
        .enumerate()
        .map(|(k, split)| Split {
            path: format!("section[{number}].split[{k}]"),
            z: (section.bottom + split.spec.height).as_mm(),
            turn: split.spec.turn.as_deg(),
        })
        .collect()
}
