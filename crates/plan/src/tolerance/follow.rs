//! Which later steps move a place: settled once, on the piece as planned.
//!
//! An error of a tenth of a millimetre moves a loop's end; it does not put it on the
//! other side of another loop's cut.

use geometry::{Motion, Plane};
use glam::DVec3;
use piece::model::CutAndRejoin;

use super::erred::{Cut, SectionCuts};

/// The steps that move a place, by their number in the section, in the order of the work.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Follow(Vec<u16>);

impl Follow {
    /// Follows a place of a section from step `first` on; where it comes to lie, or
    /// nothing if it is sawn out on the way.
    pub fn from(steps: &[CutAndRejoin], first: usize, at: DVec3) -> Option<(Follow, DVec3)> {
        let mut follow = Follow::default();
        let mut at = at;
        for (i, step) in steps.iter().enumerate().skip(first) {
            if step.lower.above(at) <= 0.0 {
                continue;
            }
            if step.upper.above(at) < 0.0 {
                return None;
            }
            at = step.motion.apply(at);
            follow.0.push(i as u16);
        }
        Some((follow, at))
    }

    fn cuts<'a>(&'a self, steps: &'a [Cut]) -> impl Iterator<Item = &'a Cut> {
        self.0.iter().filter_map(|&i| steps.get(usize::from(i)))
    }

    /// A plane moved along, without the section's seat.
    pub fn moved(&self, plane: Plane, steps: &[Cut]) -> Plane {
        self.cuts(steps).fold(plane, |p, cut| p.moved(&cut.motion))
    }

    /// A plane moved to where it lies in the finished section.
    pub fn placed(&self, plane: Plane, cuts: &SectionCuts) -> Plane {
        self.moved(plane, &cuts.steps).moved(&cuts.seat.motion)
    }

    /// The one motion that does all of it after `first`, the section's seat included.
    pub fn motion(&self, first: Motion, cuts: &SectionCuts) -> Motion {
        let moved = self
            .cuts(&cuts.steps)
            .fold(first, |m, cut| cut.motion.after(&m));
        cuts.seat.motion.after(&moved)
    }
}
