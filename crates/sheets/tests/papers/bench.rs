//! The examples, planned and set.

use files::message::Language;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use files::units::Unit;
use files::workshop::Workshop;
use piece::piece::Piece;
use piece::settle::{Settled, settle};
use piece::work::Cancel;
use plan::Plan;
use sheets::{Paper, Request, Sheet};

/// An example, planned in a unit.
pub struct Job {
    pub settled: Settled,
    pub plan: Plan,
    pub language: Language,
}

impl Job {
    pub fn piece(&self) -> &Piece {
        self.settled
            .piece
            .as_ref()
            .expect("every example is a piece")
    }

    pub fn pdf(&self, paper: Paper, only: &[Sheet]) -> Vec<u8> {
        let request = Request {
            paper,
            only: only.to_vec(),
            date: "2026-03-02".parse().ok(),
        };
        sheets::pdf(self.piece(), &self.plan, &request, &Cancel::default())
            .expect("the sheets can be set")
    }
}

/// Every example's file.
pub fn examples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut all: Vec<PathBuf> = fs::read_dir(folder)
        .expect("there are examples")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .filter(|path| path.file_name().is_some_and(|n| n != "workshop.toml"))
        .collect();
    all.sort();
    assert!(all.len() >= 3, "only {} examples", all.len());
    all
}

pub fn job(path: &Path, unit: Unit) -> Job {
    let text = fs::read_to_string(path).expect("a readable example");
    let (design, _, problems) = files::read::read_design("example", &text);
    assert!(problems.is_empty(), "{}: {problems:?}", path.display());
    let mut design = design.expect("an example without problems");
    design.unit = unit;
    let settled = settle(&design, &Workshop::default());
    let plan = plan::plan(&settled, unit);
    Job {
        settled,
        plan,
        language: unit.into(),
    }
}

/// The example with that word in its name.
pub fn example(word: &str, unit: Unit) -> Job {
    let all = examples();
    let path = all
        .iter()
        .find(|p| p.to_string_lossy().contains(word))
        .unwrap_or(&all[0]);
    job(path, unit)
}

/// A file that is gone when it is dropped.
pub struct Scratch {
    _folder: tempfile::TempDir,
}

impl Scratch {
    pub fn with(bytes: &[u8]) -> (Self, PathBuf) {
        let folder = tempfile::tempdir().expect("a folder for scratch");
        let path = folder.path().join("papers.pdf");
        fs::write(&path, bytes).expect("room for the PDF");
        (Scratch { _folder: folder }, path)
    }
}

/// A tool of poppler-utils.
pub fn poppler(tool: &str, arguments: &[&str]) -> Output {
    let ran = Command::new(tool).args(arguments).output();
    let out = ran.unwrap_or_else(|e| panic!("{tool} of poppler-utils is needed here: {e}"));
    assert!(
        out.status.success(),
        "{tool}: {}",
        String::from_utf8_lossy(&out.stderr)
    );
    out
}
