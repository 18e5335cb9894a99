//! Rings of mitred segments, closed, round a floor panel or round nothing.

use files::units::degrees;
use geometry::Length;
use glam::DVec2;
use piece::course::Course;
use piece::model::polygon;
use std::f64::consts::{FRAC_PI_2, TAU};

use super::{Drawn, View};
use crate::vector::pen::FIGURES;
use crate::vector::{Anchor, Fill, LineKind, Looks, Pen, Shape, Text};
use crate::views::Options;

/// A closed ring, by its construction's name.
pub struct Mitred(pub &'static str);

impl Drawn for Mitred {
    fn word(&self) -> &'static str {
        self.0
    }

    fn made(&self, course: &Course, options: &Options) -> String {
        segments_made(course, options)
    }

    fn body(&self, pen: &mut Pen, course: &Course, looks: &Looks, view: &View) {
        closed(pen, course, looks, view);
        letters(pen, course, looks, view);
    }

    fn part(&self, pen: &mut Pen, course: &Course, view: &View, x: f64) -> f64 {
        segment(pen, course, view, x)
    }
}

/// What a ring's segments are cut to.
pub(super) fn segments_made(course: &Course, options: &Options) -> String {
    let (sizes, unit) = (&course.sizes, options.unit);
    format!(
        "{} segments, {} {}. Long edge {}, short edge {}, board width {}.",
        sizes.segments,
        options.spelling.of_words("mitre"),
        degrees(sizes.mitre(), 2),
        unit.length(sizes.long_edge()),
        unit.length(sizes.short_edge()),
        unit.length(sizes.board_width())
    )
}

fn closed(pen: &mut Pen, ring: &Course, looks: &Looks, view: &View) {
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
    if let Some(panel) = &ring.let_in {
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
}

/// The letters of the woods, where there is room for them.
pub(super) fn letters(pen: &mut Pen, ring: &Course, looks: &Looks, view: &View) {
    let (sizes, rotation) = (&ring.sizes, ring.rotation.as_rad());
    let n = sizes.segments.max(3);
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

/// One segment as it is cut, its upper left corner's column at `x`, level with the
/// ring's top. Returns the lowest y used.
pub(super) fn segment(pen: &mut Pen, ring: &Course, view: &View, x: f64) -> f64 {
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
