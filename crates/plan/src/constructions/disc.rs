//! A disc, cut round.

use super::Making;
use crate::operation::ShopOperation;
use crate::operations::cut_disc::CutDisc;
use crate::operations::flatten::Flatten;
use crate::ring_group::RingGroup;

/// A disc, cut round.
pub struct Disc;

impl Making for Disc {
    fn word(&self) -> &'static str {
        "disc"
    }

    fn operations<'a>(&self, group: &RingGroup<'a>) -> Vec<Box<dyn ShopOperation + 'a>> {
        vec![
            Box::new(CutDisc(group.clone())),
            Box::new(Flatten(group.clone())),
        ]
    }

    fn docs(&self) -> (&'static str, &'static str) {
        ("files.md", "[[section.ring]]")
    }
}
