//! One ring from above, and one of its segments by itself.

use geometry::Portable;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

use files::message::Spelling;
use files::units::degrees;
use geometry::Length;
use glam::DVec2;
use piece::model::polygon;
use piece::piece::{Piece, Ring, RingMake};

use super::Options;
use crate::vector::dimension::spread;
use crate::vector::pen::{FIGURES, used_looks};
use crate::vector::{Anchor, Drawing, Fill, LineKind, Looks, Pen, Shape, Text};

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
    let sizes = &drawn.sizes;
    let disc = matches!(drawn.make, RingMake::Disc);
    let outer = if disc {
        sizes.flat_out
    } else {
        sizes.corner_out()
    };
    let scale = options.scale(outer * 2.0);
    let title = format!(
        "Ring {} from above ({}, ring {} of {})",
        piece.ring_number(section, ring),
        place.name,
        ring + 1,
        place.rings.len()
    );
    let made = if disc {
        format!("One disc, {} across.", unit.length(sizes.flat_out * 2.0))
    } else {
        format!(
            "{} segments, {} {}. Long edge {}, short edge {}, board width {}.",
            sizes.segments,
            options.spelling.of_words("mitre"),
            degrees(sizes.mitre(), 2),
            unit.length(sizes.long_edge()),
            unit.length(sizes.short_edge()),
            unit.length(sizes.board_width())
        )
    };
    let mut pen = Pen::new(format!("{}: {title}", piece.title), made.clone(), unit);
    let view = View::new(drawn, scale.factor(), options.spelling);
    let looks = Looks::new(piece);

    if disc {
        disc_body(&mut pen, drawn, &looks, &view);
    } else {
        body(&mut pen, drawn, &looks, &view);
    }
    circles(&mut pen, drawn, &view);
    let right = outer.as_mm() * view.k + 12.0;
    let below = if disc {
        -outer.as_mm() * view.k
    } else {
        segment(&mut pen, drawn, &view, right)
    };
    diameters(&mut pen, drawn, &view, right, below + 8.0);

    let panel_wood = match &drawn.make {
        RingMake::Panel(p) => Some(p.wood),
        _ => None,
    };
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
    if ring > 0 && !disc {
        notes.push(format!(
            "Joints turned {} against the ring below.",
            degrees(drawn.turn, 2)
        ));
    }
    pen.heading(corner + DVec2::Y * (legend + 3.0), &title, &notes);
    Some(pen.finish(5.0))
}

/// Where azimuth and radius stand on paper: turned so that a segment's middle is at
/// the top, where its flat can be read level.
struct View {
    k: f64,
    turn: f64,
    spelling: Spelling,
}

impl View {
    fn new(ring: &Ring, k: f64, spelling: Spelling) -> Self {
        let step = TAU / ring.sizes.segments.max(3) as f64;
        let rotation = ring.rotation.as_rad();
        let nearest = ((FRAC_PI_2 - rotation) / step).round();
        View {
            k,
            turn: FRAC_PI_2 - (rotation + nearest * step),
            spelling,
        }
    }

    fn at(&self, azimuth: f64, r: f64) -> DVec2 {
        let a = azimuth + self.turn;
        DVec2::new(a.cosine(), -a.sine()) * r * self.k
    }

    fn point(&self, p: DVec2) -> DVec2 {
        self.at(p.y.arctangent2(p.x), p.length())
    }
}

