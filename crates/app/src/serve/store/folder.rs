//! The folder itself: reading and saving whole files.

use std::fs::{self, File};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::{Trouble, hash, is_name};

/// The program's own folder in the folder of projects.
const OWN: &str = ".ringwright";
/// Largest file that is read, bytes.
const LARGEST: u64 = files::reader::LARGEST_FILE as u64;

/// A folder of projects.
#[derive(Debug, Clone)]
pub struct Folder {
    root: PathBuf,
}

/// A file as it was found.
#[derive(Debug, Clone)]
pub struct Found {
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// When it was last written.
    pub written: SystemTime,
}

impl Found {
    /// The version of its bytes.
    pub fn version(&self) -> String {
        hash(&[&self.bytes])
    }
}

impl Folder {
    /// Opens a folder; what a stopped program left half written is cleared away.
    pub fn open(path: &Path) -> Result<Folder, Trouble> {
        let named = path.display().to_string();
        let root = path.canonicalize().map_err(|e| Trouble::io(&named, &e))?;
        if !root.is_dir() {
            return Err(Trouble::new(format!("{named} is no folder")));
        }
        let folder = Folder { root };
        if let Ok(part) = folder.own(&["part"]) {
            for entry in fs::read_dir(part).into_iter().flatten().flatten() {
                // Only files of this program's making are there; one that stays does no harm.
                let _ = fs::remove_file(entry.path());
            }
        }
        Ok(folder)
    }

    /// Where it is.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// A project's file.
    pub fn project(&self, name: &str) -> Result<PathBuf, Trouble> {
        if !is_name(name) {
            return Err(Trouble::missing("there is no such project"));
        }
        Ok(self.root.join(format!("{name}.toml")))
    }

    /// The workshop's file.
    pub fn workshop(&self) -> PathBuf {
        self.root.join("workshop.toml")
    }

    /// Names of the projects, in order.
    pub fn names(&self) -> Result<Vec<String>, Trouble> {
        let entries = fs::read_dir(&self.root).map_err(|e| Trouble::io("the folder", &e))?;
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
    pub fn read(&self, path: &Path) -> Result<Found, Trouble> {
        let named = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let trouble = |e| Trouble::io(&named, &e);
        let before = plain(path, &named)?;
        if before.len() > LARGEST {
            return Err(Trouble::new(format!(
                "{named} is larger than a project can be"
            )));
        }
        let file = File::open(path).map_err(trouble)?;
        let opened = file.metadata().map_err(trouble)?;
        if !same(&before, &opened) {
            return Err(Trouble::new(format!(
                "{named} was exchanged while it was read"
            )));
        }
        let mut bytes = Vec::new();
        file.take(LARGEST + 1)
            .read_to_end(&mut bytes)
            .map_err(trouble)?;
        Ok(Found {
            bytes,
            written: opened.modified().unwrap_or(SystemTime::UNIX_EPOCH),
        })
    }

    /// Length and time of a file, to see whether it may have changed.
    pub fn stamp(&self, path: &Path) -> Option<(u64, SystemTime)> {
        let data = fs::symlink_metadata(path)
            .ok()
            .filter(fs::Metadata::is_file)?;
        Some((
            data.len(),
            data.modified().unwrap_or(SystemTime::UNIX_EPOCH),
        ))
    }

    /// Is there anything of this name, be it a link?
    pub fn taken(&self, name: &str) -> bool {
        self.project(name)
            .is_ok_and(|p| fs::symlink_metadata(p).is_ok())
    }

    /// Writes a file in one step: fresh, to the disk, then over the name.
    pub fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
        let named = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        let trouble = |e: &std::io::Error| Trouble::io(&named, e);
        // A link or a folder of that name is someone's; it is not written over.
        if fs::symlink_metadata(path).is_ok() {
            plain(path, &named)?;
        }
        let part = self.own(&["part"])?;
        let mut fresh = tempfile::NamedTempFile::new_in(part).map_err(|e| trouble(&e))?;
        fresh.write_all(bytes).map_err(|e| trouble(&e))?;
        fresh.as_file().sync_all().map_err(|e| trouble(&e))?;
        fresh.persist(path).map_err(|e| trouble(&e.error))?;
        if let Some(above) = path.parent() {
            sync_folder(above);
        }
        Ok(())
    }

    /// A folder below the program's own, made if it is not there.
    pub(super) fn own(&self, below: &[&str]) -> Result<PathBuf, Trouble> {
        let mut path = self.root.join(OWN);
        for name in std::iter::once("").chain(below.iter().copied()) {
            if !name.is_empty() {
                path.push(name);
            }
            match fs::symlink_metadata(&path) {
                Ok(data) if data.is_dir() => {}
                Ok(_) => return Err(Trouble::new(format!("{OWN} is not a plain folder"))),
                Err(_) => fs::create_dir(&path)
                    .or_else(|e| match e.kind() {
                        std::io::ErrorKind::AlreadyExists => Ok(()),
                        _ => Err(e),
                    })
                    .map_err(|e| Trouble::io(OWN, &e))?,
            }
        }
        Ok(path)
    }
}

/// A plain file's data, no link followed.
fn plain(path: &Path, named: &str) -> Result<fs::Metadata, Trouble> {
    let data = fs::symlink_metadata(path).map_err(|e| Trouble::io(named, &e))?;
    if data.is_file() {
        Ok(data)
    } else {
        Err(Trouble::new(format!(
            "{named} is a link or a folder, not a plain file"
        )))
    }
}

/// Is the opened file the one that was looked at?
#[cfg(unix)]
fn same(a: &fs::Metadata, b: &fs::Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    a.dev() == b.dev() && a.ino() == b.ino()
}

#[cfg(not(unix))]
fn same(a: &fs::Metadata, b: &fs::Metadata) -> bool {
    b.is_file() && a.len() == b.len()
}

/// A rename is on the disk once its folder is; not every system can do that.
fn sync_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

impl Folder {
    /// Renames within the folder and makes it last.
    pub(super) fn rename(&self, from: &Path, to: &Path) -> Result<(), Trouble> {
        fs::rename(from, to).map_err(|e| Trouble::io("it could not be moved", &e))?;
        for side in [from.parent(), to.parent()].into_iter().flatten() {
            sync_folder(side);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_written_whole_and_nothing_is_left_beside_it() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let path = folder.project("bowl").unwrap();
        folder.replace(&path, b"one").unwrap();
        folder.replace(&path, b"two").unwrap();
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
        assert!(folder.replace(&link, b"x").is_err());
        assert!(folder.names().unwrap().is_empty());
        assert_eq!(fs::read(&secret).unwrap(), b"secret");
        // The program's own folder may be no link either.
        let dir = tempfile::tempdir().unwrap();
        std::os::unix::fs::symlink(outside.path(), dir.path().join(".ringwright")).unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        assert!(
            folder
                .replace(&folder.project("bowl").unwrap(), b"x")
                .is_err()
        );
    }

    #[test]
    fn large_files_and_folders_are_refused() {
        let dir = tempfile::tempdir().unwrap();
        let folder = Folder::open(dir.path()).unwrap();
        let path = folder.project("big").unwrap();
        fs::write(&path, vec![b'#'; LARGEST as usize + 1]).unwrap();
        assert!(folder.read(&path).is_err());
        let path = folder.project("folder").unwrap();
        fs::create_dir(&path).unwrap();
        assert!(folder.read(&path).is_err());
        assert!(folder.replace(&path, b"x").is_err());
        assert!(
            folder
                .read(&folder.project("none").unwrap())
                .is_err_and(|t| t.missing)
        );
    }
}
