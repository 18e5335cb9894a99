//! Deleted projects, which can be had back with their versions.

use std::fs;
use std::path::PathBuf;
use std::time::SystemTime;

use editor::store::{BIN_KEPT, InBin, StoreError, free_name, is_name};

use super::folder::is_folder;
use super::{Folder, millis, of_io};
use crate::disk::FileError;

/// A project's file in the bin.
#[derive(Debug, Clone)]
pub struct BinFile {
    /// Which it is.
    pub what: InBin,
    path: PathBuf,
    number: u64,
}

impl BinFile {
    /// Where its versions are, if it has any.
    fn versions(&self) -> PathBuf {
        self.path.with_extension("versions")
    }
}

impl Folder {
    /// Puts a project into the bin, with its versions.
    pub fn delete(&self, name: &str) -> Result<(), StoreError> {
        let path = self.project(name)?;
        let text = self.read(&path)?;
        self.keep(name, &text.bytes)?;
        let place = self.free_in_bin(name)?;
        self.move_to_free(&path, &place.path)?;
        if let Ok(file) = fs::File::open(&place.path) {
            // The time of deleting; without it the bin shows the time of saving.
            let _ = file.set_modified(SystemTime::now());
        }
        // Versions that stay here are no other project's: `vacate` brings them after.
        let _ = self.move_to_free(&self.versions_of(name)?, &place.versions());
        for old in self.bin()?.iter().skip(BIN_KEPT) {
            let _ = fs::remove_file(&old.path);
            let _ = fs::remove_dir_all(old.versions());
        }
        Ok(())
    }

    /// What is in the bin, newest first.
    pub fn bin(&self) -> Result<Vec<BinFile>, StoreError> {
        let bin = self.own(&["bin"])?;
        let entries = fs::read_dir(bin).map_err(|e| of_io("the bin", &e))?;
        let mut found: Vec<BinFile> = entries
            .flatten()
            .filter(|e| e.file_type().is_ok_and(|t| t.is_file()))
            .filter_map(|entry| {
                let file = entry.file_name().into_string().ok()?;
                let (id, name) = file.strip_suffix(".toml")?.split_once('-')?;
                let written = entry.metadata().and_then(|m| m.modified());
                Some(BinFile {
                    what: InBin {
                        id: id.into(),
                        name: is_name(name).then(|| name.to_string())?,
                        deleted: millis(written.unwrap_or(SystemTime::UNIX_EPOCH)),
                    },
                    number: id.parse().ok()?,
                    path: entry.path(),
                })
            })
            .collect();
        found.sort_by_key(|b| std::cmp::Reverse(b.number));
        Ok(found)
    }

    /// The next place in the bin.
    fn free_in_bin(&self, name: &str) -> Result<BinFile, StoreError> {
        let bin = self.own(&["bin"])?;
        let entries = fs::read_dir(&bin).map_err(|e| of_io("the bin", &e))?;
        // Versions alone, of a restoring that was stopped, take a number too.
        let numbers = entries.flatten().filter_map(|entry| {
            let file = entry.file_name().into_string().ok()?;
            file.split_once('-')?.0.parse::<u64>().ok()
        });
        let number = numbers.max().unwrap_or(0) + 1;
        let id = format!("{number:08}");
        Ok(BinFile {
            path: bin.join(format!("{id}-{name}.toml")),
            what: InBin {
                id,
                name: name.into(),
                deleted: 0.0,
            },
            number,
        })
    }

    /// Puts a project back on the shelf with its versions, under its old name or one like
    /// it.
    pub fn restore(&self, id: &str) -> Result<String, StoreError> {
        let found = self.bin()?.into_iter().find(|b| b.what.id == id);
        let found = found.ok_or_else(|| StoreError::missing("that is no longer in the bin"))?;
        loop {
            let name = self.free(&found.what.name)?;
            self.vacate(&name)?;
            let versions = self.versions_of(&name)?;
            let had = is_folder(&found.versions())?;
            if had {
                self.move_to_free(&found.versions(), &versions)?;
            }
            match self.move_to_free(&found.path, &self.project(&name)?) {
                Ok(()) => return Ok(name),
                Err(trouble) => {
                    if had {
                        self.move_to_free(&versions, &found.versions())?;
                    }
                    // Taken in this moment; the next one like it.
                    if !trouble.taken {
                        return Err(trouble);
                    }
                }
            }
        }
    }

