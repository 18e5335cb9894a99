//! The last saved texts of each project.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use editor::store::{StoreError, VERSIONS_KEPT, Version, hash, is_name};

use super::folder::{is_folder, make_folder};
use super::{Folder, millis, of_io};

/// A version on disk.
#[derive(Debug, Clone)]
pub struct VersionFile {
    /// Which it is.
    pub what: Version,
    path: PathBuf,
}

impl Folder {
    /// Keeps a text among a project's versions, unless it is the newest there already.
    pub fn keep(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        self.keep_in(&self.versions_of(name)?, bytes)
    }

    /// The same in a folder of versions.
    pub(super) fn keep_in(&self, versions: &Path, bytes: &[u8]) -> Result<(), StoreError> {
        make_folder(versions)?;
        let kept = self.versions_in(versions)?;
        let version = hash(&[bytes]);
        if kept.last().is_some_and(|v| v.what.version == version) {
            return Ok(());
        }
        let number = kept.last().map_or(1, |v| v.what.number + 1);
        let path = versions.join(format!("{number:08}-{version}.toml"));
        match self.fresh_of_own(bytes)?.place(&path) {
            // Another one of this program has just kept the same text.
            Err(e) if e.kind() == ErrorKind::AlreadyExists => {}
            done => done.map_err(|e| of_io("versions", &e))?,
        }
        let many = (kept.len() + 1).saturating_sub(VERSIONS_KEPT);
        for old in &kept[..many.min(kept.len())] {
            // One that cannot be taken away is one more that is kept.
            let _ = fs::remove_file(&old.path);
        }
        Ok(())
    }

    /// The versions of a project, oldest first: the last that are kept. A program that was
    /// killed before it took the oldest away leaves one more on the disk until the next save.
    pub fn versions(&self, name: &str) -> Result<Vec<VersionFile>, StoreError> {
        let mut found = self.versions_in(&self.versions_of(name)?)?;
        found.drain(..found.len().saturating_sub(VERSIONS_KEPT));
        Ok(found)
    }

    /// All that is on the disk, oldest first.
    pub(super) fn versions_in(&self, versions: &Path) -> Result<Vec<VersionFile>, StoreError> {
        if !is_folder(versions)? {
            return Ok(Vec::new());
        }
        let entries = fs::read_dir(versions).map_err(|e| of_io("versions", &e))?;
        let mut found: Vec<VersionFile> = entries
            .flatten()
            .filter(|e| e.file_type().is_ok_and(|t| t.is_file()))
            .filter_map(|entry| {
                let file = entry.file_name().into_string().ok()?;
                let (number, version) = file.strip_suffix(".toml")?.split_once('-')?;
                let written = entry.metadata().and_then(|m| m.modified());
                Some(VersionFile {
                    what: Version {
                        version: version.into(),
                        saved: millis(written.unwrap_or(SystemTime::UNIX_EPOCH)),
                        number: number.parse().ok()?,
                    },
                    path: entry.path(),
                })
            })
            .collect();
        found.sort_by_key(|v| v.what.number);
        Ok(found)
    }

    /// The text of a version.
    pub fn version(&self, version: &VersionFile) -> Result<Vec<u8>, StoreError> {
        Ok(self.read(&version.path)?.bytes)
    }

    /// Where a project's versions are.
    pub(super) fn versions_of(&self, name: &str) -> Result<PathBuf, StoreError> {
        if !is_name(name) {
            return Err(StoreError::no_project());
        }
        Ok(self.own(&["versions"])?.join(name))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use editor::store::Saved;

    #[test]
    fn the_last_twenty_versions_are_kept() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let mut seen = None;
        for i in 0..25 {
            let text = format!("text {i}");
            let save = |seen: Option<&str>| folder.save("bowl", text.as_bytes(), seen).unwrap();
            assert_eq!(save(seen.as_deref()), Saved::Done);
            seen = Some(hash(&[text.as_bytes()]));
            // The same text again is no new version.
            assert_eq!(save(seen.as_deref()), Saved::Done);
        }
        let kept = folder.versions("bowl").unwrap();
        assert_eq!(kept.len(), 20);
        assert_eq!(folder.version(&kept[0]).unwrap(), b"text 5");
        assert_eq!(folder.version(&kept[19]).unwrap(), b"text 24");
        assert_eq!(kept[19].what.version, hash(&[b"text 24"]));

        // As a kill between writing the newest and taking the oldest away leaves it.
        let shelf = folder.versions_of("bowl").unwrap();
        fs::write(shelf.join("00000001-old.toml"), "text 0").unwrap();
        assert_eq!(folder.versions("bowl").unwrap().len(), 20);
        folder.keep("bowl", b"text 25").unwrap();
        assert_eq!(fs::read_dir(&shelf).unwrap().count(), 20);
    }
}
