//! The folder itself: what is in it, and reading its files.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use editor::store::{Stamp, StoreError, hash, is_name};

use super::of_io;
use crate::disk::{self, Found, Links, PROJECT};

/// The program's own folder in the folder of projects.
const OWN: &str = ".ringwright";

/// A folder of projects.
#[derive(Debug, Clone)]
pub struct Folder {
    root: PathBuf,
}

/// The version of a file's bytes.
pub fn version_of(found: &Found) -> String {
    hash(&[&found.bytes])
}

impl Folder {
    /// Opens a folder; what a stopped program left half done is put right.
    pub fn open(path: &Path) -> Result<Folder, StoreError> {
        let named = path.display().to_string();
        let root = path.canonicalize().map_err(|e| of_io(&named, &e))?;
        if !root.is_dir() {
            return Err(StoreError::new(format!("{named} is no folder")));
        }
        let folder = Folder { root };
        folder.put_right();
        Ok(folder)
    }

    /// Where it is.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// A project's file.
    pub fn project(&self, name: &str) -> Result<PathBuf, StoreError> {
        if !is_name(name) {
            return Err(StoreError::no_project());
        }
        Ok(self.root.join(format!("{name}.toml")))
    }

    /// The workshop's file.
    pub fn workshop(&self) -> PathBuf {
        self.root.join("workshop.toml")
    }

    /// Names of the projects, in order.
    pub fn names(&self) -> Result<Vec<String>, StoreError> {
        let entries = fs::read_dir(&self.root).map_err(|e| of_io("the folder", &e))?;
        let mut names: Vec<String> = entries
            .flatten()
            .filter(|entry| entry.file_type().is_ok_and(|t| t.is_file()))
            .filter_map(|entry| entry.file_name().into_string().ok())
            .filter_map(|name| name.strip_suffix(".toml").map(String::from))
            .filter(|name| is_name(name))
            .collect();
        names.sort_by_key(|n| (n.to_lowercase(), n.clone()));
        Ok(names)
    }

    /// Reads a whole file of the folder, if it is a plain file of moderate size.
    pub fn read(&self, path: &Path) -> Result<Found, StoreError> {
        Ok(disk::read(path, Links::Refused, &PROJECT)?)
    }

    /// Length and time of a file, to see whether it may have changed.
    pub fn stamp(&self, path: &Path) -> Option<Stamp> {
        let data = fs::symlink_metadata(path)
            .ok()
            .filter(fs::Metadata::is_file)?;
        let written = data.modified().unwrap_or(SystemTime::UNIX_EPOCH);
        let since = written.duration_since(UNIX_EPOCH).unwrap_or_default();
        Some(Stamp {
            length: data.len(),
            saved: u64::try_from(since.as_nanos()).unwrap_or(u64::MAX),
        })
    }

    /// Is there anything of this name, be it a link?
    pub fn taken(&self, name: &str) -> bool {
        self.project(name)
            .is_ok_and(|p| fs::symlink_metadata(p).is_ok())
    }

    /// A folder below the program's own, made if it is not there.
    pub(super) fn own(&self, below: &[&str]) -> Result<PathBuf, StoreError> {
        let mut path = self.root.join(OWN);
        make_folder(&path)?;
        for name in below {
            path.push(name);
            make_folder(&path)?;
        }
        Ok(path)
    }

    /// Moves a file or folder to a name that is free, and makes it last.
    pub(super) fn move_to_free(&self, from: &Path, to: &Path) -> Result<(), StoreError> {
        let name = from.file_name().unwrap_or_default();
        let aside = disk::marked(&self.own(&["part"])?.join(name), disk::OLD);
        disk::move_to_free(from, to, &aside).map_err(|e| of_io("it could not be moved", &e))
    }
}

/// Is there a folder? A link to one is none.
pub(super) fn is_folder(path: &Path) -> Result<bool, StoreError> {
    match fs::symlink_metadata(path) {
        Ok(data) if data.is_dir() => Ok(true),
        Ok(_) => Err(StoreError::new(format!("{OWN} is not a plain folder"))),
        Err(e) if e.kind() == ErrorKind::NotFound => Ok(false),
        Err(e) => Err(of_io(OWN, &e)),
    }
}

/// Makes a folder unless it is there.
pub(super) fn make_folder(path: &Path) -> Result<(), StoreError> {
    if is_folder(path)? {
        return Ok(());
    }
    match fs::create_dir(path) {
        Err(e) if e.kind() != ErrorKind::AlreadyExists => Err(of_io(OWN, &e)),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use editor::store::Saved;

    #[test]
    fn a_file_is_written_whole_and_nothing_is_left_beside_it() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let path = folder.project("bowl").unwrap();
        folder.create("bowl", b"one").unwrap();
        let seen = hash(&[b"one"]);
        assert_eq!(
            folder.save("bowl", b"two", Some(&seen)).unwrap(),
            Saved::Done
        );
        assert_eq!(folder.read(&path).unwrap().bytes, b"two");
        assert_eq!(folder.names().unwrap(), ["bowl"]);
        assert_eq!(
            fs::read_dir(dir.path().join(".ringwright/part"))
                .unwrap()
                .count(),
            0
        );
    }

    #[cfg(unix)]
    #[test]
    fn links_are_neither_read_nor_written_nor_listed() {
        let outside = tempfile::tempdir().unwrap();
        let secret = outside.path().join("secret.toml");
        fs::write(&secret, "secret").unwrap();
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let link = folder.project("bowl").unwrap();
        std::os::unix::fs::symlink(&secret, &link).unwrap();
        assert!(folder.read(&link).is_err());
        assert!(folder.save("bowl", b"x", None).is_err());
        assert!(
            folder
                .save("bowl", b"x", Some(&hash(&[b"secret"])))
                .is_err()
        );
        assert!(folder.names().unwrap().is_empty());
        assert_eq!(fs::read(&secret).unwrap(), b"secret");
        // Nor does a project's folder of versions lead elsewhere.
        let versions = folder.own(&["versions"]).unwrap();
        std::os::unix::fs::symlink(outside.path(), versions.join("cup")).unwrap();
        assert!(folder.keep("cup", b"x").is_err());
        assert!(folder.versions("cup").is_err());
        assert_eq!(fs::read_dir(outside.path()).unwrap().count(), 1);
        // The program's own folder may be no link either.
        let dir = tempfile::tempdir().unwrap();
        std::os::unix::fs::symlink(outside.path(), dir.path().join(".ringwright")).unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        assert!(folder.create("bowl", b"x").is_err());
    }

    #[test]
    fn large_files_and_folders_are_refused() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let path = folder.project("big").unwrap();
        fs::write(&path, vec![b'#'; PROJECT.bytes as usize + 1]).unwrap();
        let trouble = folder.read(&path).unwrap_err();
        assert_eq!(trouble.what, "big.toml: this file is larger than 1 MiB");
        assert!(trouble.remedy.is_some());
        let path = folder.project("folder").unwrap();
        fs::create_dir(&path).unwrap();
        assert!(folder.read(&path).is_err());
        assert!(folder.save("folder", b"x", None).is_err());
        assert!(
            folder
                .read(&folder.project("none").unwrap())
                .is_err_and(|t| t.missing)
        );
    }
}