    /// Makes sure that a project which gets this name does not come by another's versions.
    /// Those of a project that is in the bin go there after it. A project that vanished
    /// otherwise is put into the bin as it was last saved.
    pub(super) fn vacate(&self, name: &str) -> Result<(), StoreError> {
        let versions = self.versions_of(name)?;
        if !is_folder(&versions)? {
            return Ok(());
        }
        if fs::remove_dir(&versions).is_ok() {
            // There was nothing in it.
            return Ok(());
        }
        for deleted in self.bin()?.iter().filter(|b| b.what.name == name) {
            if !is_folder(&deleted.versions())? {
                return self.move_to_free(&versions, &deleted.versions());
            }
        }
        let place = self.free_in_bin(name)?;
        if let Some(last) = self.versions_in(&versions)?.last() {
            let text = self.version(last)?;
            self.fresh_of_own(&text)?
                .place(&place.path)
                .map_err(|e| FileError::new(&place.path, e))?;
        }
        self.move_to_free(&versions, &place.versions())
    }

    /// `name`, or the first of `name-2`, `name-3` that is free.
    pub fn free(&self, name: &str) -> Result<String, StoreError> {
        free_name(name, |n| self.taken(n))
    }

    /// Gives a project another name, with its versions.
    pub fn rename_project(&self, from: &str, to: &str) -> Result<(), StoreError> {
        let path = self.project(from)?;
        self.read(&path)?;
        if !is_name(to) {
            return Err(StoreError::new("a project cannot be called so"));
        }
        let target = self.project(to)?;
        self.move_to_free(&path, &target).map_err(|trouble| {
            if trouble.taken {
                StoreError::new("there is a project of that name already")
            } else {
                trouble
            }
        })?;
        self.move_versions(from, to).inspect_err(|_| {
            // The project is whole under either name; with its versions it is better off.
            let _ = self.move_to_free(&target, &path);
        })
    }

    fn move_versions(&self, from: &str, to: &str) -> Result<(), StoreError> {
        let (old, new) = (self.versions_of(from)?, self.versions_of(to)?);
        if from == to {
            return Ok(());
        }
        if !is_folder(&old)? {
            return self.vacate(to);
        }
        match self.move_to_free(&old, &new) {
            Err(trouble) if trouble.taken => {
                self.vacate(to)?;
                self.move_to_free(&old, &new)
            }
            done => done,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_deleted_can_be_had_back() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.create("bowl", b"one").unwrap();
        folder.delete("bowl").unwrap();
        assert!(folder.names().unwrap().is_empty());
        folder.create("bowl", b"two").unwrap();
        folder.delete("bowl").unwrap();
        let bin = folder.bin().unwrap();
        assert_eq!(
            bin.iter().map(|b| b.what.name.as_str()).collect::<Vec<_>>(),
            ["bowl", "bowl"]
        );
        folder.create("bowl", b"three").unwrap();
        assert_eq!(folder.restore(&bin[1].what.id).unwrap(), "bowl-2");
        let path = folder.project("bowl-2").unwrap();
        assert_eq!(folder.read(&path).unwrap().bytes, b"one");
        assert!(folder.restore("../../x").is_err_and(|t| t.missing));
        assert_eq!(folder.bin().unwrap().len(), 1);
    }

    #[test]
    fn a_project_is_renamed_with_its_versions() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.create("bowl", b"one").unwrap();
        folder.create("dish", b"two").unwrap();
        assert!(folder.rename_project("bowl", "dish").is_err());
        assert!(folder.rename_project("bowl", "../x").is_err());
        folder.rename_project("bowl", "cup").unwrap();
        assert_eq!(folder.names().unwrap(), ["cup", "dish"]);
        assert_eq!(folder.versions("cup").unwrap().len(), 1);
    }

