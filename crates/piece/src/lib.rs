//! The shop model: what the maker wants, what the maker has, and the piece itself.
//!
//! ```text
//!   project file ──► Design ──┐
//!                             ├──► Piece ──► wood_at(point), cells, volumes
//!   workshop file ─► Workshop ┘
//! ```

// Same file, same bytes, on every machine. Tests may take what they compare with.
#![cfg_attr(not(test), deny(clippy::disallowed_methods))]

pub mod band;
pub mod course;
pub mod form;
pub mod model;
pub mod parallel;
pub mod piece;
pub mod ring;
pub mod settle;
pub mod symmetry;
pub mod work;
