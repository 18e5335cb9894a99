//! Saving: what another program put there is never written over.

use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use editor::store::{Saved, StoreError, hash};

use super::folder::version_of;
use super::{Folder, of_io};
use crate::disk::{Displaced, FileError, Fresh, Links, PROJECT, Why, linked, look, rewrite};

/// How often a file may change under one save.
const ROUNDS: usize = 8;
/// A file that another program writes is taken as it is when it rests for so long.
const REST: Duration = Duration::from_millis(60);
/// Longest wait for that.
const LONGEST_WAIT: Duration = Duration::from_secs(2);

/// A file that is saved, and the folder of its versions.
pub(super) struct Target {
    pub path: PathBuf,
    pub versions: PathBuf,
}

impl Folder {
    /// Saves a project: among its versions first, then as the project. `seen` is the
    /// version of the file as it was last read; `None` where there was no file.
    pub fn save(&self, name: &str, bytes: &[u8], seen: Option<&str>) -> Result<Saved, StoreError> {
        self.save_over(&self.project_target(name)?, bytes, seen)
    }

    /// Saves the workshop, as a project is saved.
    pub fn save_workshop(&self, bytes: &[u8], seen: Option<&str>) -> Result<Saved, StoreError> {
        self.save_over(&self.workshop_target()?, bytes, seen)
    }

    /// Saves a new project under the wished name or one like it, never over another.
    pub fn create(&self, wished: &str, bytes: &[u8]) -> Result<String, StoreError> {
        loop {
            let name = self.free(wished)?;
            self.vacate(&name)?;
            let path = self.project(&name)?;
            match self.fresh(&path, bytes)?.place(&path) {
                Ok(()) => {
                    self.keep(&name, bytes)?;
                    return Ok(name);
                }
                // Taken in this moment; the next one like it.
                Err(e) if e.kind() == ErrorKind::AlreadyExists => {}
                Err(e) => return Err(FileError::new(&path, e).into()),
            }
        }
    }

    pub(super) fn project_target(&self, name: &str) -> Result<Target, StoreError> {
        Ok(Target {
            path: self.project(name)?,
            versions: self.versions_of(name)?,
        })
    }

    pub(super) fn workshop_target(&self) -> Result<Target, StoreError> {
        Ok(Target {
            path: self.workshop(),
            versions: self.own(&["workshop"])?,
        })
    }

    /// A file that is whole, for a place in the folder.
    pub(super) fn fresh(&self, path: &Path, bytes: &[u8]) -> Result<Fresh, StoreError> {
        let like = look(path, Links::Refused).ok();
        let name = path.file_name().unwrap_or_default();
        Fresh::write(&self.own(&["part"])?, name, bytes, like.as_ref())
            .map_err(|e| FileError::new(path, e).into())
    }

    /// A file that is whole, for a place in the program's own folder.
    pub(super) fn fresh_of_own(&self, bytes: &[u8]) -> Result<Fresh, StoreError> {
        Fresh::write(&self.own(&["part"])?, "own".as_ref(), bytes, None)
            .map_err(|e| of_io("it could not be written", &e))
    }

    fn save_over(
        &self,
        target: &Target,
        bytes: &[u8],
        seen: Option<&str>,
    ) -> Result<Saved, StoreError> {
        for _ in 0..ROUNDS {
            let done = match look(&target.path, Links::Refused) {
                Ok(there) => self.save_over_file(target, bytes, seen, linked(&there))?,
                Err(Why::Io(e)) if e.kind() == ErrorKind::NotFound => {
                    self.save_at_free_name(target, bytes)?
                }
                // A link or a folder of that name is someone's; it is not written over.
                Err(why) => return Err(FileError::new(&target.path, why).into()),
            };
            if let Some(saved) = done {
                return Ok(saved);
            }
        }
        Err(FileError::new(&target.path, Why::Exchanged).into())
    }

