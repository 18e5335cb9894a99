//! What the TOML parser says, as a maker would say it, and what to do about it.

use std::ops::Range;

/// What the parser's messages begin with, what a maker would say, and what to do.
const IN_PLAIN_WORDS: [(&[&str], &str, &str); 17] = [
    (
        &["invalid date", "invalid time", "invalid offset"],
        "this is not a date",
        "no value is a date; put text in quotation marks",
    ),
    (
        &["invalid basic string", "invalid literal string"],
        "this text does not end where its line ends",
        "close it with a quotation mark; for inches inside it write in, as in \"6 3/8 in\"",
    ),
    (
        &["invalid multi-line"],
        "this text of several lines does not end",
        "close it with three quotation marks",
    ),
    (
        &["missing escaped value", "too few unicode"],
        "a backslash in a text that means nothing",
        "write \\\\ for a backslash and \\\" for an inch mark",
    ),
    (
        &["cannot recurse"],
        "brackets inside brackets, too deep to be meant",
        "no value needs more than two levels, as in outer = [[0, 40], [60, 75]]",
    ),
    (
        &[
            "unclosed array table",
            "unclosed table",
            "missing table open",
        ],
        "this heading has no closing bracket",
        "write it as [form] or [[section]], alone on its line",
    ),
    (
        &["unclosed array", "missing comma between array"],
        "this list is not closed, or lacks a comma",
        "write it as [1, 2, 3]",
    ),
    (
        &["unclosed inline table", "missing comma between key-value"],
        "these braces are not closed, or lack a comma",
        "write them as { wood = \"cherry\", thickness = 6 }",
    ),
    (&["extra comma"], "one comma too many", "take it out"),
    (
        &["key with no value", "missing value", "missing assignment"],
        "a key without a value",
        "write it as key = value",
    ),
    (
        &["extra `=`", "extra assignment", "unexpected `=`"],
        "one = too many",
        "write it as key = value, one to a line",
    ),
    (
        &["unquoted keys cannot be empty"],
        "a value or heading without a name",
        "write it as key = value",
    ),
    (
        &["invalid unquoted key"],
        "a name with a character that names cannot have",
        "use letters, digits, - and _, or put the name in quotation marks",
    ),
    (
        &["unexpected leading zero"],
        "a number that begins with 0",
        "leave the first 0 out",
    ),
    (
        &["redundant", "unexpected sign"],
        "a number with a sign too many",
        "write it as 12 or -12",
    ),
    (
        &["carriage return"],
        "a stray carriage return",
        "save the file with ordinary line ends in your editor",
    ),
    (
        &["unexpected", "invalid key-value"],
        "something stands here that does not belong",
        "write one key = value to a line",
    ),
];

/// What is wrong at some bytes of a text, and a remedy.
pub(super) fn in_plain_words(message: &str, text: &str, bytes: Range<usize>) -> (String, String) {
    let source = text.get(bytes.clone()).unwrap_or("");
    let shown: String = source.chars().take_while(|c| *c != '\n').take(32).collect();
    if message.starts_with("duplicate key") {
        return (
            format!("{shown} is given twice"),
            "keep one of the two".into(),
        );
    }
    if message.starts_with("string values must be quoted") && shown.is_empty() {
        return (
            "a key without a value".into(),
            "write its value behind the =, or take the line out".into(),
        );
    }
    if message.starts_with("string values must be quoted") {
        let number = shown.starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c));
        let remedy = if number {
            "put a length with a unit or a fraction in quotation marks, as in \"6 3/8 in\""
        } else {
            "put text in quotation marks, as in wood = \"cherry\""
        };
        return (
            format!("{shown} stands without quotation marks"),
            remedy.into(),
        );
    }
    if odd_value(message) {
        return (
            "this is not a number".into(),
            "write a number such as 12 or 6.5, or text in quotation marks".into(),
        );
    }
    let before = text.get(..bytes.start).unwrap_or("");
    let comma = text.get(bytes.start..).is_some_and(|t| t.starts_with(','));
    if comma && before.ends_with(|c: char| c.is_ascii_digit()) {
        return (
            "a number with a comma".into(),
            "write decimals with a point, as in 17.5".into(),
        );
    }
    if message.starts_with("unexpected key or value") && before.ends_with('"') {
        return (
            "the text ends at the quotation mark before this".into(),
            "for inches inside a text write in, as in \"6 3/8 in\"".into(),
        );
    }
    let known = IN_PLAIN_WORDS
        .iter()
        .find(|(starts, ..)| starts.iter().any(|start| message.starts_with(start)));
    match known {
        Some((_, what, remedy)) => ((*what).into(), (*remedy).into()),
        None => (
            format!("this line cannot be read ({message})"),
            "write one key = value to a line".into(),
        ),
    }
}

/// Messages about a value that is neither text nor number.
pub(super) fn odd_value(message: &str) -> bool {
    let kinds = [
        "float",
        "integer",
        "hexadecimal",
        "octal",
        "binary",
        "boolean",
    ];
    let kind = message.strip_prefix("invalid ").unwrap_or("");
    kinds.iter().any(|k| kind.starts_with(k))
}
