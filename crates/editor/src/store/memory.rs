//! Projects in memory: for the page without a server, and for tests.

use std::collections::BTreeMap;
use std::sync::Mutex;

use super::{
    BIN_KEPT, Found, InBin, Saved, Stamp, Store, StoreError, Stored, VERSIONS_KEPT, Version,
    free_name, hash, is_name,
};
use crate::hold::hold;

/// A store in memory. The host gives it the time.
///
/// ```
/// use editor::store::{MemoryStore, Store, Stored};
///
/// let store = MemoryStore::new(|| 0.0);
/// let name = store.create("bowl", b"title = \"Bowl\"")?;
/// assert_eq!(store.read(Stored::Project(&name))?.bytes, b"title = \"Bowl\"");
/// # Ok::<(), editor::store::StoreError>(())
/// ```
pub struct MemoryStore {
    /// Milliseconds since 1970 UTC.
    now: Box<dyn Fn() -> f64 + Send + Sync>,
    kept: Mutex<Contents>,
}

/// All that is kept.
#[derive(Default)]
struct Contents {
    projects: BTreeMap<String, Project>,
    workshop: Option<Found>,
    /// The last deleted, oldest first.
    bin: Vec<(InBin, Project)>,
    deleted: u64,
}

/// A project and its versions, oldest first.
#[derive(Clone)]
struct Project {
    found: Found,
    versions: Vec<(Version, Vec<u8>)>,
}

impl Project {
    fn keep(&mut self, bytes: &[u8], saved: f64) {
        let version = hash(&[bytes]);
        let last = self.versions.last().map(|(v, _)| v);
        if last.is_some_and(|v| v.version == version) {
            return;
        }
        let number = last.map_or(1, |v| v.number + 1);
        let kept = Version {
            version,
            saved,
            number,
        };
        self.versions.push((kept, bytes.to_vec()));
        let many = self.versions.len().saturating_sub(VERSIONS_KEPT);
        self.versions.drain(..many);
    }
}

impl Contents {
    fn project(&mut self, name: &str) -> Result<&mut Project, StoreError> {
        self.projects
            .get_mut(name)
            .ok_or_else(StoreError::no_project)
    }
}

impl MemoryStore {
    /// An empty store; `now` tells the milliseconds since 1970 UTC.
    pub fn new(now: impl Fn() -> f64 + Send + Sync + 'static) -> MemoryStore {
        MemoryStore {
            now: Box::new(now),
            kept: Mutex::default(),
        }
    }

    fn found(&self, bytes: &[u8]) -> Found {
        Found {
            bytes: bytes.to_vec(),
            saved: (self.now)(),
        }
    }
}

impl Store for MemoryStore {
    fn place(&self) -> String {
        "projects".into()
    }

    fn names(&self) -> Result<Vec<String>, StoreError> {
        let mut names: Vec<String> = hold(&self.kept).projects.keys().cloned().collect();
        names.sort_by_key(|n| (n.to_lowercase(), n.clone()));
        Ok(names)
    }

    fn read(&self, what: Stored<'_>) -> Result<Found, StoreError> {
        let mut kept = hold(&self.kept);
        match what {
            Stored::Project(name) => Ok(kept.project(name)?.found.clone()),
            Stored::Workshop => kept
                .workshop
                .clone()
                .ok_or_else(|| StoreError::missing("there is no workshop's file")),
        }
    }

    fn stamp(&self, what: Stored<'_>) -> Option<Stamp> {
        let found = self.read(what).ok()?;
        Some(Stamp {
            length: found.bytes.len() as u64,
            saved: (found.saved * 1e6) as u64,
        })
    }

