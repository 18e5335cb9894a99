//! The folder as the editor knows it.

use std::path::PathBuf;

use editor::store::{Found, InBin, Saved, Stamp, Store, StoreError, Stored, Version};

use super::{Folder, millis};

impl Folder {
    fn file(&self, what: Stored<'_>) -> Result<PathBuf, StoreError> {
        match what {
            Stored::Project(name) => self.project(name),
            Stored::Workshop => Ok(self.workshop()),
        }
    }
}

impl Store for Folder {
    fn place(&self) -> String {
        let name = self.root().file_name();
        name.map_or_else(|| "projects".into(), |n| n.to_string_lossy().into_owned())
    }

    fn names(&self) -> Result<Vec<String>, StoreError> {
        Folder::names(self)
    }

    fn read(&self, what: Stored<'_>) -> Result<Found, StoreError> {
        let found = Folder::read(self, &self.file(what)?)?;
        Ok(Found {
            saved: millis(found.written),
            bytes: found.bytes,
        })
    }

    fn stamp(&self, what: Stored<'_>) -> Option<Stamp> {
        Folder::stamp(self, &self.file(what).ok()?)
    }

    fn save(
        &self,
        what: Stored<'_>,
        bytes: &[u8],
        seen: Option<&str>,
    ) -> Result<Saved, StoreError> {
        match what {
            Stored::Project(name) => Folder::save(self, name, bytes, seen),
            Stored::Workshop => self.save_workshop(bytes, seen),
        }
    }

    fn create(&self, wished: &str, bytes: &[u8]) -> Result<String, StoreError> {
        Folder::create(self, wished, bytes)
    }

    fn rename(&self, from: &str, to: &str) -> Result<(), StoreError> {
        self.rename_project(from, to)
    }

    fn delete(&self, name: &str) -> Result<(), StoreError> {
        Folder::delete(self, name)
    }

    fn bin(&self) -> Result<Vec<InBin>, StoreError> {
        let found = Folder::bin(self)?;
        Ok(found.into_iter().map(|place| place.what).collect())
    }

    fn restore(&self, id: &str) -> Result<String, StoreError> {
        Folder::restore(self, id)
    }

    fn keep(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        Folder::keep(self, name, bytes)
    }

    fn versions(&self, name: &str) -> Result<Vec<Version>, StoreError> {
        let found = Folder::versions(self, name)?;
        Ok(found.into_iter().map(|file| file.what).collect())
    }

    fn version(&self, name: &str, version: &Version) -> Result<Vec<u8>, StoreError> {
        let found = Folder::versions(self, name)?;
        let file = found.iter().find(|f| f.what == *version);
        let file = file.ok_or_else(|| StoreError::missing("that version is gone"))?;
        Folder::version(self, file)
    }
}
