//! The plan: from a settled piece to the numbered route through the shop.
//!
//! ```text
//!   Settled ──► Plan ─┬─ overview, what was chosen, rings, knots
//!                     ├─ operations, numbered, each with figures and cautions
//!                     └─ findings
//!   Plan ──► render_text, JSON
//!   Piece ──► tolerance study ──► render_study, JSON
//! ```
//!
//! Everything is worked out in millimetres and written in one unit system.

// Same file, same bytes, on every machine. Tests may take what they compare with.
#![cfg_attr(not(test), deny(clippy::disallowed_methods))]

pub mod assumed;
mod band_limits;
pub mod caution;
pub mod constructions;
pub mod figure;
pub mod finding;
pub mod findings;
pub mod glue;
pub mod holding;
pub mod movement;
pub mod operation;
pub mod operations;
pub mod overview;
mod plan;
pub mod ring_group;
mod route;
pub mod settings;
pub mod speed;
pub mod studies;
pub mod tables;
mod text;
pub mod tolerance;
#[cfg(test)]
mod trial;
pub mod weight;
mod words;

pub use band_limits::{BandLimit, BandLimits, band_limits};
pub use plan::{ChosenFigure, Plan, plan};
pub use text::{render_study, render_text};
