//! An open-segment ring: strips, segments, and marks to glue them on.

use files::message::Message;
use files::say;
use piece::course::Course;

use super::Making;
use crate::operation::ShopOperation;
use crate::operations::cut_segments::CutSegments;
use crate::operations::rip::Rip;
use crate::operations::space_segments::SpaceSegments;
use crate::ring_group::RingGroup;

/// An open-segment ring: strips, segments, and marks to glue them on.
pub struct OpenRing;

impl Making for OpenRing {
    fn word(&self) -> &'static str {
        "open"
    }

    fn operations<'a>(&self, group: &RingGroup<'a>) -> Vec<Box<dyn ShopOperation + 'a>> {
        vec![
            Box::new(Rip(group.clone())),
            Box::new(CutSegments(group.clone())),
            Box::new(SpaceSegments(group.clone())),
        ]
    }

    fn stacking(&self, course: &Course, number: usize) -> Option<Message> {
        Some(say!(
            "Ring {number} is open: glue its {n} segments one by one on the ring below, each in \
             its marks, every second one first. When they hold, face their tops true on the \
             lathe at a low speed, to the ring's height, before the next ring.",
            number = number,
            n = course.woods.len(),
        ))
    }

    fn docs(&self) -> (&'static str, &'static str) {
        ("open-rings.md", "How one is made")
    }
}
