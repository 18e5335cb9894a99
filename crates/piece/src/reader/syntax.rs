//! From text to a TOML table, with every syntax error in plain words.

use toml::de::DeTable;

use super::{LARGEST_FILE, Log};
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
        log.missing(whole(), "", what, &remedy);
        return None;
    }
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        let what = "this file is empty".to_string();
        log.missing(whole(), "", what, &starter(kind));
        return None;
    }
    if let Some(at) = text.find('\0') {
        let what = "this is not a text file".to_string();
        let remedy = format!("choose a {kind} file; they are plain text ending in .toml");
        log.unreadable(at..at + 1, what, remedy);
        return None;
    }
    if dots_outside_numbers(text) > MOST_DOTS {
        let what = format!("this file has more than {MOST_DOTS} dots outside numbers");
        let remedy = "nothing in a file goes deeper than [[section.ring]]; shorten long notes";
        log.missing(whole(), "", what, remedy);
        return None;
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    for error in errors.iter().take(MOST_ERRORS) {
        let bytes = error.span().unwrap_or(text.len()..text.len());
        let (what, remedy) = in_plain_words(error.message(), log.source(bytes.clone()));
        log.unreadable(bytes, what, remedy);
    }
    Some(table.into_inner())
}

pub(super) fn too_large() -> Problem {
    Problem {
        place: None,
        key_path: String::new(),
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
    text.split(|c| !in_word(c))
        .map(|word| {
            let digit = |b: Option<&u8>| b.is_some_and(u8::is_ascii_digit);
            let bytes = word.as_bytes();
            match (word.find('.'), word.matches('.').count()) {
                (Some(at), 1) if at > 0 && digit(bytes.get(at - 1)) && digit(bytes.get(at + 1)) => {
                    0
                }
                (_, count) => count,
            }
        })
        .sum()
}

/// What the parser said, as a maker would say it, and what to do.
fn in_plain_words(message: &str, source: &str) -> (String, String) {
    let shown: String = source.chars().take_while(|c| *c != '\n').take(32).collect();
    let about = |start: &str| message.starts_with(start);
    let (what, remedy): (String, &str) = if about("duplicate key") {
        (format!("{shown} is given twice"), "keep one of the two")
    } else if about("string values must be quoted") {
        (
            format!("{shown} stands without quotation marks"),
            "put text in quotation marks, as in wood = \"cherry\"",
        )
    } else if about("invalid basic string")
        || about("invalid literal string")
        || about("invalid multi-line")
    {
        (
            "this text does not end where its line ends".into(),
            "close it with a quotation mark; write an inch mark in it as \\\", or write in",
        )
    } else if about("missing escaped value") || about("too few unicode") {
        (
            "a backslash in a text that means nothing".into(),
            "write \\\\ for a backslash and \\\" for an inch mark",
        )
    } else if about("cannot recurse") {
        (
            "brackets inside brackets, too deep to be meant".into(),
            "no value needs more than two levels, as in outer = [[0, 40], [60, 75]]",
        )
    } else if about("unclosed array table")
        || about("unclosed table")
        || about("missing table open")
    {
        (
            "this heading has no closing bracket".into(),
            "write it as [form] or [[section]], alone on its line",
        )
    } else if about("unclosed array") || about("missing comma between array") {
        (
            "this list is not closed, or lacks a comma".into(),
            "write it as [1, 2, 3]",
        )
    } else if about("unclosed inline table") || about("missing comma between key-value") {
        (
            "these braces are not closed, or lack a comma".into(),
            "write them as { wood = \"cherry\", thickness = 6 }",
        )
    } else if about("extra comma") {
        ("one comma too many".into(), "take it out")
    } else if about("key with no value") || about("missing value") || about("missing assignment") {
        ("a key without a value".into(), "write it as key = value")
    } else if about("extra `=`") || about("extra assignment") || about("unexpected `=`") {
        (
            "one = too many".into(),
            "write it as key = value, one to a line",
        )
    } else if about("invalid unquoted key") || about("unquoted keys cannot be empty") {
        (
            "a name with a character that names cannot have".into(),
            "use letters, digits, - and _, or put the name in quotation marks",
        )
    } else if about("unexpected leading zero") {
        (
            "a number that begins with 0".into(),
            "leave the first 0 out",
        )
    } else if about("redundant") || about("unexpected sign") {
        (
            "a number with a sign too many".into(),
            "write it as 12 or -12",
        )
    } else if about("carriage return") {
        (
            "a stray carriage return".into(),
            "save the file with ordinary line ends in your editor",
        )
    } else if about("unexpected") || about("invalid key-value") {
        (
            "something stands here that does not belong".into(),
            "write one key = value to a line",
        )
    } else {
        (
            format!("this line cannot be read ({message})"),
            "write one key = value to a line",
        )
    };
    (what, remedy.into())
}
