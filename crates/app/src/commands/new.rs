//! A project file to start from.

use std::path::PathBuf;

use files::units::{Unit, parse_length};
use geometry::Length;

use crate::starter::{Kind, Wish, write};
use crate::{Outcome, Stop, UnitChoice, print, save};

/// Arguments of `new`.
#[derive(clap::Args)]
pub struct Args {
    /// The file to write.
    file: PathBuf,
    /// What to start from.
    #[arg(long, value_enum, default_value = "bowl")]
    kind: Kind,
    /// Overall height, as `120`, `"120 mm"` or `"4 3/4 in"`.
    #[arg(long)]
    height: Option<String>,
    /// Largest diameter.
    #[arg(long)]
    diameter: Option<String>,
    /// Loops in the knot, 2 to 16; 0 for none.
    #[arg(long, default_value_t = 4, value_parser = loops)]
    loops: usize,
    /// Segments in a ring, 3 to 144.
    #[arg(long, default_value_t = 12, value_parser = clap::value_parser!(u8).range(3..=144))]
    segments: u8,
    /// Unit of the file.
    #[arg(long, value_enum, default_value = "mm")]
    unit: UnitChoice,
    /// Write over a file that is there; it is kept as FILE.previous.
    #[arg(long)]
    force: bool,
}

fn loops(text: &str) -> Result<usize, String> {
    match text.parse() {
        Ok(n) if n == 0 || (2..=16).contains(&n) => Ok(n),
        _ => Err("2 to 16 loops, or 0 for none".into()),
    }
}

/// Runs the command.
pub fn run(args: &Args) -> Outcome {
    let there = || {
        Stop::Say(format!(
            "{0} is there already; --force writes over it and keeps it as {0}.previous",
            args.file.display()
        ))
    };
    if args.file.exists() && !args.force {
        return Err(there());
    }
    let unit = Unit::from(args.unit);
    let given = |text: &Option<String>, what: &str, usual: f64| -> Result<Length, Stop> {
        match text {
            None => Ok(Length::mm(usual)),
            Some(text) => parse_length(text, unit)
                .map_err(|e| Stop::Say(format!("--{what} {text}: {}; {}", e.what, e.remedy))),
        }
    };
    let (tall, wide) = match args.kind {
        Kind::Bowl => (110.0, 220.0),
        Kind::Vase => (250.0, 160.0),
        Kind::Platter => (100.0, 250.0),
        Kind::Box => (100.0, 120.0),
    };
    let title = args
        .file
        .file_stem()
        .map(|s| s.to_string_lossy().replace(['-', '_'], " "))
        .unwrap_or_default();
    let text = write(&Wish {
        kind: args.kind,
        title: if title.is_empty() {
            "Untitled".into()
        } else {
            title
        },
        height: given(&args.height, "height", tall)?,
        diameter: given(&args.diameter, "diameter", wide)?,
        loops: args.loops,
        segments: usize::from(args.segments),
        unit,
    })
    .map_err(Stop::Say)?;
    if args.force {
        save::save(&args.file, text.as_bytes())?;
    } else if !save::create(&args.file, text.as_bytes())? {
        return Err(there());
    }
    print(&format!(
        "Wrote {0}.\nNext: ringwright plan {0}\n",
        args.file.display()
    ))?;
    Ok(true)
}
