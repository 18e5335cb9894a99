//! The command as a maker runs it.

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

mod commands;
#[cfg(target_os = "linux")]
mod read;
mod schema;
mod spelling;
mod support;
#[cfg(unix)]
mod targets;
#[cfg(unix)]
mod terminal;
