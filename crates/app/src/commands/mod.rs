//! One command, one file.

pub mod check;
pub mod draw;
pub mod new;
pub mod plan;
pub mod probe;
pub mod tolerance;
pub mod weigh;
