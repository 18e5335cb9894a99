//! Reading a hand-written TOML file so that every trouble in it is told at once.
//!
//! ```text
//!   text ─► syntax (all errors, a table as far as it goes)
//!         ─► Table::get(key) ─► Item::length(range) ... each trouble goes to the Log
//!         ─► Table::finish: keys that nobody asked for are unknown
//! ```

mod item;
mod log;
mod measure;
mod named;
mod plain_words;
mod syntax;
mod table;

pub(crate) use item::{Item, LONGEST_NAME, LONGEST_TEXT};
pub(crate) use log::Log;
pub(crate) use syntax::parse;
pub(crate) use table::Table;

use crate::key::KeyPath;
use crate::report::{Lines, Problem};

/// Largest file that is read, bytes. A project is a few kilobytes.
pub const LARGEST_FILE: usize = 1 << 20;

/// A file's bytes as text; otherwise the problem that keeps them from being one.
///
/// ```
/// assert!(files::reader::text_of(b"unit = \"mm\"\n").is_ok());
/// assert!(files::reader::text_of(&[0x7f, 0x45, 0x4c, 0x46, 0xff]).is_err());
/// ```
pub fn text_of(bytes: &[u8]) -> Result<&str, Problem> {
    if bytes.len() > LARGEST_FILE {
        return Err(syntax::too_large());
    }
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(Problem {
            place: None,
            key_path: KeyPath::default(),
            what: "this file is saved as UTF-16".into(),
            remedy: "save it as UTF-8 (plain text) in your editor".into(),
        });
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let good = &bytes[..error.valid_up_to()];
        // `valid_up_to` promises that these bytes are text.
        let before = std::str::from_utf8(good).unwrap_or("");
        let end = before.len();
        Problem {
            place: Some(Lines::new(before).place(end..end)),
            key_path: KeyPath::default(),
            what: "from here on this file is not text".into(),
            remedy: "save it as UTF-8 (plain text) in your editor".into(),
        }
    })
}
