//! `ringwright`: from a project file to a shop plan, pictures and figures.
//!
//! Exit codes: 0 when all is well, 1 when the work as planned cannot be done (a
//! finding stops it), 2 when a file or a call is wrong.

mod commands;
mod disk;
mod load;
mod output;
mod save;
mod serve;
mod target;

use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};
use files::message::Spelling;
use files::units::Unit;

/// Plans segmented turned pieces with sawn-in loops, from a project file.
#[derive(Parser)]
#[command(name = "ringwright", version, about, max_term_width = 80)]
struct Call {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Write a complete, commented project file to start from.
    New(commands::new::Args),
    /// Say every problem of a project file, and what will go wrong in the shop.
    Check(commands::check::Args),
    /// Write the shop plan: the numbered route with settings, measures and cautions.
    Plan(commands::plan::Args),
    /// Draw the walls, the half-section, the rings, the sled and the piece.
    Draw(commands::draw::Args),
    /// Print the plan: the papers for saw, bench and lathe, as one PDF.
    Sheets(commands::sheets::Args),
    /// Write the full-size templates as SVG and DXF, for laser, CNC and drawing programs.
    Templates(commands::templates::Args),
    /// Say which wood is at each point of a CSV list (x, y, z).
    Probe(commands::probe::Args),
    /// How exact you must be: the piece made many times over with errors by chance.
    Tolerance(commands::tolerance::Args),
    /// Volumes and weights by wood, before and after turning.
    Weigh(commands::weigh::Args),
    /// Write the JSON Schema of the project or workshop file, for editors.
    Schema(commands::schema::Args),
    /// Open a folder of projects in the browser: shape, see and plan them there.
    Open(commands::open::Args),
}

/// The unit to write in.
#[derive(Clone, Copy, ValueEnum)]
enum UnitChoice {
    /// Millimetres.
    Mm,
    /// Inches and fractions.
    #[value(alias = "in")]
    Inch,
}

impl From<UnitChoice> for Unit {
    fn from(choice: UnitChoice) -> Unit {
        match choice {
            UnitChoice::Mm => Unit::Mm,
            UnitChoice::Inch => Unit::Inch,
        }
    }
}

/// `--spelling`.
#[derive(Clone, Copy, clap::ValueEnum)]
enum SpellingChoice {
    /// mitre, centre, colour.
    British,
    /// miter, center, color.
    American,
}

impl From<SpellingChoice> for Spelling {
    fn from(choice: SpellingChoice) -> Spelling {
        match choice {
            SpellingChoice::British => Spelling::British,
            SpellingChoice::American => Spelling::American,
        }
    }
}

/// Why a command stopped short.
enum CommandError {
    /// Already said on stderr; the file or the call is wrong.
    Said,
    /// To be said on stderr.
    Say(String),
}

impl CommandError {
    /// Says what is still to be said, and gives the exit code.
    fn code(&self) -> ExitCode {
        if let CommandError::Say(what) = self {
            output::complain(&format!("ringwright: {what}\n"));
        }
        ExitCode::from(output::WRONG)
    }
}

impl<E: std::error::Error> From<E> for CommandError {
    fn from(e: E) -> Self {
        CommandError::Say(e.to_string())
    }
}

/// What a command ends with: may the work go on as planned?
type Outcome = Result<bool, CommandError>;

fn main() -> ExitCode {
    let call = match Call::try_parse() {
        Ok(call) => call,
        Err(e) => return output::explain_call(e),
    };
    let outcome = match &call.command {
        Command::New(args) => commands::new::run(args),
        Command::Check(args) => commands::check::run(args),
        Command::Plan(args) => commands::plan::run(args),
        Command::Draw(args) => commands::draw::run(args),
        Command::Sheets(args) => commands::sheets::run(args),
        Command::Templates(args) => commands::templates::run(args),
        Command::Probe(args) => commands::probe::run(args),
        Command::Tolerance(args) => commands::tolerance::run(args),
        Command::Weigh(args) => commands::weigh::run(args),
        Command::Schema(args) => commands::schema::run(args),
        Command::Open(args) => commands::open::run(args),
    };
    match outcome {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::from(1),
        Err(stop) => stop.code(),
    }
}
