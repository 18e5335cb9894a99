//! What the command saves: a file is either the old one or the new one.

use std::path::{Path, PathBuf};

use crate::CommandError;
use crate::disk::{
    FileError, Fresh, Limit, Links, Why, folder_of, linked, look, rewrite, sync_folder,
};

/// Files that are written over may have any size that a sheet can have.
const ANY: Limit = Limit {
    bytes: 1 << 30,
    remedy: "name another file, or move this one away",
};

/// Writes a file in one step. What stood there before is kept as `NAME.previous`.
pub fn save(path: &Path, bytes: &[u8]) -> Result<(), CommandError> {
    Ok(write(path, bytes, Some(&previous(path)))?)
}

/// The same for what can be made again at any time: nothing is kept.
pub fn replace(path: &Path, bytes: &[u8]) -> Result<(), CommandError> {
    Ok(write(path, bytes, None)?)
}

/// Writes a file where nothing is; false if something is there, be it since this moment.
pub fn create(path: &Path, bytes: &[u8]) -> Result<bool, CommandError> {
    match fresh(path, bytes, None)?.place(path) {
        Ok(()) => Ok(true),
        Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => Ok(false),
        Err(e) => Err(FileError::new(path, e).into()),
    }
}

fn previous(path: &Path) -> PathBuf {
    let mut kept = path.as_os_str().to_owned();
    kept.push(".previous");
    kept.into()
}

fn fresh(path: &Path, bytes: &[u8], like: Option<&std::fs::Metadata>) -> Result<Fresh, FileError> {
    Fresh::write(
        folder_of(path),
        path.file_name().unwrap_or_default(),
        bytes,
        like,
    )
    .map_err(|e| FileError::new(path, e))
}

fn write(path: &Path, bytes: &[u8], keep: Option<&Path>) -> Result<(), FileError> {
    let error = |e: std::io::Error| FileError::new(path, e);
    let plain = |path: &Path| match look(path, Links::Refused) {
        Ok(data) => Ok(Some(data)),
        Err(Why::Io(e)) if e.kind() == std::io::ErrorKind::NotFound => Ok(None),
        // A link, a folder or a device is not what is to be written over.
        Err(why) => Err(FileError::new(path, why)),
    };
    if let Some(keep) = keep {
        plain(keep)?;
    }
    // What comes or goes while this is under way is met in the next round.
    for _ in 0..ROUNDS {
        let Some(there) = plain(path)? else {
            match fresh(path, bytes, None)?.place(path) {
                Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists => continue,
                done => return done.map_err(error),
            }
        };
        if linked(&there) {
            return over_linked(path, bytes, keep);
        }
        match fresh(path, bytes, Some(&there))?.exchange(path) {
            Ok(old) => {
                match keep {
                    Some(keep) => old.keep_as(keep).map_err(error)?,
                    None => old.discard(),
                }
                return Ok(());
            }
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => {}
            Err(e) => return Err(error(e)),
        }
    }
    Err(FileError::new(path, Why::Exchanged))
}

/// How often a file may come or go under a save.
const ROUNDS: usize = 8;

/// A file of several names keeps them: it is written into. Its copy is on the disk first.
fn over_linked(path: &Path, bytes: &[u8], keep: Option<&Path>) -> Result<(), FileError> {
    rewrite(path, Links::Refused, &ANY, bytes, |old| {
        let Some(keep) = keep else {
            return Ok(true);
        };
        let copy = fresh(keep, &old.bytes, None)?;
        match look(keep, Links::Refused) {
            Ok(_) => copy.exchange(keep).map(|old| old.discard()),
            Err(_) => copy.place(keep),
        }
        .map_err(|e| FileError::new(keep, e))?;
        sync_folder(folder_of(keep));
        Ok::<_, FileError>(true)
    })?;
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
        assert!(matches!(save(path, b"x"), Err(CommandError::Say(_))));
    }

    #[test]
    fn a_file_is_created_only_where_nothing_is() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("bowl.toml");
        assert!(create(&path, b"one").is_ok_and(|done| done));
        assert!(create(&path, b"two").is_ok_and(|done| !done));
        assert_eq!(std::fs::read(&path).unwrap(), b"one");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[cfg(unix)]
    #[test]
    fn only_plain_files_are_written_over_and_they_keep_their_names() {
        use std::os::unix::fs::MetadataExt;
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("a"), "one").unwrap();
        std::os::unix::fs::symlink(at("a"), at("link")).unwrap();
        for no in [at("link"), folder.path().into(), "/dev/null".into()] {
            assert!(
                matches!(replace(&no, b"x"), Err(CommandError::Say(_))),
                "{no:?}"
            );
        }
        assert_eq!(std::fs::read(at("a")).unwrap(), b"one");
        std::fs::hard_link(at("a"), at("b")).unwrap();
        assert!(save(&at("a"), b"two").is_ok());
        assert_eq!(std::fs::read(at("b")).unwrap(), b"two");
        assert_eq!(std::fs::read(at("a.previous")).unwrap(), b"one");
        assert!(replace(&at("a"), b"3").is_ok());
        assert_eq!(std::fs::read(at("b")).unwrap(), b"3");
        assert_eq!(std::fs::metadata(at("a")).unwrap().nlink(), 2);
    }
}
