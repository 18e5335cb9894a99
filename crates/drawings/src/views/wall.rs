//! One side of the finished wall, unrolled.

use std::f64::consts::TAU;

use geometry::{Angle, Length};
use glam::DVec2;
use piece::form::WallSide;
use piece::piece::Piece;

use super::{Options, ruler};
use crate::vector::dimension::spread;
use crate::vector::pen::{FIGURES, rectangle, used_looks};
use crate::vector::{Anchor, Drawing, Fill, LineKind, Looks, Pen};
use crate::wall::{FaceKind, Faces, Wall, fills, traces};

/// The wall of a piece, unrolled: woods, joints, loops as they pass over and under,
/// rows of crossings, a scale of heights and one of azimuths.
///
/// Heights are true to the drawing's scale. Round the wall it is true at one radius,
/// which the drawing names; see [`Wall::true_radius`].
pub fn unrolled_wall(piece: &Piece, side: WallSide, options: &Options) -> Drawing {
    let wall = Wall::new(piece, side);
    let radius = wall.true_radius();
    let round = radius * TAU;
    let scale = options.scale(round);
    let k = scale.factor();
    let (w, h) = (
        round.as_mm() * k,
        (wall.highest() - wall.lowest()).max(0.0) * k,
    );
    let unit = options.unit;
    let (name, way) = match side {
        WallSide::Outside => ("outside wall", "Seen from outside"),
        WallSide::Inside => ("inside wall", "Seen from inside; azimuths run to the left"),
    };
    let loops: usize = piece
        .sections
        .iter()
        .flat_map(|s| &s.bands)
        .map(|b| b.loops.azimuths.len())
        .sum();
    let mut pen = Pen::new(
        format!("{}: {name}, unrolled", piece.title),
        format!(
            "{way}. {} high; {} rings and {loops} loops.",
            unit.length(Length::mm(wall.highest() - wall.lowest())),
            piece.ring_count()
        ),
        unit,
    );
    let y_of = |z: f64| (wall.highest() - z) * k;
    let place = |p: DVec2| DVec2::new(wall.share(p.x) * w, y_of(p.y));
    let faces = Faces::of(piece);
    let looks = Looks::new(piece);

    pen.layer("woods");
    let filled = fills(&wall, &faces);
    for area in &filled {
        if let Some(look) = looks.of(area.wood) {
            let bound = area.bound.iter().map(|p| place(*p)).collect();
            pen.area(vec![bound], Fill::Wood(look.pattern));
        }
    }
    let mut lines = traces(&wall, &faces);
    // Light lines first, so that loops' edges lie over joints.
    lines.sort_by_key(|t| weight(t.kind));
    for trace in lines {
        let (layer, kind) = style(trace.kind, k);
        pen.layer(layer);
        pen.through(trace.points.into_iter().map(place).collect(), kind);
    }
    pen.layer("edge");
    pen.round(rectangle(DVec2::ZERO, DVec2::new(w, h)), LineKind::Outline);

    rows(&mut pen, &wall, w, &y_of);
    ring_names(&mut pen, &wall, &looks, &y_of, h);
    numbers(&mut pen, &wall, &faces, w, &y_of);
    pen.layer("scales");
    ruler::heights(&mut pen, -2.0, (wall.lowest(), wall.highest()), &y_of);
    ruler::azimuths(&mut pen, h + 2.0, w, side == WallSide::Inside);

    let used = used_looks(&looks, filled.iter().map(|f| f.wood));
    let legend = pen.legend(DVec2::new(0.0, h + 13.0), w, &used);
    let notes = [
        format!("{} {way}.", options.note(scale)),
        format!(
            "True round the wall at a diameter of {}; heights from the foot's underside.",
            unit.length(radius * 2.0)
        ),
    ];
    let top = DVec2::new(0.0, h + 13.0 + legend + 3.0);
    pen.heading(top, &format!("{}: {name}, unrolled", piece.title), &notes);
    pen.finish(5.0)
}

fn weight(kind: FaceKind) -> u8 {
    match kind {
        FaceKind::Ring { .. } => 0,
        FaceKind::Joint { .. } | FaceKind::LayerJoint { .. } => 1,
        FaceKind::Split { .. } => 2,
        FaceKind::Section { .. } => 3,
        FaceKind::Layer { .. } => 4,
    }
}

/// The layer and line of a face; loops and sections are drawn finer at a small scale, so
/// that a layer's two edges stay apart.
fn style(kind: FaceKind, scale: f64) -> (&'static str, LineKind) {
    let bold = if scale > 0.7 {
        LineKind::Outline
    } else if scale > 0.35 {
        LineKind::Cut
    } else {
        LineKind::Thin
    };
    match kind {
        FaceKind::Ring { .. } => ("rings", LineKind::Thin),
        FaceKind::Joint { .. } | FaceKind::LayerJoint { .. } => ("joints", LineKind::Thin),
        FaceKind::Split { .. } => ("splits", LineKind::Cut),
        FaceKind::Section { .. } => ("sections", bold),
        FaceKind::Layer { .. } => ("loops", bold),
    }
}

