//! The folder of projects on disk. Nothing outside it is read or written, and no link
//! is followed.
//!
//! ```text
//!   FOLDER/heron-bowl.toml                        a project
//!   FOLDER/workshop.toml                          the workshop, if there is one
//!   FOLDER/.ringwright/versions/heron-bowl/…      the last 20 saved texts of it
//!   FOLDER/.ringwright/workshop/…                 the last 20 of the workshop
//!   FOLDER/.ringwright/bin/00000007-cup.toml      a deleted project
//!   FOLDER/.ringwright/bin/00000007-cup.versions  its versions
//!   FOLDER/.ringwright/part/…                     files being written
//! ```
//!
//! A save writes the new text into the versions first. Then it exchanges a fresh file
//! with the project and looks at what it got: another program's text that came in between
//! is put back and kept, and the save is not done ([`editor::store::Saved::Overtaken`]). Whenever the
//! program is stopped, every text that was said to be saved is there whole, and so is
//! every text that another program saved.
//!
//! A file of several names (hard links) keeps them: it is written into. Stopped in the
//! middle, that leaves a mixture; the fresh file is still there then, and the next start
//! writes it again.

mod as_store;
mod bin;
mod folder;
mod repair;
mod save;
mod versions;

use std::time::{SystemTime, UNIX_EPOCH};

use editor::store::StoreError;

pub use folder::Folder;

use crate::disk::FileError;

/// What the system says of a file or folder of the store.
fn of_io(what: &str, error: &std::io::Error) -> StoreError {
    StoreError {
        missing: error.kind() == std::io::ErrorKind::NotFound,
        taken: error.kind() == std::io::ErrorKind::AlreadyExists,
        ..StoreError::new(format!("{what}: {error}"))
    }
}

impl From<FileError> for StoreError {
    /// The file by its name alone: where the folder is, is nobody's business.
    fn from(error: FileError) -> Self {
        let name = error.file.file_name().unwrap_or_default();
        StoreError {
            what: format!("{}: {}", name.to_string_lossy(), error.why),
            remedy: error.remedy(),
            missing: error.is_missing(),
            taken: error.is_taken(),
        }
    }
}

/// Milliseconds since 1970 UTC.
fn millis(time: SystemTime) -> f64 {
    time.duration_since(UNIX_EPOCH)
        .map_or(0.0, |d| (d.as_secs_f64() * 1000.0).round())
}
