//! A text by lines, so that a byte has a line and a column.

use std::ops::Range;

use super::Place;
use super::harmless::visible;

/// Longest piece of a line that a report shows, characters.
const WIDEST: usize = 96;
/// Characters kept before the mark when a line is too long.
const BEFORE: usize = 32;

/// A text's line starts.
#[derive(Debug, Clone)]
pub struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

/// What a report shows of a line.
pub(super) struct ShownLine {
    pub text: String,
    pub indent: usize,
    pub length: usize,
}

impl<'t> Lines<'t> {
    /// Finds the lines of a text. A byte order mark is not part of the first.
    pub fn new(text: &'t str) -> Self {
        let first = if text.starts_with('\u{feff}') { 3 } else { 0 };
        let ends = text.bytes().enumerate().filter(|(_, b)| *b == b'\n');
        let starts = std::iter::once(first)
            .chain(ends.map(|(at, _)| at + 1))
            .collect();
        Lines { text, starts }
    }

    /// A line without its ending, counted from 1; empty past the end.
    pub fn line(&self, line: usize) -> &'t str {
        let Some(&start) = line.checked_sub(1).and_then(|at| self.starts.get(at)) else {
            return "";
        };
        let rest = self.text.get(start..).unwrap_or("");
        let end = rest.find('\n').unwrap_or(rest.len());
        rest[..end].trim_end_matches('\r')
    }

    /// Where a stretch of bytes stands; only its first line is marked. Bytes inside a
    /// character or past the end count as the nearest before them.
    pub fn place(&self, bytes: Range<usize>) -> Place {
        let start = self
            .text
            .floor_char_boundary(bytes.start.min(self.text.len()));
        let line = self.starts.partition_point(|&s| s <= start).max(1);
        let line_start = self.starts[line - 1].min(start);
        let text = self.line(line);
        let before = self.text[line_start..start].chars().count();
        // A position on the line's own ending is shown just behind its last character.
        let column = before.min(text.chars().count()) + 1;
        let end = self
            .text
            .floor_char_boundary(bytes.end.clamp(start, self.text.len()));
        let marked = self.text[start..end]
            .split(['\n', '\r'])
            .next()
            .map_or(0, |t| t.chars().count());
        Place {
            line,
            column,
            length: marked.max(1),
        }
    }

    pub(super) fn shown(&self, place: Place) -> ShownLine {
        let line = self.line(place.line);
        let all = line.chars().count();
        let mark = place.column.saturating_sub(1).min(all);
        let skip = if all > WIDEST {
            mark.saturating_sub(BEFORE)
        } else {
            0
        };
        let mut text: String = if skip > 0 {
            "…".into()
        } else {
            String::new()
        };
        let indent = mark - skip + usize::from(skip > 0);
        text.extend(line.chars().skip(skip).take(WIDEST).map(visible));
        if all - skip > WIDEST {
            text.push('…');
        }
        let room = text.chars().count().saturating_sub(indent).max(1);
        ShownLine {
            text: text.trim_end().into(),
            indent,
            length: place.length.clamp(1, room),
        }
    }
}
