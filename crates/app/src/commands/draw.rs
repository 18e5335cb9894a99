//! Drawings and pictures into a folder.

use std::path::PathBuf;

use crate::load::{ProjectArgs, job_or_say};
use crate::output::{print, shown};
use crate::target::fill_folder;
use crate::{CommandError, Outcome};

/// Arguments of `draw`.
#[derive(clap::Args)]
pub struct Args {
    #[command(flatten)]
    project: ProjectArgs,
    /// The folder to write into; made if it is not there.
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Width of the pictures in pixels.
    #[arg(long, default_value_t = 2400, value_parser = clap::value_parser!(u32).range(64..=16384))]
    width: u32,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let job = job_or_say(&args.project)?;
    let Some(piece) = &job.settled.piece else {
        return Err(CommandError::Say(
            "there is no piece to draw; see ringwright check".into(),
        ));
    };
    let files = drawings::draw_all(piece, job.language(), args.width);
    for path in fill_folder(&args.out, files, &job.inputs)? {
        print(&format!("{}\n", shown(&path)))?;
    }
    Ok(true)
}
