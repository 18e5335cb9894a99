//! Sheet 5: each loop band from the sled to the last layer.

use drawings::views::{Options, layer_blank, sled_from_above};
use files::message::Said;
use files::units::Unit;
use geometry::Length;
use plan::figure::Figure;
use plan::operation::Operation;
use plan::operations::OperationKind;
use plan::tables::{BandTable, figure};
use serde::Serialize;

use super::art::{Art, Picture};
use super::steps::{Steps, capital, said};
use super::{Setting, Source, bare};

/// Room for the sled and for a layer.
const SLED: Length = Length::mm(150.0);
const LAYER: Length = Length::mm(95.0);

/// Every band.
#[derive(Debug, Serialize)]
pub struct Knots {
    bands: Vec<Band>,
}

#[derive(Debug, Serialize)]
struct Band {
    title: String,
    summary: Vec<Setting>,
    sled: Option<Picture>,
    /// What the saw, sled and sander are set to, for every loop alike.
    settings: Vec<Setting>,
    notes: Vec<Setting>,
    loops: Vec<Loop>,
    letters: Vec<String>,
    block_notes: Vec<Setting>,
    layer: Option<Picture>,
    layer_settings: Vec<Setting>,
    layer_notes: Vec<Setting>,
    heights: Vec<Row>,
    steps: Steps,
}

/// One loop, in cutting order.
#[derive(Debug, Serialize)]
struct Loop {
    turn: String,
    number: String,
    wood: String,
    mark: String,
    arc: String,
    operations: String,
    /// Azimuth, arc and height of each pair of blocks.
    blocks: Vec<Block>,
}

#[derive(Debug, Serialize)]
struct Block {
    letter: String,
    azimuth: String,
    arc: String,
    height: String,
}

/// A height on both walls.
#[derive(Debug, Serialize)]
struct Row {
    what: String,
    outside: String,
    outside_in_section: String,
    inside: String,
}

const LOOP_KINDS: [OperationKind; 10] = [
    OperationKind::Mount,
    OperationKind::Index,
    OperationKind::Position,
    OperationKind::FirstCut,
    OperationKind::Spacer,
    OperationKind::SecondCut,
    OperationKind::MeasureSlice,
    OperationKind::FitLayer,
    OperationKind::GlueLayer,
    OperationKind::Cure,
];

/// The bands' sheet; `None` for a piece without loops.
pub fn knots(source: &Source<'_>, art: &mut Art) -> Option<Knots> {
    let tables = source.plan.sections.iter().flat_map(|s| &s.bands);
    let bands: Vec<Band> = tables.map(|t| band(source, t, art)).collect();
    (!bands.is_empty()).then_some(Knots { bands })
}

