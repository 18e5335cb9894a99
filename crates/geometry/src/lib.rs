//! Geometry that knows no wood.
//!
//! ```text
//!   profile points ──► Spline ──► Outline (the turned solid of revolution)
//!   plane, frame   ──► ConvexCell ──┴──► area in a level slice ──► volume
//! ```
//!
//! Inside this crate lengths are plain millimetres and angles plain radians, in
//! `glam` and `kurbo` types; [`Length`] and [`Angle`] are for the crates above.
//! The axis of every turned thing is +z. Azimuth is counter-clockwise seen from
//! above, from +x. In a half-section `x` is the radius and `y` the height.

mod quantity;

pub use quantity::{Angle, Length};
