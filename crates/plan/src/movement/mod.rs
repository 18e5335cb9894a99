//! Movement: what the air of shop and home does to the wood.
//!
//! ```text
//!   humidity, temperature ──► moisture (EMC) ──► change across the grain
//!                                                   └──► rings, floors, layers, joints
//! ```
//!
//! Wood Handbook (FPL-GTR-282) eq. 4-5 and 13-2. The handbook's own figures are means:
//! one board may differ by a quarter.

mod change;
mod emc;
mod study;

pub use change::{FULL, Grain, change, coefficient, fibre_saturation, ring_lobe, shrinkage, wedge};
pub use emc::{emc, standing_days};
pub use study::{
    FloorKind, FloorMove, LayerMove, Moisture, Movement, RingMove, panel_change, study,
};