fn band(source: &Source<'_>, table: &BandTable<Said>, art: &mut Art) -> Band {
    let unit = source.unit;
    let (section, number) = (
        table.subject.section.unwrap_or(0),
        table.subject.band.unwrap_or(0),
    );
    let ops: Vec<&Operation<Said>> = source
        .plan
        .operations
        .iter()
        .filter(|o| o.subject.section == Some(section) && o.subject.band == Some(number))
        .collect();
    let of_kind = |kind: OperationKind| ops.iter().find(move |o| o.kind == kind);
    let shown = |kind: OperationKind, keys: &[&str]| -> Vec<Setting> {
        let figures = of_kind(kind).map_or(&[][..], |o| &o.figures);
        keys.iter()
            .filter_map(|k| figure(figures, k))
            .map(Setting::from)
            .collect()
    };
    let mut settings = shown(
        OperationKind::Mount,
        &["tilt", "centre_height", "travel", "blade_height"],
    );
    settings.extend(shown(OperationKind::FirstCut, &["first_cut"]));
    settings.extend(shown(OperationKind::Spacer, &["spacer"]));
    settings.extend(shown(OperationKind::SecondCut, &["second_cut", "slice"]));
    settings.extend(shown(OperationKind::MeasureSlice, &["removed"]));
    settings.extend(shown(OperationKind::FitLayer, &["layer"]));
    let mut notes = shown(OperationKind::Spacer, &["kerf", "glue_line"]);
    notes.extend(shown(
        OperationKind::Mount,
        &[
            "blank_diameter",
            "free_side",
            "faceplate_side",
            "saw_height",
            "saw_room",
        ],
    ));
    notes.extend(shown(OperationKind::GlueLayer, &["glue"]));
    let block_notes = shown(OperationKind::Position, &["dowel", "block_length"]);
    let loops = loops(table, &ops, unit);
    let blank: &[Figure<Said>] = of_kind(OperationKind::MakeLayers).map_or(&[], |o| &o.figures);
    let mut layer_settings = super::settings(blank);
    let mut layer_notes = super::notes(blank);
    // The ring's own diameters stand on the drawing.
    layer_settings.retain(|s| !s.value.is_empty());
    layer_notes
        .retain(|s| !s.label.contains("flat to flat") && !s.label.contains("corner to corner"));
    let sled = sled_from_above(
        source.piece,
        section,
        number,
        &Options::within(source.plan.language(), SLED),
    );
    let layer = layer_blank(
        source.piece,
        section,
        number,
        &Options::within(source.plan.language(), LAYER),
    );
    let steps = ops
        .iter()
        .copied()
        .filter(|o| o.kind == OperationKind::MakeLayers || LOOP_KINDS.contains(&o.kind));
    Band {
        title: capital(&table.name),
        summary: [
            "reach",
            "repeats",
            "nearest_segments",
            "least_section",
            "least_section_with_blocks",
        ]
        .iter()
        .filter_map(|k| figure(&table.figures, k))
        .map(Setting::from)
        .collect(),
        sled: sled.map(|d| art.without(d, &["heading"])),
        settings,
        notes,
        loops,
        letters: ["A", "B", "C"].map(String::from).into(),
        block_notes,
        layer: layer.map(|d| art.without(d, &["heading", "legend"])),
        layer_settings,
        layer_notes,
        heights: heights(table, unit),
        steps: Steps::of(steps, &OperationKind::ALL, source.plan.spelling),
    }
}

/// Each loop in the order of cutting, with the operations that are its own.
fn loops(table: &BandTable<Said>, ops: &[&Operation<Said>], unit: Unit) -> Vec<Loop> {
    table
        .loops
        .iter()
        .enumerate()
        .map(|(turn, l)| {
            let mine: Vec<usize> = ops
                .iter()
                .filter(|o| o.subject.loop_number == Some(l.number.saturating_sub(1)))
                .map(|o| o.number)
                .collect();
            let value =
                |key: &str| figure(&l.figures, key).map_or(String::new(), |f| bare(f, unit));
            Loop {
                turn: (turn + 1).to_string(),
                number: l.number.to_string(),
                wood: l.wood.clone(),
                mark: value("mark"),
                arc: value("mark_arc"),
                operations: said(&mine),
                blocks: (1..=3)
                    .map(|k| Block {
                        letter: char::from(b'A' + k as u8 - 1).to_string(),
                        azimuth: value(&format!("block_{k}")),
                        arc: value(&format!("block_arc_{k}")),
                        height: value(&format!("block_height_{k}")),
                    })
                    .collect(),
            }
        })
        .collect()
}

/// Tops, crossing rows and bottoms from the top down.
fn heights(table: &BandTable<Said>, unit: files::units::Unit) -> Vec<Row> {
    let value = |figures: &[Figure<Said>], key: &str| {
        figure(figures, key).map_or(String::new(), |f| bare(f, unit))
    };
    let edge = |what: &str, key: &str| Row {
        what: what.into(),
        outside: value(&table.figures, &format!("outside_{key}")),
        outside_in_section: value(&table.figures, &format!("outside_{key}_in_section")),
        inside: value(&table.figures, &format!("inside_{key}")),
    };
    let mut out = vec![
        edge("loops' tops, upper edge", "top"),
        edge("loops' tops, lower edge", "top_lower"),
    ];
    for (k, row) in table.rows.iter().enumerate() {
        out.push(Row {
            what: format!("crossings, row {}", k + 1),
            outside: value(&row.figures, "outside"),
            outside_in_section: value(&row.figures, "outside_in_section"),
            inside: value(&row.figures, "inside"),
        });
    }
    out.push(edge("loops' bottoms, upper edge", "bottom_upper"));
    out.push(edge("loops' bottoms, lower edge", "bottom"));
    out
}
