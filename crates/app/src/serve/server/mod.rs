//! The local web server: only this machine, only with the key, only this folder.
//!
//! ```text
//!   TCP on 127.0.0.1 ─► at most so many connections, each with time limits
//!     ─► Guard (Host, Origin, key) ─► routes ─► Jobs (quick, pictures, papers) ─► OpenProjects
//! ```

mod answer;
mod archive;
mod events;
mod guard;
mod jobs;
mod listen;
mod look;
mod page;
mod papers;
mod piece;
mod printed;
mod routes;
mod shelf;
mod workshop;

use std::sync::Arc;

use editor::open_projects::OpenProjects;
use editor::pictures::Portraits;
use guard::Guard;
use jobs::Jobs;

pub use listen::listen;

/// What every call needs.
pub struct Server {
    /// The projects.
    pub projects: OpenProjects,
    guard: Guard,
    /// Where work is done.
    jobs: Jobs,
    /// Portraits painted before: their light takes its time.
    portraits: Portraits,
    /// Streams of events open at once.
    streams: Arc<tokio::sync::Semaphore>,
}
