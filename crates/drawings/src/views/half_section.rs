//! The half-section: rings as they are made, and the finished wall in them.

use files::units::degrees;
use geometry::Length;
use geometry::Portable;
use glam::DVec2;
use piece::course::Course;
use piece::form::WallSide;
use piece::model::WoodId;
use piece::piece::{Piece, Section};

use super::{Options, clip};
use crate::vector::dimension::spread;
use crate::vector::pen::{FIGURES, rectangle, used_looks};
use crate::vector::{Anchor, Drawing, Fill, LineKind, Looks, Pen, Text, width_of};

/// The half-section of a piece: every ring's rectangle (outer flat to inner corner,
/// which bind), the finished wood in it, floor, foot, glue joints, sections, the
/// largest diameters, and how far loops reach.
pub fn half_section(piece: &Piece, options: &Options) -> Drawing {
    let form = &piece.form;
    let top = form.height().as_mm().max(piece.stack.height());
    let widest = piece
        .sections
        .iter()
        .flat_map(|s| &s.rings)
        .map(|r| r.sizes.flat_out)
        .fold(form.largest_radius().0, Length::max);
    let scale = options.scale(Length::mm(top).max(widest));
    let k = scale.factor();
    let unit = options.unit;
    let title = format!("{}: half-section", piece.title);
    let mut pen = Pen::new(
        title.clone(),
        format!(
            "Half-section of the piece, {} high and {} across at its widest, in {} rings of {} sections. \
             The finished wall stands in the rings that it is turned from.",
            unit.length(form.height()),
            unit.length(form.largest_radius().0 * 2.0),
            piece.ring_count(),
            piece.sections.len()
        ),
        unit,
    );
    let view = View { top, k };
    let looks = Looks::new(piece);
    let right = widest.as_mm() * k;

    rings(&mut pen, piece, &looks, &view);
    loops(&mut pen, piece, &looks, &view);
    pen.layer("outline");
    let outline = outline_of(piece);
    pen.round(
        outline.iter().map(|p| view.at(p.x, p.y)).collect(),
        LineKind::Outline,
    );
    pen.layer("axis");
    pen.line(
        view.at(0.0, top) - DVec2::Y * 6.0,
        view.at(0.0, 0.0) + DVec2::Y * 6.0,
        LineKind::Centre,
    );
    sections(&mut pen, piece, &view);
    beside(&mut pen, piece, &view, right);
    // Over the leaders, whose lines their rim of paper interrupts.
    ring_names(&mut pen, piece, &looks, &view);

    let used = used_looks(
        &looks,
        piece.sections.iter().flat_map(|s| {
            let rings = s.rings.iter().flat_map(|r| {
                let panel = r.let_in.as_ref().map(|p| p.wood);
                r.woods.iter().copied().chain(panel)
            });
            rings.chain(s.bands.iter().flat_map(|b| b.woods.iter().copied()))
        }),
    );
    let left = -46.0;
    let y = top * k + 12.0;
    let legend = pen.legend(DVec2::new(left, y), right - left + 60.0, &used);
    let allow = &piece.workshop.allowances;
    let notes = [
        options.note(scale),
        format!(
            "Rings stand {} outside the finished wall at a flat and {} inside it at a corner.",
            unit.length(*allow.outside),
            unit.length(*allow.inside)
        ),
        "Loops are cut where they climb highest and where they fall lowest.".to_string(),
    ];
    let notes = if piece.sections.iter().any(|s| !s.bands.is_empty()) {
        &notes[..]
    } else {
        &notes[..2]
    };
    pen.heading(DVec2::new(left, y + legend + 3.0), &title, notes);
    pen.finish(5.0)
}

/// Where radius and height stand on paper.
struct View {
    top: f64,
    k: f64,
}

impl View {
    fn at(&self, r: f64, z: f64) -> DVec2 {
        DVec2::new(r * self.k, (self.top - z) * self.k)
    }
}

fn first_wood(ring: &Course) -> WoodId {
    ring.woods.first().copied().unwrap_or(WoodId(0))
}

