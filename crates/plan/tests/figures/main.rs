//! Each figure that a maker cuts to, in the three examples, worked out again by
//! another road: corners by crossing lines, conservation of wood, points on planes,
//! sums by hand with the plain shop's own quantities.
//!
//! `docs/figures.md` names the test of each figure; `table.rs` keeps that true.

// A test stops where something is missing.
#![allow(clippy::unwrap_used)]

mod examples;
mod knots;
mod rings;
mod table;
mod turning;
