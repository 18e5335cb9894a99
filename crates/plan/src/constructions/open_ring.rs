//! An open-segment ring: strips, segments, and marks to glue them on.

use files::message::Message;
use files::say;

use super::Making;
use crate::operation::ShopOperation;
use crate::operations::cut_segments::CutSegments;
use crate::operations::rip::Rip;
use crate::operations::space_segments::SpaceSegments;
use crate::ring_group::RingGroup;
use crate::words;

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

    fn stacking(&self, numbers: &[usize]) -> Option<Message> {
        Some(say!(
            "Open, {rings}: glue the segments one by one on the ring below, each in its marks, \
             every second one first. When they hold, face their tops true on the lathe at a low \
             speed, to the ring's height, before the next ring.",
            rings = words::numbered("ring", numbers),
        ))
    }

    fn docs(&self) -> (&'static str, &'static str) {
        ("open-rings.md", "How one is made")
    }
}