fn rings(pen: &mut Pen, piece: &Piece, looks: &Looks, view: &View) {
    let outline = outline_of(piece);
    let finished = |pen: &mut Pen, wood: WoodId, low: DVec2, high: DVec2| {
        let part = clip::within(&outline, low, high);
        if let Some(look) = looks.of(wood).filter(|_| part.len() > 2) {
            let bound = part.iter().map(|p| view.at(p.x, p.y)).collect();
            pen.area(vec![bound], Fill::Wood(look.pattern));
        }
    };
    let all = || {
        piece
            .sections
            .iter()
            .flat_map(|s| s.rings.iter().map(move |r| (s, r)))
    };
    pen.layer("woods");
    for (_, ring) in all() {
        let (low, high) = (ring.spans.0.as_mm(), ring.spans.1.as_mm());
        let (inner, outer) = (ring.sizes.corner_in.as_mm(), ring.sizes.flat_out.as_mm());
        finished(
            pen,
            first_wood(ring),
            DVec2::new(inner, low),
            DVec2::new(outer, high),
        );
        if let Some(panel) = &ring.let_in {
            let from = low + panel.above.as_mm();
            let to = (from + panel.thickness.as_mm()).min(high);
            let room = (panel.diameter / 2.0 + panel.gap).as_mm();
            // The groove's room shows as paper at the panel's edge.
            let groove = rectangle(view.at(0.0, from), view.at(room, to));
            pen.area(vec![groove], Fill::Paper);
            finished(
                pen,
                panel.wood,
                DVec2::new(0.0, from),
                DVec2::new(panel.diameter.as_mm() / 2.0, to),
            );
        }
    }
    pen.layer("rings");
    for (_, ring) in all() {
        let (low, high) = (ring.spans.0.as_mm(), ring.spans.1.as_mm());
        let (inner, outer) = (ring.sizes.corner_in.as_mm(), ring.sizes.flat_out.as_mm());
        let stock = rectangle(view.at(inner, low), view.at(outer, high));
        pen.round(stock, LineKind::Thin);
        if let Some(panel) = &ring.let_in {
            let from = low + panel.above.as_mm();
            let to = (from + panel.thickness.as_mm()).min(high);
            let edge = panel.diameter.as_mm() / 2.0;
            let shape = rectangle(view.at(0.0, from), view.at(edge, to));
            pen.round(shape, LineKind::Thin);
            let room = edge + panel.gap.as_mm();
            pen.through(
                vec![
                    view.at(edge, from),
                    view.at(room, from),
                    view.at(room, to),
                    view.at(edge, to),
                ],
                LineKind::Thin,
            );
        }
    }
}

/// The layers of a loop where it climbs highest and falls lowest, and the trued cylinder.
fn loops(pen: &mut Pen, piece: &Piece, looks: &Looks, view: &View) {
    let outline = outline_of(piece);
    for section in piece.sections.iter().filter(|s| !s.bands.is_empty()) {
        pen.layer("trued");
        let r = section.blank_radius.as_mm();
        let (low, high) = (
            section.bottom.as_mm(),
            (section.bottom + section.stacked).as_mm(),
        );
        pen.line(view.at(r, low), view.at(r, high), LineKind::Phantom);
        for band in &section.bands {
            let (sine, cosine) = band.loops.tilt.as_rad().sine_cosine();
            let half = band.loops.thickness.as_mm() / 2.0;
            let middle = (section.base_of(band) + band.loops.height).as_mm();
            for way in [1.0, -1.0] {
                // Square to the layer, in the half-section.
                let normal = DVec2::new(-sine * way, cosine);
                let offset = cosine * middle;
                let part = clip::clipped(&outline, normal, offset + half);
                let part = clip::clipped(&part, -normal, half - offset);
                let look = band.woods.first().and_then(|w| looks.of(*w));
                let Some(look) = look.filter(|_| part.len() > 2) else {
                    continue;
                };
                let inner = part.iter().map(|p| p.x).fold(f64::MAX, f64::min);
                pen.layer("loops");
                let bound: Vec<DVec2> = part.iter().map(|p| view.at(p.x, p.y)).collect();
                pen.area(vec![bound.clone()], Fill::Wood(look.pattern));
                pen.round(bound, LineKind::Thin);
                for side in [half, -half] {
                    let on = |x: f64| view.at(x, (offset + side - normal.x * x) / cosine);
                    pen.line(on((inner - 4.0).max(0.0)), on(r), LineKind::Hidden);
                }
            }
        }
    }
}

