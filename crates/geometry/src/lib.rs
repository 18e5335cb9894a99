//! Geometry that knows no wood.
//!
//! ```text
//!   profile points ──► Spline ──► Outline (the turned solid of revolution)
//!   plane, frame   ──► ConvexCell ──┴──► area in a level slice ──► volume
//! ```
//!
//! Inside this crate lengths are plain millimetres and angles plain radians, in
//! `glam` and `kurbo` types; [`Length`] and [`Angle`] are for the crates above.
//! The axis of every turned thing is +z. Azimuth is anticlockwise seen from
//! above, from +x. In a half-section `x` is the radius and `y` the height.

// Same file, same bytes, on every machine. Tests may take what they compare with.
#![cfg_attr(not(test), deny(clippy::disallowed_methods))]

mod cell;
mod chain;
mod disc;
mod offset;
mod outline;
mod plane;
mod portable;
mod profile;
mod quantity;
mod revolve;
mod spline;

pub use cell::ConvexCell;
pub use disc::{AreaMoments, behind_edge, behind_edge_in_annulus};
pub use kurbo;
pub use offset::{Offset, OffsetError, inner_offset};
pub use outline::{MOST_SPANS, Outline, OutlineError, Spans};
pub use plane::{Motion, Plane};
pub use portable::Portable;
pub use profile::Profile;
pub use quantity::{Angle, Length};
pub use revolve::{Tube, Turned, VolumeMoments, turned_volume};
pub use spline::{ProfilePoint, profile_curve};

/// Rounding noise of a coordinate, as a share of the largest one in the part: the
/// only epsilon here. A 100 mm part gives 1e-10 mm. It is no shop quantity.
pub(crate) const NOISE: f64 = 1e-12;
