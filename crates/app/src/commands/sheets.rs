//! The papers for the bench, as one PDF.

use std::path::PathBuf;

use piece::work::Cancel;
use plan::finding::Severity;
use sheets::{Date, Paper, Request, Sheet};

use crate::load::{ProjectArgs, job_or_say};
use crate::output::{print, shown};
use crate::target::{Content, Target};
use crate::{CommandError, Outcome};

/// Arguments of `sheets`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// The PDF to write.
    #[arg(long, value_name = "PDF")]
    out: PathBuf,
    /// The paper to print on: a4, letter, a3 or tabloid.
    #[arg(long, default_value = "a4")]
    paper: Paper,
    /// Only these sheets: front, wood, rings, stacking, knot, turning, finishing, templates.
    #[arg(long, value_name = "SHEETS", value_delimiter = ',')]
    only: Vec<Sheet>,
    /// The day to print, as 2026-03-31; otherwise room is left to write it.
    #[arg(long, value_name = "DAY")]
    date: Option<Date>,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(CommandError::Say(
            "there is no piece to print; see ringwright check".into(),
        ));
    };
    let target = Target::new(&args.out, Content::Pdf, &job.inputs)?;
    let plan = plan::plan(&job.settled, job.language());
    let request = Request {
        paper: args.paper,
        only: args.only.clone(),
        date: args.date,
    };
    target.replace(&sheets::pdf(piece, &plan, &request, &Cancel::default())?)?;
    print(&format!("{}\n", shown(target.path())))?;
    Ok(!plan.findings.iter().any(|f| f.severity == Severity::Stops))
}
