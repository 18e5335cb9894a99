//! Writing into a file that has several names (hard links). A file placed in its stead
//! would part the names; so its bytes are changed where they are.
//!
//! That is not one step. A program that is stopped in the middle leaves a mixture of both
//! texts; who writes so keeps both elsewhere first, so that [`is_torn`] can tell and the
//! writing can be done again.

use std::fs::{Metadata, OpenOptions};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::read::same;
use super::{FileError, Found, Limit, Links, Why, look};

/// Writes `bytes` into a file that is there. `may` is shown what the file holds, read
/// through the same opening; nothing is written unless it agrees.
///
/// # Errors
/// What the disk says, and what `may` says. [`Why::Exchanged`] if the name leads to another
/// file after the writing.
pub fn rewrite<E: From<FileError>>(
    path: &Path,
    links: Links,
    limit: &Limit,
    bytes: &[u8],
    may: impl FnOnce(&Found) -> Result<bool, E>,
) -> Result<bool, E> {
    let error = |why: Why| E::from(FileError::new(path, why));
    let io = |e: std::io::Error| error(Why::Io(e));
    let before = look(path, links).map_err(error)?;
    let mut file = OpenOptions::new()
        .read(true)
        .write(true)
        .open(path)
        .map_err(io)?;
    let opened = file.metadata().map_err(io)?;
    if !same(&before, &opened) {
        return Err(error(Why::Exchanged));
    }
    let mut old = Vec::new();
    (&file)
        .take(limit.bytes + 1)
        .read_to_end(&mut old)
        .map_err(io)?;
    if old.len() as u64 > limit.bytes {
        return Err(error(Why::TooLarge {
            limit: limit.bytes,
            remedy: limit.remedy,
        }));
    }
    let found = Found {
        bytes: old,
        written: opened.modified().map_err(io)?,
    };
    if !may(&found)? || changed(&opened, &file.metadata().map_err(io)?) {
        return Ok(false);
    }
    file.seek(SeekFrom::Start(0)).map_err(io)?;
    file.write_all(bytes).map_err(io)?;
    file.set_len(bytes.len() as u64).map_err(io)?;
    file.sync_all().map_err(io)?;
    let now = look(path, links).map_err(error)?;
    if same(&now, &opened) {
        Ok(true)
    } else {
        Err(error(Why::Exchanged))
    }
}

fn changed(before: &Metadata, now: &Metadata) -> bool {
    before.len() != now.len() || before.modified().ok() != now.modified().ok()
}

/// Is `now` what a writing of `new` over `old` leaves when it is stopped in the middle?
/// Then each byte is one of the two at its place.
pub fn is_torn(now: &[u8], old: &[u8], new: &[u8]) -> bool {
    let length = now.len() == old.len() || now.len() == new.len() || {
        // Longer than the old one, not yet as long as the new one.
        (old.len()..new.len()).contains(&now.len())
    };
    let at = |text: &[u8], i: usize| text.get(i).copied();
    length
        && now != old
        && now != new
        && now.iter().enumerate().all(|(i, byte)| {
            at(old, i) == Some(*byte)
                || at(new, i) == Some(*byte)
                // A length that is on the disk before its bytes are.
                || (i >= old.len() && *byte == 0)
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_torn_text_is_told_from_one_that_someone_wrote() {
        let (old, new) = (b"reach = 30\n".as_slice(), b"reach = 29.5\n".as_slice());
        for torn in [
            b"reach = 20\n".as_slice(),
            b"reach = 29.5",
            b"reach = 29.\0\0",
        ] {
            assert!(is_torn(torn, old, new), "{}", String::from_utf8_lossy(torn));
        }
        for whole in [old, new, b"reach = 28\n", b"reach", b""] {
            assert!(
                !is_torn(whole, old, new),
                "{}",
                String::from_utf8_lossy(whole)
            );
        }
    }
}
