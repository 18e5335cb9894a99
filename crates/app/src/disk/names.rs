//! Names of files and folders: given where they are free, exchanged, changed.

use std::fs::{self, File};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use super::folder_of;
use super::read::same;

/// A rename is on the disk once its folder is; not every system can do that.
pub fn sync_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

fn sync_sides(from: &Path, to: &Path) {
    sync_folder(folder_of(to));
    if folder_of(from) != folder_of(to) {
        sync_folder(folder_of(from));
    }
}

/// Gives a file or folder another name on the same disk, if that name is free: what has
/// it is never written over, not even if it came this moment ([`ErrorKind::AlreadyExists`]).
///
/// On a disk that takes `bowl` and `Bowl` for one name, the letters' case alone can be
/// changed too; `aside` is where the file is in the meantime.
pub fn move_to_free(from: &Path, to: &Path, aside: &Path) -> io::Result<()> {
    if from == to {
        return fs::symlink_metadata(from).map(|_| ());
    }
    match rename_to_free(from, to) {
        Err(e) if e.kind() == ErrorKind::AlreadyExists && one_entry(from, to)? => {
            rename_to_free(from, aside)?;
            if let Err(e) = rename_to_free(aside, to) {
                rename_to_free(aside, from)?;
                return Err(e);
            }
        }
        done => done?,
    }
    sync_sides(from, to);
    Ok(())
}

/// Are two names one entry of the folder, because the disk does not tell their letters
/// apart? Two names of one file (hard links) are two entries.
fn one_entry(from: &Path, to: &Path) -> io::Result<bool> {
    if !same(&fs::symlink_metadata(from)?, &fs::symlink_metadata(to)?) {
        return Ok(false);
    }
    for entry in fs::read_dir(folder_of(to))? {
        if Some(entry?.file_name().as_os_str()) == to.file_name() {
            return Ok(false);
        }
    }
    Ok(true)
}

/// One step where the system has it, else the same in several careful ones.
pub(super) fn rename_to_free(from: &Path, to: &Path) -> io::Result<()> {
    match rename_with(from, to, Flag::ToFree) {
        Err(e) if is_unknown(&e) => rename_to_free_by_steps(from, to),
        done => done,
    }
}

/// A hard link never takes a name that is in use. Where the disk has no hard links, the
/// name is taken by an empty file that is then replaced.
fn rename_to_free_by_steps(from: &Path, to: &Path) -> io::Result<()> {
    if fs::symlink_metadata(from)?.is_dir() {
        return match fs::symlink_metadata(to) {
            Ok(_) => Err(ErrorKind::AlreadyExists.into()),
            // A folder never takes the place of a file or of a folder with something in it.
            Err(_) => fs::rename(from, to),
        };
    }
    match fs::hard_link(from, to) {
        Ok(()) => fs::remove_file(from),
        Err(e) if e.kind() == ErrorKind::AlreadyExists => Err(e),
        Err(_) => {
            File::create_new(to)?;
            fs::rename(from, to)
        }
    }
}

/// Exchanges two files: in one step where the system has it. `aside` is a free name on the
/// same disk; where there is no such step, what was at `b` is there for a moment, and stays
/// there if someone else takes the name `b` in that moment ([`ErrorKind::AlreadyExists`]).
pub(super) fn exchange(a: &Path, b: &Path, aside: &Path) -> io::Result<()> {
    match rename_with(a, b, Flag::Exchange) {
        Err(e) if is_unknown(&e) => exchange_by_steps(a, b, aside),
        done => done,
    }
}

fn exchange_by_steps(a: &Path, b: &Path, aside: &Path) -> io::Result<()> {
    fs::rename(b, aside)?;
    match rename_to_free(a, b) {
        Ok(()) => fs::rename(aside, a),
        Err(e) if e.kind() == ErrorKind::AlreadyExists => Err(e),
        Err(e) => {
            rename_to_free(aside, b)?;
            Err(e)
        }
    }
}

#[derive(Clone, Copy)]
enum Flag {
    ToFree,
    Exchange,
}

/// `renameat2` and its like.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn rename_with(from: &Path, to: &Path, flag: Flag) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    let flags = match flag {
        Flag::ToFree => RenameFlags::NOREPLACE,
        Flag::Exchange => RenameFlags::EXCHANGE,
    };
    Ok(renameat_with(CWD, from, CWD, to, flags)?)
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn rename_with(_: &Path, _: &Path, _: Flag) -> io::Result<()> {
    Err(ErrorKind::Unsupported.into())
}

/// Does the system, or the disk, not know this way of renaming?
fn is_unknown(error: &io::Error) -> bool {
    // Linux says "invalid argument" for a flag that a disk does not know.
    matches!(
        error.kind(),
        ErrorKind::Unsupported | ErrorKind::InvalidInput
    )
}

/// A free name beside `path`: its own with a mark, the program's number and a count.
pub fn marked(path: &Path, mark: &str) -> PathBuf {
    use std::sync::atomic::{AtomicU64, Ordering};
    static COUNT: AtomicU64 = AtomicU64::new(0);
    let mut name = path.file_name().unwrap_or_default().to_os_string();
    let count = COUNT.fetch_add(1, Ordering::Relaxed);
    name.push(format!("~{mark}-{}-{count}", std::process::id()));
    path.with_file_name(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    type Move = fn(&Path, &Path) -> io::Result<()>;

    #[test]
    fn a_name_that_is_in_use_is_never_taken() {
        for rename in [rename_to_free as Move, rename_to_free_by_steps] {
            let dir = tempfile::tempdir().unwrap();
            let at = |name: &str| dir.path().join(name);
            fs::write(at("a"), "one").unwrap();
            fs::write(at("b"), "two").unwrap();
            fs::create_dir(at("c")).unwrap();
            fs::create_dir(at("d")).unwrap();
            for (from, to) in [("a", "b"), ("a", "c"), ("c", "a"), ("c", "d")] {
                let error = rename(&at(from), &at(to)).unwrap_err();
                assert_eq!(error.kind(), ErrorKind::AlreadyExists, "{from} {to}");
            }
            assert_eq!(fs::read(at("b")).unwrap(), b"two");
            rename(&at("a"), &at("e")).unwrap();
            rename(&at("c"), &at("f")).unwrap();
            assert_eq!(fs::read(at("e")).unwrap(), b"one");
            assert!(at("f").is_dir() && !at("a").exists() && !at("c").exists());
        }
    }

    #[test]
    fn exchanging_in_steps_is_exchanging() {
        type Exchange = fn(&Path, &Path, &Path) -> io::Result<()>;
        for exchange in [exchange as Exchange, exchange_by_steps] {
            let dir = tempfile::tempdir().unwrap();
            let at = |name: &str| dir.path().join(name);
            fs::write(at("a"), "one").unwrap();
            fs::write(at("b"), "two").unwrap();
            exchange(&at("a"), &at("b"), &at("aside")).unwrap();
            assert_eq!(fs::read(at("a")).unwrap(), b"two");
            assert_eq!(fs::read(at("b")).unwrap(), b"one");
            let gone = exchange(&at("a"), &at("c"), &at("aside")).unwrap_err();
            assert_eq!(gone.kind(), ErrorKind::NotFound);
            assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 2);
        }
    }
}