fn outline_of(piece: &Piece) -> Vec<DVec2> {
    piece
        .form
        .outline()
        .points()
        .iter()
        .map(|p| DVec2::new(p.x, p.y))
        .collect()
}

/// Each ring's number and the letters of its woods: in the hollow where there is room,
/// else to the right of it.
fn ring_names(pen: &mut Pen, piece: &Piece, looks: &Looks, view: &View) {
    pen.layer("names");
    let mut last = f64::MAX;
    for (i, section) in piece.sections.iter().enumerate() {
        for (j, ring) in section.rings.iter().enumerate() {
            let z = 0.5 * (ring.spans.0 + ring.spans.1).as_mm();
            let y = view.at(0.0, z).y + FIGURES * 0.32;
            // Rings too thin for a name of their own are counted from their neighbours.
            if last - y < FIGURES * 1.15 {
                continue;
            }
            last = y;
            let letters = looks.pattern_letters(&ring.woods);
            let words = format!("{}  {letters}", piece.ring_number(i, j));
            let wide = width_of(&words, FIGURES, false);
            let inner = ring.sizes.corner_in.as_mm() * view.k - 2.0;
            let hollow = ring.let_in.is_none() && inner > wide + 3.0;
            let (x, anchor) = if hollow {
                (inner, Anchor::End)
            } else {
                (ring.sizes.flat_out.as_mm() * view.k + 2.0, Anchor::Start)
            };
            pen.text(Text::new(DVec2::new(x, y), words, anchor, FIGURES).with_halo());
        }
    }
}

/// Names and heights of the sections to the left of the axis, and the whole height.
fn sections(pen: &mut Pen, piece: &Piece, view: &View) {
    pen.layer("sections");
    let end = |s: &Section| (s.bottom + s.height).as_mm();
    let mut marks: Vec<f64> = piece.sections.iter().map(|s| s.bottom.as_mm()).collect();
    marks.extend(piece.sections.last().map(end));
    for z in marks {
        let y = view.at(0.0, z).y;
        pen.line(
            DVec2::new(-36.0, y),
            DVec2::new(-2.0, y),
            LineKind::Dimension,
        );
    }
    let at: Vec<f64> = piece
        .sections
        .iter()
        .map(|s| view.at(0.0, 0.5 * (s.bottom.as_mm() + end(s))).y)
        .collect();
    for (section, y) in piece.sections.iter().zip(spread(&at, FIGURES * 1.3)) {
        let figure = pen.figure(section.height);
        pen.words(
            DVec2::new(-3.5, y + FIGURES * 0.32),
            format!("{}  {figure}", section.name),
            Anchor::End,
        );
    }
    let height = piece.form.height();
    let (a, b) = (view.at(0.0, 0.0), view.at(0.0, height.as_mm()));
    let x = DVec2::new(-42.0, 0.0);
    let figure = pen.figure(height);
    for p in [a, b] {
        pen.line(
            p - DVec2::X * 37.0,
            p - DVec2::X * 43.5,
            LineKind::Dimension,
        );
    }
    pen.dimension_line(a + x, b + x, &figure);
}

