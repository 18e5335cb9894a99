//! Courses: what one layer of a section is made of, whatever its construction.
//!
//! ```text
//!   keys of a ring ──► the construction that they ask for ──► Course ──► CourseBody
//!                        (one file each, listed in ALL)        parts, joints, cuts, openings
//! ```
//!
//! Plan, studies, drawings and the page read the course. Which construction it came from is
//! asked in the registries only: [`ALL`] here, and those of `plan` and `drawings`.

mod closed_ring;
mod disc;
mod floor_panel;
mod open_ring;

use std::fmt::Debug;

use geometry::{Angle, Length, Portable};

use crate::model::{CourseBody, WoodId};
use crate::ring::RingSizes;
use crate::symmetry::ring_repeats;
use files::design::{Board, FloorSpec, RingSpec};
use files::key::RingPath;

pub use floor_panel::Panel;

/// Every construction. The first that answers to a ring's keys makes it; the last answers
/// to all.
pub static ALL: [&dyn Construction; 4] = [
    &disc::Disc,
    &floor_panel::FloorPanel,
    &open_ring::OpenRing,
    &closed_ring::ClosedRing,
];

/// What a ring's keys and the form ask of it, while a construction shapes it.
pub trait Asked {
    /// Its keys, with those of its section where it has none of its own.
    fn spec(&self) -> &RingSpec;

    /// The smallest radius of the finished inside over the ring's height; `None` where it is
    /// solid.
    fn inner(&self) -> Option<Length>;

    /// The same from the floor's face up.
    fn inner_at_floor(&self) -> Option<Length>;

    /// A floor panel, in a wall whose finished inside is so far from the axis at the floor.
    fn panel(&mut self, floor: &FloorSpec, finished_inside: Length) -> Panel;
}

/// A way to make a course.
pub trait Construction: Debug + Sync {
    /// Its name in the plan's JSON, and in the registries of `plan` and `drawings`.
    fn word(&self) -> &'static str;

    /// Keys of a ring that ask for it, as a maker would write them: its simplest example.
    fn example(&self) -> &'static str;

    /// Is it what a ring's keys ask for?
    fn answers_to(&self, spec: &RingSpec) -> bool;

    /// The smallest radius of the finished inside that it has to reach in to; `None` where it
    /// has to reach to the axis.
    fn inner(&self, asked: &dyn Asked) -> Option<Length> {
        asked.inner()
    }

    /// Makes of a ring that was settled as if it were closed what it is.
    fn shape(&self, asked: &mut dyn Asked, course: &mut Course);

    /// Where its parts are glued or lie against each other.
    fn joints(&self, course: &Course) -> Vec<Joint>;

    /// What is cut for it.
    fn cuts(&self, course: &Course) -> Vec<Cut>;

    /// Room in it that is meant to be empty.
    fn openings(&self, _course: &Course) -> Vec<Opening> {
        Vec::new()
    }

    /// It as wood.
    fn body(&self, course: &Course) -> CourseBody;
}

/// The construction that a ring's keys ask for.
pub fn construction(spec: &RingSpec) -> &'static dyn Construction {
    let found = ALL.iter().find(|c| c.answers_to(spec));
    // The last one answers to all keys.
    *found.unwrap_or(&ALL[ALL.len() - 1])
}

/// Which way the grain of the parts round the axis runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GrainWay {
    /// Round the axis, along each part.
    Round,
    /// One way across the whole course.
    Across,
}

/// Which parts a joint is between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Between {
    /// The ends of neighbours round the ring: the angles of all add up to a turn.
    Ends,
    /// The edge of a part that is let in, and its groove.
    Edge,
}

/// Joints alike within a course.
#[derive(Debug, Clone)]
pub struct Joint {
    /// Which parts.
    pub between: Between,
    /// How many.
    pub count: usize,
    /// A face: along the joint and up.
    pub face: (Length, Length),
    /// Glued, or loose.
    pub glued: bool,
}

/// Parts alike in the cut list.
#[derive(Debug, Clone)]
pub struct Cut {
    /// Their wood.
    pub wood: WoodId,
    /// How its board was sawn from the log.
    pub board: Board,
    /// How many.
    pub count: usize,
    /// Longest edge along the grain; a round part's diameter.
    pub length: Length,
    /// Across the board.
    pub width: Length,
    /// The board's thickness.
    pub thickness: Length,
    /// Each end, from square; `None` for what is cut round.
    pub mitre: Option<Angle>,
    /// It is let into the parts round the axis.
    pub let_in: bool,
}