    fn kept(folder: &Folder, name: &str) -> Vec<String> {
        let all = folder.versions(name).unwrap();
        let text = |v| String::from_utf8(folder.version(v).unwrap()).unwrap();
        all.iter().map(text).collect()
    }

    #[cfg(unix)]
    #[test]
    fn a_name_in_other_letters_is_no_leave_to_write_over_a_project() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.create("bowl", b"one").unwrap();
        let other = dir.path().join("Bowl.toml");
        fs::write(&other, "another").unwrap();
        if folder.names().unwrap().len() < 2 {
            // A disk that takes both for one name: there is no other project.
            return;
        }
        assert!(folder.rename_project("bowl", "Bowl").is_err());
        assert_eq!(fs::read(&other).unwrap(), b"another");
        assert_eq!(folder.names().unwrap(), ["Bowl", "bowl"]);
        // Two names of one file are two projects to the maker.
        fs::remove_file(&other).unwrap();
        fs::hard_link(folder.project("bowl").unwrap(), &other).unwrap();
        assert!(folder.rename_project("bowl", "Bowl").is_err());
        assert_eq!(folder.names().unwrap(), ["Bowl", "bowl"]);
        fs::remove_file(&other).unwrap();
        folder.rename_project("bowl", "Bowl").unwrap();
        assert_eq!(folder.names().unwrap(), ["Bowl"]);
        assert_eq!(kept(&folder, "Bowl"), ["one"]);
    }

    #[test]
    fn versions_go_to_the_bin_with_their_project_and_come_back() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.create("bowl", b"one").unwrap();
        folder.keep("bowl", b"two").unwrap();
        folder.delete("bowl").unwrap();
        // A namesake starts afresh.
        folder.create("bowl", b"other").unwrap();
        assert_eq!(kept(&folder, "bowl"), ["other"]);
        let id = folder.bin().unwrap()[0].what.id.clone();
        assert_eq!(folder.restore(&id).unwrap(), "bowl-2");
        assert_eq!(kept(&folder, "bowl-2"), ["one", "two", "one"]);
        assert_eq!(kept(&folder, "bowl"), ["other"]);
        assert!(folder.bin().unwrap().is_empty());
    }

    #[test]
    fn versions_of_a_file_that_vanished_are_no_namesakes_either() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        for name in ["bowl", "cup"] {
            folder.create(name, b"one").unwrap();
            folder.keep(name, b"two").unwrap();
            fs::remove_file(folder.project(name).unwrap()).unwrap();
        }
        folder.create("bowl", b"other").unwrap();
        assert_eq!(kept(&folder, "bowl"), ["other"]);
        folder.create("dish", b"third").unwrap();
        folder.rename_project("dish", "cup").unwrap();
        assert_eq!(kept(&folder, "cup"), ["third"]);
        // Both can be had back as they were last saved.
        for id in folder.bin().unwrap().into_iter().map(|b| b.what.id) {
            let name = folder.restore(&id).unwrap();
            assert_eq!(kept(&folder, &name), ["one", "two"]);
            let path = folder.project(&name).unwrap();
            assert_eq!(folder.read(&path).unwrap().bytes, b"two");
        }
    }

    #[test]
    fn versions_left_behind_by_an_older_program_follow_their_project_to_the_bin() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.create("bowl", b"one").unwrap();
        folder.delete("bowl").unwrap();
        let deleted = folder.bin().unwrap().remove(0);
        fs::rename(deleted.versions(), folder.versions_of("bowl").unwrap()).unwrap();
        folder.create("bowl", b"other").unwrap();
        assert_eq!(kept(&folder, "bowl"), ["other"]);
        assert_eq!(folder.restore(&deleted.what.id).unwrap(), "bowl-2");
        assert_eq!(kept(&folder, "bowl-2"), ["one"]);
    }
}
