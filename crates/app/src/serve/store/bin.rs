//! Deleted projects, which can be had back.

use std::fs;
use std::path::PathBuf;
use std::time::SystemTime;

use super::{Folder, Trouble, is_name, millis};

/// Deleted projects that are kept.
const KEPT: usize = 200;

/// A project in the bin.
#[derive(Debug, Clone)]
pub struct InBin {
    /// Its number.
    pub id: String,
    /// The name it had.
    pub name: String,
    /// When it was deleted, milliseconds since 1970 UTC.
    pub deleted: f64,
    path: PathBuf,
    number: u64,
}

impl Folder {
    /// Puts a project into the bin; its versions stay where they are.
    pub fn delete(&self, name: &str) -> Result<(), Trouble> {
        let path = self.project(name)?;
        let text = self.read(&path)?;
        self.keep(name, &text.bytes)?;
        let bin = self.own(&["bin"])?;
        let there = self.bin()?;
        let number = there.iter().map(|b| b.number).max().unwrap_or(0) + 1;
        let to = bin.join(format!("{number:08}-{name}.toml"));
        self.rename(&path, &to)?;
        if let Ok(file) = fs::File::open(&to) {
            // The time of deleting; without it the bin shows the time of saving.
            let _ = file.set_modified(SystemTime::now());
        }
        for old in there.iter().skip(KEPT - 1) {
            let _ = fs::remove_file(&old.path);
        }
        Ok(())
    }

    /// What is in the bin, newest first.
    pub fn bin(&self) -> Result<Vec<InBin>, Trouble> {
        let bin = self.own(&["bin"])?;
        let entries = fs::read_dir(bin).map_err(|e| Trouble::io("the bin", &e))?;
        let mut found: Vec<InBin> = entries
            .flatten()
            .filter(|e| e.file_type().is_ok_and(|t| t.is_file()))
            .filter_map(|entry| {
                let file = entry.file_name().into_string().ok()?;
                let (id, name) = file.strip_suffix(".toml")?.split_once('-')?;
                let written = entry.metadata().and_then(|m| m.modified());
                Some(InBin {
                    id: id.into(),
                    name: is_name(name).then(|| name.to_string())?,
                    deleted: millis(written.unwrap_or(SystemTime::UNIX_EPOCH)),
                    number: id.parse().ok()?,
                    path: entry.path(),
                })
            })
            .collect();
        found.sort_by_key(|b| std::cmp::Reverse(b.number));
        Ok(found)
    }

    /// Puts a project back on the shelf, under its old name or one like it.
    pub fn restore(&self, id: &str) -> Result<String, Trouble> {
        let found = self.bin()?.into_iter().find(|b| b.id == id);
        let found = found.ok_or_else(|| Trouble::missing("that is no longer in the bin"))?;
        let name = self.free(&found.name)?;
        self.rename(&found.path, &self.project(&name)?)?;
        Ok(name)
    }

    /// `name`, or the first of `name-2`, `name-3` that is free.
    pub fn free(&self, name: &str) -> Result<String, Trouble> {
        if !is_name(name) {
            return Err(Trouble::new("a project cannot be called so"));
        }
        let stem: String = name.chars().take(60).collect();
        std::iter::once(name.to_string())
            .chain((2..10_000).map(|n| format!("{}-{n}", stem.trim_end_matches(['.', ' ']))))
            .find(|n| is_name(n) && !self.taken(n))
            .ok_or_else(|| Trouble::new("there are too many projects of that name"))
    }

    /// Gives a project another name, with its versions.
    pub fn rename_project(&self, from: &str, to: &str) -> Result<(), Trouble> {
        let path = self.project(from)?;
        self.read(&path)?;
        if !is_name(to) {
            return Err(Trouble::new("a project cannot be called so"));
        }
        // On some disks a name in other letter case is the same file.
        if self.taken(to) && !from.eq_ignore_ascii_case(to) {
            return Err(Trouble::new("there is a project of that name already"));
        }
        self.rename(&path, &self.project(to)?)?;
        let (old, new) = (self.shelf_of(from)?, self.shelf_of(to)?);
        if fs::read_dir(&new).is_ok_and(|mut d| d.next().is_none()) {
            let _ = fs::remove_dir(&new);
            // Without its versions the project is still whole.
            let _ = fs::rename(old, new);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_deleted_can_be_had_back() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.save("bowl", b"one").unwrap();
        folder.delete("bowl").unwrap();
        assert!(folder.names().unwrap().is_empty());
        folder.save("bowl", b"two").unwrap();
        folder.delete("bowl").unwrap();
        let bin = folder.bin().unwrap();
        assert_eq!(
            bin.iter().map(|b| b.name.as_str()).collect::<Vec<_>>(),
            ["bowl", "bowl"]
        );
        folder.save("bowl", b"three").unwrap();
        assert_eq!(folder.restore(&bin[1].id).unwrap(), "bowl-2");
        let path = folder.project("bowl-2").unwrap();
        assert_eq!(folder.read(&path).unwrap().bytes, b"one");
        assert!(folder.restore("../../x").is_err_and(|t| t.missing));
        assert_eq!(folder.bin().unwrap().len(), 1);
    }

    #[test]
    fn a_project_is_renamed_with_its_versions() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        folder.save("bowl", b"one").unwrap();
        folder.save("dish", b"two").unwrap();
        assert!(folder.rename_project("bowl", "dish").is_err());
        assert!(folder.rename_project("bowl", "../x").is_err());
        folder.rename_project("bowl", "cup").unwrap();
        assert_eq!(folder.names().unwrap(), ["cup", "dish"]);
        assert_eq!(folder.versions("cup").unwrap().len(), 1);
    }
}
