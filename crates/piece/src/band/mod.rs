//! A loop band: n loops of equal tilt, height and thickness, sawn into a section
//! and filled with layers.
//!
//! ```text
//!   tilt or reach ──┐                     ┌──► edges, tops, bottoms, rows of crossings
//!   layer or spacer ┼──► Loops on a wall ─┤
//!   azimuths, order ┘                     └──► cuts, sled, layer's blank, blocks
//! ```

mod blocks;
mod crossing;
mod cuts;
mod layer_blank;
mod loops;
mod sled;

pub use blocks::{BlockPlace, BlockPlaces, block_places};
pub use crossing::{Crossing, CrossingRow, crossing_rows, even_rows};
pub use cuts::TwoCuts;
pub use layer_blank::{LayerBlank, LayerNeeds, oval};
pub use loops::{LoopEdges, Loops, ReachError, WallRadius};
pub use sled::{SledSetting, SledShop};
