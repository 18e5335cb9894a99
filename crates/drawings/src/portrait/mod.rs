//! The portrait: the finished piece as it would stand on a photographer's table.
//!
//! ```text
//!   Form's outline ──► Surface (rays meet the turned surface exactly)
//!                        ├──► Light (dusk in hollows, soft shadows; worked out beforehand)
//!   Camera ──► rays ─────┴──► which wood, its grain, its light ──► Image
//! ```

mod camera;
mod light;
mod paint;
mod surface;
mod through;

pub use camera::Camera;
pub use paint::portrait;
