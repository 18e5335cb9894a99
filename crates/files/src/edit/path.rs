//! Key paths: `section[1].band[0].reach`, `section[1].ring#2.wood`.

use std::fmt;

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

/// A way into a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Path(pub Vec<Step>);

/// Longest path and largest index that are read.
const LONGEST: usize = 200;
const LARGEST: usize = 10_000;

impl Path {
    /// Reads a path; nothing if it is none.
    pub fn parse(text: &str) -> Option<Path> {
        if text.is_empty() || text.len() > LONGEST {
            return None;
        }
        let mut steps = Vec::new();
        let mut rest = text;
        loop {
            let end = rest.find(['.', '[', '#']).unwrap_or(rest.len());
            let (key, after) = rest.split_at(end);
            let (key, mut after) = match (key.is_empty(), after.strip_prefix("[\"")) {
                // A wood of the maker's own may have any name: woods["old plum"].density.
                (false, Some(quoted)) => {
                    steps.push(Step::Key(key.into()));
                    let (name, tail) = quoted.split_once("\"]")?;
                    (name, tail)
                }
                (false, None) => (key, after),
                (true, _) => return None,
            };
            if key.is_empty() || key.chars().any(char::is_control) {
                return None;
            }
            steps.push(Step::Key(key.into()));
            while let Some(inner) = after.strip_prefix('[') {
                let (number, tail) = inner.split_once(']')?;
                steps.push(Step::At(index(number)?));
                after = tail;
            }
            if let Some(inner) = after.strip_prefix('#') {
                let end = inner
                    .find(|c: char| !c.is_ascii_digit())
                    .unwrap_or(inner.len());
                let (number, tail) = inner.split_at(end);
                steps.push(Step::Real(index(number)?));
                after = tail;
            }
            if after.is_empty() {
                return Some(Path(steps));
            }
            rest = after.strip_prefix('.')?;
        }
    }

    /// The path without its last step, and that step.
    pub fn split_last(&self) -> Option<(&[Step], &Step)> {
        self.0.split_last().map(|(last, rest)| (rest, last))
    }

    /// The path with its indices taken out: `section[].band[].reach`.
    pub fn pattern(&self) -> String {
        let mut out = String::new();
        for step in &self.0 {
            match step {
                Step::Key(key) => {
                    if !out.is_empty() {
                        out.push('.');
                    }
                    out.push_str(key);
                }
                Step::At(_) | Step::Real(_) => out.push_str("[]"),
            }
        }
        out
    }
}

fn index(text: &str) -> Option<usize> {
    // `parse` would take "+1" too.
    let plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    text.parse().ok().filter(|n| plain && *n <= LARGEST)
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, step) in self.0.iter().enumerate() {
            match step {
                Step::Key(key) if key.contains(['.', '[', '#', ' ']) => write!(f, "[\"{key}\"]")?,
                Step::Key(key) if i == 0 => f.write_str(key)?,
                Step::Key(key) => write!(f, ".{key}")?,
                Step::At(at) => write!(f, "[{at}]")?,
                Step::Real(at) => write!(f, "#{at}")?,
            }
        }
        Ok(())
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
            let path = Path::parse(text);
            assert_eq!(path.map(|p| p.to_string()).as_deref(), Some(text));
        }
        let pattern = |t: &str| Path::parse(t).map(|p| p.pattern());
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
            assert_eq!(Path::parse(text), None, "{text}");
        }
    }
}
