//! A closed ring of mitred segments.

use super::{Asked, Construction, Course, Cut, Joint};
use crate::model::CourseBody;
use files::design::RingSpec;

/// n equal trapezoids, each end mitred 180°/n, glued end to end.
#[derive(Debug)]
pub struct ClosedRing;

impl Construction for ClosedRing {
    fn word(&self) -> &'static str {
        "segments"
    }

    fn example(&self) -> &'static str {
        "segments = 12"
    }

    fn answers_to(&self, _spec: &RingSpec) -> bool {
        true
    }

    fn shape(&self, _asked: &mut dyn Asked, _course: &mut Course) {}

    fn joints(&self, course: &Course) -> Vec<Joint> {
        vec![course.end_joints()]
    }

    fn cuts(&self, course: &Course) -> Vec<Cut> {
        course.segment_cuts()
    }

    fn body(&self, course: &Course) -> CourseBody {
        segments(course)
    }
}

/// The segments of a course, closed or with gaps.
pub(super) fn segments(course: &Course) -> CourseBody {
    let sizes = &course.sizes;
    let flats = (sizes.flat_out.as_mm(), sizes.flat_in().as_mm());
    CourseBody::spaced(
        course.heights(),
        flats,
        course.rotation.as_rad(),
        (course.woods.clone(), sizes.filled),
    )
}
