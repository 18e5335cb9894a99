//! All that the page shows of one piece, from the settled piece and its plan.

mod bands;
mod blanks;
mod fix;
mod form;
mod plan;
mod rings;
mod spot;
mod woods;
mod workshop;

use ::plan::tables::SectionTable;
use files::message::Language;
use files::units::Unit;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use piece::piece::Piece;

use super::open_projects::Revision;
use super::wire::{Counts, PageUnit, Pictures, Problem, Route, Section, View};

pub use plan::{counts, steps};
pub use spot::spot;
pub use workshop::{workshop_ground, workshop_view};

/// What a view needs besides the piece.
pub struct About<'a> {
    /// The project's name.
    pub name: &'a str,
    /// Whom it is for.
    pub language: Language,
    /// With the route, its figures and ways out; without it for a quick preview.
    pub whole: bool,
    /// When it was saved; nothing for a preview.
    pub saved: Option<f64>,
    /// Steps that can be undone and redone.
    pub steps: (u32, u32),
    /// What is wrong with the file on disk.
    pub problems: Vec<Problem>,
}

/// The page's unit as the model's.
pub fn unit(page: PageUnit) -> Unit {
    match page {
        PageUnit::Mm => Unit::Mm,
        PageUnit::Inch => Unit::Inch,
    }
}

/// The model's unit as the page's.
pub fn page_unit(unit: Unit) -> PageUnit {
    match unit {
        Unit::Mm => PageUnit::Mm,
        Unit::Inch => PageUnit::Inch,
    }
}

/// The view of a piece.
pub fn view(revision: &Revision, about: About<'_>) -> View {
    let unit = about.language.unit;
    let shown = revision.shown(about.language);
    let mut view = View {
        title: revision.design.title.clone(),
        notes: revision.design.notes.clone().unwrap_or_default(),
        file_unit: page_unit(revision.design.unit),
        version: revision.version.clone(),
        ..empty(about.name, about.language, about.problems)
    };
    (view.saved, view.undo, view.redo) = (about.saved, about.steps.0, about.steps.1);
    let Some(piece) = &shown.settled.piece else {
        return view;
    };
    let place = format!("/api/piece/{}", encoded(about.name));
    let address = format!("{place}/picture");
    view.blanks = blanks::project(revision, piece, unit);
    view.form = Some(form::form(
        revision,
        piece,
        about.language,
        &address,
        about.whole,
    ));
    view.sections = sections(piece, about.language);
    view.woods = woods::woods(revision, piece);
    view.findings = plan::findings(revision, about.language, about.whole);
    view.counts = counts(shown.findings());
    view.pictures = Some(pictures(&address, &revision.version));
    if about.whole {
        let plan = shown.plan();
        view.route = Some(Route {
            operations: plan
                .operations
                .iter()
                .map(|o| plan::operation(o, unit, (&place, &revision.version)))
                .collect(),
            steps: plan::steps(piece, &plan.operations),
            work: plan::minutes(plan.minutes),
            waiting: plan::hours(plan.wait_hours),
            studies: plan.studies.iter().map(|s| plan::study(s, unit)).collect(),
        });
    }
    view
}

/// The view of a project that never had a usable text.
pub fn empty(name: &str, language: Language, problems: Vec<Problem>) -> View {
    View {
        name: name.into(),
        title: name.into(),
        notes: String::new(),
        unit: page_unit(language.unit),
        file_unit: page_unit(language.unit),
        spelling: language.spelling.into(),
        version: String::new(),
        saved: None,
        undo: 0,
        redo: 0,
        problems,
        blanks: Default::default(),
        form: None,
        sections: Vec::new(),
        woods: Vec::new(),
        findings: Vec::new(),
        counts: Counts::default(),
        route: None,
        pictures: None,
    }
}

fn pictures(address: &str, version: &str) -> Pictures {
    let at = |what: &str| format!("{address}/{what}.png?v={version}");
    Pictures {
        outside: at("outside"),
        inside: at("inside"),
        section: at("section"),
        level: at("level"),
        portrait: at("portrait"),
    }
}

fn sections(piece: &Piece, language: Language) -> Vec<Section> {
    let unit = language.unit;
    piece
        .sections
        .iter()
        .enumerate()
        .map(|(number, section)| {
            let table = SectionTable::of(piece, number).map(|t| t.said(language));
            Section {
                path: format!("section[{number}]"),
                name: section.name.clone(),
                z0: section.bottom.as_mm(),
                z1: (section.bottom + section.height).as_mm(),
                rings: rings::rings(piece, number, table.as_ref(), unit),
                bands: bands::bands(piece, number, table.as_ref(), language),
                splits: rings::splits(section, number),
            }
        })
        .collect()
}

/// To a thousandth: finer than any screen.
fn round(v: f64) -> f64 {
    (v * 1000.0).round() / 1000.0
}

/// A name as part of an address.
pub fn encoded(name: &str) -> String {
    const PLAIN: AsciiSet = NON_ALPHANUMERIC.remove(b'-').remove(b'_').remove(b'.');
    utf8_percent_encode(name, &PLAIN).to_string()
}
