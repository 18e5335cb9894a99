//! A knot at a glance.

use files::message::{Message, Said, Value};
use files::say;
use files::units::Unit;

use super::bare;
use super::page::Page;
use crate::tables::{BandTable, figure};

/// Figures that stand in a table of their own, not in the list.
const TABLED: [&str; 2] = ["outside_", "inside_"];

pub(super) fn knot(page: &mut Page, band: &BandTable<Said>, unit: Unit) {
    let mut name = band.name.clone();
    if let Some(first) = name.get(..1).map(str::to_uppercase) {
        name.replace_range(..1, &first);
    }
    page.heading(Message::name(name));
    let tabled = |key: &str| TABLED.iter().any(|start| key.starts_with(start));
    for f in band.figures.iter().filter(|f| !tabled(&f.key)) {
        page.figure(f);
    }
    marks(page, band, unit);
    heights(page, band, unit);
    crossings(page, band);
}

fn marks(page: &mut Page, band: &BandTable<Said>, unit: Unit) {
    page.sub("Index marks, in cutting order, from the start mark anticlockwise");
    page.row(&format!(
        "  {:>5} {:>9} {:>12}  {}",
        page.said("loop"),
        page.said("mark"),
        page.said(say!("arc, {unit}", unit = Value::name(unit.suffix()))),
        page.said("layer's wood"),
    ));
    for row in &band.loops {
        let bare = |key| figure(&row.figures, key).map_or(String::new(), |f| bare(f, unit));
        page.row(&format!(
            "  {:>5} {:>9} {:>12}  {}",
            row.number,
            bare("mark"),
            bare("mark_arc"),
            row.wood
        ));
    }
}

fn heights(page: &mut Page, band: &BandTable<Said>, unit: Unit) {
    page.sub(say!(
        "Heights of the loops' edges, in {unit}",
        unit = crate::words::unit_named(),
    ));
    page.columns("                           above the foot      above the underside");
    page.columns("                         outside    inside     outside    inside");
    for (key, label) in [
        ("top", "highest edge"),
        ("top_lower", "top, lower edge"),
        ("bottom_upper", "bottom, upper edge"),
        ("bottom", "lowest edge"),
    ] {
        let cell = |wall: &str, end: &str| {
            let key = format!("{wall}_{key}{end}");
            figure(&band.figures, &key).map_or(String::new(), |f| bare(f, unit))
        };
        line(
            page,
            &page.said(label),
            [
                cell("outside", ""),
                cell("inside", ""),
                cell("outside", "_in_section"),
                cell("inside", "_in_section"),
            ],
        );
    }
    if let Some(f) = figure(&band.figures, "outside_top") {
        page.working(f);
    }
    for (k, row) in band.rows.iter().enumerate() {
        let cell = |key| figure(&row.figures, key).map_or(String::new(), |f| bare(f, unit));
        line(
            page,
            &page.said(say!("crossings, row {row}", row = k + 1)),
            [
                cell("outside"),
                cell("inside"),
                cell("outside_in_section"),
                cell("inside_in_section"),
            ],
        );
    }
    let first = band
        .rows
        .first()
        .and_then(|r| figure(&r.figures, "outside"));
    if let Some(f) = first {
        page.working(f);
    }
}

fn line(page: &mut Page, label: &str, cells: [String; 4]) {
    let [a, b, c, d] = cells;
    page.row(&format!("  {label:<20} {a:>9} {b:>9}   {c:>9} {d:>9}"));
}

fn crossings(page: &mut Page, band: &BandTable<Said>) {
    if band.rows.is_empty() {
        return;
    }
    page.sub("Crossings by azimuth: the loop cut later runs over the other");
    for (k, row) in band.rows.iter().enumerate() {
        let each = row.crossings.iter().map(|c| {
            say!(
                "{at} {over} over {under}",
                at = c.azimuth.amount.clone(),
                over = c.over,
                under = c.under,
            )
        });
        let mark = page.said(say!("row {row}: ", row = k + 1));
        let all = page.said(Message::joined(each, "; "));
        page.part(&mark, &all, 2);
    }
}
