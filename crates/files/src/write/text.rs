//! Lines of TOML.

use std::fmt::Write as _;

use geometry::{Angle, Length};

use crate::units::Unit;

/// Longest line of a list before it is spread over several.
const WIDEST: usize = 88;

pub(crate) struct Text {
    unit: Unit,
    out: String,
    /// Stands before every key: `floor.`.
    within: String,
}

impl Text {
    pub fn new(unit: Unit) -> Self {
        Text {
            unit,
            out: String::new(),
            within: String::new(),
        }
    }

    pub fn unit(&self) -> Unit {
        self.unit
    }

    pub fn done(self) -> String {
        self.out
    }

    /// Lines as they are.
    pub fn push(&mut self, lines: &str) {
        self.out.push_str(lines);
    }

    /// What `body` writes under a heading; nothing where it writes nothing, unless the
    /// heading stands for itself.
    pub fn under(&mut self, heading: &str, always: bool, body: impl FnOnce(&mut Text)) {
        let mut inner = Text::new(self.unit);
        body(&mut inner);
        if always || !inner.out.is_empty() {
            // Writing to a String cannot fail, here and below.
            let _ = writeln!(self.out, "\n{heading}");
            self.out.push_str(&inner.out);
        }
    }

    /// What `body` writes, each key behind another: `floor.wood`.
    pub fn within(&mut self, key: &str, body: impl FnOnce(&mut Text)) {
        let longer = format!("{}{key}.", self.within);
        let before = std::mem::replace(&mut self.within, longer);
        body(self);
        self.within = before;
    }

    pub fn raw(&mut self, key: &str, value: &str) {
        let _ = writeln!(self.out, "{}{key} = {value}", self.within);
    }

    pub fn list(&mut self, key: &str, values: impl Iterator<Item = String>) {
        let values: Vec<String> = values.collect();
        let line = format!("[{}]", values.join(", "));
        if key.len() + line.len() + 3 <= WIDEST {
            self.raw(key, &line);
            return;
        }
        let lines: String = values.iter().map(|v| format!("    {v},\n")).collect();
        self.raw(key, &format!("[\n{lines}]"));
    }
}

/// A key as it stands in a heading.
pub(crate) fn key(name: &str) -> String {
    let bare = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if !name.is_empty() && name.chars().all(bare) {
        name.into()
    } else {
        quoted(name)
    }
}

/// Text in quotation marks; line breaks are kept readable.
pub(crate) fn quoted(text: &str) -> String {
    let lines = text.contains('\n');
    let mut out = String::from(if lines { "\"\"\"\n" } else { "\"" });
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push('\n'),
            '\t' => out.push('\t'),
            c if c.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push_str(if lines { "\"\"\"" } else { "\"" });
    out
}

/// A length in a unit.
pub(crate) fn number(unit: Unit, length: Length) -> String {
    shortest(unit.number(length))
}

/// An angle in degrees.
pub(crate) fn degrees(angle: Angle) -> String {
    shortest(angle.as_deg())
}

/// The fewest decimals that are the same number but for its last bits, which going
/// from inches to millimetres and back may change.
pub(crate) fn shortest(value: f64) -> String {
    for places in 0..=17 {
        let text = format!("{value:.places$}");
        let close = |read: f64| (read - value).abs() <= 4e-15 * value.abs();
        if text.parse().is_ok_and(close) {
            return if text == "-0" { "0".into() } else { text };
        }
    }
    format!("{value}")
}
