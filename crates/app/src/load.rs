//! A project and the workshop it is made in, from their files.

use files::message::{Language, Spelling};
use std::path::{Path, PathBuf};

use clap::Args;
use files::design::Design;
use files::read::{read_usable_design, read_usable_workshop};
use files::reader::text_of;
use files::report::{Places, Problem, render};
use files::workshop::Workshop;
use piece::settle::{Settled, settle};

use crate::disk::{self, FileError, Links, PROJECT, Why};
use crate::output::complain;
use crate::{CommandError, SpellingChoice, UnitChoice};

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
    /// How words are spelled; otherwise as those do who use the file's unit: in an inch file
    /// American.
    #[arg(long)]
    pub spelling: Option<SpellingChoice>,
}

/// A project, read and settled.
pub struct LoadedProject {
    /// What the maker wrote.
    pub design: Design,
    /// Where each key stands in the file.
    pub places: Places,
    /// The piece.
    pub settled: Settled,
    /// The files that were read.
    pub inputs: Vec<PathBuf>,
    /// How words are spelled.
    pub spelling: Spelling,
}

impl LoadedProject {
    /// Whom it is written for.
    pub fn language(&self) -> Language {
        Language::new(self.design.unit, self.spelling)
    }
}

/// A file's problems.
pub struct FileProblems {
    /// The file's name as it was given.
    pub file: String,
    /// Its text, for showing the lines.
    pub text: String,
    /// What is wrong with it.
    pub problems: Vec<Problem>,
}

impl FileProblems {
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

/// The workshop in a file; without one it is the usual workshop.
pub fn workshop_in(path: Option<&PathBuf>) -> Result<Result<Workshop, FileProblems>, CommandError> {
    match path {
        Some(path) => file(path, |_, text| read_usable_workshop(text)),
        None => Ok(Ok(Workshop::default())),
    }
}

/// Reads a project and its workshop: every problem of both files at once.
pub fn job(args: &ProjectArgs) -> Result<Result<LoadedProject, Vec<FileProblems>>, CommandError> {
    let mut inputs = vec![args.file.clone()];
    inputs.extend(workshop_file(&args.file, args.workshop.as_ref()));
    let mut troubles = Vec::new();
    let shop = workshop_in(inputs.get(1))?.unwrap_or_else(|trouble| {
        troubles.push(trouble);
        Workshop::default()
    });
    let read = file(&args.file, |name, text| {
        read_usable_design(name, text, &shop, None)
    })?;
    let (mut design, places) = match read {
        Ok(read) if troubles.is_empty() => read,
        Ok(_) => return Ok(Err(troubles)),
        Err(trouble) => {
            troubles.insert(0, trouble);
            return Ok(Err(troubles));
        }
    };
    let spelling = args
        .spelling
        .map_or(Spelling::of(design.unit), Spelling::from);
    // The file has been read in its own unit; from here on the unit is only written.
    if let Some(unit) = args.unit {
        design.unit = unit.into();
    }
    let settled = settle(&design, &shop);
    Ok(Ok(LoadedProject {
        design,
        places,
        settled,
        inputs,
        spelling,
    }))
}

/// As [`job`], with problems said on stderr.
pub fn job_or_say(args: &ProjectArgs) -> Result<LoadedProject, CommandError> {
    match job(args)? {
        Ok(job) => Ok(job),
        Err(troubles) => {
            for trouble in &troubles {
                complain(&trouble.render());
            }
            Err(CommandError::Said)
        }
    }
}

/// A file's text, read; what is wrong with it otherwise.
fn file<T>(
    path: &Path,
    read: impl FnOnce(&str, &str) -> Result<T, Vec<Problem>>,
) -> Result<Result<T, FileProblems>, CommandError> {
    let file = path.display().to_string();
    let unread = |problem| FileProblems {
        file: file.clone(),
        text: String::new(),
        problems: vec![problem],
    };
    let bytes = match disk::read(path, Links::Followed, &PROJECT) {
        Ok(found) => found.bytes,
        Err(FileError { why, .. }) if matches!(why, Why::TooLarge { .. }) => {
            return Ok(Err(unread(too_large(&why))));
        }
        Err(error) => return Err(error.into()),
    };
    let text = match text_of(&bytes) {
        Ok(text) => text,
        Err(problem) => return Ok(Err(unread(problem))),
    };
    Ok(read(&file, text).map_err(|problems| FileProblems {
        file: file.clone(),
        text: text.into(),
        problems,
    }))
}

/// The problem that the reader itself has with so long a text.
fn too_large(why: &Why) -> Problem {
    Problem {
        place: None,
        key_path: files::key::KeyPath::default(),
        what: why.to_string(),
        remedy: PROJECT.remedy.into(),
    }
}
