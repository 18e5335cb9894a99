//! From text to a TOML table, with every syntax error in plain words.

use std::ops::Range;

use toml::de::{DeTable, Error};

use super::plain_words::{in_plain_words, odd_value};
use super::{LARGEST_FILE, Log};
use crate::key::KeyPath;
use crate::report::Problem;

/// The most dots outside numbers in one file. Each may open a table inside a table, and
/// a table a thousand deep would overrun the stack when it is let go.
const MOST_DOTS: usize = 1000;

/// Syntax errors told before the rest is left untold.
const MOST_ERRORS: usize = 50;

/// Parses as much as can be parsed; `None` where there is nothing worth reading on.
pub(crate) fn parse<'t>(text: &'t str, kind: &str, log: &Log<'t>) -> Option<DeTable<'t>> {
    let whole = || 0..0;
    if text.len() > LARGEST_FILE {
        let Problem { what, remedy, .. } = too_large();
        log.missing(whole(), &KeyPath::default(), what, &remedy);
        return None;
    }
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let what = "this file is empty".to_string();
        log.missing(whole(), &KeyPath::default(), what, &starter(kind));
        return None;
    }
    if let Some(at) = text.find('\0') {
        let what = "this is not a text file".to_string();
        let remedy = format!("choose a {kind} file; they are plain text ending in .toml");
        log.unreadable(at..at + 1, what, remedy);
        return None;
    }
    if dots_outside_numbers(text) > MOST_DOTS {
        let what = format!("more than {MOST_DOTS} dots outside numbers: keys nested too deep");
        let remedy = "no key goes deeper than [[section.ring]]; shorten very long notes";
        log.missing(whole(), &KeyPath::default(), what, remedy);
        return None;
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    tell(text, &errors, log);
    Some(table.into_inner())
}

fn tell(text: &str, errors: &[Error], log: &Log<'_>) {
    let mut errors: Vec<(Range<usize>, &str)> = errors
        .iter()
        .map(|e| (e.span().unwrap_or(text.len()..text.len()), e.message()))
        .collect();
    errors.sort_by_key(|(bytes, _)| bytes.start);
    let mut open_list: Option<usize> = None;
    for (bytes, message) in errors.into_iter().take(MOST_ERRORS) {
        let list = message.starts_with("missing comma between array");
        let bytes = if list {
            end_of_line_before(text, bytes)
        } else {
            bytes
        };
        let line = log.line_of(bytes.clone());
        // A list that is not closed swallows line after line; the first says it.
        let swallowed = list || (message.starts_with("string values must") && begins(text, &bytes));
        if open_list.is_some_and(|last| line <= last + 2) && (swallowed || odd_value(message)) {
            open_list = Some(line);
            log.swallowed(bytes);
            continue;
        }
        open_list = list.then_some(line);
        let (what, remedy) = in_plain_words(message, text, bytes.clone());
        log.unreadable(bytes, what, remedy);
    }
}

/// What stands before bytes on their line.
fn before_on_line<'t>(text: &'t str, bytes: &Range<usize>) -> &'t str {
    let before = text.get(..bytes.start).unwrap_or("");
    before.rsplit('\n').next().unwrap_or("")
}

/// Do bytes begin their line, or a heading on it?
fn begins(text: &str, bytes: &Range<usize>) -> bool {
    let before = before_on_line(text, bytes);
    before.chars().all(|c| c.is_whitespace() || c == '[')
}

/// What is missed at the start of a line was missing at the end of the last one.
fn end_of_line_before(text: &str, bytes: Range<usize>) -> Range<usize> {
    if before_on_line(text, &bytes).trim().is_empty() {
        let end = text.get(..bytes.start).unwrap_or("").trim_end().len();
        return end..end;
    }
    bytes
}

pub(super) fn too_large() -> Problem {
    Problem {
        place: None,
        key_path: KeyPath::default(),
        what: "this file is larger than 1 MiB".into(),
        remedy: "choose a project or workshop file; they are a few kilobytes of text".into(),
    }
}

fn starter(kind: &str) -> String {
    match kind {
        "project" => "write a new one with `ringwright new FILE --kind bowl`".into(),
        _ => "begin with the lines ringwright = 1 and unit = \"mm\"".into(),
    }
}

/// Dots that are not the one decimal point between two digits.
fn dots_outside_numbers(text: &str) -> usize {
    let in_word = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '+' | '-' | '.');
    let dots = |word: &str| {
        let digit = |b: Option<&u8>| b.is_some_and(u8::is_ascii_digit);
        let bytes = word.as_bytes();
        let count = word.matches('.').count();
        match word.find('.') {
            Some(at) if count == 1 && at > 0 => {
                let decimal = digit(bytes.get(at - 1)) && digit(bytes.get(at + 1));
                usize::from(!decimal)
            }
            _ => count,
        }
    };
    text.split(|c| !in_word(c)).map(dots).sum()
}
