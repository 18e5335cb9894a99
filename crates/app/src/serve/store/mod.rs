//! The folder of projects on disk. Nothing outside it is read or written, and no link
//! is followed.
//!
//! ```text
//!   FOLDER/heron-bowl.toml                        a project
//!   FOLDER/workshop.toml                          the workshop, if there is one
//!   FOLDER/.ringwright/versions/heron-bowl/…      the last 20 saved texts of it
//!   FOLDER/.ringwright/bin/…                      deleted projects
//!   FOLDER/.ringwright/part/…                     files being written
//! ```
//!
//! A save writes the new text into the versions first and then, by a fresh file that is
//! renamed, over the project: whenever the program is stopped, every text that was said
//! to be saved is there whole.

mod bin;
mod folder;
mod name;
mod versions;

pub use folder::Folder;
pub use name::{is_name, name_from};

/// Why a file could not be read or written, in words for the maker.
#[derive(Debug)]
pub struct Trouble {
    /// What is wrong.
    pub what: String,
    /// There is no such thing.
    pub missing: bool,
}

impl Trouble {
    /// A trouble.
    pub fn new(what: impl Into<String>) -> Self {
        Trouble {
            what: what.into(),
            missing: false,
        }
    }

    /// There is no such thing.
    pub fn missing(what: impl Into<String>) -> Self {
        Trouble {
            what: what.into(),
            missing: true,
        }
    }

    fn io(what: &str, error: &std::io::Error) -> Self {
        Trouble {
            what: format!("{what}: {error}"),
            missing: error.kind() == std::io::ErrorKind::NotFound,
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
