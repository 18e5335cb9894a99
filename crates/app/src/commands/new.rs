//! A project file to start from.

use std::path::PathBuf;

use files::report::on_one_line;
use files::units::{Unit, parse_length};
use geometry::Length;

use crate::load::{workshop_file, workshop_in};
use crate::output::{complain, print, shown};
use crate::target::{Content, Target};
use crate::{CommandError, Outcome, UnitChoice};
use editor::starter::{Answer, NewPiece, PieceKind, Refusal, write};

/// A kind of piece to start from.
#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum KindChoice {
    /// An open bowl.
    Bowl,
    /// A vase with a belly and a neck.
    Vase,
    /// A wide platter with a low wall.
    Platter,
    /// A straight-sided box with a floor that is free to move.
    Box,
}

impl From<KindChoice> for PieceKind {
    fn from(choice: KindChoice) -> PieceKind {
        match choice {
            KindChoice::Bowl => PieceKind::Bowl,
            KindChoice::Vase => PieceKind::Vase,
            KindChoice::Platter => PieceKind::Platter,
            KindChoice::Box => PieceKind::Box,
        }
    }
}

/// Arguments of `new`.
#[derive(clap::Args)]
pub struct Args {
    /// The file to write.
    file: PathBuf,
    /// What to start from.
    #[arg(long, value_enum, default_value = "bowl")]
    kind: KindChoice,
    /// Overall height, as `120`, `"120 mm"` or `"4 3/4 in"`.
    #[arg(long, allow_negative_numbers = true)]
    height: Option<String>,
    /// Largest diameter.
    #[arg(long, allow_negative_numbers = true)]
    diameter: Option<String>,
    /// Loops in the knot, 2 to 16; 0 for none.
    #[arg(long, default_value_t = 4, allow_negative_numbers = true)]
    loops: i64,
    /// Segments in a ring, 3 to 144.
    #[arg(long, default_value_t = 12, allow_negative_numbers = true)]
    segments: i64,
    /// Unit of the file.
    #[arg(long, value_enum, default_value = "mm")]
    unit: UnitChoice,
    /// The workshop file; otherwise `workshop.toml` beside the file, if there is one.
    #[arg(long, value_name = "FILE")]
    workshop: Option<PathBuf>,
    /// Write over a project that is there; it is kept as FILE.previous.
    #[arg(long)]
    force: bool,
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let name = shown(&args.file);
    let is_there = || {
        CommandError::Say(format!(
            "{name} is there already; --force writes over a project and keeps it as \
             {name}.previous"
        ))
    };
    // Whatever is there is in the way, a link that leads nowhere too.
    if std::fs::symlink_metadata(&args.file).is_ok() && !args.force {
        return Err(is_there());
    }
    let workshop_file = workshop_file(&args.file, args.workshop.as_ref());
    let inputs: Vec<PathBuf> = workshop_file.iter().cloned().collect();
    let target = Target::new(&args.file, Content::Project, &inputs)?;
    let workshop = workshop_in(workshop_file.as_ref())?.map_err(|trouble| {
        complain(&trouble.render());
        CommandError::Said
    })?;
    let new = asked_for(args)?;
    let text = write(&new, &workshop).map_err(|refusals| {
        let said: Vec<String> = refusals.iter().map(|r| in_words(r, new.unit)).collect();
        CommandError::Say(said.join("\n"))
    })?;
    if args.force {
        target.save(text.as_bytes())?;
    } else if !target.create(text.as_bytes())? {
        return Err(is_there());
    }
    print(&format!("Wrote {name}.\nNext: ringwright plan {name}\n"))?;
    Ok(true)
}

fn asked_for(args: &Args) -> Result<NewPiece, CommandError> {
    let unit = Unit::from(args.unit);
    let length = |text: &Option<String>, what: &str, usual: Length| match text {
        None => Ok(usual),
        Some(text) => parse_length(text, unit).map_err(|e| {
            let why = on_one_line(&e.what);
            CommandError::Say(format!("--{what}: {why}; {}", e.remedy))
        }),
    };
    let kind = PieceKind::from(args.kind);
    let (height, diameter) = kind.usual_size(unit);
    let stem = args.file.file_stem();
    let title = stem.map(|s| s.to_string_lossy().replace(['-', '_'], " "));
    Ok(NewPiece {
        kind,
        title: title
            .filter(|title| !title.trim().is_empty())
            .unwrap_or_else(|| "Untitled".into()),
        height: length(&args.height, "height", height)?,
        diameter: length(&args.diameter, "diameter", diameter)?,
        loops: args.loops,
        segments: args.segments,
        unit,
    })
}

/// A refusal with the options that would do.
fn in_words(refusal: &Refusal, unit: Unit) -> String {
    let option = |answer: &Answer| {
        let (question, entered) = (answer.question(), answer.entered(unit));
        match answer {
            Answer::Height(_) | Answer::Diameter(_) => format!("--{question} \"{entered}\""),
            Answer::Loops(_) | Answer::Segments(_) => format!("--{question} {entered}"),
        }
    };
    let remedy = refusal.remedy.words(|answers| {
        let options: Vec<String> = answers.iter().map(option).collect();
        options.join(" ")
    });
    let what = on_one_line(&refusal.what);
    match refusal.about {
        Some(answer) => format!("--{}: {what}; {remedy}", answer.question()),
        None => format!("{what}; {remedy}"),
    }
}
