//! Glue: how much, how fast, how hard, and when it is all done.
//!
//! ```text
//!   Piece ──► glue-ups ──► area, amount, open time, force
//!   route ──► calendar of shop days
//! ```

mod calendar;
mod glue_up;
mod pressure;
mod study;

pub use calendar::{Day, calendar};
pub use glue_up::{GlueUp, GlueWhat};
pub use pressure::{EPOXY_PRESSURE, cure_at, pressure_for};
pub use study::{joins, layer, rings, stack, study, turn_below};
