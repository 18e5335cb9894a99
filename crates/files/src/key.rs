//! Key paths: where a setting stands in a file, `section[1].band[0].reach`.
//!
//! A path is built from the table of keys, so that one which no file has does not compile;
//! text becomes a path only here, where files and the page's questions are read.
//!
//! ```
//! use files::key;
//! let path = key::section(1).ring(2).width();
//! assert_eq!(path.as_str(), "section[1].ring[2].width");
//! assert_eq!(key::shop().sled().keep_off().as_str(), "sled.keep_off");
//! assert_eq!(key::form().outer().entry(2).entry(0).as_str(), "form.outer[2][0]");
//! ```

use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

pub use crate::design::{
    BandPath, DesignPath, FloorPath, FormPath, RingPath, SectionPath, SplitPath, WoodPath,
};
pub use crate::workshop::{
    AllowancesPath, ClimatePath, ExactnessPath, GluePath, HoldingPath, LathePath, SawPath,
    ShopDefaultsPath, SledPath, WorkshopPath,
};

/// Longest path and largest index that are read.
const LONGEST: usize = 200;
const LARGEST: usize = 10_000;

/// One step of a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// A key of a table.
    Key(String),
    /// An entry of a list, from 0.
    At(usize),
    /// A real ring of a section, from 0, however the file counts its rings.
    Real(usize),
}

/// A way to a setting of a file. Entries count from 0; a ring is `section[1].ring[2]` by
/// its entry in the file, or `section[1].ring#4` as the fifth real ring.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KeyPath(String);

/// The project's file as a whole.
pub fn project() -> DesignPath {
    KeyPath::root().into()
}

/// The project's form.
pub fn form() -> FormPath {
    project().form()
}

/// A section of the project, from 0.
pub fn section(at: usize) -> SectionPath {
    project().section(at)
}

/// What holds the project's piece on the lathe.
pub fn holding() -> HoldingPath {
    project().holding()
}

/// The workshop's file as a whole.
pub fn shop() -> WorkshopPath {
    KeyPath::root().into()
}

impl SectionPath {
    /// A real ring of the section, from 0, however the file counts its rings.
    pub fn real_ring(&self, at: usize) -> RingPath {
        let list = self.path().below("ring");
        KeyPath(format!("{}#{at}", list.0)).into()
    }
}

impl KeyPath {
    /// The path as it stands on the wire and in reports.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Is it the file as a whole?
    pub fn is_root(&self) -> bool {
        self.0.is_empty()
    }

    /// An entry of the list that stands here, from 0.
    pub fn entry(&self, at: usize) -> KeyPath {
        KeyPath(format!("{}[{at}]", self.0))
    }

    /// The list of the entry that stands here; the path itself where it is no entry.
    pub fn list(&self) -> KeyPath {
        match self.0.rfind(['[', '#']) {
            Some(at) if matches!(self.steps().last(), Some(Step::At(_) | Step::Real(_))) => {
                KeyPath(self.0[..at].into())
            }
            _ => self.clone(),
        }
    }

    /// What the setting stands in: the path without its last step.
    pub fn parent(&self) -> KeyPath {
        let mut steps = self.steps();
        steps.pop();
        KeyPath::of_steps(&steps)
    }

    /// The path up to its last key: `form.outer` for `form.outer[2][0]`.
    pub fn setting(&self) -> KeyPath {
        let mut steps = self.steps();
        while matches!(steps.last(), Some(Step::At(_) | Step::Real(_))) {
            steps.pop();
        }
        KeyPath::of_steps(&steps)
    }

    /// Does it name an entry of a list by its number?
    pub fn counts(&self) -> bool {
        let steps = self.steps();
        steps
            .iter()
            .any(|s| matches!(s, Step::At(_) | Step::Real(_)))
    }

    /// The last key of the path: `reach`.
    pub fn name(&self) -> String {
        let key = |step: &Step| match step {
            Step::Key(key) => Some(key.clone()),
            Step::At(_) | Step::Real(_) => None,
        };
        self.steps().iter().rev().find_map(key).unwrap_or_default()
    }

    /// Is it this path, or one that stands in it?
    pub fn is_in(&self, whole: &KeyPath) -> bool {
        self.0.strip_prefix(&whole.0).is_some_and(|rest| {
            whole.is_root() || rest.is_empty() || rest.starts_with(['.', '[', '#'])
        })
    }

    /// Its steps.
    pub fn steps(&self) -> Vec<Step> {
        // A path is text that has been put together from steps, so it always comes apart.
        steps_of(&self.0).unwrap_or_default()
    }

    /// A path that sorts behind every other.
    pub(crate) fn behind_all() -> KeyPath {
        KeyPath("\u{10ffff}".into())
    }

    pub(crate) const fn root() -> KeyPath {
        KeyPath(String::new())
    }

    /// A key of the table that stands here.
    pub(crate) fn below(&self, key: &str) -> KeyPath {
        let mut out = String::with_capacity(self.0.len() + key.len() + 1);
        out.push_str(&self.0);
        push_key(&mut out, key);
        KeyPath(out)
    }

