//! Which file a command may write, and over what.
//!
//! A file that is there is written over only if it is a plain file that holds what is to
//! be written, by its first bytes and not by its name: a printed plan over a printed
//! plan, never a project, a link, a device or a letter to a friend.

use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use crate::disk::{Links, Why, look};
use crate::output::shown;
use crate::{CommandError, save};

/// Bytes of a file that are looked at to tell what it is.
const START: u64 = 1 << 18;

/// What a file holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Content {
    /// A project file.
    Project,
    /// Printed sheets.
    Pdf,
    /// A picture.
    Png,
    /// A drawing.
    Svg,
    /// A drawing for machines.
    Dxf,
    /// A model in numbers, as `weigh --solid` writes it.
    Solid,
}

impl Content {
    /// What a file in a folder of drawings holds, by its name.
    fn of_drawing(name: &str) -> Content {
        match Path::new(name).extension().and_then(|e| e.to_str()) {
            Some("png") => Content::Png,
            Some("dxf") => Content::Dxf,
            _ => Content::Svg,
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Content::Project => "a project file",
            Content::Pdf => "a PDF",
            Content::Png => "a PNG picture",
            Content::Svg => "an SVG drawing",
            Content::Dxf => "a DXF drawing",
            Content::Solid => "a model that weigh has written",
        }
    }

    /// Is it this that begins so? A file without a byte may be anything.
    fn begins(self, start: &[u8]) -> bool {
        if start.is_empty() {
            return true;
        }
        // Only the start of a file, which may end within a character.
        let text = String::from_utf8_lossy(start);
        let text = text.trim_start_matches('\u{feff}').trim_start();
        match self {
            Content::Pdf => start.starts_with(b"%PDF-"),
            Content::Png => start.starts_with(b"\x89PNG\r\n\x1a\n"),
            Content::Svg => first_element(text).starts_with("<svg"),
            Content::Dxf => {
                let mut lines = text.lines().map(str::trim);
                match lines.next() {
                    // A comment, which no other file begins with.
                    Some("999") => true,
                    Some("0") => lines.next() == Some("SECTION"),
                    _ => false,
                }
            }
            Content::Solid => text
                .strip_prefix('{')
                .is_some_and(|rest| rest.trim_start().starts_with("\"sections\"")),
            Content::Project => text.lines().any(|line| {
                let key = line.trim_start().trim_start_matches('[');
                let end = key.find(|c: char| !c.is_alphanumeric() && c != '_');
                matches!(&key[..end.unwrap_or(key.len())], "form" | "section")
            }),
        }
    }
}

/// XML from its first element on.
fn first_element(text: &str) -> &str {
    let mut rest = text;
    loop {
        let end = if rest.starts_with("<?") {
            "?>"
        } else if rest.starts_with("<!--") {
            "-->"
        } else if rest.starts_with("<!") {
            ">"
        } else {
            return rest;
        };
        match rest.split_once(end) {
            Some((_, after)) => rest = after.trim_start(),
            None => return "",
        }
    }
}

/// A file that may be written.
pub struct Target {
    path: PathBuf,
}

impl Target {
    /// The file at `path` for what is to be put into it. `inputs` are the files that the
    /// command reads.
    ///
    /// # Errors
    /// Why it may not be written, and what would do.
    pub fn new(path: &Path, content: Content, inputs: &[PathBuf]) -> Result<Target, CommandError> {
        match refusal(path, content, inputs) {
            None => Ok(Target { path: path.into() }),
            Some(why) => Err(CommandError::Say(format!("{}: {why}", shown(path)))),
        }
    }

    /// Writes it; what was there before is gone.
    pub fn replace(&self, bytes: &[u8]) -> Result<(), CommandError> {
        save::replace(&self.path, bytes)
    }

    /// Writes it where nothing is; false if something is there.
    pub fn create(&self, bytes: &[u8]) -> Result<bool, CommandError> {
        save::create(&self.path, bytes)
    }

    /// Writes it; what was there before is kept as `NAME.previous`.
    pub fn save(&self, bytes: &[u8]) -> Result<(), CommandError> {
        save::save(&self.path, bytes)
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.path
    }
}

