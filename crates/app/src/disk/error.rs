//! Why a file could not be read or written.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// A file that could not be read or written, and why.
#[derive(Debug)]
pub struct FileError {
    /// The file.
    pub file: PathBuf,
    /// What is in the way.
    pub why: Why,
}

/// What is in the way.
#[derive(Debug)]
pub enum Why {
    /// The system's own reason.
    Io(io::Error),
    /// It is a folder, a link, a pipe or a device.
    NotPlain(&'static str),
    /// It holds more than `limit` bytes.
    TooLarge {
        /// The most that is read, bytes.
        limit: u64,
        /// What to do instead.
        remedy: &'static str,
    },
    /// It became another file while it was opened.
    Exchanged,
}

impl FileError {
    /// An error of a file.
    pub fn new(path: &Path, why: impl Into<Why>) -> Self {
        FileError {
            file: path.into(),
            why: why.into(),
        }
    }

    /// Is there no such file?
    pub fn is_missing(&self) -> bool {
        matches!(&self.why, Why::Io(e) if e.kind() == io::ErrorKind::NotFound)
    }

    /// Is something else there already?
    pub fn is_taken(&self) -> bool {
        matches!(&self.why, Why::Io(e) if e.kind() == io::ErrorKind::AlreadyExists)
    }

    /// What can be done; `None` where the system's words have to do.
    pub fn remedy(&self) -> Option<&'static str> {
        match &self.why {
            Why::Io(_) => None,
            Why::NotPlain(_) => Some("name a plain file"),
            Why::TooLarge { remedy, .. } => Some(remedy),
            Why::Exchanged => Some("try it once more"),
        }
    }
}

impl From<io::Error> for Why {
    fn from(error: io::Error) -> Self {
        Why::Io(error)
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Why::Io(error) => error.fmt(f),
            Why::NotPlain(what) => write!(f, "this is {what}, not a plain file"),
            Why::TooLarge { limit, .. } => {
                write!(f, "this file is larger than {} MiB", limit >> 20)
            }
            Why::Exchanged => f.write_str("this file was exchanged while it was opened"),
        }
    }
}

impl fmt::Display for FileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.file.display(), self.why)?;
        match self.remedy() {
            Some(remedy) => write!(f, "; {remedy}"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for FileError {}
