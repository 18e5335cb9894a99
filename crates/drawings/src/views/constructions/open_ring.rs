//! An open-segment ring: its segments and the gaps between them.

use files::units::degrees;
use geometry::Portable;
use glam::DVec2;
use piece::course::Course;
use std::f64::consts::TAU;

use super::mitred::{letters, segment, segments_made};
use super::{Drawn, View};
use crate::vector::{Fill, LineKind, Looks, Pen};
use crate::views::Options;

/// Segments that do not meet.
pub struct OpenRing;

impl Drawn for OpenRing {
    fn word(&self) -> &'static str {
        "open"
    }

    fn made(&self, course: &Course, options: &Options) -> String {
        let outside = course
            .needs
            .outside
            .map_or(course.sizes.flat_out, |(r, _)| r);
        format!(
            "{} The ring is open: gaps of {}, {} straight across at the finished outside.",
            segments_made(course, options),
            degrees(course.gap(), 2),
            options.unit.length(course.sizes.gap(outside)),
        )
    }

    fn body(&self, pen: &mut Pen, course: &Course, looks: &Looks, view: &View) {
        let sizes = &course.sizes;
        let n = sizes.segments.max(3);
        let half = sizes.mitre().as_rad();
        let mid = |k: usize| course.rotation.as_rad() + TAU * k as f64 / n as f64;
        let corner = |flat: f64, at: f64| view.at(at, flat / half.cosine());
        let (outside, inside) = (sizes.flat_out.as_mm(), sizes.flat_in().as_mm());
        let bound = |k: usize| -> Vec<DVec2> {
            let (from, to) = (mid(k) - half, mid(k) + half);
            vec![
                corner(inside, from),
                corner(outside, from),
                corner(outside, to),
                corner(inside, to),
            ]
        };
        pen.layer("woods");
        for (k, wood) in course.woods.iter().enumerate() {
            if let Some(look) = looks.of(*wood) {
                pen.area(vec![bound(k)], Fill::Wood(look.pattern));
            }
        }
        pen.layer("ring");
        for k in 0..course.woods.len() {
            pen.round(bound(k), LineKind::Outline);
        }
        letters(pen, course, looks, view);
    }

    fn part(&self, pen: &mut Pen, course: &Course, view: &View, x: f64) -> f64 {
        segment(pen, course, view, x)
    }
}
