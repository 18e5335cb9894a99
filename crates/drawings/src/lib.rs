//! Drawings and pictures of a piece: values first, formats after.
//!
//! ```text
//!            ┌──► views (wall, half-section, ring, sled, layer, wrap-round strip) ──► Drawing ──► SVG
//!   Piece ───┤
//!            └──► wall map, portrait ──► Image ──► PNG
//! ```
//!
//! A [`Drawing`] is millimetre-true: figures in it are the model's own. Pictures ask
//! the model which wood is where; their colours are for looks only. Nothing here
//! reads or writes files.

// Same file, same bytes, on every machine. Tests may take what they compare with.
#![cfg_attr(not(test), deny(clippy::disallowed_methods))]

mod all;
mod makings;
pub mod picture;
pub mod portrait;
pub mod vector;
pub mod views;
pub mod wall;

pub use all::{all_drawings, draw_all};
pub use makings::draw_makings;
pub use picture::{Image, MapOptions, wall_between, wall_map};
pub use piece::form::WallSide;
pub use portrait::{Camera, portrait};
pub use vector::{Drawing, Scale, geometry, to_svg};
