//! Volumes and weights by wood, before and after turning.

use std::collections::BTreeMap;
use std::path::PathBuf;

use files::report::on_one_line;
use files::units::{Unit, fixed};
use geometry::{Turned, VolumeMoments};
use piece::model::{WoodId, volumes_by_part, volumes_by_wood};
use piece::piece::Piece;
use serde_json::{Value, json};

use crate::load::{ProjectArgs, job_or_say};
use crate::output::{print, print_json};
use crate::target::{Content, Target};
use crate::{CommandError, Outcome};

mod solid;

/// Arguments of `weigh`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// For machines: volumes in mm³, weights in g.
    #[arg(long)]
    json: bool,
    /// Relative error of the volumes.
    #[arg(long, default_value_t = 1e-5, value_parser = tolerance)]
    tolerance: f64,
    /// Also write the model as plain numbers (rings, cuts, turned outline), to be
    /// checked with a mesh kernel.
    #[arg(long, value_name = "JSON")]
    solid: Option<PathBuf>,
}

fn tolerance(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(t) if (1e-9..=0.1).contains(&t) => Ok(t),
        _ => Err("a number from 1e-9 to 0.1".into()),
    }
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(CommandError::Say(
            "there is no piece to weigh; see ringwright check".into(),
        ));
    };
    let solid = args.solid.as_ref();
    let solid = solid.map(|path| Target::new(path, Content::Solid, &job.inputs));
    let solid = solid.transpose()?;
    let sums = |form: Option<&dyn Turned>| {
        volumes_by_wood(&volumes_by_part(&piece.stack, form, args.tolerance))
    };
    let (before, after) = (sums(None), sums(Some(piece.form.outline())));
    if let Some(target) = solid {
        let text = serde_json::to_string_pretty(&solid::solid(piece))?;
        target.replace(text.as_bytes())?;
    }
    if args.json {
        print_json(&as_json(piece, &before, &after))?;
    } else {
        let unit = job.design.unit;
        print(&table(piece, unit, &before, &after))?;
    }
    Ok(true)
}

type Sums = BTreeMap<WoodId, VolumeMoments>;

/// Weight in g; `None` where a wood's density is not known.
fn weight(piece: &Piece, sums: &Sums) -> Option<f64> {
    sums.iter()
        .map(|(id, v)| piece.wood(*id).grams(v.volume))
        .sum()
}

fn volume(sums: &Sums) -> f64 {
    sums.values().map(|v| v.volume).sum()
}

fn as_json(piece: &Piece, before: &Sums, after: &Sums) -> Value {
    let side = |sums: &Sums| {
        let woods: BTreeMap<&str, Value> = sums
            .iter()
            .map(|(id, v)| {
                (
                    piece.wood_name(*id),
                    json!({
                        "mm3": v.volume,
                        "g": piece.wood(*id).grams(v.volume),
                        "centre_mm": v.centre().to_array(),
                    }),
                )
            })
            .collect();
        json!({ "woods": woods, "mm3": volume(sums), "g": weight(piece, sums) })
    };
    json!({
        "title": piece.title,
        "before_turning": side(before),
        "after_turning": side(after),
    })
}

fn table(piece: &Piece, unit: Unit, before: &Sums, after: &Sums) -> String {
    let grams = |id: &WoodId, sums: &Sums| {
        sums.get(id)
            .map(|v| piece.wood(*id).grams(v.volume))
            .map_or_else(
                || unit.weight(0.0),
                |g| g.map_or("not known".into(), |g| unit.weight(g)),
            )
    };
    let mm3 = |id: &WoodId, sums: &Sums| unit.volume(sums.get(id).map_or(0.0, |v| v.volume));
    let row = |cells: [String; 5]| {
        let line = format!(
            "{:<20}{:>15}{:>14}{:>15}{:>14}",
            cells[0], cells[1], cells[2], cells[3], cells[4]
        );
        line.trim_end().to_string() + "\n"
    };
    let mut out = format!("{}\n\n", on_one_line(&piece.title));
    out += &row(["", "as glued", "", "turned", ""].map(String::from));
    for id in before.keys() {
        let name: String = on_one_line(piece.wood_name(*id)).chars().take(19).collect();
        out += &row([
            name,
            mm3(id, before),
            grams(id, before),
            mm3(id, after),
            grams(id, after),
        ]);
    }
    let total = |sums: &Sums| weight(piece, sums).map_or("not known".into(), |g| unit.weight(g));
    out += &row([
        "together".into(),
        unit.volume(volume(before)),
        total(before),
        unit.volume(volume(after)),
        total(after),
    ]);
    let (whole, left) = (volume(before), volume(after));
    if whole > 0.0 {
        out += &format!(
            "\nTurning leaves {} % of the wood that was glued.\n",
            fixed(100.0 * left / whole, 1)
        );
    }
    out += "Weights are estimates from tabled densities at 12 % moisture.\n";
    for wood in piece.woods.iter() {
        if let Some(note) = wood.uncertain.as_ref().or(wood.note.as_ref()) {
            out += &format!("{}\n", on_one_line(&format!("{}: {note}", wood.plain)));
        }
    }
    out
}
