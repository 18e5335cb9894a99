//! What is asked of a file, and what is answered where it cannot be.

use serde::{Deserialize, Serialize};

use crate::key::KeyPath;

/// One change to a file's text, by key path.
///
/// A path counts from 0, as in `section[1].band[0].reach`; a ring is `section[1].ring#2`,
/// the third real ring whatever way the file counts them.
#[derive(Debug, Clone, Deserialize, Serialize, ts_rs::TS)]
#[serde(tag = "op", rename_all = "snake_case", deny_unknown_fields)]
pub enum Edit {
    /// Gives a key a value; null takes the key out, which is back to what is usual.
    Set {
        /// The key.
        #[ts(type = "string")]
        path: KeyPath,
        /// Text is the maker's words, a bare number being in the page's unit; a number is
        /// mm or degrees, as a drag gives it, and is rounded to what the unit shows.
        value: Words,
    },
    /// Puts a new entry into a list.
    Add {
        /// The list: `form.outer`, `section`, `section[0].ring`, `section[1].band`.
        #[ts(type = "string")]
        path: KeyPath,
        /// Where the new entry will stand.
        at: u32,
        /// What it is; left out, it is like its neighbour.
        #[serde(default)]
        #[ts(optional)]
        value: Option<Words>,
    },
    /// Takes an entry out of a list.
    Remove {
        /// The entry.
        #[ts(type = "string")]
        path: KeyPath,
    },
    /// Moves an entry within its list.
    Move {
        /// The entry.
        #[ts(type = "string")]
        path: KeyPath,
        /// Where it will stand.
        to: u32,
    },
}

/// A value as the page gives it.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ts_rs::TS)]
#[serde(untagged)]
pub enum Words {
    /// Nothing.
    None(()),
    /// Yes or no.
    Flag(bool),
    /// mm or degrees or a count.
    Number(f64),
    /// The maker's words.
    Text(String),
    /// Several.
    List(Vec<Words>),
}

/// An edit that cannot be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// The key it is about; `None` for the whole file.
    pub path: Option<KeyPath>,
    /// What is wrong.
    pub what: String,
    /// What to do about it.
    pub remedy: String,
}
