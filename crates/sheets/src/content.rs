//! What stands on each sheet: plain values that the templates set.
//!
//! Figures come from the plan as it shows them; nothing is worked out here that a
//! maker cuts to.

mod art;
mod finishing;
mod front;
mod knot;
mod rings;
mod stacking;
mod steps;
mod turning;
mod wood;

use files::message::{Said, Wording};
use files::units::Unit;
use piece::piece::Piece;
use piece::work::{Cancel, Cancelled};
use plan::Plan;
use plan::figure::{Amount, Figure};
use serde::Serialize;

use crate::full_size::{Template, templates};
use crate::tile::{Page, lay_out};
use crate::{Request, Sheet};

pub use art::Art;

/// A figure with its label.
#[derive(Debug, Clone, Serialize)]
pub struct Setting {
    /// What it is.
    pub label: String,
    /// Its value with its unit.
    pub value: String,
}

impl From<&Figure<Said>> for Setting {
    fn from(figure: &Figure<Said>) -> Self {
        Setting {
            label: held(&figure.label),
            value: figure.shown.clone(),
        }
    }
}

/// Words in which no unit is parted from its figure at a line's end.
fn held(words: &str) -> String {
    let mut out = String::with_capacity(words.len() + 2);
    let mut after_digit = false;
    for c in words.chars() {
        out.push(if c == ' ' && after_digit { '\u{a0}' } else { c });
        after_digit = c.is_ascii_digit();
    }
    out
}

/// One sheet with what is on it.
#[derive(Debug, Serialize)]
struct Entry {
    kind: &'static str,
    name: &'static str,
    content: Content,
}

#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Content {
    Front(Box<front::Front>),
    Wood(wood::Wood),
    Rings(rings::Rings),
    Stacking(stacking::Stacking),
    Knot(knot::Knots),
    Turning(turning::Turning),
    Finishing(finishing::Finishing),
    Templates(FullSize),
}

/// Templates on their pages.
#[derive(Debug, Serialize)]
struct FullSize {
    pages: Vec<Page>,
    titles: Vec<String>,
    /// What is used in one way, and how.
    uses: Vec<Setting>,
    pictures: Vec<art::Picture>,
    bars: f64,
}

/// Everything the typesetter is given beside the templates and drawings.
#[derive(Debug, Serialize)]
struct Document {
    title: String,
    unit: &'static str,
    unit_words: String,
    unit_long: String,
    /// A word of the sheets that is spelled in two ways.
    anticlockwise: String,
    /// Where English is spelled so.
    region: &'static str,
    date: Option<String>,
    paper: &'static str,
    width: f64,
    height: f64,
    margins: (f64, f64, f64),
    sheets: Vec<Entry>,
}

/// What a sheet is made from.
struct Source<'a> {
    piece: &'a Piece,
    plan: &'a Plan,
    unit: Unit,
}

/// The sheets that are asked for, as JSON, and the drawings that they show.
///
/// # Errors
/// It was given up by `cancel`, which is asked before each sheet.
pub fn content(
    piece: &Piece,
    plan: &Plan,
    request: &Request,
    cancel: &Cancel,
) -> Result<(Vec<u8>, Art), Cancelled> {
    let mut art = Art::default();
    let source = Source {
        piece,
        plan,
        unit: plan.unit,
    };
    let mut sheets = Vec::new();
    for sheet in Sheet::ALL {
        cancel.check()?;
        if request.only.is_empty() || request.only.contains(&sheet) {
            let content = match sheet {
                Sheet::Front => Content::Front(Box::new(front::front(&source, &mut art))),
                Sheet::Wood => Content::Wood(wood::wood(&source)),
                Sheet::Rings => Content::Rings(rings::rings(&source, &mut art)),
                Sheet::Stacking => Content::Stacking(stacking::stacking(&source, &mut art)),
                Sheet::Knot => match knot::knots(&source, &mut art) {
                    Some(knots) => Content::Knot(knots),
                    // A piece without loops has no such sheet.
                    None => continue,
                },
                Sheet::Turning => Content::Turning(turning::turning(&source, &mut art)),
                Sheet::Finishing => Content::Finishing(finishing::finishing(&source)),
                Sheet::Templates => Content::Templates(full_size(
                    &templates(piece, plan.language()),
                    request,
                    &mut art,
                )),
            };
            sheets.push(Entry {
                kind: sheet.word(),
                name: sheet.name(),
                content,
            });
        }
    }
    let unit_long = plan.spelling.of_words(plan.unit.label());
    let (width, height) = request.paper.size();
    let document = Document {
        title: match plan.title.as_str() {
            "" => "Untitled piece".into(),
            title => title.into(),
        },
        unit: plan.unit.suffix(),
        unit_words: format!("Lengths in {unit_long}"),
        unit_long,
        anticlockwise: plan.spelling.of_words("anticlockwise"),
        region: plan.spelling.region(),
        date: request.date.map(|d| d.to_string()),
        paper: request.paper.name(),
        width,
        height,
        margins: crate::paper::MARGINS,
        sheets,
    };
    // Plain structs of strings and numbers: there is nothing in them to fail on.
    Ok((serde_json::to_vec(&document).unwrap_or_default(), art))
}

fn full_size(all: &[Template], request: &Request, art: &mut Art) -> FullSize {
    FullSize {
        pages: lay_out(all, request.paper),
        titles: all.iter().map(|t| t.title.clone()).collect(),
        uses: uses(all),
        pictures: all.iter().map(|t| art.drawing(&t.drawing)).collect(),
        bars: crate::tile::BARS,
    }
}

/// Neighbours that are used alike are told of once.
fn uses(all: &[Template]) -> Vec<Setting> {
    let mut out: Vec<Setting> = Vec::new();
    for template in all {
        match out.last_mut() {
            Some(last) if last.value == template.how => {
                last.label += "; ";
                last.label += &template.title;
            }
            _ => out.push(Setting {
                label: template.title.clone(),
                value: template.how.clone(),
            }),
        }
    }
    out
}

/// A figure's value without its unit, for a column whose head names it.
fn bare<W: Wording>(figure: &Figure<W>, unit: Unit) -> String {
    match &figure.amount {
        Amount::Length(l) => unit.length_bare(*l),
        Amount::Fine(l) => unit.fine_bare(*l),
        other => other.show(unit),
    }
}

/// Figures that a machine is set to.
fn settings(figures: &[Figure<Said>]) -> Vec<Setting> {
    figures
        .iter()
        .filter(|f| f.cut_to)
        .map(Setting::from)
        .collect()
}

/// Figures for information.
fn notes(figures: &[Figure<Said>]) -> Vec<Setting> {
    figures
        .iter()
        .filter(|f| !f.cut_to)
        .map(Setting::from)
        .collect()
}
