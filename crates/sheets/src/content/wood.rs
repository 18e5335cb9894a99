//! Sheet 2: what to buy and mill.

use files::say;
use plan::operations::OperationKind;
use plan::ring_group::RingGroup;
use plan::settings::ring::{rip_width, strip_for};
use serde::Serialize;

use super::steps::Steps;
use super::{Setting, Source, bare};

/// The wood sheet.
#[derive(Debug, Serialize)]
pub struct Wood {
    /// By thickness: what boards to plane and how much of each wood.
    boards: Vec<Boards>,
    /// Strips to rip, by ring.
    strips: Vec<Strip>,
    /// Discs, panels and layers: pieces that are no strips.
    others: Vec<Strip>,
    steps: Steps,
}

#[derive(Debug, Serialize)]
struct Boards {
    what: String,
    thickness: String,
    woods: Vec<Setting>,
}

#[derive(Debug, Serialize)]
struct Strip {
    what: String,
    letter: String,
    wood: String,
    thickness: String,
    count: String,
    width: String,
    length: String,
}

/// The wood sheet of a piece.
pub fn wood(source: &Source<'_>) -> Wood {
    let unit = source.unit;
    let piece = source.piece;
    let ops = || {
        source
            .plan
            .operations
            .iter()
            .filter(|o| o.kind == OperationKind::Mill)
    };
    let boards = ops()
        .map(|op| Boards {
            what: op.title.trim_start_matches("Mill boards for ").into(),
            thickness: op
                .figures
                .iter()
                .find(|f| f.key == "thickness")
                .map_or(String::new(), |f| f.shown.clone()),
            woods: op
                .figures
                .iter()
                .filter(|f| f.sort() == "board")
                .map(|f| Setting {
                    label: f.label.split(',').next().unwrap_or("").into(),
                    value: f.shown.clone(),
                })
                .collect(),
        })
        .collect();
    let looks = drawings::vector::Looks::new(piece);
    let letter = |id| looks.of(id).map_or(String::new(), |l| l.letter.to_string());
    let kerf = piece.workshop.segment_saw().kerf;
    let jointing = piece.workshop.allowances.jointing;
    let (mut strips, mut others) = (Vec::new(), Vec::new());
    for section in 0..piece.sections.len() {
        for group in RingGroup::of_section(piece, section) {
            let thickness = unit.length_bare(group.ring.stock);
            for (id, count) in group.woods() {
                let row = Strip {
                    what: group.name().said(source.plan.language()),
                    letter: letter(id),
                    wood: piece.wood_name(id).into(),
                    thickness: thickness.clone(),
                    count: group.count().to_string(),
                    width: String::new(),
                    length: String::new(),
                };
                if group.segmented() {
                    strips.push(Strip {
                        width: bare(&rip_width(group.sizes(), *jointing), unit),
                        length: unit.length_bare(strip_for(group.sizes(), count, kerf)),
                        ..row
                    });
                } else {
                    let across = unit.length_bare(group.sizes().flat_out * 2.0);
                    others.push(Strip {
                        what: format!("disc, {}", row.what),
                        width: across.clone(),
                        length: across,
                        ..row
                    });
                }
            }
            if let Some(panel) = &group.ring.let_in {
                let across = unit.length_bare(panel.diameter);
                others.push(Strip {
                    what: say!("floor panel, {ring}", ring = group.name())
                        .said(source.plan.language()),
                    letter: letter(panel.wood),
                    wood: piece.wood_name(panel.wood).into(),
                    thickness: unit.fine_bare(panel.thickness),
                    count: group.count().to_string(),
                    width: across.clone(),
                    length: across,
                });
            }
        }
    }
    for section in &piece.sections {
        for band in &section.bands {
            others.extend(layers(source, section, band, &letter));
        }
    }
    Wood {
        boards,
        strips,
        others,
        steps: Steps::of(ops(), &[OperationKind::Mill], source.plan.spelling),
    }
}

/// Boards or strips for a band's layers, by wood.
fn layers(
    source: &Source<'_>,
    section: &piece::piece::Section,
    band: &piece::piece::Band,
    letter: &dyn Fn(piece::model::WoodId) -> String,
) -> Vec<Strip> {
    let unit = source.unit;
    let blank = &band.blank;
    let kerf = source.piece.workshop.segment_saw().kerf;
    let rough = band.layer + *source.piece.workshop.allowances.flattening * 2.0;
    let mut woods: Vec<(piece::model::WoodId, usize)> = Vec::new();
    for id in &band.woods {
        match woods.iter_mut().find(|(w, _)| w == id) {
            Some((_, n)) => *n += 1,
            None => woods.push((*id, 1)),
        }
    }
    let (width, length, what) = match (&blank.ring, blank.strip_length(kerf)) {
        (Some(ring), Some(strip)) => (
            ring.board_width() + *source.piece.workshop.allowances.jointing * 2.0,
            strip,
            "layers, a strip each",
        ),
        _ => (
            blank.width + blank.edge * 2.0,
            blank.length + blank.edge * 2.0,
            "layers, a board each",
        ),
    };
    woods
        .into_iter()
        .map(|(id, count)| Strip {
            what: format!("{what}, {}", section.name),
            letter: letter(id),
            wood: source.piece.wood_name(id).into(),
            thickness: unit.fine_bare(rough),
            count: count.to_string(),
            width: unit.length_bare(width),
            length: unit.length_bare(length),
        })
        .collect()
}
