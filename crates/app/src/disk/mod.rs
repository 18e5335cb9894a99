//! Files on this machine: read within a limit, saved in one step.
//!
//! ```text
//!   read:  look ─► a plain file, not too large ─► open ─► still the same? ─► its bytes
//!   save:  Fresh (whole, on the disk) ─► place     where nothing is
//!                                     ├► exchange  with what is there, which is handed back
//!                                     └► rewrite   what has several names
//! ```
//!
//! Everything that the program reads or writes by name goes through here, whether the
//! command asks or the page.

mod error;
mod fresh;
mod names;
mod read;
mod rewrite;

pub use error::{FileError, Why};
pub use fresh::{Displaced, Fresh, NEW, OLD};
pub use names::{marked, move_to_free, sync_folder};
pub use read::{Found, Limit, Links, POINTS, PROJECT, linked, look, read};
pub use rewrite::{is_torn, rewrite};

/// The folder that a file is in.
pub fn folder_of(path: &std::path::Path) -> &std::path::Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => std::path::Path::new("."),
    }
}