fn body(pen: &mut Pen, ring: &Ring, looks: &Looks, view: &View) {
    let sizes = &ring.sizes;
    let n = sizes.segments.max(3);
    let rotation = ring.rotation.as_rad();
    let corners = |flat: f64| -> Vec<DVec2> {
        polygon(n, flat, rotation)
            .into_iter()
            .map(|p| view.point(p))
            .collect()
    };
    let outer = corners(sizes.flat_out.as_mm());
    let inner = corners(sizes.flat_in().as_mm());
    pen.layer("woods");
    for i in 0..n {
        let j = (i + 1) % n;
        if let Some(look) = ring.woods.get(i).and_then(|w| looks.of(*w)) {
            let bound = vec![inner[i], outer[i], outer[j], inner[j]];
            pen.area(vec![bound], Fill::Wood(look.pattern));
        }
    }
    if let RingMake::Panel(panel) = &ring.make {
        let edge = Shape::Circle {
            centre: DVec2::ZERO,
            radius: (panel.diameter / 2.0).as_mm() * view.k,
        };
        let hole = inner.clone();
        if let Some(look) = looks.of(panel.wood) {
            pen.area(vec![hole], Fill::Wood(look.pattern));
        }
        pen.layer("panel");
        let letter = looks
            .of(panel.wood)
            .map_or(String::new(), |l| l.letter.to_string());
        let at = DVec2::new(-FIGURES * 2.0, -FIGURES * 2.0);
        pen.text(Text::centred(at, letter, FIGURES).with_halo());
        if let Shape::Circle { centre, radius } = edge {
            pen.circle(centre, radius, LineKind::Hidden);
        }
    }
    pen.layer("joints");
    for (a, b) in inner.iter().zip(&outer) {
        pen.line(*a, *b, LineKind::Thin);
    }
    pen.layer("ring");
    pen.round(outer, LineKind::Outline);
    if sizes.corner_in.exceeds(Length::ZERO) {
        pen.round(inner, LineKind::Outline);
    }
    let size = FIGURES;
    let room = (sizes.long_edge() + sizes.short_edge()).as_mm() * view.k / 2.0;
    if room > 1.6 * size {
        pen.layer("letters");
        let r = 0.5 * (sizes.flat_out + sizes.flat_in()).as_mm();
        for (i, wood) in ring.woods.iter().enumerate() {
            let azimuth = rotation + TAU * i as f64 / n as f64;
            if let Some(look) = looks.of(*wood) {
                let letter = look.letter.to_string();
                pen.text(Text::centred(view.at(azimuth, r), letter, size).with_halo());
            }
        }
    }
}

fn disc_body(pen: &mut Pen, ring: &Ring, looks: &Looks, view: &View) {
    let r = ring.sizes.flat_out.as_mm() * view.k;
    let shape = Shape::Circle {
        centre: DVec2::ZERO,
        radius: r,
    };
    pen.layer("woods");
    let look = ring.woods.first().and_then(|w| looks.of(*w));
    if let Some(look) = look {
        pen.area(vec![shape.points(0.01)], Fill::Wood(look.pattern));
    }
    pen.layer("ring");
    pen.circle(DVec2::ZERO, r, LineKind::Outline);
    pen.layer("letters");
    // Grain runs along the disc's own x.
    let along = view.at(ring.rotation.as_rad(), 1.0).normalize_or_zero();
    let half = along * (0.5 * r);
    pen.line(-half, half, LineKind::Dimension);
    pen.arrow_head(half, along);
    pen.arrow_head(-half, -along);
    let letter = look.map_or(String::new(), |l| format!("{}, grain", l.letter));
    let beside = along.perp() * FIGURES;
    pen.text(Text::centred(beside, letter, FIGURES).with_halo());
}

