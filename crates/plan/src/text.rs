//! The plan as a maker reads it in a terminal.

mod how_exact;
mod knot;
mod page;
mod route;

use files::message::{Message, Said, Value};
use files::report::said;
use files::say;
use files::units::Unit;
use piece::piece::Origin;

use crate::figure::{Amount, Figure};
use crate::finding::{Finding, Severity};
use crate::plan::{ChosenFigure, Plan};
use crate::tables::{RingRow, SectionTable, figure};
use crate::words;

pub use how_exact::render_study;
use page::Page;

/// The plan as text, no line longer than `width` characters (40 at least).
///
/// It is written in the plan's own unit. With `show_working` every figure is
/// followed by its formula, what was put in, and the source.
pub fn render_text(plan: &Plan, width: usize, show_working: bool) -> String {
    let mut page = Page::new(width, show_working, plan.language());
    title(&mut page, plan);
    if let Some(overview) = &plan.overview {
        page.heading("The finished piece");
        page.figures(&overview.figures);
        if !overview.woods.is_empty() {
            page.sub("Woods in it");
        }
        for wood in &overview.woods {
            let both = format!("{}, {}", wood.volume.shown, wood.weight.shown);
            page.pair("", &wood.name, &both);
            page.working(&wood.weight);
        }
    }
    chosen(&mut page, &plan.chosen);
    findings(&mut page, &plan.findings);
    if !plan.sections.is_empty() {
        rings(&mut page, plan);
    }
    for band in plan.sections.iter().flat_map(|s| &s.bands) {
        knot::knot(&mut page, band, plan.unit);
    }
    if !plan.operations.is_empty() {
        route::route(&mut page, plan);
    }
    for study in &plan.studies {
        page.heading(Message::name(&study.title));
        page.figures(&study.figures);
        for text in &study.text {
            page.part("", text, 2);
        }
    }
    page.done()
}

fn title(page: &mut Page, plan: &Plan) {
    title_of(page, &plan.title);
    let measure = match plan.unit {
        Unit::Mm => "millimetres",
        Unit::Inch => "inches and fractions to 1/64, or thousandths where a calliper is used",
    };
    page.text(
        say!(
            "Shop plan. Lengths in {measure}; angles in degrees. Tilt is measured from a cut \
             straight across. Heights in the piece are above the foot, azimuths \
             anticlockwise seen from above.",
            measure = measure,
        ),
        0,
    );
    for note in plan.notes.as_deref().unwrap_or("").lines() {
        page.part("", &words::plain(note), 2);
    }
}

/// What the maker calls the piece.
fn title_of(page: &mut Page, title: &str) {
    match title {
        "" => page.text("Untitled piece", 0),
        title => page.part("", title, 0),
    }
}

fn chosen(page: &mut Page, chosen: &[ChosenFigure]) {
    if chosen.is_empty() {
        return;
    }
    page.heading("Chosen for you");
    for (by, who) in [
        (Origin::Form, "It follows from the form"),
        (Origin::Workshop, "The workshop's file says so"),
        (
            Origin::CommonPractice,
            "Common practice; write your own into the files",
        ),
    ] {
        let of: Vec<&ChosenFigure> = chosen.iter().filter(|c| c.by == by).collect();
        if !of.is_empty() {
            page.sub(who);
        }
        for c in of {
            let label = format!("{} ({})", c.figure.label, said(&c.path));
            page.pair("", &label, &c.figure.shown);
        }
    }
}

fn findings(page: &mut Page, findings: &[Finding<Said>]) {
    page.heading("What to watch");
    if findings.is_empty() {
        page.text("Nothing was found.", 2);
    }
    for f in findings {
        let how = match f.severity {
            Severity::Stops => "Stops the work",
            Severity::Risky => "Risky",
            Severity::WorthKnowing => "Worth knowing",
        };
        page.item(
            "* ",
            say!(
                "{how}: {what}",
                how = how,
                what = Value::name(words::plain(&f.what)),
            ),
            2,
        );
        if let Some(against) = &f.against {
            let (figure, limit) = (against.figure.clone(), against.limit.clone());
            page.text(
                say!(
                    "Figure {figure}, limit {limit}.",
                    figure = figure,
                    limit = limit
                ),
                4,
            );
            page.work(&against.working, 4);
        }
        let remedy = Value::name(words::plain(&f.remedy.words));
        page.text(say!("Remedy: {remedy}", remedy = remedy), 4);
        let path = Value::name(said(&f.path));
        page.text(say!("In the file: {path}", path = path), 4);
    }
}

fn rings(page: &mut Page, plan: &Plan) {
    page.heading("Rings");
    page.text(
        say!(
            "From the bottom up, in {unit}; n is the number of segments.",
            unit = words::unit_named(),
        ),
        2,
    );
    for section in &plan.sections {
        section_head(page, section);
        page.columns("   n  mitre  height  outside           inside            segment");
        page.columns(
            "                        flats  corners  corners    flats    long   short   width",
        );
        for row in &section.rings {
            ring(page, row, plan.unit);
        }
    }
}

fn section_head(page: &mut Page, section: &SectionTable<Said>) {
    let shown = |key: &str| figure(&section.figures, key).map_or("", |f| f.shown.as_str());
    page.sub(say!("Section {name}", name = Value::name(&section.name)));
    let grown = if shown("height") == shown("stacked") {
        Message::default()
    } else {
        say!(
            ", {height} when all is glued",
            height = Value::name(shown("height"))
        )
    };
    let text = say!(
        "underside at {bottom}, stacked {stacked}{grown}, turned {turn} against the lowest",
        bottom = Value::name(shown("bottom")),
        stacked = Value::name(shown("stacked")),
        grown = grown,
        turn = Value::name(shown("turn")),
    );
    page.text(text, 2);
}

fn ring(page: &mut Page, row: &RingRow<Said>, unit: Unit) {
    let make = match row.make {
        "disc" => "solid disc, ",
        "panel" => "round a floor panel, ",
        _ => "",
    };
    page.text(
        say!(
            "{name}: {make}{pattern}",
            name = words::numbered("ring", &row.numbers),
            make = make,
            pattern = Value::name(&row.pattern),
        ),
        2,
    );
    let bare = |key: &str| figure(&row.figures, key).map_or(String::new(), |f| bare(f, unit));
    page.row(&format!(
        "{:>4} {:>6} {:>7} {:>8} {:>8} {:>8} {:>8} {:>7} {:>7} {:>7}",
        bare("segments"),
        bare("mitre"),
        bare("height"),
        bare("outside_flats"),
        bare("outside_corners"),
        bare("inside_corners"),
        bare("inside_flats"),
        bare("long_edge"),
        bare("short_edge"),
        bare("board_width"),
    ));
    if page.shows_working() {
        page.figures(&row.figures);
    }
}

/// A value without its unit, for a table whose head names it.
fn bare(figure: &Figure<Said>, unit: Unit) -> String {
    match &figure.amount {
        Amount::Length(l) => unit.length_bare(*l),
        Amount::Fine(l) => unit.fine_bare(*l),
        other => other.show(unit),
    }
}
