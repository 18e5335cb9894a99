//! The blank of one layer: the oval it must cover, and the board or ring it is made as.

use geometry::Portable;
use std::f64::consts::{FRAC_PI_2, PI};

use files::units::degrees;
use geometry::Length;
use glam::DVec2;
use piece::model::polygon;
use piece::piece::{Band, Piece};

use super::Options;
use crate::vector::pen::{rectangle, used_looks};
use crate::vector::{Anchor, Drawing, Fill, LineKind, Looks, Pen};

/// The layer's blank of one band in its own plane, the way it climbs to the right: the
/// oval, the largest hole, and the board or the ring (round, or with two opposite
/// segments lengthened). `None` if there is no such band; numbers count from 0.
pub fn layer_blank(
    piece: &Piece,
    section: usize,
    band: usize,
    options: &Options,
) -> Option<Drawing> {
    let place = piece.sections.get(section)?;
    let set = place.bands.get(band)?;
    let unit = options.unit;
    let blank = &set.blank;
    let (long, wide) = size(set);
    let scale = options.scale(long.max(wide));
    let k = scale.factor();
    let title = format!("Layer for the loops, section {}", place.name);
    let oval = format!(
        "Oval {} by {}, {} thick when dry.",
        unit.length(blank.length),
        unit.length(blank.width),
        unit.fine(set.layer)
    );
    let mut notes = vec![options.note(scale), oval.clone()];
    notes.extend(ring_note(piece, set, options));
    let mut pen = Pen::new(
        format!("{}: {title}", piece.title),
        format!("{} {}", oval, notes.get(2).cloned().unwrap_or_default()),
        unit,
    );
    let looks = Looks::new(piece);
    body(&mut pen, set, &looks, k);
    oval_lines(&mut pen, set, place.blank_radius, k);
    dimensions(&mut pen, set, k);
    let (x, y) = (long.as_mm() * k / 2.0, wide.as_mm() * k / 2.0);
    pen.layer("climb");
    let from = DVec2::new(x + 4.0, 0.0);
    pen.line(from, from + DVec2::X * 14.0, LineKind::Thin);
    pen.arrow_head(from + DVec2::X * 14.0, DVec2::X);
    pen.words(
        from + DVec2::new(0.0, -2.0),
        "climbs this way",
        Anchor::Start,
    );
    let used = used_looks(&looks, set.woods.iter().copied());
    let corner = DVec2::new(-x, y + 20.0);
    let legend = pen.legend(corner, 2.0 * x, &used);
    pen.heading(corner + DVec2::Y * (legend + 3.0), &title, &notes);
    Some(pen.finish(5.0))
}

/// Length and width of what the oval is cut from.
fn size(band: &Band) -> (Length, Length) {
    let blank = &band.blank;
    match &blank.ring {
        Some(ring) => (
            ring.corner_out() * 2.0 + blank.lengthened,
            ring.corner_out() * 2.0,
        ),
        None => (
            blank.length + blank.edge * 2.0,
            blank.width + blank.edge * 2.0,
        ),
    }
}

fn ring_note(piece: &Piece, band: &Band, options: &Options) -> Option<String> {
    let unit = options.unit;
    let ring = band.blank.ring.as_ref()?;
    let kerf = piece.workshop.segment_saw().kerf;
    let strip = band.blank.strip_length(kerf)?;
    let longer = if band.blank.lengthened.exceeds(Length::ZERO) {
        format!(
            " Two opposite segments {} longer.",
            unit.length(band.blank.lengthened)
        )
    } else {
        String::new()
    };
    Some(format!(
        "{} segments, {} {}: long edge {}, short edge {}, board width {}.{longer} Strip {}.",
        ring.segments,
        options.spelling.of_words("mitre"),
        degrees(ring.mitre(), 2),
        unit.length(ring.long_edge()),
        unit.length(ring.short_edge()),
        unit.length(ring.board_width()),
        unit.length(strip)
    ))
}

