//! The papers for the bench, as one PDF.

use std::path::PathBuf;

use clap::ValueEnum;
use plan::finding::Severity;
use sheets::{Date, Paper, Request, Sheet};

use crate::load::{ProjectArgs, job_or_say};
use crate::{Outcome, Stop, print, save};

/// Arguments of `sheets`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// The PDF to write.
    #[arg(long, value_name = "PDF")]
    out: PathBuf,
    /// The paper to print on.
    #[arg(long, default_value = "a4")]
    paper: PaperChoice,
    /// Only these sheets: front, wood, rings, stacking, knot, turning, finishing, templates.
    #[arg(long, value_name = "SHEETS", value_delimiter = ',')]
    only: Vec<Sheet>,
    /// The day to print, as 2026-03-31; otherwise room is left to write it.
    #[arg(long, value_name = "DAY")]
    date: Option<Date>,
}

/// Paper sizes.
#[derive(Clone, Copy, ValueEnum)]
enum PaperChoice {
    /// 210 × 297 mm.
    A4,
    /// 8 1/2 × 11 in.
    Letter,
    /// 297 × 420 mm.
    A3,
    /// 11 × 17 in.
    Tabloid,
}

impl From<PaperChoice> for Paper {
    fn from(choice: PaperChoice) -> Paper {
        match choice {
            PaperChoice::A4 => Paper::A4,
            PaperChoice::Letter => Paper::Letter,
            PaperChoice::A3 => Paper::A3,
            PaperChoice::Tabloid => Paper::Tabloid,
        }
    }
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(Stop::Say(
            "there is no piece to print; see ringwright check".into(),
        ));
    };
    let plan = plan::plan(&job.settled);
    let request = Request {
        paper: args.paper.into(),
        only: args.only.clone(),
        date: args.date,
    };
    save::replace(&args.out, &sheets::pdf(piece, &plan, &request)?)?;
    print(&format!("{}\n", args.out.display()))?;
    Ok(!plan.findings.iter().any(|f| f.severity == Severity::Stops))
}