    /// Where there is no file; `None` if one has come.
    fn save_at_free_name(
        &self,
        target: &Target,
        bytes: &[u8],
    ) -> Result<Option<Saved>, StoreError> {
        self.keep_in(&target.versions, bytes)?;
        match self.fresh(&target.path, bytes)?.place(&target.path) {
            Ok(()) => Ok(Some(Saved::Done)),
            Err(e) if e.kind() == ErrorKind::AlreadyExists => Ok(None),
            Err(e) => Err(FileError::new(&target.path, e).into()),
        }
    }

    /// Where there is a file; `None` if it has gone or become another.
    fn save_over_file(
        &self,
        target: &Target,
        bytes: &[u8],
        seen: Option<&str>,
        linked: bool,
    ) -> Result<Option<Saved>, StoreError> {
        let old = match self.read(&target.path) {
            Err(trouble) if trouble.missing => return Ok(None),
            found => found?,
        };
        // What stands there may never have been saved by this program.
        self.keep_in(&target.versions, &old.bytes)?;
        let Some(seen) = seen.filter(|seen| *seen == version_of(&old)) else {
            return Ok(Some(Saved::Overtaken));
        };
        self.keep_in(&target.versions, bytes)?;
        let fresh = self.fresh(&target.path, bytes)?;
        if linked {
            return save_into(&target.path, bytes, seen);
        }
        match fresh.exchange(&target.path) {
            Ok(old) => {
                if old.read(&PROJECT).is_ok_and(|f| version_of(&f) == seen) {
                    old.discard();
                    return Ok(Some(Saved::Done));
                }
                self.give_back(target, &old, hash(&[bytes]))?;
                Ok(Some(Saved::Overtaken))
            }
            Err(e) if e.kind() == ErrorKind::NotFound => Ok(None),
            Err(e) if e.kind() == ErrorKind::AlreadyExists => {
                self.keep_what_stood(target);
                Ok(None)
            }
            Err(e) => Err(FileError::new(&target.path, e).into()),
        }
    }

    /// Puts another program's file back in the place of ours, and keeps its text. Should
    /// another have come in the meantime, that one stands in the end.
    fn give_back(&self, target: &Target, held: &Displaced, ours: String) -> Result<(), StoreError> {
        let mut given = ours;
        for _ in 0..ROUNDS {
            wait_until_it_rests(held);
            let kept = match held.read(&PROJECT) {
                Ok(found) => {
                    self.keep_in(&target.versions, &found.bytes)?;
                    Some(version_of(&found))
                }
                // It is no text, but it is someone's file.
                Err(_) => None,
            };
            match held.put_back(&target.path) {
                Ok(()) => {}
                // Taken away by now; its text is kept.
                Err(_) if kept.is_some() => {
                    held.discard();
                    return Ok(());
                }
                Err(e) => return Err(FileError::new(&target.path, e).into()),
            }
            if held.read(&PROJECT).is_ok_and(|f| version_of(&f) == given) {
                held.discard();
                return Ok(());
            }
            given = kept.unwrap_or_default();
        }
        Err(FileError::new(&target.path, Why::Exchanged).into())
    }
}

/// Writes into a file of several names; both texts are kept already, and the fresh file
/// beside it says so to the next start if this one is stopped.
fn save_into(path: &Path, bytes: &[u8], seen: &str) -> Result<Option<Saved>, StoreError> {
    let done = rewrite(path, Links::Refused, &PROJECT, bytes, |found| {
        Ok::<_, FileError>(version_of(found) == seen)
    });
    match done {
        Ok(true) => Ok(Some(Saved::Done)),
        Ok(false) => Ok(None),
        Err(e) if matches!(e.why, Why::Exchanged) || e.is_missing() => Ok(None),
        Err(e) => Err(e.into()),
    }
}

