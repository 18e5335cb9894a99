//! The piece as the steps that make it: which wood is at this point?
//!
//! ```text
//!   rings ──► section ──► cut and rejoin, as often as there are loops and splits
//!                               └──► section on section ──► turned to the form
//! ```
//!
//! A question walks this backwards (`wood_at`); saw cuts walk it forwards
//! (`cells`). Both end in the same parts, and a test holds them to it.

mod body;
mod class;
mod course;
mod layer;
mod overlap;
mod sectors;
mod stack;
mod step;
mod weigh;

pub use body::SectionBody;
pub use course::{CourseBody, PanelBody, polygon};
pub use layer::{LayerBody, LayerShape};
pub use overlap::joint_area;
pub use stack::{Placed, Spot, Stack, StackCell};
pub use step::{CutAndRejoin, StepKind};
pub use weigh::{PartVolume, volumes_by_part, volumes_by_wood};

use geometry::ConvexCell;
use glam::DVec3;

/// A wood's place in the piece's list of woods.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
pub struct WoodId(pub u16);

/// A part of one section. Numbers count from 0; people are shown them from 1.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// A segment of a ring.
    Segment {
        /// The ring, from the section's bottom.
        ring: u16,
        /// The segment, anticlockwise from the ring's own start.
        segment: u16,
    },
    /// A solid disc.
    Disc {
        /// The ring it stands in for.
        ring: u16,
    },
    /// A floor panel let into a ring.
    Panel {
        /// The ring it is let into.
        ring: u16,
    },
    /// A layer glued in by a step.
    Layer {
        /// The step, in the order of the work.
        step: u16,
        /// Its segment, when it is made as a ring.
        segment: u16,
    },
}

/// Where a point lies: the part, its wood, and the point in the part's own frame.
#[derive(Debug, Clone, Copy)]
pub struct Found {
    /// The part.
    pub part: Part,
    /// Its wood.
    pub wood: WoodId,
    /// The point in the part's own frame, mm: x along the grain, y square to it
    /// in the board, z through the board's thickness.
    pub local: DVec3,
}

/// A convex piece of one part.
#[derive(Debug, Clone)]
pub struct PartCell {
    /// Its shape, where it now is.
    pub cell: ConvexCell,
    /// The part that it was cut from.
    pub part: Part,
    /// Its wood.
    pub wood: WoodId,
}
