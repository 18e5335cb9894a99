//! A project and the workshop it is made in, from their files.

use std::path::{Path, PathBuf};

use clap::Args;
use files::design::Design;
use files::read::{check_against_workshop, read_design, read_workshop};
use files::reader::text_of;
use files::report::{Places, Problem, render};
use files::workshop::Workshop;
use piece::settle::{Settled, settle};

use crate::output::{complain, shown};
use crate::{Stop, UnitChoice};

/// Which project, in which workshop.
#[derive(Args)]
pub struct ProjectArgs {
    /// The project file.
    pub file: PathBuf,
    /// The workshop file; otherwise `workshop.toml` beside the project, if there is one.
    #[arg(long, value_name = "FILE")]
    pub workshop: Option<PathBuf>,
    /// The unit to write in; otherwise the project's.
    #[arg(long)]
    pub unit: Option<UnitChoice>,
}

/// A project, read and settled.
pub struct Job {
    /// What the maker wrote.
    pub design: Design,
    /// Where each key stands in the file.
    pub places: Places,
    /// The piece.
    pub settled: Settled,
    /// The files that were read.
    pub inputs: Vec<PathBuf>,
}

/// A file's problems.
pub struct Trouble {
    /// The file's name as it was given.
    pub file: String,
    /// Its text, for showing the lines.
    pub text: String,
    /// What is wrong with it.
    pub problems: Vec<Problem>,
}

impl Trouble {
    /// The report as people read it.
    pub fn render(&self) -> String {
        render(&self.file, &self.text, &self.problems)
    }
}

/// The workshop's file of a project: the one that is given, or else `workshop.toml`
/// beside the project if there is one.
pub fn workshop_file(project: &Path, given: Option<&PathBuf>) -> Option<PathBuf> {
    let beside = || {
        let path = project.parent()?.join("workshop.toml");
        path.is_file().then_some(path)
    };
    given.cloned().or_else(beside)
}

/// Reads a workshop's file; without one it is the usual workshop.
pub fn workshop(file: Option<&PathBuf>) -> Result<Result<Workshop, Trouble>, Stop> {
    let Some(path) = file else {
        return Ok(Ok(Workshop::default()));
    };
    let read = parsed(path, |_, text| read_workshop(text))?;
    Ok(read.map(|(workshop, _)| workshop))
}

/// Reads a project and its workshop: every problem of both files at once.
pub fn job(args: &ProjectArgs) -> Result<Result<Job, Vec<Trouble>>, Stop> {
    let mut inputs = vec![args.file.clone()];
    inputs.extend(workshop_file(&args.file, args.workshop.as_ref()));
    let mut troubles = Vec::new();
    let workshop = workshop(inputs.get(1))?.unwrap_or_else(|trouble| {
        troubles.push(trouble);
        Workshop::default()
    });
    match parsed(&args.file, read_design)? {
        Err(trouble) => troubles.insert(0, trouble),
        Ok((mut design, places)) => {
            // The file has been read in its own unit; from here on the unit is only written.
            if let Some(unit) = args.unit {
                design.unit = unit.into();
            }
            let problems = check_against_workshop(&design, &workshop, &places);
            if problems.is_empty() && troubles.is_empty() {
                let settled = settle(&design, &workshop);
                return Ok(Ok(Job {
                    design,
                    places,
                    settled,
                    inputs,
                }));
            }
            if !problems.is_empty() {
                troubles.insert(
                    0,
                    Trouble {
                        file: args.file.display().to_string(),
                        text: std::fs::read_to_string(&args.file)?,
                        problems,
                    },
                );
            }
        }
    }
    Ok(Err(troubles))
}

/// As [`job`], with problems said on stderr.
pub fn job_or_say(args: &ProjectArgs) -> Result<Job, Stop> {
    match job(args)? {
        Ok(job) => Ok(job),
        Err(troubles) => {
            for trouble in &troubles {
                complain(&trouble.render());
            }
            Err(Stop::Said)
        }
    }
}

type Reader<T> = fn(&str, &str) -> (Option<T>, Places, Vec<Problem>);

fn parsed<T>(path: &Path, read: Reader<T>) -> Result<Result<(T, Places), Trouble>, Stop> {
    let file = path.display().to_string();
    let bytes = std::fs::read(path).map_err(|e| Stop::Say(format!("{}: {e}", shown(path))))?;
    let text = match text_of(&bytes) {
        Ok(text) => text.to_string(),
        Err(problem) => {
            return Ok(Err(Trouble {
                file,
                text: String::new(),
                problems: vec![problem],
            }));
        }
    };
    let (value, places, problems) = read(&file, &text);
    Ok(match value {
        Some(value) if problems.is_empty() => Ok((value, places)),
        _ => Err(Trouble {
            file,
            text,
            problems,
        }),
    })
}