/// Diameters, wall, floor and loops in a column to the right.
fn beside(pen: &mut Pen, piece: &Piece, view: &View, right: f64) {
    let form = &piece.form;
    let unit = pen.unit;
    let across = |r: f64| unit.length_bare(Length::mm(2.0 * r));
    let mut marks: Vec<(DVec2, String)> = turning_points(piece)
        .into_iter()
        .map(|(name, r, z)| (view.at(r, z), format!("{name} ⌀ {}", across(r))))
        .collect();
    let (thin, mut at) = form.thinnest_wall();
    let mut words = "thinnest wall";
    // A wall of one thickness has no thinnest place: it is shown half way up.
    let half_way = form.height() / 2.0;
    if form
        .wall_at(half_way)
        .is_some_and(|w| w.as_mm() < thin.as_mm() * 1.01)
    {
        (at, words) = (half_way, "wall");
    }
    if let Some(r) = form.outside().radius(at.as_mm()) {
        marks.push((
            view.at(r, at.as_mm()),
            format!("{words} {}", unit.length_bare(thin)),
        ));
    }
    let floor = form.floor_top();
    let words = format!("floor {}", unit.length_bare(form.floor()));
    let inner = form.inside().radius(floor.as_mm()).unwrap_or(0.0);
    if inner * view.k > 42.0 {
        // In the hollow there is room beside the axis.
        let from = view.at(0.0, floor.as_mm()) + DVec2::X * 8.0;
        pen.layer("floor");
        pen.leader(from, from + DVec2::new(8.0, -12.0), &words);
    } else {
        marks.push((view.at(inner * 0.5, floor.as_mm()), words));
    }
    for ring in piece.sections.iter().flat_map(|s| &s.rings) {
        if let Some(panel) = &ring.let_in {
            let z = (ring.spans.0 + panel.above + panel.thickness / 2.0).as_mm();
            let held = if panel.floating { "floating" } else { "glued" };
            marks.push((
                view.at((panel.diameter / 2.0).as_mm(), z),
                format!("{held} floor ⌀ {}", across(panel.diameter.as_mm() / 2.0)),
            ));
        }
    }
    let column = right + 26.0;
    pen.layer("reach");
    for section in &piece.sections {
        for band in &section.bands {
            let lift = section.base_of(band);
            let x = right + 13.0;
            let middle = view.at(0.0, (lift + band.loops.height).as_mm()).y;
            if let (Some(low), Some(high)) = (band.outside.bottom, band.outside.top) {
                let (a, b) = ((low + lift).as_mm(), (high + lift).as_mm());
                let r = |z: f64| form.outside().radius(z).unwrap_or(0.0);
                for z in [a, b] {
                    let p = view.at(r(z), z);
                    pen.line(
                        p + DVec2::X * 0.8,
                        DVec2::new(x + 1.5, p.y),
                        LineKind::Dimension,
                    );
                }
                let (p, q) = (view.at(0.0, a).y, view.at(0.0, b).y);
                let (p, q) = (DVec2::new(x, p), DVec2::new(x, q));
                pen.line(p, q, LineKind::Dimension);
                pen.arrow_head(p, p - q);
                pen.arrow_head(q, q - p);
                let reach = unit.length_bare(high - low);
                marks.push((
                    DVec2::new(x, middle),
                    format!(
                        "{} loops reach {reach}, tilt {}",
                        band.loops.azimuths.len(),
                        degrees(band.loops.tilt, 1)
                    ),
                ));
            }
        }
        if !section.bands.is_empty() {
            let z = (section.bottom + section.stacked).as_mm();
            marks.push((
                view.at(section.blank_radius.as_mm(), z),
                format!(
                    "trued to ⌀ {}",
                    unit.length_bare(section.blank_radius * 2.0)
                ),
            ));
        }
    }
    pen.layer("dimensions");
    let at: Vec<f64> = marks.iter().map(|m| m.0.y).collect();
    for ((from, words), y) in marks.into_iter().zip(spread(&at, FIGURES * 1.5)) {
        pen.leader(from, DVec2::new(column, y), &words);
    }
}

/// Foot, rim, and where the outside is widest or narrowest between them: name, radius, height.
fn turning_points(piece: &Piece) -> Vec<(&'static str, f64, f64)> {
    // As turned: the diameters are those of the tables.
    let side = piece.form.turned(WallSide::Outside);
    let (low, high) = (side.lowest(), side.highest());
    let mut out = vec![("foot", piece.form.foot_radius().as_mm(), low)];
    const STEPS: usize = 400;
    let height = |i: usize| low + (high - low) * i as f64 / STEPS as f64;
    let r = |i: usize| side.radius(height(i)).unwrap_or(0.0);
    // Closer to an end than this a swell is the end's easing.
    let edge = STEPS / 25;
    for i in edge..STEPS - edge {
        if r(i) > r(i - 1) && r(i) >= r(i + 1) {
            out.push(("widest", r(i), height(i)));
        } else if r(i) < r(i - 1) && r(i) <= r(i + 1) {
            out.push(("neck", r(i), height(i)));
        }
    }
    let rim = (STEPS - edge..=STEPS)
        .max_by(|a, b| r(*a).total_cmp(&r(*b)))
        .unwrap_or(STEPS);
    out.push(("rim", r(rim), height(rim)));
    out
}
