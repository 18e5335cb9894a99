//! Check bars: a rule laid on them shows whether the printer kept the size.

use drawings::vector::{Anchor, Drawing, Item, LineKind, Pen, Shape};
use files::units::Unit;
use glam::DVec2;

/// Length of the metric bar, mm.
pub const MM_BAR: f64 = 100.0;
/// Length of the inch bar, mm: 4 in.
pub const INCHES_BAR: f64 = 101.6;
/// Height of both with their words, mm.
const ROOM: f64 = 14.0;

/// The drawing with both bars below it, on a layer of their own.
pub fn with_check_bars(mut drawing: Drawing) -> Drawing {
    let mut pen = Pen::new("", "", Unit::Mm);
    pen.layer("check bars");
    let (x, y) = (6.0, drawing.height + 5.0);
    bar(&mut pen, DVec2::new(x, y), MM_BAR, 10, "100 mm");
    bar(
        &mut pen,
        DVec2::new(x, y + ROOM / 2.0),
        INCHES_BAR,
        4,
        "4 in",
    );
    // Placed by hand: the bars must not move the drawing.
    let bars = pen.finish(0.0);
    let by = DVec2::new(x, y - TICK) - first_point(&bars);
    drawing
        .layers
        .extend(bars.layers.into_iter().map(|mut layer| {
            for item in &mut layer.items {
                shift(item, by);
            }
            layer
        }));
    drawing.height += ROOM + 2.0;
    drawing.width = drawing.width.max(x + INCHES_BAR + 24.0);
    drawing
}

/// Half of an end mark's height, mm.
const TICK: f64 = 2.0;

fn bar(pen: &mut Pen, at: DVec2, long: f64, parts: usize, words: &str) {
    let up = DVec2::new(0.0, TICK);
    let end = at + DVec2::new(long, 0.0);
    pen.line(at - up, at + up, LineKind::Thin);
    pen.line(end - up, end + up, LineKind::Thin);
    pen.line(at, end, LineKind::Thin);
    for k in 1..parts {
        let p = at + DVec2::new(long * k as f64 / parts as f64, 0.0);
        pen.line(p - up / 2.0, p, LineKind::Dimension);
    }
    pen.words(end + DVec2::new(2.0, 1.2), words, Anchor::Start);
}

fn first_point(drawing: &Drawing) -> DVec2 {
    let first = drawing.items().find_map(|item| match item {
        Item::Line(Shape::Polyline { points, .. }, _) => points.first().copied(),
        _ => None,
    });
    first.unwrap_or(DVec2::ZERO)
}

fn shift(item: &mut Item, by: DVec2) {
    match item {
        Item::Line(Shape::Polyline { points, .. }, _) => points.iter_mut().for_each(|p| *p += by),
        Item::Line(Shape::Arc { centre, .. } | Shape::Circle { centre, .. }, _) => *centre += by,
        Item::Area(area) => area.bounds.iter_mut().flatten().for_each(|p| *p += by),
        Item::Text(text) => text.at += by,
    }
}