/// Room that is meant to be empty, the same at each of so many places.
#[derive(Debug, Clone)]
pub enum Opening {
    /// Between neighbours round the ring, from its underside to its top.
    Gap {
        /// How many.
        count: usize,
        /// The angle of each.
        angle: Angle,
    },
    /// At the edge of a part that lies loose.
    Edge {
        /// Radii from the edge to the end of the room.
        radii: (Length, Length),
        /// Heights above the course's underside.
        heights: (Length, Length),
    },
}

/// One course of a section, settled.
#[derive(Debug, Clone)]
pub struct Course {
    /// Its key in the project's file, counted from 0: `section[1].ring[2]`. Rings made
    /// by one entry with `repeat` share it.
    pub path: RingPath,
    /// How it is made.
    pub construction: &'static dyn Construction,
    /// Its sizes; a disc's are those of the circle it is cut to.
    pub sizes: RingSizes,
    /// The wood of each part round the axis; of one piece one.
    pub woods: Vec<WoodId>,
    /// How the grain of these runs.
    pub grain: GrainWay,
    /// How its boards were sawn from the log.
    pub board: Board,
    /// A part let into them.
    pub let_in: Option<Panel>,
    /// Its underside above the section's.
    pub bottom: Length,
    /// Its height after flattening.
    pub height: Length,
    /// Board thickness before flattening.
    pub stock: Length,
    /// Azimuth of the middle of segment 0, in its section.
    pub rotation: Angle,
    /// Turn of its joints against the ring below.
    pub turn: Angle,
    /// Lowest and highest of it in the finished piece.
    pub spans: (Length, Length),
    /// What the form asks of it.
    pub needs: RingNeeds,
    /// The form runs through to the axis somewhere in its height, though it is
    /// neither a disc nor holds a floor.
    pub to_a_point: bool,
    /// Its joints.
    pub joints: Vec<Joint>,
    /// Its cut list.
    pub cuts: Vec<Cut>,
    /// What is left empty in it.
    pub openings: Vec<Opening>,
}

/// What the form asks of a ring over its whole height.
#[derive(Debug, Clone, Copy)]
pub struct RingNeeds {
    /// Largest finished radius outside, and its height; `None` above the form.
    pub outside: Option<(Length, Length)>,
    /// Smallest finished radius inside, and its height; `None` where it is solid.
    pub inside: Option<(Length, Length)>,
}

impl Course {
    /// Works out joints, cuts and openings from the sizes that it has now.
    pub(crate) fn settle_parts(&mut self) {
        self.joints = self.construction.joints(self);
        self.cuts = self.construction.cuts(self);
        self.openings = self.construction.openings(self);
    }

    /// It as wood.
    pub(crate) fn body(&self) -> CourseBody {
        self.construction.body(self)
    }

    /// Joints at the ends of segments that close the ring; none where nothing is to close.
    pub fn closing_joints(&self) -> usize {
        let ends = self.joints.iter().filter(|j| j.between == Between::Ends);
        ends.map(|j| j.count).sum()
    }

    /// The angle that stands open between neighbours; zero where none does.
    pub fn gap(&self) -> Angle {
        let gap = |o: &Opening| match o {
            Opening::Gap { angle, .. } => Some(*angle),
            Opening::Edge { .. } => None,
        };
        self.openings.iter().find_map(gap).unwrap_or(Angle::ZERO)
    }

    /// How often its parts repeat round the axis; `None` where it is alike all round.
    pub fn repeats(&self) -> Option<usize> {
        (self.grain == GrainWay::Round).then(|| ring_repeats(&self.woods))
    }

    /// Heights above the section's underside, mm.
    fn heights(&self) -> (f64, f64) {
        (self.bottom.as_mm(), (self.bottom + self.height).as_mm())
    }

    /// The lines of the cut list of its segments: one for each wood, in the order in which
    /// they first appear.
    fn segment_cuts(&self) -> Vec<Cut> {
        let mut cuts: Vec<Cut> = Vec::new();
        for &wood in &self.woods {
            match cuts.iter_mut().find(|c| c.wood == wood) {
                Some(cut) => cut.count += 1,
                None => cuts.push(Cut {
                    wood,
                    board: self.board,
                    count: 1,
                    length: self.sizes.long_edge(),
                    width: self.sizes.board_width(),
                    thickness: self.stock,
                    mitre: Some(self.sizes.mitre()),
                    let_in: false,
                }),
            }
        }
        cuts
    }

    /// The joints of a closed ring of segments.
    fn end_joints(&self) -> Joint {
        let slant = self.sizes.board_width().as_mm() / self.sizes.mitre().as_rad().cosine();
        Joint {
            between: Between::Ends,
            count: self.woods.len(),
            face: (Length::mm(slant), self.stock),
            glued: true,
        }
    }
}
