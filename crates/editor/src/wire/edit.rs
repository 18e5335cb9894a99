//! Edits and their answers.

use serde::{Deserialize, Serialize};

pub use files::edit::{Edit, Words};

use super::View;

/// Changes to a project.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct EditRequest {
    /// Changes, made in order, all or none.
    pub edits: Vec<Edit>,
    /// The version that the page shows.
    pub base: String,
    /// Only look: nothing is saved and nothing can be undone.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub preview: Option<bool>,
    /// Which page asks, so that its old questions can be dropped.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub client: Option<String>,
    /// The number of this question; it comes back with the answer.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub seq: Option<u32>,
}

/// The answer to an edit, an undo or a choice.
#[derive(Debug, Clone, Default, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Edited {
    /// The piece as it now is; null where nothing changed.
    pub view: Option<View>,
    /// Why nothing changed.
    pub problems: Vec<Problem>,
    /// Someone else has changed the same piece.
    pub conflict: Option<Conflict>,
    /// A newer question has come from the same page; this one was not worked out.
    pub superseded: bool,
    /// The question's number.
    pub seq: Option<u32>,
}

/// Two sides changed one piece. Both are kept; one is to be taken.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Conflict {
    /// What happened, in a sentence.
    pub what: String,
    /// The version that stands now.
    pub theirs: String,
    /// The version that the edit would have given; it is kept and can be taken. Null
    /// where the edit cannot be made or read.
    pub mine: Option<String>,
}

/// Takes a version that is kept: the other side of a conflict, or an earlier one.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct TakeRequest {
    /// The version.
    pub version: String,
}

/// A whole new text, as when a broken file is repaired by hand.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct TextRequest {
    /// The text.
    pub text: String,
    /// The version that the page shows.
    pub base: String,
}

/// A project's text.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct TextAnswer {
    /// The text on disk.
    pub text: String,
    /// Its version.
    pub version: String,
    /// What is wrong with it.
    pub problems: Vec<Problem>,
}

/// A version that is kept.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Kept {
    /// The version.
    pub version: String,
    /// When it was saved, milliseconds since 1970 UTC.
    pub saved: f64,
}

/// Something that must be changed before a text can be used.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Problem {
    /// The key it is about, as the blanks name it; null where it is about none.
    pub path: Option<String>,
    /// Line of the file, from 1.
    pub line: Option<u32>,
    /// Column, from 1.
    pub column: Option<u32>,
    /// What is wrong.
    pub what: String,
    /// What to do about it.
    pub remedy: String,
}

impl From<files::edit::Refused> for Problem {
    fn from(refused: files::edit::Refused) -> Self {
        Problem {
            path: refused.path.map(|p| p.to_string()),
            what: refused.what,
            remedy: refused.remedy,
            ..Problem::default()
        }
    }
}

/// A call that could not be answered, with the reasons.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Refusal {
    /// The reasons.
    pub problems: Vec<Problem>,
}

/// What the stream of events tells.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(tag = "event", rename_all = "snake_case")]
pub enum Event {
    /// The piece has changed: by another page, or by someone on the disk.
    Changed {
        /// The version that stands now.
        version: String,
        /// It was changed on the disk by another program.
        on_disk: bool,
        /// The file on the disk cannot be used; the last good piece stays.
        broken: bool,
        /// The page whose edit it was.
        client: Option<String>,
    },
    /// The file is gone from the folder.
    Gone {},
    /// Events were missed: look at the piece again.
    Behind {},
}
