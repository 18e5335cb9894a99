//! All that the program says: the one way to stdout and the one to stderr.
//!
//! Nothing that a terminal obeys passes, whether it comes from a file, a file's name or
//! the call itself. A reader that has hung up is no error; an output that takes no more
//! is one.

use std::io::{ErrorKind, Write};
use std::path::Path;
use std::process::ExitCode;

use clap::error::ContextValue;
use files::report::{harmless, is_control, on_one_line};
use serde::Serialize;

use crate::CommandError;

/// Exit code when a file or a call is wrong.
pub const WRONG: u8 = 2;

/// Writes text to stdout.
pub fn print(text: &str) -> Result<(), CommandError> {
    send(std::io::stdout().lock(), &harmless(text))
}

/// Writes a value to stdout as JSON. What a terminal would obey is escaped, so that a
/// program reads the value as it is.
pub fn print_json(value: &impl Serialize) -> Result<(), CommandError> {
    let text = serde_json::to_string_pretty(value)?;
    send(std::io::stdout().lock(), &(escaped(&text) + "\n"))
}

/// Writes text to stderr. Where that fails there is nowhere left to say so; the exit
/// code tells.
pub fn complain(text: &str) {
    let _ = send(std::io::stderr().lock(), &harmless(text));
}

/// A file's name inside a line.
pub fn shown(path: &Path) -> String {
    on_one_line(&path.display().to_string())
}

/// Says what clap has to say about a call: help, the version, or what is wrong with it.
pub fn explain_call(mut error: clap::Error) -> ExitCode {
    // What was typed is quoted; it must not begin a line of its own.
    let quoted: Vec<_> = error
        .context()
        .filter_map(|(kind, value)| Some((kind, one_line(value)?)))
        .collect();
    for (kind, value) in quoted {
        error.insert(kind, value);
    }
    let text = error.render().to_string();
    if error.use_stderr() {
        complain(&text);
        return ExitCode::from(WRONG);
    }
    match print(&text) {
        Ok(()) => ExitCode::SUCCESS,
        Err(stop) => stop.code(),
    }
}

fn one_line(value: &ContextValue) -> Option<ContextValue> {
    match value {
        ContextValue::String(text) => Some(ContextValue::String(on_one_line(text))),
        ContextValue::Strings(texts) => Some(ContextValue::Strings(
            texts.iter().map(|t| on_one_line(t)).collect(),
        )),
        _ => None,
    }
}

/// JSON with its invisible characters as `\u` escapes. They can only stand in strings,
/// but for the line feeds of the layout.
fn escaped(json: &str) -> String {
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        if c == '\n' || !is_control(c) {
            out.push(c);
        } else {
            for unit in c.encode_utf16(&mut [0; 2]) {
                out.push_str(&format!("\\u{unit:04x}"));
            }
        }
    }
    out
}

fn send(mut to: impl Write, text: &str) -> Result<(), CommandError> {
    // Flushed here, as what is left to the end of the program fails in silence.
    let done = to.write_all(text.as_bytes()).and_then(|()| to.flush());
    match done {
        Err(e) if e.kind() != ErrorKind::BrokenPipe => Err(CommandError::Say(format!(
            "the output could not be written: {e}; send it where there is room"
        ))),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn json_says_the_same_without_what_a_terminal_obeys() {
        let value = "bowl\u{1b}[2J\u{9b}\u{202e}\u{200b}\u{7f}\u{e0041}é\n";
        let text = escaped(&serde_json::to_string(value).unwrap());
        assert!(!text.chars().any(is_control), "{text:?}");
        assert_eq!(serde_json::from_str::<String>(&text).unwrap(), value);
    }

    /// Takes nothing, for a reason.
    struct Refusing(ErrorKind);

    impl Write for Refusing {
        fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
            Err(self.0.into())
        }

        fn flush(&mut self) -> std::io::Result<()> {
            Err(self.0.into())
        }
    }

    #[test]
    fn a_reader_that_hung_up_is_no_error_and_a_full_disk_is_one() {
        assert!(send(Refusing(ErrorKind::BrokenPipe), "bowl\n").is_ok());
        assert!(send(Refusing(ErrorKind::StorageFull), "bowl\n").is_err());
    }
}
