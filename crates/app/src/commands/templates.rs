//! The full-size templates for laser, CNC and drawing programs.

use std::path::PathBuf;

use crate::load::{ProjectArgs, job_or_say};
use crate::{Outcome, Stop, print, save};

/// Arguments of `templates`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// The folder to write into; made if it is not there.
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(Stop::Say(
            "there is no piece to draw; see ringwright check".into(),
        ));
    };
    std::fs::create_dir_all(&args.out)
        .map_err(|e| Stop::Say(format!("{}: {e}", args.out.display())))?;
    for (name, bytes) in sheets::template_files(piece) {
        let path = args.out.join(name);
        save::replace(&path, &bytes)?;
        print(&format!("{}\n", path.display()))?;
    }
    Ok(true)
}
