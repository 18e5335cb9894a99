//! What is at a point of the piece, and how it came there.

use ::plan::operation::Operation;
use files::message::{Language, Said};
use files::units::degrees;
use geometry::Portable;
use glam::DVec3;
use piece::model::{Part, StepKind};
use piece::piece::Piece;

use crate::open_projects::Revision;
use crate::wire::Spot;

/// How far off the wood a point of a surface may be, mm: surfaces are shown as flat
/// facets, whose middles lie off the round wall by radius / 5000.
const OFF_SURFACE: f64 = 0.1;

/// The point itself and those a little to its four sides, inwards first.
fn near(p: DVec3) -> impl Iterator<Item = DVec3> {
    let out = DVec3::new(p.x, p.y, 0.0).normalize_or_zero();
    [DVec3::ZERO, -out, out, DVec3::Z, -DVec3::Z]
        .into_iter()
        .map(move |way| p + way * OFF_SURFACE)
}

/// The part at a point of the turned piece, mm, or on its surface; nothing outside the wood.
pub fn spot(revision: &Revision, language: Language, p: DVec3) -> Option<Spot> {
    let unit = language.unit;
    let shown = revision.shown(language);
    let piece = shown.settled.piece.as_ref()?;
    let found = near(p).find_map(|p| piece.stack.turned_wood_at(piece.form.outline(), p))?;
    let number = usize::from(found.section);
    let section = piece.sections.get(number)?;
    let wood = piece.wood_name(found.wood);
    let mut spot = Spot {
        title: String::new(),
        lines: Vec::new(),
        wood: wood.into(),
        section: number as u32,
        ring: None,
        segment: None,
        band: None,
        loop_number: None,
        operation: None,
        path: Some(format!("section[{number}]")),
    };
    match found.part {
        Part::Segment { ring, segment } => {
            let count = piece.ring_number(number, usize::from(ring));
            let of = section
                .rings
                .get(usize::from(ring))
                .map_or(0, |r| r.sizes.segments);
            spot.title = format!("Segment {} of {of} · {wood}", segment + 1);
            spot.lines.push(format!("ring {count}, {}", section.name));
            (spot.ring, spot.segment) = (Some(u32::from(ring)), Some(u32::from(segment)));
        }
        Part::Disc { ring } | Part::Panel { ring } => {
            let count = piece.ring_number(number, usize::from(ring));
            let what = if matches!(found.part, Part::Disc { .. }) {
                "Disc"
            } else {
                "Floor panel"
            };
            spot.title = format!("{what} · {wood}");
            spot.lines.push(format!("ring {count}, {}", section.name));
            spot.ring = Some(u32::from(ring));
        }
        Part::Layer { step, .. } => layer(piece, &mut spot, usize::from(step))?,
    }
    if let Some(ring) = spot.ring {
        spot.path = Some(format!("section[{number}].ring#{ring}"));
    }
    let operations = &shown.plan().operations;
    if let Some(operation) = put_there(operations, &spot) {
        spot.operation = Some(operation.number as u32);
        spot.lines.push(format!(
            "operation {}: {}",
            operation.number, operation.title
        ));
    }
    let azimuth = geometry::Angle::rad(p.y.arctangent2(p.x)).wrapped();
    spot.lines.push(format!(
        "azimuth {}, height {}",
        degrees(azimuth, 0),
        unit.length(geometry::Length::mm(p.z))
    ));
    Some(spot)
}

fn layer(piece: &Piece, spot: &mut Spot, step: usize) -> Option<()> {
    let section = spot.section as usize;
    let step = piece
        .stack
        .sections()
        .get(section)?
        .body
        .steps()
        .get(step)?;
    let section_name = &piece.sections.get(section)?.name;
    match step.kind {
        StepKind::Loop { band, number } => {
            let of = piece.sections.get(section)?.bands.get(usize::from(band))?;
            let n = of.loops.azimuths.len();
            spot.title = format!("Loop {} of {n} · {}", number + 1, spot.wood);
            let (at, all) = (of.cut_at(usize::from(number)), &of.order);
            let said = |loops: &[usize]| {
                let mut loops: Vec<usize> = loops.iter().map(|k| k + 1).collect();
                loops.sort_unstable();
                let words: Vec<String> = loops.iter().map(usize::to_string).collect();
                let many = if words.len() == 1 { "loop" } else { "loops" };
                format!("{many} {}", words.join(", "))
            };
            let (under, over) = all.split_at(at.min(all.len()));
            let over = over.get(1..).unwrap_or(&[]);
            let mut line = Vec::new();
            if !under.is_empty() {
                line.push(format!("over {}", said(under)));
            }
            if !over.is_empty() {
                line.push(format!("under {}", said(over)));
            }
            spot.lines.push(line.join(", "));
            spot.lines.push(format!("section {section_name}"));
            (spot.band, spot.loop_number) = (Some(u32::from(band)), Some(u32::from(number)));
            spot.path = Some(format!("section[{section}].band[{band}]"));
        }
        StepKind::Split { number } => {
            spot.title = format!("Split {} · {}", number + 1, spot.wood);
            spot.path = Some(format!("section[{section}].split[{number}]"));
        }
        // Only a piece with errors in it has such steps, and none has a layer.
        StepKind::Joint { .. } => return None,
    }
    Some(())
}

/// The operation that puts a part into the piece: a loop's gluing, a ring's.
fn put_there<'a>(operations: &'a [Operation<Said>], spot: &Spot) -> Option<&'a Operation<Said>> {
    let n = |v: Option<usize>| v.map(|v| v as u32);
    let kind = |o: &Operation<Said>, word: &str| {
        serde_json::to_value(o.kind).is_ok_and(|v| v.as_str() == Some(word))
    };
    if spot.loop_number.is_some() {
        let mut own = operations.iter().filter(|o| {
            n(o.subject.section) == Some(spot.section)
                && n(o.subject.band) == spot.band
                && n(o.subject.loop_number) == spot.loop_number
        });
        return own
            .clone()
            .find(|o| kind(o, "glue_layer"))
            .or_else(|| own.next_back());
    }
    // A ring's own operation names the first of the rings that are made alike.
    let mut own: Vec<&Operation<Said>> = operations
        .iter()
        .filter(|o| n(o.subject.section) == Some(spot.section))
        .filter(|o| o.subject.ring.is_some_and(|r| Some(r as u32) <= spot.ring))
        .filter(|o| {
            ["glue_ring", "space_segments", "cut_disc", "fit_floor"]
                .iter()
                .any(|w| kind(o, w))
        })
        .collect();
    own.sort_by_key(|o| o.subject.ring);
    own.last().copied()
}
