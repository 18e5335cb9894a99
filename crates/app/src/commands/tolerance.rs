//! How exact must the maker be?

use std::path::PathBuf;

use files::report::on_one_line;
use files::units::{Unit, parse_length};
use geometry::Length;
use piece::work::Cancel;
use plan::tolerance::{Limits, MOST_MAKINGS, Makings, study};

use crate::load::{ProjectArgs, job_or_say};
use crate::output::{print, print_json, shown};
use crate::target::fill_folder;
use crate::{CommandError, Outcome};

/// Arguments of `tolerance`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// How many times the piece is made.
    #[arg(long, default_value_t = 10_000, value_parser = makings)]
    makings: usize,
    /// Picks the chance; the same seed gives the same figures.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// What the eye sees, such as "0.3 mm" or "1/64 in" [default: 0.3 mm].
    #[arg(long, value_name = "LENGTH")]
    limit: Option<String>,
    /// The least wall [default: three quarters of the thinnest as drawn].
    #[arg(long, value_name = "LENGTH")]
    wall_limit: Option<String>,
    /// For machines: lengths in mm, angles in degrees, each also as shown.
    #[arg(long, conflicts_with = "show_working")]
    json: bool,
    /// How each figure is measured, and where the method comes from.
    #[arg(long)]
    show_working: bool,
    /// Also draw the worst, a typical and the perfect wall side by side, into a folder.
    #[arg(long, value_name = "DIR")]
    pictures: Option<PathBuf>,
}

fn makings(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(n) if (1..=MOST_MAKINGS).contains(&n) => Ok(n),
        _ => Err(format!("a whole number from 1 to {MOST_MAKINGS}")),
    }
}

fn length(name: &str, text: Option<&String>, unit: Unit) -> Result<Option<Length>, CommandError> {
    let Some(text) = text else {
        return Ok(None);
    };
    let say = |what: &str, remedy: &str| {
        let what = on_one_line(what);
        CommandError::Say(format!("{name}: {what}; {remedy}"))
    };
    let length = parse_length(text, unit).map_err(|e| say(&e.what, &e.remedy))?;
    if length.as_mm() < 0.0 {
        return Err(say(
            &format!("\"{text}\" is less than nothing"),
            "give a length such as \"0.3 mm\"",
        ));
    }
    Ok(Some(length))
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(CommandError::Say(
            "there is no piece to make; see ringwright check".into(),
        ));
    };
    let unit = job.design.unit;
    let limits = Limits {
        eye: length("--limit", args.limit.as_ref(), unit)?,
        wall: length("--wall-limit", args.wall_limit.as_ref(), unit)?,
    };
    let makings = Makings {
        count: args.makings,
        seed: args.seed,
    };
    let study = study(piece, makings, &limits, job.language(), &Cancel::default())?;
    if args.json {
        print_json(&study)?;
    } else {
        print(&plan::render_study(&study, 80, args.show_working))?;
    }
    let Some(folder) = &args.pictures else {
        return Ok(true);
    };
    let files = drawings::draw_makings(piece, &study);
    for path in fill_folder(folder, files, &job.inputs)? {
        if !args.json {
            print(&format!("{}\n", shown(&path)))?;
        }
    }
    Ok(true)
}
