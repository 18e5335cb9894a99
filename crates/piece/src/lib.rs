//! The shop model: what the maker wants, what the maker has, and the piece itself.
//!
//! ```text
//!   project file ──► Design ──┐
//!                             ├──► Piece ──► wood_at(point), cells, volumes
//!   workshop file ─► Workshop ┘
//! ```

pub mod band;
pub mod design;
pub mod exactness;
pub mod form;
pub mod model;
pub mod piece;
pub mod read;
pub mod reader;
pub mod report;
pub mod ring;
pub mod settle;
pub mod symmetry;
pub mod units;
pub mod wood;
pub mod workshop;
pub mod write;
