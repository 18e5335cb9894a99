//! The figures that operations and tables share, each with how it was worked out.

pub mod band;
pub mod form;
pub mod knot;
pub mod layer;
pub mod ring;
pub mod sled;

/// Closed forms of a regular polygon.
pub(crate) const POLYGON: &str = "closed form of the regular polygon";
/// Closed forms of two parallel cuts.
pub(crate) const TWO_CUTS: &str = "closed form of two parallel cuts";
/// Closed forms of an inclined plane and a cylinder.
pub(crate) const PLANE: &str = "closed form of a plane through a cylinder";
/// Sums of lengths laid end to end.
pub(crate) const SUM: &str = "lengths laid end to end";
/// The real turned wall.
pub(crate) const WALL: &str = "the plane met with the form's own curve";
/// Shop habit without a publication.
pub(crate) const PRACTICE: &str = "common practice";
/// The maker's own figure.
pub(crate) const GIVEN: &str = "the project's file";
