//! The two files as JSON Schema, for editors.

use clap::ValueEnum;
use files::keys::File;

use crate::Outcome;
use crate::output::print_json;

/// Arguments of `schema`.
#[derive(clap::Args)]
pub struct Args {
    /// Of which file.
    file: Which,
}

/// One of the two files.
#[derive(Clone, Copy, ValueEnum)]
enum Which {
    /// What is wanted: the project file.
    Project,
    /// What there is: the workshop file.
    Workshop,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let file = match args.file {
        Which::Project => File::Project,
        Which::Workshop => File::Workshop,
    };
    print_json(&files::schema::schema(file))?;
    Ok(true)
}
