//! A solid disc.

use geometry::Length;

use super::{Asked, Construction, Course, Cut, GrainWay, Joint};
use crate::model::{CourseBody, WoodId};
use files::design::RingSpec;

/// One piece cut round, its grain right across.
#[derive(Debug)]
pub struct Disc;

impl Construction for Disc {
    fn word(&self) -> &'static str {
        "disc"
    }

    fn example(&self) -> &'static str {
        "solid = true"
    }

    fn answers_to(&self, spec: &RingSpec) -> bool {
        spec.solid
    }

    fn shape(&self, _asked: &mut dyn Asked, course: &mut Course) {
        course.grain = GrainWay::Across;
        course.woods.truncate(1);
        course.sizes.corner_in = Length::ZERO;
        course.to_a_point = false;
    }

    fn joints(&self, _course: &Course) -> Vec<Joint> {
        Vec::new()
    }

    fn cuts(&self, course: &Course) -> Vec<Cut> {
        let across = course.sizes.flat_out * 2.0;
        let cut = |&wood: &WoodId| Cut {
            wood,
            board: course.board,
            count: 1,
            length: across,
            width: across,
            thickness: course.stock,
            mitre: None,
            let_in: false,
        };
        course.woods.first().map(cut).into_iter().collect()
    }

    fn body(&self, course: &Course) -> CourseBody {
        CourseBody::disc(
            course.heights(),
            course.sizes.flat_out.as_mm(),
            course.rotation.as_rad(),
            course.woods.first().copied().unwrap_or(WoodId(0)),
        )
    }
}
