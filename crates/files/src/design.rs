//! The project as the maker wrote it: what is wanted, with what was left out left out.
//!
//! Every `Option` that is `None` was not in the file; `settle` fills it from the
//! workshop or from common practice and remembers which.

use std::collections::BTreeMap;

use geometry::{Angle, Length};

use crate::form::FormSpec;
use crate::units::Unit;
use crate::workshop::HoldingSpec;

/// A project file's contents.
#[derive(Debug, Clone, Default)]
pub struct Design {
    /// What the maker calls the piece.
    pub title: String,
    /// The unit that bare numbers in the file are in, and that the plan is written in.
    pub unit: Unit,
    /// Anything the maker wants printed with the plan.
    pub notes: Option<String>,
    /// Outer and inner shape of the finished piece.
    pub form: FormSpec,
    /// Woods that the maker describes, by the name the file uses.
    pub woods: BTreeMap<String, OwnWood>,
    /// What holds it on the lathe, where it is not held as the shop's file says.
    pub holding: HoldingSpec,
    /// Sections from the bottom up.
    pub sections: Vec<SectionSpec>,
}

/// A wood that the built-in table does not know, or that the maker has weighed.
#[derive(Debug, Clone, Default)]
pub struct OwnWood {
    /// A wood of the built-in table that stands in for every figure not given here.
    pub like: Option<String>,
    /// Density as it comes to the lathe, kg/m³.
    pub density: Option<f64>,
    /// Colour for pictures, `#rrggbb`. For looks only.
    pub colour: Option<String>,
}

/// One section: rings stacked on a faceplate and worked before it is joined to the others.
#[derive(Debug, Clone, Default)]
pub struct SectionSpec {
    /// The maker's name for it; unique in the project.
    pub name: String,
    /// Woods repeated segment by segment round each ring.
    pub wood: Vec<String>,
    /// Segments in each ring, 3 to 144.
    pub segments: Option<usize>,
    /// Board thickness as milled, before flattening.
    pub stock: Option<Length>,
    /// Ring height after flattening; otherwise stock less two flattening losses.
    pub ring_height: Option<Length>,
    /// How many rings, or each of them.
    pub rings: RingsSpec,
    /// Turn of each ring's joints against the ring below; otherwise half a segment.
    pub joint_turn: Option<Angle>,
    /// Turn of this section against the section below.
    pub turn: Option<Angle>,
    /// Loop bands, in the order they are sawn.
    pub bands: Vec<BandSpec>,
    /// Splits that are turned and glued again, made after the bands.
    pub splits: Vec<SplitSpec>,
}

/// How a section's rings are given.
#[derive(Debug, Clone)]
pub enum RingsSpec {
    /// As many equal rings as reach a height, or the top of the form.
    Auto {
        /// Height of the section; otherwise up to the form's top.
        height: Option<Length>,
    },
    /// That many rings alike.
    Count(usize),
    /// Each ring on its own, from the bottom up.
    Listed(Vec<RingSpec>),
}

impl Default for RingsSpec {
    fn default() -> Self {
        RingsSpec::Auto { height: None }
    }
}

/// One ring, where it differs from its section.
#[derive(Debug, Clone, Default)]
pub struct RingSpec {
    /// How many rings like this one, one on another; otherwise 1.
    pub repeat: Option<usize>,
    /// Woods repeated round the ring.
    pub wood: Vec<String>,
    /// Segments, 3 to 144.
    pub segments: Option<usize>,
    /// Board thickness before flattening.
    pub stock: Option<Length>,
    /// Height after flattening.
    pub height: Option<Length>,
    /// Turn of its joints against the ring below.
    pub turn: Option<Angle>,
    /// Diameter flat to flat outside; otherwise from the form.
    pub outside: Option<Length>,
    /// Board width (outside flat to inside flat, radially); otherwise from the form.
    pub width: Option<Length>,
    /// One solid disc in place of a ring.
    pub solid: bool,
    /// A floor panel let into the ring.
    pub floor: Option<FloorSpec>,
}

/// A floor panel let into a ring.
#[derive(Debug, Clone, Default)]
pub struct FloorSpec {
    /// Its wood.
    pub wood: String,
    /// Panel thickness.
    pub thickness: Option<Length>,
    /// Height of the panel's underside above the ring's underside.
    pub above: Option<Length>,
    /// How far the panel's edge reaches into the finished wall.
    pub groove: Option<Length>,
    /// Loose in its groove (true) or glued (false).
    pub floating: bool,
    /// Room at the edge of a floating panel; otherwise from common practice.
    pub gap: Option<Length>,
}

/// A loop band: n loops sawn into a section, each a slice replaced by a layer.
#[derive(Debug, Clone, Default)]
pub struct BandSpec {
    /// How many loops, evenly spaced, 2 to 16.
    pub loops: Option<usize>,
    /// Or each loop's own azimuth.
    pub azimuths: Vec<Angle>,
    /// Azimuth of the first of evenly spaced loops; otherwise 0°.
    pub start: Option<Angle>,
    /// Height of the loops' middle above the section's underside.
    pub height: Option<Length>,
    /// Tilt of each cut from straight across.
    pub tilt: Option<Angle>,
    /// Or lowest to highest visible edge of a loop on the finished outside wall.
    pub reach: Option<Length>,
    /// Wood of the layers, repeated loop by loop.
    pub wood: Vec<String>,
    /// Layer's dry thickness.
    pub layer: Option<Length>,
    /// Or the spacer that stands under the faceplate for the second cut.
    pub spacer: Option<Length>,
    /// Which of the workshop's saws; otherwise the first band saw.
    pub saw: Option<String>,
    /// Thickness of one glue line; otherwise the workshop's.
    pub glue_line: Option<Length>,
    /// Cutting order as loop numbers from 1; otherwise 1, 2, 3...
    pub order: Vec<usize>,
    /// How each layer is made.
    pub make: Option<LayerMake>,
    /// Segments in a layer made as a ring.
    pub segments: Option<usize>,
    /// What the section is when it passes the saw.
    pub blank: Option<BlankShape>,
}

/// How a layer's blank is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LayerMake {
    /// One board, as large as the oval.
    Solid,
    /// A round segmented ring large enough for the oval.
    RoundRing,
    /// A segmented ring with two opposite segments lengthened.
    LongRing,
}

/// What a section is when loops are sawn into it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlankShape {
    /// Trued on the lathe to a cylinder first.
    Cylinder,
    /// The stack as it left the glue.
    Polygon,
}

/// A section sawn apart across the axis, one part turned, and glued again.
#[derive(Debug, Clone, Default)]
pub struct SplitSpec {
    /// Height of the cut's middle above the section's underside.
    pub height: Length,
    /// How far the upper part is turned.
    pub turn: Angle,
    /// Which saw; otherwise the first band saw.
    pub saw: Option<String>,
}
