//! The finished wall, unrolled: which faces show on it, and where.
//!
//! ```text
//!   Piece ──► Wall (a side: radius for each height)
//!     └─────► Faces (every saw face, joint and glue line where it now is)
//!                └──► traces: the lines that show, each where nothing cut later covers it
//! ```
//!
//! A place on a wall is an azimuth (radians, anticlockwise from above) and a height (mm).

mod faces;
mod fills;
mod loop_lines;
mod side;
mod trace;

pub use faces::{Face, FaceKind, Faces};
pub use fills::{Filled, fills};
pub use loop_lines::{Lines, LoopLines, loop_lines};
pub use side::Wall;
pub use trace::{Trace, traces};
