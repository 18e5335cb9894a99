//! Every setting of a file as a blank: what stands in it, who chose it, what it takes.

mod form;
mod section;
mod setting;

use std::collections::BTreeMap;

use files::key::{self, KeyPath};
use files::keys::Scale;
use files::units::{Unit, fixed};
use geometry::{Angle, Length};
use piece::piece::{Chosen, Piece};

use crate::open_projects::Revision;
use crate::view::workshop::holding;
use crate::wire::{Blank, BlankKind, Choice, Origin};

pub use setting::origin;

/// What a length blank takes.
#[derive(Clone, Copy)]
pub struct Range(pub f64, pub f64);

/// Blanks as they are filled in.
pub struct Sheet {
    /// The page's unit.
    pub unit: Unit,
    /// Names of the shop's saws.
    saws: Vec<String>,
    /// By path.
    pub blanks: BTreeMap<String, Blank>,
}

impl Sheet {
    /// An empty sheet.
    pub fn new(unit: Unit) -> Sheet {
        Sheet {
            unit,
            saws: Vec::new(),
            blanks: BTreeMap::new(),
        }
    }

    fn put(&mut self, path: &str, label: &str, origin: Origin, kind: BlankKind) -> &mut Blank {
        self.blanks.entry(path.into()).or_insert(Blank {
            shown: String::new(),
            unit: String::new(),
            raw: None,
            label: label.into(),
            origin,
            kind,
            least: None,
            most: None,
            step: 1.0,
            choices: Vec::new(),
        })
    }

    /// A length.
    pub fn length(
        &mut self,
        path: &str,
        label: &str,
        value: Option<Length>,
        origin: Origin,
        range: Range,
    ) {
        self.measure(path, label, value, origin, range, false);
    }

    fn measure(
        &mut self,
        path: &str,
        label: &str,
        value: Option<Length>,
        origin: Origin,
        range: Range,
        fine: bool,
    ) {
        let unit = self.unit;
        let blank = self.put(path, label, origin, BlankKind::Length);
        blank.unit = unit.suffix().into();
        blank.raw = value.map(Length::as_mm);
        blank.shown = match value {
            None => String::new(),
            Some(v) if fine => trimmed(&unit.fine_bare(v)),
            Some(v) => trimmed(&unit.length_bare(v)),
        };
        (blank.least, blank.most) = (Some(range.0), Some(range.1));
        blank.step = match (unit, fine) {
            (Unit::Mm, false) => 0.5,
            (Unit::Mm, true) => 0.05,
            (Unit::Inch, false) => 25.4 / 32.0,
            (Unit::Inch, true) => 25.4 * 0.002,
        };
    }

    /// An angle.
    pub fn angle(
        &mut self,
        path: &str,
        label: &str,
        value: Option<Angle>,
        origin: Origin,
        range: Range,
    ) {
        let blank = self.put(path, label, origin, BlankKind::Angle);
        blank.unit = "°".into();
        blank.raw = value.map(Angle::as_deg);
        blank.shown = value.map_or_else(String::new, |v| trimmed(&fixed(v.as_deg(), 2)));
        (blank.least, blank.most) = (Some(range.0), Some(range.1));
        blank.step = 0.5;
    }

    /// A whole number.
    pub fn whole(
        &mut self,
        path: &str,
        label: &str,
        value: Option<usize>,
        origin: Origin,
        range: Range,
    ) {
        let blank = self.put(path, label, origin, BlankKind::Whole);
        blank.raw = value.map(|v| v as f64);
        blank.shown = value.map_or_else(String::new, |v| v.to_string());
        (blank.least, blank.most) = (Some(range.0), Some(range.1));
    }

