//! One ring from above, and one of its segments by itself.

use geometry::Portable;
use std::f64::consts::{PI, TAU};

use files::units::degrees;
use glam::DVec2;
use piece::course::Course;
use piece::piece::Piece;

use super::Options;
use super::constructions::{self, View};
use crate::vector::dimension::spread;
use crate::vector::pen::{FIGURES, used_looks};
use crate::vector::{Drawing, LineKind, Looks, Pen, Text};

/// A ring from above: segments with their woods, the circles of flats, corners and
/// finished wall, and one segment with the figures it is cut to. `None` if there is
/// no such ring; numbers count from 0.
pub fn ring_from_above(
    piece: &Piece,
    section: usize,
    ring: usize,
    options: &Options,
) -> Option<Drawing> {
    let place = piece.sections.get(section)?;
    let drawn = place.rings.get(ring)?;
    let unit = options.unit;
    let way = constructions::drawn(drawn);
    let outer = way.reach(drawn);
    let scale = options.scale(outer * 2.0);
    let title = format!(
        "Ring {} from above ({}, ring {} of {})",
        piece.ring_number(section, ring),
        place.name,
        ring + 1,
        place.rings.len()
    );
    let made = way.made(drawn, options);
    let mut pen = Pen::new(format!("{}: {title}", piece.title), made.clone(), unit);
    let view = View::new(drawn, scale.factor(), options.spelling);
    let looks = Looks::new(piece);

    way.body(&mut pen, drawn, &looks, &view);
    circles(&mut pen, drawn, &view);
    let right = outer.as_mm() * view.k + 12.0;
    let below = way.part(&mut pen, drawn, &view, right);
    diameters(&mut pen, drawn, &view, right, below + 8.0);

    let panel_wood = drawn.let_in.as_ref().map(|p| p.wood);
    let used = used_looks(&looks, drawn.woods.iter().copied().chain(panel_wood));
    let corner = DVec2::new(-outer.as_mm() * view.k, outer.as_mm() * view.k + 12.0);
    let legend = pen.legend(corner, right - corner.x + 50.0, &used);
    let mut notes = vec![
        options.note(scale),
        made,
        format!(
            "{} high after flattening, from {} stock.",
            unit.length(drawn.height),
            unit.length(drawn.stock)
        ),
    ];
    if ring > 0 && drawn.repeats().is_some() {
        notes.push(format!(
            "Joints turned {} against the ring below.",
            degrees(drawn.turn, 2)
        ));
    }
    pen.heading(corner + DVec2::Y * (legend + 3.0), &title, &notes);
    Some(pen.finish(5.0))
}

/// Centre lines, the circles that bind, and the finished wall's largest and smallest.
fn circles(pen: &mut Pen, ring: &Course, view: &View) {
    let sizes = &ring.sizes;
    let way = constructions::drawn(ring);
    let k = view.k;
    pen.layer("circles");
    for radius in way.corners(ring) {
        pen.circle(DVec2::ZERO, radius.as_mm() * k, LineKind::Phantom);
    }
    pen.layer("finished");
    for finished in [ring.needs.outside, ring.needs.inside]
        .into_iter()
        .flatten()
    {
        pen.circle(DVec2::ZERO, finished.0.as_mm() * k, LineKind::Hidden);
    }
    pen.layer("axis");
    let r = way.reach(ring).as_mm() * k + 4.0;
    pen.line(DVec2::new(-r, 0.0), DVec2::new(r, 0.0), LineKind::Centre);
    pen.line(DVec2::new(0.0, -r), DVec2::new(0.0, r), LineKind::Centre);
    let zero = view.at(0.0, 1.0).normalize_or_zero();
    pen.layer("start");
    // Inside, where no leader passes.
    let inner = sizes.flat_in().as_mm() * k;
    let tick = if inner > 16.0 { inner - 1.0 } else { r - 6.0 };
    pen.line(zero * (tick - 4.0), zero * tick, LineKind::Cut);
    pen.text(Text::centred(zero * (tick - 8.0), "0°", FIGURES).with_halo());
}

/// The diameters, each at the end of a leader, from `top` downwards at `x`.
fn diameters(pen: &mut Pen, ring: &Course, view: &View, x: f64, top: f64) {
    let way = constructions::drawn(ring);
    let mut marks = way.outside(ring);
    if let Some((r, _)) = ring.needs.outside {
        marks.push((r, "finished, largest"));
    }
    if let Some((r, _)) = ring.needs.inside {
        marks.push((r, "finished inside, smallest"));
    }
    if let Some(panel) = &ring.let_in {
        marks.push((panel.diameter / 2.0, "floor panel"));
    }
    marks.extend(way.inside(ring));
    let n = ring.sizes.segments.max(3) as f64;
    let flat_near = |a: f64| {
        // The nearest segment's middle: there its flat touches its circle.
        let step = TAU / n;
        let from = ring.rotation.as_rad() + view.turn;
        from + ((a - from) / step).round() * step
    };
    pen.layer("diameters");
    let count = marks.len();
    let from: Vec<DVec2> = marks
        .iter()
        .enumerate()
        .map(|(i, (r, name))| {
            let a = PI / 180.0 * (14.0 - 12.0 * i as f64);
            let a = match *name {
                "flats" | "inside, flats" => flat_near(a),
                _ => a,
            };
            DVec2::new(a.cosine(), -a.sine()) * r.as_mm() * view.k
        })
        .collect();
    let gap = FIGURES * 1.6;
    let wanted: Vec<f64> = (0..count)
        .map(|i| (top + i as f64 * gap).max(from[i].y))
        .collect();
    for ((from, (r, name)), y) in from.into_iter().zip(marks).zip(spread(&wanted, gap)) {
        let words = format!("{name} ⌀ {}", pen.figure(r * 2.0));
        pen.leader(from, DVec2::new(x + 3.0, y), &words);
    }
}
