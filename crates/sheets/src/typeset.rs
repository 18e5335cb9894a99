//! The typesetter as a library: files in memory in, a PDF out. No network, no disk,
//! no clock, no other type than what the typesetter's assets carry.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::sync::LazyLock;

use piece::work::{Cancel, Cancelled};
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use crate::date::Date;

/// The type of page and paper, and the one that has signs which the first lacks.
const TYPES: [&str; 2] = ["Libertinus Serif", "DejaVu Sans Mono"];
/// The file that the typesetter starts with.
const MAIN: &str = "main.typ";

/// The fonts, read once.
static FONTS: LazyLock<(LazyHash<FontBook>, Vec<Font>)> = LazyLock::new(|| {
    let fonts: Vec<Font> = typst_assets::fonts()
        .flat_map(|data| Font::iter(Bytes::new(data)))
        .filter(|font| TYPES.contains(&font.info().family.as_str()))
        .collect();
    (LazyHash::new(FontBook::from_fonts(&fonts)), fonts)
});

/// The typesetter's own functions, built once.
static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// Files by name. Names are few and always the same: the typesetter keeps them for
/// as long as the program runs.
#[derive(Debug, Default)]
pub struct Files(BTreeMap<String, Bytes>);

impl Files {
    /// Puts a file in.
    pub fn put(&mut self, name: impl Into<String>, data: impl Into<Vec<u8>>) {
        self.0.insert(name.into(), Bytes::new(data.into()));
    }
}

/// What the typesetter may see.
struct PapersWorld<'a> {
    files: &'a Files,
    main: FileId,
    date: Option<Date>,
    cancel: &'a Cancel,
}

impl World for PapersWorld<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &FONTS.0
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let data = self.file(id)?;
        let text = std::str::from_utf8(&data).map_err(|_| FileError::InvalidUtf8)?;
        Ok(Source::new(id, text.into()))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        // The typesetter has no way to be told to stop, but it does when a file is missing.
        self.cancel.check().map_err(|_| FileError::AccessDenied)?;
        let path = id.get();
        let name = path.vpath().get_without_slash();
        let found = match path.root() {
            VirtualRoot::Project => self.files.0.get(name),
            VirtualRoot::Package(_) => None,
        };
        found
            .cloned()
            .ok_or_else(|| FileError::NotFound(name.into()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.1.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        self.date.and_then(day)
    }
}

fn day(date: Date) -> Option<Datetime> {
    Datetime::from_ymd(date.year, date.month, date.day)
}

/// Why there is no PDF.
#[derive(Debug)]
pub enum TypesetError {
    /// Nobody waits for it any more.
    Cancelled(Cancelled),
    /// The typesetter's complaints, each with its template and line: a fault in the program.
    Fault(String),
}

impl std::fmt::Display for TypesetError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            TypesetError::Cancelled(why) => why.fmt(f),
            TypesetError::Fault(what) => write!(f, "the sheets could not be set: {what}"),
        }
    }
}

impl From<Cancelled> for TypesetError {
    fn from(why: Cancelled) -> Self {
        TypesetError::Cancelled(why)
    }
}

impl std::error::Error for TypesetError {}

/// Sets the files as a tagged PDF to PDF/UA-1, as far as the typesetter can check it.
///
/// A maker's own words may be in letters that no type here has. They are printed as
/// boxes, and the PDF, tagged all the same, does not claim the standard.
///
/// # Errors
/// It was given up by `cancel`, or the typesetter's complaints.
pub fn pdf(files: &Files, date: Option<Date>, cancel: &Cancel) -> Result<Vec<u8>, TypesetError> {
    let path = VirtualPath::new(MAIN).map_err(|_| TypesetError::Fault(MAIN.into()))?;
    let world = PapersWorld {
        files,
        main: RootedPath::new(VirtualRoot::Project, path).intern(),
        date,
        cancel,
    };
    let out = issued(&world);
    // What was remembered for this document is of no use to the next.
    typst::comemo::evict(0);
    // Complaints of files that were kept back are none.
    cancel.check()?;
    out
}

/// Set and written out.
fn issued(world: &PapersWorld<'_>) -> Result<Vec<u8>, TypesetError> {
    let set = typst::compile::<PagedDocument>(world);
    let document = set.output.map_err(|all| complaints(world, &all))?;
    world.cancel.check()?;
    let issue = |standards| {
        let options = PdfOptions {
            creator: Smart::Custom(Some("Ringwright".into())),
            timestamp: world.date.and_then(day).map(Timestamp::new_utc),
            standards,
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&document, &options)
    };
    let standard = PdfStandards::new(&[PdfStandard::Ua_1]).unwrap_or_default();
    issue(standard)
        .or_else(|_| issue(PdfStandards::default()))
        .map_err(|all| complaints(world, &all))
}

fn complaints(world: &PapersWorld<'_>, all: &[SourceDiagnostic]) -> TypesetError {
    let mut out = String::new();
    for one in all {
        let place = one.span.id().map_or(String::new(), |id| {
            let line = world
                .range(one.span)
                .and_then(|r| world.source(id).ok()?.lines().byte_to_line(r.start));
            format!(
                "{}:{}: ",
                id.get().vpath().get_without_slash(),
                line.map_or(0, |l| l + 1)
            )
        });
        // Writing to a String cannot fail.
        let _ = write!(out, "{place}{}", one.message);
        for hint in &one.hints {
            let _ = write!(out, " ({})", hint.v);
        }
        out.push('\n');
    }
    TypesetError::Fault(out.trim_end().into())
}
