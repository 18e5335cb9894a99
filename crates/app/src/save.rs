//! Saving: a file is either the old one or the new one, and the old one is kept.

use std::io::Write;
use std::path::{Path, PathBuf};

use crate::Stop;
use crate::output::shown;

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
    let name = |e: &dyn std::fmt::Display| Stop::Say(format!("{}: {e}", shown(path)));
    let mut fresh = fresh_in(folder).map_err(|e| name(&e))?;
    if let Ok(there) = std::fs::metadata(path) {
        fresh
            .as_file()
            .set_permissions(there.permissions())
            .map_err(|e| name(&e))?;
    }
    fresh.write_all(bytes).map_err(|e| name(&e))?;
    fresh.as_file().sync_all().map_err(|e| name(&e))?;
    if keep && path.exists() {
        keep_previous(path, folder).map_err(|e| name(&e))?;
    }
    fresh.persist(path).map_err(|e| name(&e.error))?;
    Ok(())
}

/// A fresh file that others may read as any file that the maker saves; temporary
/// files are otherwise private.
fn fresh_in(folder: &Path) -> std::io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
}

fn keep_previous(path: &Path, folder: &Path) -> std::io::Result<()> {
    let mut kept = path.as_os_str().to_owned();
    kept.push(".previous");
    // By way of a copy that is renamed, so that the previous one is never half there.
    let copy = fresh_in(folder)?;
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
        // As readable as a file that any editor saves there.
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let plain = folder.path().join("plain");
            std::fs::write(&plain, b"").unwrap();
            let mode = |p: &Path| std::fs::metadata(p).unwrap().permissions().mode();
            assert_eq!(mode(&path), mode(&plain));
            std::fs::remove_file(plain).unwrap();
        }
        // Nothing else is left behind.
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
    }

    #[test]
    fn a_folder_that_is_not_there_is_said() {
        let path = Path::new("no/such/folder/bowl.toml");
        assert!(matches!(save(path, b"x"), Err(Stop::Say(_))));
    }
}
