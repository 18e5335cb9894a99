//! Sheet 1: what it will be, and what to watch for.

use drawings::vector::Looks;
use drawings::views::{Options, unrolled_wall};
use drawings::{Camera, WallSide, portrait};
use files::message::Said;
use files::report::said;
use geometry::{Angle, Length};
use plan::caution::Caution;
use plan::finding::Severity;
use serde::Serialize;

use super::art::{Art, Picture};
use super::steps::{Words, capital, time, words};
use super::{Setting, Source, held};
use plan::tables::figure;

/// Room for an unrolled wall.
const WALL: Length = Length::mm(150.0);

/// The front sheet.
#[derive(Debug, Serialize)]
pub struct Front {
    notes: Vec<String>,
    sizes: Vec<Setting>,
    woods: Vec<WoodRow>,
    /// From the side, and into it from above.
    portraits: [Picture; 2],
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
    let options = Options::within(source.plan.language(), WALL);
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
    let mut findings: Vec<_> = plan.findings.iter().collect();
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
        portraits: portraits(source, art),
        outside: art.without(
            unrolled_wall(piece, WallSide::Outside, &options),
            &["heading"],
        ),
        inside: art.without(
            unrolled_wall(piece, WallSide::Inside, &options),
            &["heading"],
        ),
        knots: plan
            .sections
            .iter()
            .flat_map(|s| &s.bands)
            .map(knot)
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
                what: held(&capital(&f.what)),
                remedy: held(&f.remedy.words),
            })
            .collect(),
        cautions: GENERAL
            .into_iter()
            .map(|c| words(c, source.plan.spelling))
            .collect(),
        chosen: plan
            .chosen
            .iter()
            .map(|c| Setting {
                label: format!("{} ({})", c.figure.label, said(&c.path)),
                value: c.figure.shown.clone(),
            })
            .collect(),
        work: time(plan.minutes),
        operations: plan.operations.len(),
    }
}

/// Width of a portrait on paper, mm, and in pixels: 154 to the inch.
const PORTRAIT: (f64, u32) = (89.0, 540);

fn portraits(source: &Source<'_>, art: &mut Art) -> [Picture; 2] {
    let title = &source.plan.title;
    let above = Camera {
        elevation: Angle::deg(58.0),
        ..Camera::default()
    };
    [
        (Camera::default(), format!("{title}, from a little above.")),
        (above, format!("{title}, looking into it.")),
    ]
    .map(|(camera, alt)| {
        let (wide, pixels) = PORTRAIT;
        let image = portrait(source.piece, pixels, pixels, &camera);
        art.png(image.to_png(), (image.width, image.height), wide, alt)
    })
}

/// A band in a sentence.
fn knot(table: &plan::tables::BandTable<Said>) -> String {
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
    held(&(text + "."))
}