    pub(crate) fn of_steps(steps: &[Step]) -> KeyPath {
        steps.iter().fold(KeyPath::root(), |path, step| match step {
            Step::Key(key) => path.below(key),
            Step::At(at) => path.entry(*at),
            Step::Real(at) => KeyPath(format!("{}#{at}", path.0)),
        })
    }

    /// Reads a path; nothing if it is none.
    pub(crate) fn parse(text: &str) -> Option<KeyPath> {
        if text.is_empty() || text.len() > LONGEST {
            return None;
        }
        steps_of(text).map(|steps| KeyPath::of_steps(&steps))
    }

    /// The path with its indices taken out: `section[].band[].reach`.
    pub(crate) fn pattern(&self) -> String {
        let mut out = String::new();
        for step in self.steps() {
            match step {
                Step::Key(key) => {
                    if !out.is_empty() {
                        out.push('.');
                    }
                    out.push_str(&key);
                }
                Step::At(_) | Step::Real(_) => out.push_str("[]"),
            }
        }
        out
    }
}

fn push_key(out: &mut String, key: &str) {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
    // A wood of the maker's own may have any name: woods["old plum"].density.
    if key.is_empty() || !key.chars().all(plain) {
        out.push_str(&format!("[\"{key}\"]"));
    } else {
        if !out.is_empty() {
            out.push('.');
        }
        out.push_str(key);
    }
}

fn steps_of(text: &str) -> Option<Vec<Step>> {
    let mut steps = Vec::new();
    let mut rest = text;
    while !rest.is_empty() {
        if let Some(quoted) = rest.strip_prefix("[\"") {
            let (name, tail) = quoted.split_once("\"]")?;
            steps.push(Step::Key(name.into()));
            rest = tail;
        } else if let Some(inner) = rest.strip_prefix('[') {
            let (number, tail) = inner.split_once(']')?;
            steps.push(Step::At(index(number)?));
            rest = tail;
        } else if let Some(inner) = rest.strip_prefix('#') {
            let end = inner.find(['.', '[', '#']).unwrap_or(inner.len());
            let (number, tail) = inner.split_at(end);
            steps.push(Step::Real(index(number)?));
            rest = tail;
        } else {
            let key = match rest.strip_prefix('.') {
                Some(key) if !steps.is_empty() => key,
                None if steps.is_empty() => rest,
                _ => return None,
            };
            let end = key.find(['.', '[', '#']).unwrap_or(key.len());
            let (key, tail) = key.split_at(end);
            if key.is_empty() || key.chars().any(char::is_control) {
                return None;
            }
            steps.push(Step::Key(key.into()));
            rest = tail;
        }
        if !matches!(steps.first(), Some(Step::Key(_))) {
            return None;
        }
    }
    Some(steps)
}

fn index(text: &str) -> Option<usize> {
    // `parse` would take "+1" too.
    let plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    text.parse().ok().filter(|n| plain && *n <= LARGEST)
}

impl fmt::Display for KeyPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl AsRef<str> for KeyPath {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl PartialEq<str> for KeyPath {
    fn eq(&self, other: &str) -> bool {
        self.0 == other
    }
}

impl PartialEq<&str> for KeyPath {
    fn eq(&self, other: &&str) -> bool {
        self.0 == *other
    }
}

impl Serialize for KeyPath {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0)
    }
}

/// Reads the wire's text. What is no path becomes one that no file has, so that the answer
/// to it says so by name.
impl<'de> Deserialize<'de> for KeyPath {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Ok(KeyPath::parse(&text).unwrap_or_else(|| {
            let short: String = text.chars().take(LONGEST / 4).collect();
            KeyPath::root().below(&format!("?{short}"))
        }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_read_and_written() {
        for text in [
            "title",
            "form.outer[2][0]",
            "section[1].band[0].reach",
            "section[1].ring#2.floor.wood",
            "woods[\"old plum\"].density",
        ] {
            let path = KeyPath::parse(text);
            assert_eq!(path.map(|p| p.to_string()).as_deref(), Some(text));
        }
        let pattern = |t: &str| KeyPath::parse(t).map(|p| p.pattern());
        assert_eq!(
            pattern("section[1].ring#2.wood").as_deref(),
            Some("section[].ring[].wood")
        );
        assert_eq!(
            pattern("form.outer[2][0]").as_deref(),
            Some("form.outer[][]")
        );
    }

    #[test]
    fn what_is_no_path_is_refused() {
        let long = "a".repeat(201);
        for text in [
            "", ".", "a.", "a[", "a[x]", "a[-1]", "a[+1]", "a[99999]", "[0]", "a#", "a[0]b", &long,
        ] {
            assert_eq!(KeyPath::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_path_knows_what_it_stands_in() {
        let reach = section(1).band(0).reach();
        assert_eq!(reach.parent(), "section[1].band[0]");
        assert_eq!(reach.parent().list(), "section[1].band");
        assert_eq!(reach.name(), "reach");
        assert!(reach.is_in(&section(1).path()));
        assert!(!reach.is_in(&section(10).path()));
        assert!(!section(10).path().is_in(&section(1).path()));
        assert_eq!(section(0).real_ring(3).path().list(), "section[0].ring");
        let plum = project().woods("old plum").density();
        assert_eq!(plum, "woods[\"old plum\"].density");
        assert_eq!(KeyPath::parse(plum.as_str()), Some(plum));
    }
}
