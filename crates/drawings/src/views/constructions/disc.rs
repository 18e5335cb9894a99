//! A disc.

use geometry::Length;
use glam::DVec2;
use piece::course::Course;

use super::{Drawn, Mark, View};
use crate::vector::pen::FIGURES;
use crate::vector::{Fill, LineKind, Looks, Pen, Shape, Text};
use crate::views::Options;

/// One piece, with the way of its grain.
pub struct Disc;

impl Drawn for Disc {
    fn word(&self) -> &'static str {
        "disc"
    }

    fn made(&self, course: &Course, options: &Options) -> String {
        let across = course.sizes.flat_out * 2.0;
        format!("One disc, {} across.", options.unit.length(across))
    }

    fn reach(&self, course: &Course) -> Length {
        course.sizes.flat_out
    }

    fn corners(&self, _course: &Course) -> Vec<Length> {
        Vec::new()
    }

    fn body(&self, pen: &mut Pen, ring: &Course, looks: &Looks, view: &View) {
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

    /// The disc is all there is: nothing stands by itself.
    fn part(&self, _pen: &mut Pen, course: &Course, view: &View, _x: f64) -> f64 {
        -course.sizes.flat_out.as_mm() * view.k
    }

    fn outside(&self, course: &Course) -> Vec<Mark> {
        vec![(course.sizes.flat_out, "disc")]
    }

    fn inside(&self, _course: &Course) -> Vec<Mark> {
        Vec::new()
    }
}
