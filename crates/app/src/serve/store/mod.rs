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
//! is put back and kept, and the save is not done ([`Saved::Overtaken`]). Whenever the
//! program is stopped, every text that was said to be saved is there whole, and so is
//! every text that another program saved.
//!
//! A file of several names (hard links) keeps them: it is written into. Stopped in the
//! middle, that leaves a mixture; the fresh file is still there then, and the next start
//! writes it again.

mod bin;
mod folder;
mod name;
mod repair;
mod save;
mod versions;

pub use folder::{Folder, version_of};
pub use name::{is_name, name_from};
pub use save::Saved;

use crate::disk::FileError;

/// Why a file could not be read or written, in words for the maker.
#[derive(Debug, Default)]
pub struct StoreError {
    /// What is wrong.
    pub what: String,
    /// What can be done, where that is known.
    pub remedy: Option<&'static str>,
    /// There is no such thing.
    pub missing: bool,
    /// The name is in use.
    pub taken: bool,
}

impl StoreError {
    /// A trouble.
    pub fn new(what: impl Into<String>) -> Self {
        StoreError {
            what: what.into(),
            ..StoreError::default()
        }
    }

    /// There is no such thing.
    pub fn missing(what: impl Into<String>) -> Self {
        StoreError {
            what: what.into(),
            missing: true,
            ..StoreError::default()
        }
    }

    fn io(what: &str, error: &std::io::Error) -> Self {
        StoreError {
            what: format!("{what}: {error}"),
            missing: error.kind() == std::io::ErrorKind::NotFound,
            taken: error.kind() == std::io::ErrorKind::AlreadyExists,
            ..StoreError::default()
        }
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

/// A text's version: the first 16 hexadecimal digits of its SHA-256.
pub fn hash(parts: &[&[u8]]) -> String {
    use sha2::{Digest, Sha256};
    let mut sum = Sha256::new();
    for part in parts {
        sum.update((part.len() as u64).to_le_bytes());
        sum.update(part);
    }
    sum.finalize()
        .iter()
        .take(8)
        .map(|b| format!("{b:02x}"))
        .collect()
}

/// Milliseconds since 1970 UTC.
pub fn millis(time: std::time::SystemTime) -> f64 {
    time.duration_since(std::time::UNIX_EPOCH)
        .map_or(0.0, |d| (d.as_secs_f64() * 1000.0).round())
}
