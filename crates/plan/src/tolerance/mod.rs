//! How exact a maker must be: the piece made many times over with errors by chance.
//!
//! ```text
//!   exactness ──► Spread ──┐
//!   seed, number ► RandomStream ─┴► Errors ──► Sample (the model's own steps, other numbers)
//!                                │          └──► loop ends, crossings, ring joints, wall
//!                                │                        └──► ToleranceStudy: quantiles, chances, causes
//!                                └──► erred Piece: a piece like any other, for pictures
//! ```
//!
//! What is measured is exact for the erred steps: planes met with the finished wall. The
//! erred piece's `wood_at` finds the same, which a test holds them to.

mod cause;
mod crossings;
mod erred;
mod errors;
mod follow;
mod loop_ends;
mod measure;
mod quantile;
mod random_stream;
mod ring_joint;
mod sample;
mod share;
mod study;
mod wall_left;
mod watched_places;
mod work;

pub use cause::{CAUSES, Cause, Spread};
pub use crossings::Missed;
pub use erred::{erred_inside, erred_piece};
pub use errors::{Errors, LoopErrors, RingErrors, SectionErrors, SegmentErrors, SplitErrors};
pub use measure::{MEASURES, Measure, Outcome};
pub use quantile::Quantiles;
pub use random_stream::RandomStream;
pub use ring_joint::closing_gap;
pub use sample::Face;
pub use share::{Causes, Share, Without};
pub use study::{
    EYE, ErrorFigure, Limits, MOST_MAKINGS, Makings, Measured, ToleranceStudy, WALL_SHARE,
    errors_of, study,
};
pub use watched_places::{WatchedPlaces, WorstCrossing};
