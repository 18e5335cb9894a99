//! The folder of projects, and the workshop.

use files::message::Spelling;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Blank, Counts, Edit, Problem};

/// The folder.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Shelf {
    /// The folder's own name.
    pub folder: String,
    /// Its projects, by name.
    pub projects: Vec<Project>,
    /// What has been deleted, newest first.
    pub bin: Vec<Binned>,
    /// What a new project can start from.
    pub starters: Vec<Starter>,
}

/// A kind of piece to start from, with usual figures in the unit asked for.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Starter {
    /// What to ask for.
    pub kind: String,
    /// What to show.
    pub label: String,
    /// Overall height, with its unit.
    pub height: String,
    /// Largest diameter, with its unit.
    pub diameter: String,
    /// Loops.
    pub loops: u32,
    /// Segments in a ring.
    pub segments: u32,
    /// Unit of the file.
    pub unit: PageUnit,
}

/// A project of the folder.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Project {
    /// The file's name without `.toml`.
    pub name: String,
    /// What the maker calls it.
    pub title: String,
    /// Its unit.
    pub unit: PageUnit,
    /// When it was saved, milliseconds since 1970 UTC.
    pub saved: f64,
    /// Findings counted.
    pub findings: Counts,
    /// The file cannot be used as it is.
    pub broken: bool,
    /// Its picture's address; null where there is none.
    pub picture: Option<String>,
}

/// A deleted project.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Binned {
    /// Its number in the bin.
    pub id: String,
    /// The name it had.
    pub name: String,
    /// When it was deleted, milliseconds since 1970 UTC.
    pub deleted: f64,
}

/// The unit of the page.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PageUnit {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches and fractions.
    Inch,
}

/// How the page's words are spelled.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PageSpelling {
    /// mitre, centre, colour.
    #[default]
    British,
    /// miter, center, color.
    American,
}

impl From<Spelling> for PageSpelling {
    fn from(spelling: Spelling) -> Self {
        match spelling {
            Spelling::British => PageSpelling::British,
            Spelling::American => PageSpelling::American,
        }
    }
}

impl From<PageSpelling> for Spelling {
    fn from(spelling: PageSpelling) -> Self {
        match spelling {
            PageSpelling::British => Spelling::British,
            PageSpelling::American => Spelling::American,
        }
    }
}

/// What a new project starts from.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct NewRequest {
    /// Kind of piece: bowl, vase, platter, box.
    pub kind: String,
    /// Overall height in the maker's words; usual where it is left out.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub height: Option<String>,
    /// Largest diameter in the maker's words.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub diameter: Option<String>,
    /// Loops, 2 to 16, or 0 for none.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    #[cfg_attr(test, ts(type = "number"))]
    pub loops: Option<i64>,
    /// Segments in a ring, 3 to 144.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    #[cfg_attr(test, ts(type = "number"))]
    pub segments: Option<i64>,
    /// Unit of the file.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub unit: Option<PageUnit>,
    /// What the maker calls it.
    #[serde(default)]
    #[cfg_attr(test, ts(optional))]
    pub title: Option<String>,
}

/// A new name.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct RenameRequest {
    /// The new name; the title stays.
    pub to: String,
}

/// A file from elsewhere.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct ImportRequest {
    /// The name it should have; another is found if it is taken.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// The project that a call made or moved.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Named {
    /// Its name; null where the call could not be done.
    pub name: Option<String>,
    /// Why not.
    pub problems: Vec<Problem>,
}

/// The workshop's settings.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WorkshopView {
    /// Version of its file.
    pub version: String,
    /// The unit asked for.
    pub unit: PageUnit,
    /// Every setting.
    pub blanks: BTreeMap<String, Blank>,
    /// Settings that belong together, in order.
    pub groups: Vec<Group>,
    /// The file on disk cannot be used; these are the usual settings.
    pub problems: Vec<Problem>,
}

/// Settings that belong together.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Group {
    /// What they are about.
    pub title: String,
    /// Their keys.
    pub paths: Vec<String>,
}

/// Changes to the workshop.
#[derive(Debug, Clone, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS, Serialize))]
#[serde(deny_unknown_fields)]
pub struct WorkshopRequest {
    /// Changes, made in order, all or none.
    pub edits: Vec<Edit>,
    /// The version that the page shows.
    pub base: String,
}

/// The answer to a change to the workshop.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct WorkshopEdited {
    /// The workshop as it now is; null where nothing changed.
    pub workshop: Option<WorkshopView>,
    /// Why nothing changed.
    pub problems: Vec<Problem>,
    /// The file was changed elsewhere; look at it again.
    pub conflict: bool,
}
