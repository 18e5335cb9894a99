//! The tolerance study against closed forms, its own model, and statistics.

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

mod closed_forms;
mod model;
mod statistics;
mod support;
