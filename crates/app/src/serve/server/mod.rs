//! The local web server: only this machine, only with the key, only this folder.
//!
//! ```text
//!   TCP on 127.0.0.1 ─► at most so many connections, each with time limits
//!     ─► Guard (Host, Origin, key) ─► routes ─► Bench
//! ```

mod answer;
mod events;
mod guard;
mod listen;
mod look;
mod page;
mod papers;
mod piece;
mod printed;
mod routes;
mod shelf;
mod starters;
mod workshop;
mod zip;

use std::sync::Arc;

use super::desk::Bench;
use super::pictures::Portraits;
use guard::Guard;

pub use listen::listen;

/// What every call needs.
pub struct Server {
    /// The projects.
    pub bench: Bench,
    guard: Guard,
    /// Pictures painted at once: more would only make each of them slower.
    painters: tokio::sync::Semaphore,
    /// Portraits painted before: their light takes its time.
    portraits: Portraits,
    /// Streams of events open at once.
    streams: Arc<tokio::sync::Semaphore>,
}
