//! Sheet 1: what it will be, and what to watch for.

use drawings::Side;
use drawings::sheet::Looks;
use drawings::views::{Options, unrolled_wall};
use geometry::Length;
use plan::caution::Caution;
use plan::finding::Severity;
use serde::Serialize;

use super::art::{Art, Picture};
use super::steps::{Words, time, words};
use super::{Setting, Source};
use plan::tables::figure;

/// Room for an unrolled wall.
const WALL: Length = Length::mm(172.0);

/// The front sheet.
#[derive(Debug, Serialize)]
pub struct Front {
    notes: Vec<String>,
    sizes: Vec<Setting>,
    woods: Vec<WoodRow>,
    outside: Picture,
    inside: Picture,
    knots: Vec<String>,
    findings: Vec<FindingRow>,
    cautions: Vec<Words>,
    chosen: Vec<Setting>,
    work: String,
    operations: usize,
}

#[derive(Debug, Serialize)]
struct WoodRow {
    letter: String,
    name: String,
    volume: String,
    weight: String,
}

#[derive(Debug, Serialize)]
struct FindingRow {
    severity: &'static str,
    stops: bool,
    what: String,
    remedy: String,
}

/// Cautions that hold for the whole of the work.
const GENERAL: [Caution; 6] = [
    Caution::Estimate,
    Caution::StoppedToSet,
    Caution::FaceShield,
    Caution::Dust,
    Caution::LooseThings,
    Caution::Noise,
];

/// The front sheet of a piece.
pub fn front(source: &Source<'_>, art: &mut Art) -> Front {
    let piece = source.piece;
    let plan = source.plan;
    let options = Options::within(source.unit, WALL);
    let overview = plan.overview.as_ref();
    let sizes = overview.map_or(Vec::new(), |o| {
        o.figures
            .iter()
            .filter(|f| !f.key.starts_with("surface") && f.key != "capacity_volume")
            .map(Setting::from)
            .collect()
    });
    let looks = Looks::new(piece);
    let woods = overview.map_or(Vec::new(), |o| {
        o.woods
            .iter()
            .map(|w| WoodRow {
                letter: looks
                    .all()
                    .iter()
                    .find(|l| l.name == w.name)
                    .map_or(String::new(), |l| l.letter.to_string()),
                name: w.name.clone(),
                volume: w.volume.shown.clone(),
                weight: w.weight.shown.clone(),
            })
            .collect()
    });
    let mut findings: Vec<&plan::finding::Finding> = plan.findings.iter().collect();
    findings.sort_by_key(|f| f.severity);
    Front {
        notes: plan
            .notes
            .iter()
            .flat_map(|n| n.lines())
            .map(String::from)
            .collect(),
        sizes,
        woods,
        outside: art.drawing(&unrolled_wall(piece, Side::Outside, &options)),
        inside: art.drawing(&unrolled_wall(piece, Side::Inside, &options)),
        knots: plan
            .sections
            .iter()
            .flat_map(|s| &s.bands)
            .map(|b| knot(b))
            .collect(),
        findings: findings
            .into_iter()
            .map(|f| FindingRow {
                severity: match f.severity {
                    Severity::Stops => "Stops the work",
                    Severity::Risky => "Risky",
                    Severity::WorthKnowing => "Worth knowing",
                },
                stops: f.severity == Severity::Stops,
                what: f.what.clone(),
                remedy: f.remedy.clone(),
            })
            .collect(),
        cautions: GENERAL.into_iter().map(words).collect(),
        chosen: plan
            .chosen
            .iter()
            .map(|c| Setting::from(&c.figure))
            .collect(),
        work: time(plan.minutes),
        operations: plan.operations.len(),
    }
}

/// A band in a sentence.
fn knot(table: &plan::tables::BandTable) -> String {
    let shown = |key: &str| figure(&table.figures, key).map_or("", |f| f.shown.as_str());
    let mut woods: Vec<&str> = table.loops.iter().map(|l| l.wood.as_str()).collect();
    woods.dedup();
    let mut text = format!(
        "{} loops of {} in {}",
        table.loops.len(),
        woods.join(", "),
        table.name.trim_start_matches("the knot of ")
    );
    for (key, word) in [("layer", "layers"), ("tilt", "tilt"), ("reach", "reach")] {
        if !shown(key).is_empty() {
            text += &format!(", {word} {}", shown(key));
        }
    }
    text + "."
}