    fn save(
        &self,
        what: Stored<'_>,
        bytes: &[u8],
        seen: Option<&str>,
    ) -> Result<Saved, StoreError> {
        let fresh = self.found(bytes);
        let mut kept = hold(&self.kept);
        let stands = match what {
            Stored::Project(name) if !is_name(name) => return Err(StoreError::no_project()),
            Stored::Project(name) => kept.projects.get(name).map(|p| p.found.version()),
            Stored::Workshop => kept.workshop.as_ref().map(Found::version),
        };
        if stands.is_some() && stands.as_deref() != seen {
            return Ok(Saved::Overtaken);
        }
        match what {
            Stored::Workshop => kept.workshop = Some(fresh),
            Stored::Project(name) => {
                let saved = fresh.saved;
                let project = kept.projects.entry(name.into()).or_insert(Project {
                    found: fresh.clone(),
                    versions: Vec::new(),
                });
                let old = std::mem::replace(&mut project.found, fresh);
                project.keep(&old.bytes, old.saved);
                project.keep(bytes, saved);
            }
        }
        Ok(Saved::Done)
    }

    fn create(&self, wished: &str, bytes: &[u8]) -> Result<String, StoreError> {
        let found = self.found(bytes);
        let mut kept = hold(&self.kept);
        let name = free_name(wished, |n| kept.projects.contains_key(n))?;
        let mut project = Project {
            versions: Vec::new(),
            found,
        };
        project.keep(bytes, project.found.saved);
        kept.projects.insert(name.clone(), project);
        Ok(name)
    }

    fn rename(&self, from: &str, to: &str) -> Result<(), StoreError> {
        let mut kept = hold(&self.kept);
        kept.project(from)?;
        if !is_name(to) {
            return Err(StoreError::new("a project cannot be called so"));
        }
        if from != to && kept.projects.contains_key(to) {
            return Err(StoreError::new("there is a project of that name already"));
        }
        if let Some(project) = kept.projects.remove(from) {
            kept.projects.insert(to.into(), project);
        }
        Ok(())
    }

    fn delete(&self, name: &str) -> Result<(), StoreError> {
        let deleted = (self.now)();
        let mut kept = hold(&self.kept);
        let project = kept
            .projects
            .remove(name)
            .ok_or_else(StoreError::no_project)?;
        kept.deleted += 1;
        let place = InBin {
            id: format!("{:08}", kept.deleted),
            name: name.into(),
            deleted,
        };
        kept.bin.push((place, project));
        let many = kept.bin.len().saturating_sub(BIN_KEPT);
        kept.bin.drain(..many);
        Ok(())
    }

    fn bin(&self) -> Result<Vec<InBin>, StoreError> {
        let kept = hold(&self.kept);
        Ok(kept.bin.iter().rev().map(|(b, _)| b.clone()).collect())
    }

    fn restore(&self, id: &str) -> Result<String, StoreError> {
        let mut kept = hold(&self.kept);
        let at = kept.bin.iter().position(|(b, _)| b.id == id);
        let at = at.ok_or_else(|| StoreError::missing("that is no longer in the bin"))?;
        let name = free_name(&kept.bin[at].0.name, |n| kept.projects.contains_key(n))?;
        let (_, project) = kept.bin.remove(at);
        kept.projects.insert(name.clone(), project);
        Ok(name)
    }

    fn keep(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        let now = (self.now)();
        hold(&self.kept).project(name)?.keep(bytes, now);
        Ok(())
    }

    fn versions(&self, name: &str) -> Result<Vec<Version>, StoreError> {
        let mut kept = hold(&self.kept);
        let versions = &kept.project(name)?.versions;
        Ok(versions.iter().map(|(v, _)| v.clone()).collect())
    }

    fn version(&self, name: &str, version: &Version) -> Result<Vec<u8>, StoreError> {
        let mut kept = hold(&self.kept);
        let versions = &kept.project(name)?.versions;
        let found = versions.iter().find(|(v, _)| v.number == version.number);
        let found = found.ok_or_else(|| StoreError::missing("that version is gone"))?;
        Ok(found.1.clone())
    }
}