    /// A number with the word for what it counts.
    pub fn number(
        &mut self,
        path: &str,
        label: &str,
        value: Option<f64>,
        unit: &str,
        origin: Origin,
        range: Range,
    ) {
        let blank = self.put(path, label, origin, BlankKind::Number);
        blank.raw = value;
        blank.shown = value.map_or_else(String::new, |v| trimmed(&fixed(v, 2)));
        blank.unit = unit.into();
        (blank.least, blank.most) = (Some(range.0), Some(range.1));
    }

    /// What has a unit of its own in each system; value and range are metric.
    pub fn measured(
        &mut self,
        path: &str,
        label: &str,
        (what, value): (Scale, f64),
        origin: Origin,
        range: Range,
    ) {
        let unit = self.unit;
        let here = |metric: f64| what.on_page(metric, unit);
        self.number(
            path,
            label,
            Some(here(value)),
            what.suffix(unit),
            origin,
            Range(here(range.0), here(range.1)),
        );
    }

    /// Words.
    pub fn text(&mut self, path: &str, label: &str, value: &str, origin: Origin) {
        self.put(path, label, origin, BlankKind::Text).shown = value.into();
    }

    /// Yes or no.
    pub fn flag(&mut self, path: &str, label: &str, value: bool, origin: Origin) {
        self.put(path, label, origin, BlankKind::Flag).shown = value.to_string();
    }

    /// A list, parted by commas.
    pub fn list(&mut self, path: &str, label: &str, value: String, origin: Origin) {
        self.put(path, label, origin, BlankKind::List).shown = value;
    }

    /// One wood.
    pub fn wood(&mut self, path: &str, label: &str, value: &str, origin: Origin) {
        self.put(path, label, origin, BlankKind::Wood).shown = value.into();
    }

    /// One of several.
    pub fn choice(
        &mut self,
        path: &str,
        label: &str,
        value: &str,
        origin: Origin,
        choices: &[(&str, &str)],
    ) {
        let blank = self.put(path, label, origin, BlankKind::Choice);
        blank.shown = value.into();
        let all = choices.iter();
        blank.choices = all
            .map(|(v, l)| Choice {
                value: (*v).into(),
                label: (*l).into(),
            })
            .collect();
    }
}

/// Without the noughts that say nothing: `80.0` is `80`.
fn trimmed(text: &str) -> String {
    match text.split_once('.') {
        Some((whole, part)) if !part.contains('/') => {
            let part = part.trim_end_matches('0');
            if part.is_empty() {
                whole.into()
            } else {
                format!("{whole}.{part}")
            }
        }
        _ => text.into(),
    }
}

/// What was chosen for the maker.
pub struct ChosenBy<'a>(pub &'a [Chosen]);

impl ChosenBy<'_> {
    /// The maker, if the value was given; else who chose it; else the form.
    pub fn origin(&self, given: bool, path: &KeyPath) -> Origin {
        if given {
            return Origin::Maker;
        }
        let chosen = self.0.iter().find(|c| c.path == *path);
        chosen.map_or(Origin::Form, |c| setting::origin(Some(c.origin)))
    }
}

/// The maker, if the value was given, else another.
fn maker_or(given: bool, otherwise: Origin) -> Origin {
    if given { Origin::Maker } else { otherwise }
}

/// Every blank of a project.
pub fn project(revision: &Revision, piece: &Piece, unit: Unit) -> BTreeMap<String, Blank> {
    let mut sheet = Sheet::new(unit);
    sheet.saws = piece.workshop.saws.iter().map(|s| s.name.clone()).collect();
    let design = &revision.design;
    let top = key::project();
    sheet.key(&top.title(), "", design.title.as_str(), Origin::Maker);
    let notes = design.notes.as_deref();
    let by = maker_or(notes.is_some(), Origin::Default);
    sheet.key(&top.notes(), "", notes.unwrap_or(""), by);
    form::blanks(&mut sheet, revision, piece);
    holding(&mut sheet, piece);
    for number in 0..piece.sections.len() {
        section::blanks(&mut sheet, revision, piece, number);
    }
    sheet.blanks
}
