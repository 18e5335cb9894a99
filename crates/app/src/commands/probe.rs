//! Which wood is at these points?

use std::path::{Path, PathBuf};

use files::report::on_one_line;
use files::units::Unit;
use glam::DVec3;
use piece::model::{Part, StepKind};
use piece::piece::Piece;

use crate::disk::{self, Links, POINTS};
use crate::load::{ProjectArgs, job_or_say};
use crate::output::{print, shown};
use crate::{CommandError, Outcome};

/// Arguments of `probe`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// Points as CSV: x, y, z in the project's unit (or `--unit`), the axis being z
    /// and z = 0 the foot; a first line of names may stand above them.
    #[arg(long, value_name = "CSV")]
    points: PathBuf,
    /// Ask the glued stack before it is turned instead of the finished piece.
    #[arg(long)]
    before_turning: bool,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(CommandError::Say(
            "there is no piece to ask; see ringwright check".into(),
        ));
    };
    let unit = job.design.unit;
    let scale = match unit {
        Unit::Mm => 1.0,
        Unit::Inch => 25.4,
    };
    let points = points(&args.points)?;
    let mut out = csv::Writer::from_writer(Vec::new());
    out.write_record([
        "x", "y", "z", "wood", "section", "ring", "segment", "part", "step",
    ])?;
    for p in points {
        let mut row = vec![p.x.to_string(), p.y.to_string(), p.z.to_string()];
        let answer = answer(piece, p * scale, args.before_turning);
        row.extend(answer.iter().map(|cell| on_one_line(cell)));
        out.write_record(&row)?;
    }
    let bytes = out
        .into_inner()
        .map_err(|e| CommandError::Say(e.to_string()))?;
    print(&String::from_utf8_lossy(&bytes))?;
    Ok(true)
}

/// Wood, section, ring, segment, part and step; empty where there is no wood.
fn answer(piece: &Piece, p: DVec3, before_turning: bool) -> [String; 6] {
    let spot = if before_turning {
        piece.stack.wood_at(p)
    } else {
        piece.stack.turned_wood_at(piece.form.outline(), p)
    };
    let Some(spot) = spot else {
        return Default::default();
    };
    let section = &piece.sections[usize::from(spot.section)];
    let (mut ring, mut segment, mut step) = (String::new(), String::new(), String::new());
    let part = match spot.part {
        Part::Segment {
            ring: r,
            segment: s,
        } => {
            ring = (r + 1).to_string();
            segment = (s + 1).to_string();
            "segment".to_string()
        }
        Part::Disc { ring: r } => {
            ring = (r + 1).to_string();
            "disc".to_string()
        }
        Part::Panel { ring: r } => {
            ring = (r + 1).to_string();
            "floor panel".to_string()
        }
        Part::Layer {
            step: s,
            segment: k,
        } => {
            step = (s + 1).to_string();
            segment = (k + 1).to_string();
            let placed = &piece.stack.sections()[usize::from(spot.section)];
            match placed.body.steps()[usize::from(s)].kind {
                StepKind::Loop { band, number } => {
                    format!("band {} loop {}", band + 1, number + 1)
                }
                StepKind::Split { number } => format!("split {}", number + 1),
                StepKind::Joint { ring } => format!("joint under ring {}", ring + 1),
            }
        }
    };
    [
        piece.wood_name(spot.wood).to_string(),
        section.name.clone(),
        ring,
        segment,
        part,
        step,
    ]
}

fn points(path: &Path) -> Result<Vec<DVec3>, CommandError> {
    let name = shown(path);
    let found = disk::read(path, Links::Followed, &POINTS)?;
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .trim(csv::Trim::All)
        .flexible(true)
        .from_reader(found.bytes.as_slice());
    let mut out = Vec::new();
    let mut wrong = Vec::new();
    for (i, record) in reader.records().enumerate() {
        let line = i + 1;
        let record = match record {
            Ok(record) => record,
            Err(e) => {
                wrong.push(format!("{name}:{line}: {e}"));
                continue;
            }
        };
        let numbers: Vec<f64> = record
            .iter()
            .take(3)
            .filter_map(|f| f.parse().ok())
            .filter(|v: &f64| v.is_finite())
            .collect();
        match numbers[..] {
            [x, y, z] => out.push(DVec3::new(x, y, z)),
            _ if i == 0 => {}
            _ => wrong.push(format!(
                "{name}:{line}: needs three numbers x, y, z; found \"{}\"",
                on_one_line(&record.iter().collect::<Vec<_>>().join(", "))
            )),
        }
    }
    if wrong.is_empty() {
        Ok(out)
    } else {
        Err(CommandError::Say(wrong.join("\n")))
    }
}
