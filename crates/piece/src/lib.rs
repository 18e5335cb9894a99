//! The shop model: what the maker wants, what the maker has, and the piece itself.
//!
//! ```text
//!   project file ──► Design ──┐
//!                             ├──► Piece ──► wood_at(point), cells, volumes
//!   workshop file ─► Workshop ┘
//! ```

pub mod design;
pub mod form;
pub mod model;
pub mod units;
pub mod wood;
pub mod workshop;