/// Centre lines, the circles that bind, and the finished wall's largest and smallest.
fn circles(pen: &mut Pen, ring: &Ring, view: &View) {
    let sizes = &ring.sizes;
    let disc = matches!(ring.make, RingMake::Disc);
    let k = view.k;
    pen.layer("circles");
    if !disc {
        pen.circle(
            DVec2::ZERO,
            sizes.corner_out().as_mm() * k,
            LineKind::Phantom,
        );
        pen.circle(DVec2::ZERO, sizes.corner_in.as_mm() * k, LineKind::Phantom);
    }
    pen.layer("finished");
    for finished in [ring.needs.outside, ring.needs.inside]
        .into_iter()
        .flatten()
    {
        pen.circle(DVec2::ZERO, finished.0.as_mm() * k, LineKind::Hidden);
    }
    pen.layer("axis");
    let r = if disc {
        sizes.flat_out
    } else {
        sizes.corner_out()
    }
    .as_mm()
        * k
        + 4.0;
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

/// One segment as it is cut, its upper left corner's column at `x`, level with the
/// ring's top. Returns the lowest y used.
fn segment(pen: &mut Pen, ring: &Ring, view: &View, x: f64) -> f64 {
    let sizes = &ring.sizes;
    let (long, short) = (
        sizes.long_edge().as_mm() * view.k,
        sizes.short_edge().as_mm() * view.k,
    );
    let wide = sizes.board_width().as_mm() * view.k;
    let mid = x + 12.0 + long / 2.0;
    let top = -sizes.flat_out.as_mm() * view.k + 8.0;
    let p = |dx: f64, dy: f64| DVec2::new(mid + dx, top + dy);
    let corners = [
        p(-long / 2.0, 0.0),
        p(long / 2.0, 0.0),
        p(short / 2.0, wide),
        p(-short / 2.0, wide),
    ];
    pen.layer("segment");
    pen.round(corners.to_vec(), LineKind::Outline);
    pen.layer("dimensions");
    let figure = pen.figure(sizes.long_edge());
    pen.dimension(corners[0], corners[1], 6.0, &figure);
    if short > 0.5 {
        let figure = pen.figure(sizes.short_edge());
        pen.dimension(corners[3], corners[2], -8.0, &figure);
    }
    let figure = pen.figure(sizes.board_width());
    let low = p(-short / 2.0, wide);
    let side = p(-long / 2.0 - 7.0, 0.0);
    pen.line(
        corners[0] - DVec2::X * 0.8,
        side - DVec2::X * 1.5,
        LineKind::Dimension,
    );
    let side_low = DVec2::new(side.x, low.y);
    pen.line(
        low - DVec2::X * 0.8,
        side_low - DVec2::X * 1.5,
        LineKind::Dimension,
    );
    pen.dimension_line(side_low, side, &figure);
    // The mitre: between the end and a square end.
    let at = corners[1];
    let reach = (wide * 0.8).max(7.0);
    pen.line(at, at + DVec2::Y * (reach + 2.0), LineKind::Centre);
    let mitre = sizes.mitre().as_rad();
    pen.arc(at, reach, -FRAC_PI_2 - mitre, mitre, LineKind::Dimension);
    let words = degrees(sizes.mitre(), 2);
    pen.words(
        at + DVec2::new(1.5, reach * 0.75),
        format!("{} {words}", view.spelling.of_words("mitre")),
        Anchor::Start,
    );
    let words = "one segment";
    let lower = top + wide.max(reach) + 13.0;
    pen.small(DVec2::new(mid, lower), words, Anchor::Middle);
    lower
}

/// The diameters, each at the end of a leader, from `top` downwards at `x`.
fn diameters(pen: &mut Pen, ring: &Ring, view: &View, x: f64, top: f64) {
    let sizes = &ring.sizes;
    let disc = matches!(ring.make, RingMake::Disc);
    let mut marks: Vec<(Length, &str)> = Vec::new();
    if disc {
        marks.push((sizes.flat_out, "disc"));
    } else {
        marks.push((sizes.corner_out(), "corners"));
        marks.push((sizes.flat_out, "flats"));
    }
    if let Some((r, _)) = ring.needs.outside {
        marks.push((r, "finished, largest"));
    }
    if let Some((r, _)) = ring.needs.inside {
        marks.push((r, "finished inside, smallest"));
    }
    if let RingMake::Panel(panel) = &ring.make {
        marks.push((panel.diameter / 2.0, "floor panel"));
    }
    if !disc && sizes.corner_in.exceeds(Length::ZERO) {
        marks.push((sizes.corner_in, "inside, corners"));
        marks.push((sizes.flat_in(), "inside, flats"));
    }
    let n = sizes.segments.max(3) as f64;
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
