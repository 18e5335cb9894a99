//! Lines of TOML.

use std::fmt::Write as _;

use geometry::{Angle, Length};

use crate::units::Unit;

/// Longest line of a list before it is spread over several.
const WIDEST: usize = 88;

pub(super) struct Text {
    unit: Unit,
    out: String,
}

impl Text {
    pub fn new(unit: Unit) -> Self {
        Text {
            unit,
            out: String::new(),
        }
    }

    pub fn unit(&self) -> Unit {
        self.unit
    }

    pub fn done(self) -> String {
        self.out
    }

    pub fn heading(&mut self, heading: &str) {
        // Writing to a String cannot fail, here and below.
        let _ = writeln!(self.out, "\n{heading}");
    }

    pub fn raw(&mut self, key: &str, value: &str) {
        let _ = writeln!(self.out, "{key} = {value}");
    }

    pub fn whole(&mut self, key: &str, value: Option<usize>) {
        if let Some(value) = value {
            self.raw(key, &value.to_string());
        }
    }

    pub fn figure(&mut self, key: &str, value: Option<f64>) {
        if let Some(value) = value {
            self.raw(key, &format!("{value}"));
        }
    }

    pub fn length(&mut self, key: &str, value: Option<Length>) {
        if let Some(value) = value {
            let number = number(self.unit, value);
            self.raw(key, &number);
        }
    }

    pub fn angle(&mut self, key: &str, value: Option<Angle>) {
        if let Some(value) = value {
            self.raw(key, &degrees(value));
        }
    }

    /// Written only where true.
    pub fn flag(&mut self, key: &str, value: bool) {
        self.either(key, value.then_some(true));
    }

    pub fn either(&mut self, key: &str, value: Option<bool>) {
        if let Some(value) = value {
            self.raw(key, if value { "true" } else { "false" });
        }
    }

    pub fn word(&mut self, key: &str, value: Option<&str>) {
        if let Some(value) = value {
            self.raw(key, &quoted(value));
        }
    }

    /// Nothing, one text, or a list of texts.
    pub fn words(&mut self, key: &str, values: &[String]) {
        match values {
            [] => {}
            [one] => self.word(key, Some(one)),
            many => self.list(key, many.iter().map(|v| quoted(v))),
        }
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
pub(super) fn key(name: &str) -> String {
    let bare = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    if !name.is_empty() && name.chars().all(bare) {
        name.into()
    } else {
        quoted(name)
    }
}

/// Text in quotation marks; line breaks are kept readable.
pub(super) fn quoted(text: &str) -> String {
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
pub(super) fn number(unit: Unit, length: Length) -> String {
    shortest(unit.number(length))
}

/// An angle in degrees.
pub(super) fn degrees(angle: Angle) -> String {
    shortest(angle.as_deg())
}

/// The fewest decimals that are the same number but for its last bits, which going
/// from inches to millimetres and back may change.
pub(super) fn shortest(value: f64) -> String {
    for places in 0..=17 {
        let text = format!("{value:.places$}");
        let close = |read: f64| (read - value).abs() <= 4e-15 * value.abs();
        if text.parse().is_ok_and(close) {
            return if text == "-0" { "0".into() } else { text };
        }
    }
    format!("{value}")
}
