//! One command, one file.

pub mod check;
pub mod draw;
pub mod new;
pub mod open;
pub mod plan;
pub mod probe;
pub mod schema;
pub mod sheets;
pub mod templates;
pub mod tolerance;
pub mod weigh;
