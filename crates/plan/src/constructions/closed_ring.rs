//! A closed ring: strips, segments, halves, a ring.

use super::Making;
use crate::operation::ShopOperation;
use crate::operations::cut_segments::CutSegments;
use crate::operations::flatten::Flatten;
use crate::operations::glue_ring::GlueRing;
use crate::operations::rip::Rip;
use crate::ring_group::RingGroup;

/// A closed ring: strips, segments, halves, a ring.
pub struct ClosedRing;

impl Making for ClosedRing {
    fn word(&self) -> &'static str {
        "segments"
    }

    fn operations<'a>(&self, group: &RingGroup<'a>) -> Vec<Box<dyn ShopOperation + 'a>> {
        vec![
            Box::new(Rip(group.clone())),
            Box::new(CutSegments(group.clone())),
            Box::new(GlueRing(group.clone())),
            Box::new(Flatten(group.clone())),
        ]
    }

    fn docs(&self) -> (&'static str, &'static str) {
        ("files.md", "[[section.ring]]")
    }
}
