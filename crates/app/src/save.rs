//! Saving: a file is either the old one or the new one, and the old one is kept.

use std::io::Write;
use std::path::{Path, PathBuf};

use crate::Stop;

/// Writes a file in one step: into a fresh file beside it, to the disk, then over
/// the name. What stood there before is kept as `NAME.previous`.
pub fn save(path: &Path, bytes: &[u8]) -> Result<(), Stop> {
    write(path, bytes, true)
}

/// The same for what can be made again at any time: nothing is kept.
pub fn replace(path: &Path, bytes: &[u8]) -> Result<(), Stop> {
    write(path, bytes, false)
}

fn write(path: &Path, bytes: &[u8], keep: bool) -> Result<(), Stop> {
    let folder = match path.parent() {
        Some(p) if !p.as_os_str().is_empty() => p,
        _ => Path::new("."),
    };
    let name = |e: &dyn std::fmt::Display| Stop::Say(format!("{}: {e}", path.display()));
    let mut fresh = tempfile::NamedTempFile::new_in(folder).map_err(|e| name(&e))?;
    fresh.write_all(bytes).map_err(|e| name(&e))?;
    fresh.as_file().sync_all().map_err(|e| name(&e))?;
    if keep && path.exists() {
        keep_previous(path, folder).map_err(|e| name(&e))?;
    }
    fresh.persist(path).map_err(|e| name(&e.error))?;
    Ok(())
}

fn keep_previous(path: &Path, folder: &Path) -> std::io::Result<()> {
    let mut kept = path.as_os_str().to_owned();
    kept.push(".previous");
    // By way of a copy that is renamed, so that the previous one is never half there.
    let copy = tempfile::NamedTempFile::new_in(folder)?;
    std::fs::copy(path, copy.path())?;
    copy.as_file().sync_all()?;
    copy.persist(PathBuf::from(kept)).map_err(|e| e.error)?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_previous_version_is_kept() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bowl.toml");
        assert!(save(&path, b"one").is_ok());
        assert!(save(&path, b"two").is_ok());
        assert_eq!(std::fs::read(&path).unwrap(), b"two");
        let kept = folder.path().join("bowl.toml.previous");
        assert_eq!(std::fs::read(kept).unwrap(), b"one");
        // Nothing else is left behind.
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
    }

    #[test]
    fn a_folder_that_is_not_there_is_said() {
        let path = Path::new("no/such/folder/bowl.toml");
        assert!(matches!(save(path, b"x"), Err(Stop::Say(_))));
    }
}
