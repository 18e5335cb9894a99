//! A ring that is closed round a floor panel.

use super::Making;
use crate::operation::ShopOperation;
use crate::operations::cut_segments::CutSegments;
use crate::operations::fit_floor::FitFloor;
use crate::operations::flatten::Flatten;
use crate::operations::glue_ring::GlueRing;
use crate::operations::rip::Rip;
use crate::ring_group::RingGroup;

/// A ring that is closed round a floor panel.
pub struct FloorPanel;

impl Making for FloorPanel {
    fn word(&self) -> &'static str {
        "panel"
    }

    fn operations<'a>(&self, group: &RingGroup<'a>) -> Vec<Box<dyn ShopOperation + 'a>> {
        let mut out: Vec<Box<dyn ShopOperation + 'a>> = vec![
            Box::new(Rip(group.clone())),
            Box::new(CutSegments(group.clone())),
            Box::new(GlueRing(group.clone())),
        ];
        if let Some(panel) = &group.ring.let_in {
            out.push(Box::new(FitFloor {
                group: group.clone(),
                panel,
            }));
        }
        out.push(Box::new(Flatten(group.clone())));
        out
    }

    fn docs(&self) -> (&'static str, &'static str) {
        ("files.md", "[[section.ring]]")
    }
}