/// A program that opened the file before it was exchanged may still be writing it.
fn wait_until_it_rests(held: &Displaced) {
    let stamp = || {
        let data = held.metadata().ok()?;
        Some((data.len(), data.modified().ok()?))
    };
    let start = Instant::now();
    let mut last = stamp();
    loop {
        std::thread::sleep(REST);
        let now = stamp();
        if now == last || start.elapsed() > LONGEST_WAIT {
            return;
        }
        last = now;
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    fn folder_with(text: &str) -> (tempfile::TempDir, Folder, PathBuf) {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let path = folder.project("bowl").unwrap();
        fs::write(&path, text).unwrap();
        (dir, folder, path)
    }

    fn kept(folder: &Folder) -> Vec<String> {
        let all = folder.versions("bowl").unwrap();
        let text = |v| String::from_utf8(folder.version(v).unwrap()).unwrap();
        all.iter().map(text).collect()
    }

    #[test]
    fn what_another_program_saved_since_stands_and_is_kept() {
        let (_dir, folder, path) = folder_with("theirs");
        let seen = hash(&[b"one"]);
        let saved = folder.save("bowl", b"ours", Some(&seen)).unwrap();
        assert_eq!(saved, Saved::Overtaken);
        assert_eq!(fs::read(&path).unwrap(), b"theirs");
        assert_eq!(kept(&folder), ["theirs"]);
        // Nor is a file written over that was not there before.
        let saved = folder.save("bowl", b"ours", None).unwrap();
        assert_eq!(saved, Saved::Overtaken);
        assert_eq!(fs::read(&path).unwrap(), b"theirs");
    }

    #[test]
    fn a_file_that_was_exchanged_by_mistake_goes_back_as_it_was() {
        let (_dir, folder, path) = folder_with("theirs");
        let theirs = fs::metadata(&path).unwrap();
        let target = folder.project_target("bowl").unwrap();
        let fresh = folder.fresh(&path, b"ours").unwrap();
        let held = fresh.exchange(&path).unwrap();
        folder.give_back(&target, &held, hash(&[b"ours"])).unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"theirs");
        let now = fs::metadata(&path).unwrap();
        assert_eq!(now.modified().unwrap(), theirs.modified().unwrap());
        assert_eq!(kept(&folder), ["theirs"]);
        let part = folder.own(&["part"]).unwrap();
        assert_eq!(fs::read_dir(part).unwrap().count(), 0);
    }

    #[test]
    fn of_two_that_came_in_between_the_newer_one_stands() {
        let (_dir, folder, path) = folder_with("theirs");
        let target = folder.project_target("bowl").unwrap();
        let fresh = folder.fresh(&path, b"ours").unwrap();
        let held = fresh.exchange(&path).unwrap();
        fs::write(&path, "newer").unwrap();
        folder.give_back(&target, &held, hash(&[b"ours"])).unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"newer");
        assert_eq!(kept(&folder), ["theirs", "newer"]);
    }

    #[cfg(unix)]
    #[test]
    fn a_saved_file_keeps_its_mode_and_its_other_names() {
        use std::os::unix::fs::{MetadataExt, PermissionsExt};
        let (dir, folder, path) = folder_with("one");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o664)).unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        let seen = hash(&[b"one"]);
        let saved = folder.save("bowl", b"two", Some(&seen)).unwrap();
        assert_eq!((saved, mode(&path)), (Saved::Done, 0o664));

        let other = dir.path().join("linked.txt");
        fs::hard_link(&path, &other).unwrap();
        let seen = hash(&[b"two"]);
        let saved = folder.save("bowl", b"three, longer", Some(&seen)).unwrap();
        assert_eq!(saved, Saved::Done);
        assert_eq!(fs::read(&other).unwrap(), b"three, longer");
        let seen = hash(&[b"three, longer"]);
        let saved = folder.save("bowl", b"4", Some(&seen)).unwrap();
        assert_eq!(saved, Saved::Done);
        assert_eq!(fs::read(&other).unwrap(), b"4");
        assert_eq!(fs::metadata(&path).unwrap().nlink(), 2);
        assert_eq!(mode(&path), 0o664);
        assert_eq!(kept(&folder), ["one", "two", "three, longer", "4"]);

        // A new project may be read by whoever may read a file that the maker saves.
        folder.create("cup", b"new").unwrap();
        let plain = dir.path().join("plain");
        fs::write(&plain, "").unwrap();
        assert_eq!(mode(&folder.project("cup").unwrap()), mode(&plain));
    }
}
