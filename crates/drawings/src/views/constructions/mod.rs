//! How each construction is drawn from above: its parts, one of them by itself, and the
//! figures that it is made to.

mod disc;
mod mitred;
mod open_ring;

use std::f64::consts::{FRAC_PI_2, TAU};

use files::message::Spelling;
use geometry::{Length, Portable};
use glam::DVec2;
use piece::course::Course;

use crate::vector::{Looks, Pen};
use crate::views::Options;

/// A diameter's half and what it is.
pub type Mark = (Length, &'static str);

/// The drawing of one construction.
pub trait Drawn: Sync {
    /// The construction's name, as `piece` has it.
    fn word(&self) -> &'static str;

    /// What it is made of and to, in a sentence or two.
    fn made(&self, course: &Course, options: &Options) -> String;

    /// How far wood reaches from the axis before it is turned.
    fn reach(&self, course: &Course) -> Length {
        course.sizes.corner_out()
    }

    /// Its parts from above, with their woods.
    fn body(&self, pen: &mut Pen, course: &Course, looks: &Looks, view: &View);

    /// Radii of the circles that bind its corners.
    fn corners(&self, course: &Course) -> Vec<Length> {
        vec![course.sizes.corner_out(), course.sizes.corner_in]
    }

    /// One part by itself as it is cut, its corner's column at `x`. Returns the lowest y used.
    fn part(&self, pen: &mut Pen, course: &Course, view: &View, x: f64) -> f64;

    /// Diameters outside.
    fn outside(&self, course: &Course) -> Vec<Mark> {
        vec![
            (course.sizes.corner_out(), "corners"),
            (course.sizes.flat_out, "flats"),
        ]
    }

    /// Diameters inside.
    fn inside(&self, course: &Course) -> Vec<Mark> {
        let sizes = &course.sizes;
        if sizes.corner_in.exceeds(Length::ZERO) {
            vec![
                (sizes.corner_in, "inside, corners"),
                (sizes.flat_in(), "inside, flats"),
            ]
        } else {
            Vec::new()
        }
    }
}

/// Every drawing, in the order of [`piece::course::ALL`].
pub static ALL: [&dyn Drawn; 4] = [
    &disc::Disc,
    &mitred::Mitred("panel"),
    &open_ring::OpenRing,
    &mitred::Mitred("segments"),
];

/// How a course is drawn.
pub fn drawn(course: &Course) -> &'static dyn Drawn {
    let word = course.construction.word();
    let found = ALL.iter().find(|drawn| drawn.word() == word);
    // A test holds the two lists to each other.
    *found.unwrap_or(&ALL[ALL.len() - 1])
}

/// Where azimuth and radius stand on paper: turned so that a segment's middle is at
/// the top, where its flat can be read level.
pub struct View {
    /// Millimetres on paper for one of wood.
    pub k: f64,
    /// What azimuths are turned by, radians.
    pub turn: f64,
    /// The reader's spelling.
    pub spelling: Spelling,
}

impl View {
    /// The view of a course at a scale.
    pub fn new(ring: &Course, k: f64, spelling: Spelling) -> Self {
        let step = TAU / ring.sizes.segments.max(3) as f64;
        let rotation = ring.rotation.as_rad();
        let nearest = ((FRAC_PI_2 - rotation) / step).round();
        View {
            k,
            turn: FRAC_PI_2 - (rotation + nearest * step),
            spelling,
        }
    }

    /// A point by its azimuth and radius, mm.
    pub fn at(&self, azimuth: f64, r: f64) -> DVec2 {
        let a = azimuth + self.turn;
        DVec2::new(a.cosine(), -a.sine()) * r * self.k
    }

    /// A point of the course.
    pub fn point(&self, p: DVec2) -> DVec2 {
        self.at(p.y.arctangent2(p.x), p.length())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_construction_is_drawn() {
        let words: Vec<&str> = piece::course::ALL.iter().map(|c| c.word()).collect();
        assert_eq!(words, ALL.map(|drawn| drawn.word()));
    }
}
