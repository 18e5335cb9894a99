//! Reading whole files within a limit.

use std::fs::{self, File, Metadata};
use std::io::{self, Read};
use std::path::Path;
use std::time::SystemTime;

use super::{FileError, Why};

/// The most that is read of a file.
#[derive(Debug, Clone, Copy)]
pub struct Limit {
    /// Bytes; whole MiB.
    pub bytes: u64,
    /// What to do with a file that is larger.
    pub remedy: &'static str,
}

/// Project and workshop files: some kilobytes of text.
pub const PROJECT: Limit = Limit {
    bytes: files::reader::LARGEST_FILE as u64,
    remedy: "choose a project or workshop file; they are a few kilobytes of text",
};

/// Lists of points: two million of them and more.
pub const POINTS: Limit = Limit {
    bytes: 64 << 20,
    remedy: "ask for the points in several lists",
};

/// Whether a link stands for the file that it leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Links {
    /// It does: the maker named it.
    Followed,
    /// It does not: it may lead out of the folder.
    Refused,
}

/// A file as it was found.
#[derive(Debug, Clone)]
pub struct Found {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// When it was last written.
    pub written: SystemTime,
}

/// What a plain file is like, without opening it: opening a pipe may wait for ever, and
/// opening a device may do something.
pub fn look(path: &Path, links: Links) -> Result<Metadata, Why> {
    let data = match links {
        Links::Followed => fs::metadata(path)?,
        Links::Refused => fs::symlink_metadata(path)?,
    };
    if data.is_file() {
        return Ok(data);
    }
    Err(Why::NotPlain(if data.is_dir() {
        "a folder"
    } else if data.is_symlink() {
        "a link"
    } else {
        "a pipe or a device"
    }))
}

/// Reads a whole plain file, if it is within the limit. Its size is asked first.
pub fn read(path: &Path, links: Links, limit: &Limit) -> Result<Found, FileError> {
    read_plain(path, links, limit).map_err(|why| FileError::new(path, why))
}

fn read_plain(path: &Path, links: Links, limit: &Limit) -> Result<Found, Why> {
    let too_large = || Why::TooLarge {
        limit: limit.bytes,
        remedy: limit.remedy,
    };
    let before = look(path, links)?;
    if before.len() > limit.bytes {
        return Err(too_large());
    }
    let file = open(path, links)?;
    let opened = file.metadata()?;
    if !same(&before, &opened) {
        return Err(Why::Exchanged);
    }
    let mut bytes = Vec::new();
    file.take(limit.bytes + 1).read_to_end(&mut bytes)?;
    // It may have grown since.
    if bytes.len() as u64 > limit.bytes {
        return Err(too_large());
    }
    Ok(Found {
        bytes,
        written: opened.modified().unwrap_or(SystemTime::UNIX_EPOCH),
    })
}

/// Opens for reading, without waiting should it have become a pipe in the meantime.
#[cfg(unix)]
fn open(path: &Path, links: Links) -> io::Result<File> {
    use rustix::fs::{Mode, OFlags};
    let mut flags = OFlags::RDONLY | OFlags::CLOEXEC | OFlags::NONBLOCK;
    if links == Links::Refused {
        flags |= OFlags::NOFOLLOW;
    }
    Ok(File::from(rustix::fs::open(path, flags, Mode::empty())?))
}

#[cfg(not(unix))]
fn open(path: &Path, _: Links) -> io::Result<File> {
    File::open(path)
}

/// Is the opened file the one that was looked at?
#[cfg(unix)]
pub(super) fn same(a: &Metadata, b: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    a.dev() == b.dev() && a.ino() == b.ino()
}

#[cfg(not(unix))]
pub(super) fn same(a: &Metadata, b: &Metadata) -> bool {
    b.is_file() && a.len() == b.len()
}

/// Has the file other names (hard links) besides the one it was found by?
#[cfg(unix)]
pub fn linked(data: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    data.nlink() > 1
}

/// Where the system does not tell, it has one name.
#[cfg(not(unix))]
pub fn linked(_: &Metadata) -> bool {
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_limit_is_said_with_a_remedy() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("big.toml");
        let file = File::create(&path).unwrap();
        file.set_len(PROJECT.bytes).unwrap();
        assert!(read(&path, Links::Followed, &PROJECT).is_ok());
        file.set_len(3 << 30).unwrap();
        let error = read(&path, Links::Followed, &PROJECT).unwrap_err();
        let said = error.to_string();
        assert!(
            said.contains("larger than 1 MiB; choose a project"),
            "{said}"
        );
    }

    #[test]
    fn folders_and_missing_files_are_told_apart() {
        let dir = tempfile::tempdir().unwrap();
        let error = read(dir.path(), Links::Followed, &PROJECT).unwrap_err();
        assert!(error.to_string().contains("a folder, not a plain file"));
        let error = read(&dir.path().join("none"), Links::Followed, &PROJECT).unwrap_err();
        assert!(error.is_missing());
    }

    #[cfg(unix)]
    #[test]
    fn links_are_followed_only_where_that_is_wished() {
        let dir = tempfile::tempdir().unwrap();
        let (file, link) = (dir.path().join("a"), dir.path().join("b"));
        fs::write(&file, "one").unwrap();
        std::os::unix::fs::symlink(&file, &link).unwrap();
        assert_eq!(
            read(&link, Links::Followed, &PROJECT).unwrap().bytes,
            b"one"
        );
        assert!(matches!(
            read(&link, Links::Refused, &PROJECT).unwrap_err().why,
            Why::NotPlain("a link")
        ));
        assert!(matches!(
            read(Path::new("/dev/null"), Links::Followed, &PROJECT)
                .unwrap_err()
                .why,
            Why::NotPlain("a pipe or a device")
        ));
    }
}