/// Writes drawings and pictures into a folder, which is made if it is not there: all of
/// them, or none if one may not be written. Gives their paths.
///
/// They are put down beside as they come, as all of them together may not fit the memory.
pub fn fill_folder(
    folder: &Path,
    files: impl IntoIterator<Item = (String, Vec<u8>)>,
    inputs: &[PathBuf],
) -> Result<Vec<PathBuf>, CommandError> {
    let failed = |e: std::io::Error| CommandError::Say(format!("{}: {e}", shown(folder)));
    if folder.exists() && !folder.is_dir() {
        return Err(CommandError::Say(format!(
            "{}: this is no folder; give the name of one, there or not",
            shown(folder)
        )));
    }
    fs::create_dir_all(folder).map_err(failed)?;
    let beside = tempfile::tempdir_in(folder).map_err(failed)?;
    let mut targets = Vec::new();
    for (name, bytes) in files {
        let target = Target::new(&folder.join(&name), Content::of_drawing(&name), inputs)?;
        let put_down = beside.path().join(name);
        fs::write(&put_down, bytes).map_err(failed)?;
        targets.push((target, put_down));
    }
    let mut written = Vec::new();
    for (target, put_down) in targets {
        target.replace(&fs::read(put_down).map_err(failed)?)?;
        written.push(target.path);
    }
    Ok(written)
}

/// Why a path may not be written over, with what would do.
fn refusal(path: &Path, content: Content, inputs: &[PathBuf]) -> Option<String> {
    let what = content.name();
    match look(path, Links::Refused) {
        Ok(_) => {}
        Err(Why::Io(e)) if e.kind() == ErrorKind::NotFound => return no_folder(path),
        Err(why) => {
            return Some(format!(
                "{why}; give the name of one for {what}, there or not"
            ));
        }
    }
    let same = |input: &&PathBuf| same_file::is_same_file(path, input).unwrap_or(false);
    if inputs.iter().any(|input| same(&input)) {
        return Some(format!(
            "this is what the command reads; give another name for {what}"
        ));
    }
    let mut start = Vec::new();
    let read = File::open(path).and_then(|file| file.take(START).read_to_end(&mut start));
    match read {
        Err(e) => Some(e.to_string()),
        Ok(_) if content.begins(&start) => None,
        Ok(_) => Some(format!(
            "a file that is not {what} is there and is not written over; give another name, or \
             take the file away"
        )),
    }
}

/// What stands in the way of a file that is not there: only a missing folder does.
fn no_folder(path: &Path) -> Option<String> {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty())?;
    (!folder.is_dir()).then(|| {
        format!(
            "there is no folder {}; make it, or name another",
            shown(folder)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_told_by_its_first_bytes() {
        let svg = "<?xml version=\"1.0\"?>\n<!-- a > b -->\n<!DOCTYPE svg>\n<svg xmlns=\"\">";
        let solid = "{\n  \"sections\": [";
        let own: [(Content, &[u8]); 9] = [
            (Content::Pdf, b"%PDF-1.7\n"),
            (Content::Png, b"\x89PNG\r\n\x1a\n\0\0"),
            (Content::Svg, b"<svg xmlns=\"http://www.w3.org/2000/svg\">"),
            (Content::Svg, svg.as_bytes()),
            (Content::Dxf, b"999\r\nBox\r\n  0\r\nSECTION\r\n"),
            (Content::Dxf, b"  0\nSECTION\n"),
            (Content::Solid, solid.as_bytes()),
            (Content::Project, b"ringwright = 1\nunit = \"mm\"\n[form]\n"),
            (Content::Project, b"broken = \n  [[section]]\n"),
        ];
        let all = [
            Content::Project,
            Content::Pdf,
            Content::Png,
            Content::Svg,
            Content::Dxf,
            Content::Solid,
        ];
        for (content, start) in own {
            for other in all {
                assert_eq!(other.begins(start), other == content, "{start:?} {other:?}");
            }
        }
        for nothing in [
            &b"Dear friend,\nthe formal section is late\n"[..],
            b"<!DOCTYPE html><html><svg></svg></html>",
            b"<!-- never closed <svg",
            b"{\"name\": \"package\"}",
            b"0\n1\n2\n",
            b"ringwright = 1\nunit = \"mm\"\n[saws]\nkerf = 1\n",
            b"\xff\xfe\0\0",
        ] {
            for content in all {
                assert!(!content.begins(nothing), "{content:?} {nothing:?}");
            }
        }
        assert!(all.iter().all(|content| content.begins(b"")));
    }
}
