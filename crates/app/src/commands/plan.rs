//! The shop plan.

use plan::finding::Severity;

use crate::Outcome;
use crate::load::{ProjectArgs, job_or_say};
use crate::output::{print, print_json};

/// Arguments of `plan`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// For machines: lengths in mm, angles in degrees, each also as shown.
    #[arg(long, conflicts_with = "show_working")]
    json: bool,
    /// Each figure with its formula, what was put in, and the source.
    #[arg(long)]
    show_working: bool,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let plan = plan::plan(&job.settled, job.language());
    let findings = plan.findings.iter();
    let stops = findings.clone().any(|f| f.severity == Severity::Stops);
    if args.json {
        print_json(&plan)?;
    } else {
        print(&plan::render_text(&plan, 80, args.show_working))?;
    }
    Ok(!stops)
}