fn body(pen: &mut Pen, band: &Band, looks: &Looks, k: f64) {
    let blank = &band.blank;
    let look = band.woods.first().and_then(|w| looks.of(*w));
    pen.layer("woods");
    let Some(ring) = &blank.ring else {
        let (l, w) = size(band);
        let half = DVec2::new(l.as_mm(), w.as_mm()) * k / 2.0;
        let board = rectangle(-half, half);
        if let Some(look) = look {
            pen.area(vec![board.clone()], Fill::Wood(look.pattern));
        }
        pen.layer("board");
        pen.round(board, LineKind::Thin);
        return;
    };
    let stretch = blank.lengthened.as_mm() / 2.0;
    let pulled = |flat: f64| -> Vec<DVec2> {
        polygon(ring.segments.max(3), flat, FRAC_PI_2)
            .into_iter()
            .map(|p| {
                // A corner on the middle line belongs to neither half.
                let side = if p.x.abs() < 1e-9 { 0.0 } else { p.x.signum() };
                DVec2::new(p.x + stretch * side, -p.y) * k
            })
            .collect()
    };
    let outer = pulled(ring.flat_out.as_mm());
    let inner = pulled(ring.flat_in().as_mm());
    if let Some(look) = look {
        pen.area(vec![outer.clone(), inner.clone()], Fill::Wood(look.pattern));
    }
    pen.layer("joints");
    for (a, b) in inner.iter().zip(&outer) {
        pen.line(*a, *b, LineKind::Thin);
    }
    pen.layer("ring");
    pen.round(outer, LineKind::Thin);
    pen.round(inner, LineKind::Thin);
}

/// The oval: both faces' ellipses, one shifted along the climb by thickness · tan(tilt),
/// and the line round both.
fn oval_lines(pen: &mut Pen, band: &Band, radius: Length, k: f64) {
    let tilt = band.loops.tilt.as_rad();
    let (a, b) = (radius.as_mm() / tilt.cosine() * k, radius.as_mm() * k);
    let shift = band.loops.thickness.as_mm() * tilt.tangent() * k / 2.0;
    let half = |side: f64, centre: f64, points: &mut Vec<DVec2>| {
        const STEPS: usize = 120;
        for i in 0..=STEPS {
            let t = -FRAC_PI_2 * side + PI * side * i as f64 / STEPS as f64;
            let p = DVec2::new(side * a * t.cosine().abs(), -b * t.sine() * side * side);
            points.push(DVec2::new(centre + p.x, p.y * side));
        }
    };
    let mut round = Vec::new();
    half(1.0, shift, &mut round);
    let mut left = Vec::new();
    half(-1.0, -shift, &mut left);
    // Up on the right, down on the left.
    left.sort_by(|p, q| p.y.total_cmp(&q.y));
    round.sort_by(|p, q| q.y.total_cmp(&p.y));
    round.extend(left);
    pen.layer("oval");
    pen.round(round, LineKind::Outline);
    if let Some(hole) = band.blank.hole {
        pen.layer("hole");
        pen.circle(DVec2::ZERO, hole.as_mm() * k, LineKind::Hidden);
    }
    pen.layer("axis");
    let (x, y) = (a + shift + 6.0, b + 6.0);
    pen.line(DVec2::new(-x, 0.0), DVec2::new(x, 0.0), LineKind::Centre);
    pen.line(DVec2::new(0.0, -y), DVec2::new(0.0, y), LineKind::Centre);
}

fn dimensions(pen: &mut Pen, band: &Band, k: f64) {
    let blank = &band.blank;
    let (l, w) = size(band);
    let (x, y) = (l.as_mm() * k / 2.0, w.as_mm() * k / 2.0);
    pen.layer("dimensions");
    let half = blank.length.as_mm() * k / 2.0;
    let figure = format!("oval {}", pen.figure(blank.length));
    let below = DVec2::new(0.0, y + 7.0);
    for side in [-1.0, 1.0] {
        pen.line(
            DVec2::new(side * half, 0.8),
            DVec2::new(side * half, below.y + 1.5),
            LineKind::Dimension,
        );
    }
    pen.dimension_line(below - DVec2::X * half, below + DVec2::X * half, &figure);
    let half = blank.width.as_mm() * k / 2.0;
    let figure = format!("oval {}", pen.figure(blank.width));
    let aside = DVec2::new(-x - 7.0, 0.0);
    for side in [-1.0, 1.0] {
        pen.line(
            DVec2::new(-0.8, side * half),
            DVec2::new(aside.x - 1.5, side * half),
            LineKind::Dimension,
        );
    }
    pen.dimension_line(aside + DVec2::Y * half, aside - DVec2::Y * half, &figure);
    if let Some(hole) = blank.hole {
        let words = format!("largest hole ⌀ {}", pen.figure(hole * 2.0));
        let r = hole.as_mm() * k;
        pen.leader(
            DVec2::new(-0.6, -0.8) * r,
            DVec2::new(-0.3, -0.4) * r,
            &words,
        );
    }
    if let Some(ring) = &blank.ring {
        let words = format!("flats ⌀ {}", pen.figure(ring.flat_out * 2.0));
        let from = DVec2::new(0.0, -ring.flat_out.as_mm() * k);
        pen.leader(from, DVec2::new(x * 0.4, -y - 8.0), &words);
    }
}