/// Rows of crossings and ends of loops as light lines, their heights at the right;
/// so are the lines between sections.
fn rows(pen: &mut Pen, wall: &Wall<'_>, w: f64, y_of: &dyn Fn(f64) -> f64) {
    let mut marks: Vec<(f64, String, bool)> = Vec::new();
    let on_wall = |z: f64| z >= wall.lowest() && z <= wall.highest();
    for (i, section) in wall.piece.sections.iter().enumerate() {
        let lift = section.bottom;
        if i > 0 && on_wall(lift.as_mm()) {
            marks.push((lift.as_mm(), format!("{} from here", section.name), false));
        }
        for band in &section.bands {
            let lift = section.base_of(band);
            let (edges, rows) = match wall.side {
                WallSide::Outside => (&band.outside, &band.rows_outside),
                WallSide::Inside => (&band.inside, &band.rows_inside),
            };
            let ends = [(edges.top, "loops' tops"), (edges.bottom, "loops' bottoms")];
            for (z, words) in ends {
                if let Some(z) = z {
                    marks.push(((z + lift).as_mm(), words.into(), true));
                }
            }
            for (n, row) in rows.iter().enumerate() {
                if let Some(z) = row.height {
                    let words = format!("crossings, row {}", n + 1);
                    marks.push(((z + lift).as_mm(), words, true));
                }
            }
        }
    }
    let at: Vec<f64> = marks.iter().map(|m| y_of(m.0)).collect();
    let spread = spread(&at, FIGURES * 1.25);
    pen.layer("rows");
    for ((z, words, guide), y) in marks.into_iter().zip(spread) {
        let line = y_of(z);
        if guide {
            pen.line(DVec2::new(0.0, line), DVec2::new(w, line), LineKind::Guide);
        }
        let knee = DVec2::new(w + 5.0, y);
        pen.through(
            vec![DVec2::new(w + 0.8, line), knee, knee + DVec2::X * 1.5],
            LineKind::Dimension,
        );
        let figure = pen.figure(Length::mm(z));
        pen.words(
            knee + DVec2::new(2.5, FIGURES * 0.32),
            format!("{figure}  {words}"),
            Anchor::Start,
        );
    }
}

/// Each ring's number and the letters of its woods, to the left of the scale.
fn ring_names(
    pen: &mut Pen,
    wall: &Wall<'_>,
    looks: &Looks,
    y_of: &dyn Fn(f64) -> f64,
    height: f64,
) {
    let mut names: Vec<(f64, String)> = Vec::new();
    for (i, section) in wall.piece.sections.iter().enumerate() {
        for (k, ring) in section.rings.iter().enumerate() {
            let low = ring.spans.0.as_mm().max(wall.lowest());
            let high = ring.spans.1.as_mm().min(wall.highest());
            if low >= high {
                continue;
            }
            let letters = looks.pattern_letters(&ring.woods);
            let number = wall.piece.ring_number(i, k);
            names.push((
                y_of(0.5 * (low + high)),
                format!("ring {number}  {letters}"),
            ));
        }
    }
    pen.layer("names");
    let room = (height / (FIGURES * 1.25)).floor().max(1.0) as usize;
    let every = names.len().div_ceil(room).max(1);
    let names: Vec<_> = names.into_iter().step_by(every).collect();
    let places: Vec<f64> = names.iter().map(|n| n.0).collect();
    for ((_, words), y) in names.into_iter().zip(spread(&places, FIGURES * 1.25)) {
        pen.words(DVec2::new(-15.0, y + FIGURES * 0.32), words, Anchor::End);
    }
}

/// Each loop's number over its top. A split above the loops may have turned them.
fn numbers(pen: &mut Pen, wall: &Wall<'_>, faces: &Faces, w: f64, y_of: &dyn Fn(f64) -> f64) {
    pen.layer("numbers");
    for (s, section) in wall.piece.sections.iter().enumerate() {
        let mut first_step = 0;
        for band in &section.bands {
            let edges = match wall.side {
                WallSide::Outside => &band.outside,
                WallSide::Inside => &band.inside,
            };
            let z = match edges.top {
                Some(top) => (top + section.base_of(band)).as_mm(),
                None => wall.highest(),
            };
            for (i, azimuth) in band.loops.azimuths.iter().enumerate() {
                let step = (first_step + band.cut_at(i)) as u16;
                let moved = faces.all().iter().find(|f| {
                    matches!(f.kind, FaceKind::Layer { section, step: k, upper: true }
                        if usize::from(section) == s && k == step)
                        && f.level().is_none()
                        && f.heights.0 <= z
                        && z <= f.heights.1
                });
                // A layer's normal leans away from its climb.
                let climb = moved.map_or((*azimuth + section.turn_of(band)).as_rad(), |f| {
                    f.lean() + std::f64::consts::PI
                });
                let x = wall.share(Angle::rad(climb).wrapped().as_rad()) * w;
                // At the seam the number would hang over the edge: it stands just beside it.
                let x = x.clamp(3.0, (w - 3.0).max(3.0));
                pen.balloon(DVec2::new(x, y_of(z) - 3.2), &(i + 1).to_string(), 3.0);
            }
            first_step += band.loops.azimuths.len();
        }
    }
}
