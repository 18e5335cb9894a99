//! Holding on the lathe, stage by stage.
//!
//! ```text
//!   Piece ──► stages of the route ──► mass, centre, overhang
//!                                        └──► bending and shear at the waste block
//!                                                 └──► share of what each layer bears
//! ```
//!
//! Everything here is an estimate: clear wood, sound joints, a steady force. The
//! machine's manual and the maker's judgement stand above it.

mod beam;
mod body;
mod chatter;
mod layer;
mod remedy;
mod section;
mod show;
mod stage;
mod strength;
mod study;

pub use beam::{Place, Press, Root, Support};
pub use body::{Body, Cut};
pub use chatter::{Rim, plate_frequency, wall_frequency};
pub(crate) use chatter::{near_rim, rim_wood};
pub use layer::{Layer, LayerUse, Needs};
pub use remedy::{Way, ways};
pub use section::{Annulus, Stress};
pub(crate) use show::{figures, support_words, used_figure, working};
pub use stage::{Stage, stages};
pub use strength::{
    ScrewHold, Strengths, screw_holds, strengths_of_block, strengths_of_wood, weakest_of,
};
pub use study::{Held, held, study};
