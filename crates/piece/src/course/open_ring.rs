//! An open-segment ring: segments that do not meet, glued to the rings under and over them.

use geometry::{Angle, Portable};

use super::{Asked, Construction, Course, Cut, Joint, Opening};
use crate::model::CourseBody;
use files::design::RingSpec;

/// n equal trapezoids that fill a share of the closed ring's angle, their sides in planes
/// through the axis, with n gaps between them.
#[derive(Debug)]
pub struct OpenRing;

impl Construction for OpenRing {
    fn word(&self) -> &'static str {
        "open"
    }

    fn example(&self) -> &'static str {
        "segments = 12, filled = 68"
    }

    fn answers_to(&self, spec: &RingSpec) -> bool {
        spec.filled.is_some_and(|filled| filled < 100.0)
    }

    fn shape(&self, asked: &mut dyn Asked, course: &mut Course) {
        let inner = course.sizes.flat_in();
        course.sizes.filled = asked.spec().filled.map_or(1.0, |percent| percent / 100.0);
        // A narrower segment's corners lie nearer to its flat: the board stays as wide as
        // what was asked for, by the corner or by the board.
        if asked.spec().width.is_some() {
            course.sizes.corner_in = inner / course.sizes.mitre().as_rad().cosine();
        }
    }

    fn joints(&self, _course: &Course) -> Vec<Joint> {
        Vec::new()
    }

    fn cuts(&self, course: &Course) -> Vec<Cut> {
        course.segment_cuts()
    }

    fn openings(&self, course: &Course) -> Vec<Opening> {
        let n = course.woods.len().max(1);
        vec![Opening::Gap {
            count: n,
            angle: Angle::full().divided_by(n) * (1.0 - course.sizes.filled),
        }]
    }

    fn body(&self, course: &Course) -> CourseBody {
        super::closed_ring::segments(course)
    }
}
