//! What passes between the server and the page, as JSON. The page's TypeScript types
//! are generated from these (`web/src/api/types.ts`); a test fails when they are stale.
//!
//! Geometry is in mm and degrees, z = 0 at the finished foot, azimuth anticlockwise
//! from +x seen from above. Every `shown` is text in the unit that was asked for.

mod edit;
mod form;
mod plan;
mod shelf;
mod view;

pub use edit::*;
pub use form::*;
pub use plan::*;
pub use shelf::*;
pub use view::*;

#[cfg(test)]
mod tests;
