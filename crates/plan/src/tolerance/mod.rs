//! How exact a maker must be: the piece made many times over with errors by chance.
//!
//! ```text
//!   exactness ──► Spread ──┐
//!   seed, number ► Chance ─┴► Errors ──► Making (the model's own steps, other numbers)
//!                                │          └──► loop ends, crossings, ring joints, wall
//!                                │                        └──► Study: quantiles, chances, causes
//!                                └──► erred Piece: a piece like any other, for pictures
//! ```
//!
//! What is measured is exact for the erred steps: planes met with the finished wall. The
//! erred piece's `wood_at` finds the same, which a test holds them to.

mod cause;
mod chance;
mod crossings;
mod erred;
mod errors;
mod follow;
mod loop_ends;
mod making;
mod measure;
mod quantile;
mod ring_joint;
mod share;
mod study;
mod wall_left;
mod watch;
mod work;

pub use cause::{CAUSES, Cause, Spread};
pub use chance::Chance;
pub use crossings::Missed;
pub use erred::{erred_inside, erred_piece};
pub use errors::{Errors, LoopErrors, RingErrors, SectionErrors, SegmentErrors, SplitErrors};
pub use making::Face;
pub use measure::{MEASURES, Measure, Outcome};
pub use quantile::Quantiles;
pub use ring_joint::closing_gap;
pub use share::{Causes, Share, Without};
pub use study::{
    EYE, ErrorFigure, Limits, MOST_MAKINGS, Makings, Measured, Study, WALL_SHARE, errors_of, study,
};
pub use watch::{Watch, WorstCrossing};
