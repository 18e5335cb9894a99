//! What a stopped program left half done.

use std::fs;
use std::path::{Path, PathBuf};

use editor::store::{StoreError, hash};

use super::Folder;
use super::save::Target;
use crate::disk::{self, FileError, Links, NEW, OLD, PROJECT, is_torn, linked, look, rewrite};

impl Folder {
    /// Puts right what is left in the folder of files being written, when nobody else
    /// works there yet. What cannot be put right now is left where it is.
    pub(super) fn put_right(&self) {
        let mut left = self.left();
        // A file that was taken aside goes back before what was to stand in its place is
        // looked at.
        left.sort_by_key(|path| marked(path).is_none_or(|(_, mark)| mark != OLD));
        for path in left {
            let done = match marked(&path) {
                Some((file, mark)) => self.put_right_file(&path, &file, mark == OLD),
                // It never was whole.
                None => Ok(()),
            };
            if done.is_ok() {
                let _ = fs::remove_file(path);
            }
        }
    }

    /// Keeps what stood at a name that was taken by another program while it was exchanged.
    pub(super) fn keep_what_stood(&self, target: &Target) {
        let name = target.path.file_name().and_then(|n| n.to_str());
        for path in self.left() {
            if let Some((file, OLD)) = marked(&path)
                && Some(file.as_str()) == name
                && self.put_right_file(&path, &file, true).is_ok()
            {
                let _ = fs::remove_file(path);
            }
        }
    }

    fn left(&self) -> Vec<PathBuf> {
        let entries = self.own(&["part"]).ok().and_then(|p| fs::read_dir(p).ok());
        let entries = entries.into_iter().flatten().flatten();
        entries.map(|entry| entry.path()).collect()
    }

    /// A whole file that was to stand, or had stood, as `file`.
    fn put_right_file(&self, path: &Path, file: &str, old: bool) -> Result<(), StoreError> {
        let Some(stem) = file.strip_suffix(".toml") else {
            return Ok(());
        };
        let target = if stem == "workshop" {
            self.workshop_target()?
        } else {
            self.project_target(stem)?
        };
        if old {
            match self.move_to_free(path, &target.path) {
                Err(trouble) if trouble.taken => {}
                done => return done,
            }
        }
        let text = disk::read(path, Links::Refused, &PROJECT)?.bytes;
        let there = match look(&target.path, Links::Refused) {
            Ok(there) => there,
            // A new project that was not said to be there.
            Err(_) if self.has_version(&target.versions, &text)? => return Ok(()),
            Err(_) => return self.keep_in(&target.versions, &text),
        };
        if linked(&there) {
            self.write_again(&target, &text)?;
        }
        if self.has_version(&target.versions, &text)? {
            return Ok(());
        }
        let now = self.read(&target.path)?;
        if now.bytes == text {
            return Ok(());
        }
        // Another program's, which was exchanged and not yet put back: the file that
        // stands stays the newest.
        self.keep_in(&target.versions, &text)?;
        self.keep_in(&target.versions, &now.bytes)
    }

    /// A file of several names that is half the old text and half the new one.
    fn write_again(&self, target: &Target, text: &[u8]) -> Result<(), StoreError> {
        let olds: Vec<Vec<u8>> = self
            .versions_in(&target.versions)?
            .iter()
            .filter_map(|v| self.version(v).ok())
            .collect();
        rewrite(&target.path, Links::Refused, &PROJECT, text, |now| {
            Ok::<_, FileError>(olds.iter().any(|old| is_torn(&now.bytes, old, text)))
        })?;
        Ok(())
    }

    fn has_version(&self, versions: &Path, text: &[u8]) -> Result<bool, StoreError> {
        let wanted = hash(&[text]);
        let all = self.versions_in(versions)?;
        Ok(all.iter().any(|v| v.what.version == wanted))
    }
}

/// Which file it was to be, and its mark.
fn marked(path: &Path) -> Option<(String, &'static str)> {
    let name = path.file_name()?.to_str()?;
    let (file, rest) = name.split_once('~')?;
    let mark = [NEW, OLD]
        .into_iter()
        .find(|mark| rest.strip_prefix(mark).is_some_and(|r| r.starts_with('-')))?;
    Some((file.into(), mark))
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::*;

    /// A folder as a stopped program leaves it: the project, its versions, and what is in
    /// the folder of files being written.
    fn left(now: Option<&str>, versions: &[&str], part: &[(&str, &str)]) -> Left {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        for text in versions {
            folder.keep("bowl", text.as_bytes()).unwrap();
        }
        let path = folder.project("bowl").unwrap();
        if let Some(now) = now {
            fs::write(&path, now).unwrap();
        }
        for (name, text) in part {
            fs::write(folder.own(&["part"]).unwrap().join(name), text).unwrap();
        }
        Left { dir, path }
    }

    struct Left {
        dir: tempfile::TempDir,
        path: PathBuf,
    }

    impl Left {
        /// Starts again: the project and its versions.
        fn start(&self) -> (Option<String>, Vec<String>) {
            let folder = Folder::open(self.dir.path()).unwrap();
            let part = folder.own(&["part"]).unwrap();
            assert_eq!(fs::read_dir(part).unwrap().count(), 0);
            let all = folder.versions("bowl").unwrap();
            let text = |v| String::from_utf8(folder.version(v).unwrap()).unwrap();
            (
                fs::read_to_string(&self.path).ok(),
                all.iter().map(text).collect(),
            )
        }
    }

    #[test]
    fn what_never_was_whole_is_cleared_away() {
        let left = left(Some("one"), &["one", "two"], &[(".tmpAbC", "tw")]);
        let (now, kept) = left.start();
        assert_eq!(now.as_deref(), Some("one"));
        assert_eq!(kept, ["one", "two"]);
    }

    #[test]
    fn another_programs_text_that_was_exchanged_is_kept() {
        let part = [("bowl.toml~new-7-1", "theirs")];
        let (now, kept) = left(Some("two"), &["one", "two"], &part).start();
        assert_eq!(now.as_deref(), Some("two"));
        assert_eq!(kept, ["one", "two", "theirs", "two"]);
    }

    #[test]
    fn a_file_that_was_taken_aside_goes_back() {
        let part = [("bowl.toml~new-7-1", "two"), ("bowl.toml~old-7-2", "one")];
        let (now, kept) = left(None, &["one", "two"], &part).start();
        assert_eq!(now.as_deref(), Some("one"));
        assert_eq!(kept, ["one", "two"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_file_of_several_names_that_is_half_written_is_written_again() {
        let part = [("bowl.toml~new-7-1", "reach = 29.5")];
        let half = left(Some("reach = 20"), &["reach = 30", "reach = 29.5"], &part);
        let other = half.dir.path().join("other");
        fs::hard_link(&half.path, &other).unwrap();
        let (now, _) = half.start();
        assert_eq!(now.as_deref(), Some("reach = 29.5"));
        assert_eq!(fs::read(other).unwrap(), b"reach = 29.5");
        // What someone else wrote since stays.
        let whole = left(Some("reach = 44"), &["reach = 30", "reach = 29.5"], &part);
        fs::hard_link(&whole.path, whole.dir.path().join("other")).unwrap();
        assert_eq!(whole.start().0.as_deref(), Some("reach = 44"));
    }
}
