//! A file that is written whole before it gets its name.

use std::fs::{self, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::names::{exchange, marked, move_to_free, sync_folder};
use super::{FileError, Found, Limit, Links, folder_of, read};

/// What marks a file that is about to be placed: it is whole.
pub const NEW: &str = "new";
/// What marks a file that stood where another was placed.
pub const OLD: &str = "old";

/// A file that is whole and on the disk, but not where it is to be. It is taken away
/// again unless it is placed.
#[derive(Debug)]
pub struct Fresh {
    path: PathBuf,
    placed: bool,
}

/// What stood where a file was placed. It is on the disk until it is discarded.
#[derive(Debug)]
#[must_use = "what stood there is someone's work"]
pub struct Displaced {
    path: PathBuf,
}

impl Fresh {
    /// Writes `bytes` into a file in the folder `part`, for a file of that name. With
    /// `like` it gets the mode and, where that is allowed, the owner of another.
    pub fn write(
        part: &Path,
        name: &std::ffi::OsStr,
        bytes: &[u8],
        like: Option<&Metadata>,
    ) -> io::Result<Fresh> {
        let mut file = temporary(part)?;
        file.write_all(bytes)?;
        if let Some(like) = like {
            own_as(file.as_file(), like);
            file.as_file().set_permissions(like.permissions())?;
        }
        file.as_file().sync_all()?;
        // From here on its name says that it is whole.
        let path = marked(&part.join(name), NEW);
        file.persist_noclobber(&path).map_err(|e| e.error)?;
        Ok(Fresh {
            path,
            placed: false,
        })
    }

    /// Places it where nothing is; `AlreadyExists` if there is something.
    pub fn place(mut self, to: &Path) -> io::Result<()> {
        move_to_free(&self.path, to, &marked(&self.path, OLD))?;
        self.placed = true;
        Ok(())
    }

    /// Exchanges it with what is there. `NotFound` if nothing is; `AlreadyExists` if, on
    /// a disk that cannot exchange in one step, something came in between: what stood
    /// there before is then left beside this file, marked [`OLD`].
    pub fn exchange(mut self, to: &Path) -> io::Result<Displaced> {
        exchange(&self.path, to, &marked(&self.path, OLD))?;
        self.placed = true;
        sync_folder(folder_of(to));
        Ok(Displaced {
            path: std::mem::take(&mut self.path),
        })
    }
}

impl Drop for Fresh {
    fn drop(&mut self) {
        if !self.placed {
            // One that stays is cleared away at the next start.
            let _ = fs::remove_file(&self.path);
        }
    }
}

impl Displaced {
    /// What it holds.
    pub fn read(&self, limit: &Limit) -> Result<Found, FileError> {
        read(&self.path, Links::Refused, limit)
    }

    /// What it is like.
    pub fn metadata(&self) -> io::Result<Metadata> {
        fs::symlink_metadata(&self.path)
    }

    /// It is kept elsewhere, or can be made again.
    pub fn discard(&self) {
        // One that stays is cleared away at the next start.
        let _ = fs::remove_file(&self.path);
    }

    /// Puts it back; from then on this is what stood there meanwhile.
    pub fn put_back(&self, to: &Path) -> io::Result<()> {
        exchange(&self.path, to, &marked(&self.path, OLD))?;
        sync_folder(folder_of(to));
        Ok(())
    }

    /// Gives it a name, over what has that name.
    pub fn keep_as(self, to: &Path) -> io::Result<()> {
        fs::rename(&self.path, to)?;
        sync_folder(folder_of(to));
        Ok(())
    }
}

/// A file that others may read as any file that the maker saves; temporary files are
/// otherwise private.
fn temporary(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
}

/// Gives a file the owner and group of another, as far as that is allowed.
#[cfg(unix)]
fn own_as(file: &fs::File, like: &Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    let own = file.metadata();
    if !own.is_ok_and(|own| own.uid() == like.uid() && own.gid() == like.gid()) {
        // Only an administrator may give files away; anyone else's stay theirs.
        let _ = fchown(file, Some(like.uid()), Some(like.gid()));
    }
}

#[cfg(not(unix))]
fn own_as(_: &fs::File, _: &Metadata) {}
