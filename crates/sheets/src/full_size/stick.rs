//! The half-section: outside and inside gauge and story stick in one.

use drawings::vector::{Anchor, LineKind, Pen, Text};
use files::message::Language;
use files::say;
use files::units::Unit;
use geometry::Length;
use glam::DVec2;
use piece::form::WallSide;
use piece::piece::Piece;

use super::Template;

/// Steps between heights: 10 mm or 1/2 in.
pub(crate) const fn step(unit: Unit) -> Length {
    match unit {
        Unit::Mm => Length::mm(10.0),
        Unit::Inch => Length::inches(0.5),
    }
}

/// The half-section at full size.
pub(crate) fn template(piece: &Piece, language: Language) -> Template {
    let form = &piece.form;
    let unit = language.unit;
    let (widest, _) = form.largest_radius();
    let top = form.height().as_mm();
    let title = say!("Half-section").said(language);
    let description = say!(
        "The finished half-section at full size, {height} high and {widest} from axis to widest, \
         with heights and diameters.",
        height = form.height(),
        widest = widest,
    )
    .said(language);
    let mut pen = Pen::new(title.as_str(), description, unit);
    let p = |r: f64, z: f64| DVec2::new(r, -z);
    pen.layer("axis");
    pen.line(p(0.0, -5.0), p(0.0, top + 5.0), LineKind::Centre);
    pen.layer("heights");
    let right = widest.as_mm() + 4.0;
    let mut at = 0.0;
    let step = step(unit).as_mm();
    let mut heights = Vec::new();
    while at < top - step * 0.3 && heights.len() < 400 {
        heights.push(at);
        at += step;
    }
    heights.push(top);
    for z in heights {
        let Some(outer) = form.turned(WallSide::Outside).radius(z) else {
            continue;
        };
        pen.line(p(0.0, z), p(right, z), LineKind::Guide);
        let words = format!(
            "{}   ⌀ {}",
            unit.length_bare(Length::mm(z)),
            unit.length_bare(Length::mm(outer * 2.0))
        );
        pen.text(Text::new(
            p(right + 1.5, z - 1.1),
            words,
            Anchor::Start,
            3.0,
        ));
        if let Some(inner) = form.turned(WallSide::Inside).radius(z)
            && z > form.floor_top().as_mm()
        {
            let words = format!("⌀ {}", unit.length_bare(Length::mm(inner * 2.0)));
            pen.text(Text::new(p(2.0, z + 0.7), words, Anchor::Start, 3.0));
        }
    }
    pen.layer("section joints");
    for section in piece.sections.iter().skip(1) {
        let z = section.bottom.as_mm();
        if let Some(outer) = form.outside().radius(z) {
            let inner = form
                .inside()
                .radius(z)
                .filter(|r| *r < outer)
                .unwrap_or(0.0);
            pen.line(p(inner, z), p(outer, z), LineKind::Hidden);
        }
    }
    pen.layer("half-section");
    pen.round(
        form.outline()
            .points()
            .iter()
            .map(|q| p(q.x, q.y))
            .collect(),
        LineKind::Cut,
    );
    Template {
        key: "half-section".into(),
        title,
        how: say!(
            "Cut along the outer line for an outside gauge, along the inner one for a gauge of \
             the hollow. Its edge, with the heights, is the story stick."
        )
        .said(language),
        drawing: pen.finish(4.0),
    }
}
