//! One value of a file, read as what it should be.

use std::ops::Range;

use toml::de::DeValue;

use super::table::heading;
use super::{Log, Table};
use crate::key::{KeyPath, Step};
use crate::keys::{Counts, Numbers};
use crate::units::{Unit, fixed};

/// Longest name or title, characters: more fits no line of a plan, a drawing or a page,
/// each of which repeats it.
pub(crate) const LONGEST_NAME: usize = 200;
/// Longest text of several lines, characters: about ten printed pages.
pub(crate) const LONGEST_TEXT: usize = 20_000;

/// A value with its place and what to call it.
pub(crate) struct Item<'a> {
    pub(super) log: &'a Log<'a>,
    pub(super) value: &'a DeValue<'a>,
    pub(super) bytes: Range<usize>,
    /// `section[0].stock`.
    pub path: KeyPath,
    /// `stock`, or `point 3 of outer`.
    pub label: String,
}

/// A number of either kind, or why it is none.
pub(super) enum Number {
    Is(f64),
    IsNot(&'static str),
    Other,
}

impl<'a> Item<'a> {
    /// Tells a trouble with this value.
    pub fn trouble(&self, what: &str, remedy: &str) {
        self.log.problem(
            self.bytes.clone(),
            &self.path,
            format!("{} = {}: {what}", self.label, self.shown()),
            remedy.into(),
        );
    }

    /// A whole number within a range.
    pub fn whole(&self, range: &Counts) -> Option<usize> {
        let value = match self.number() {
            Number::Is(number) => number,
            Number::IsNot(_) => f64::INFINITY,
            Number::Other => {
                self.trouble(
                    &format!("this is {}, not a number", self.kind()),
                    &format!(
                        "write a whole number from {} to {}, without quotation marks",
                        range.least, range.most
                    ),
                );
                return None;
            }
        };
        let fits = value >= range.least as f64 && value <= range.most as f64;
        if !fits || value.fract() != 0.0 {
            self.trouble(
                range.rule,
                &format!(
                    "write a whole number from {} to {}",
                    range.least, range.most
                ),
            );
            return None;
        }
        Some(value as usize)
    }

    /// A number within a range.
    pub fn figure(&self, range: &Numbers) -> Option<f64> {
        match self.number() {
            Number::Is(number) if number >= range.least && number <= range.most => Some(number),
            Number::Other => {
                self.trouble(
                    &format!("this is {}, not a number", self.kind()),
                    &format!("write {} as a number", range.in_what),
                );
                None
            }
            _ => {
                self.trouble(
                    &format!(
                        "{} is {} to {} {}",
                        range.of,
                        plain(range.least),
                        plain(range.most),
                        range.in_what
                    ),
                    "write a number in that range",
                );
                None
            }
        }
    }

    /// A name, a title or a word that says something.
    pub fn text(&self) -> Option<String> {
        self.text_up_to(LONGEST_NAME)
    }

    /// Text that says something in so many characters at most.
    pub fn text_up_to(&self, most: usize) -> Option<String> {
        match self.value {
            DeValue::String(text) if text.chars().nth(most).is_some() => {
                self.trouble(
                    &format!("this is longer than {most} characters"),
                    "make it shorter",
                );
                None
            }
            DeValue::String(text) if text.trim().is_empty() => {
                self.trouble("this says nothing", "write a word or leave the key out");
                None
            }
            DeValue::String(text) => Some(text.to_string()),
            _ => {
                self.trouble(
                    &format!("this is {}, not text", self.kind()),
                    "write text in quotation marks",
                );
                None
            }
        }
    }

    /// `true` or `false`.
    pub fn flag(&self) -> Option<bool> {
        match self.value {
            DeValue::Boolean(flag) => Some(*flag),
            _ => {
                self.trouble(
                    &format!("this is {}, not true or false", self.kind()),
                    "write true or false, without quotation marks",
                );
                None
            }
        }
    }

    /// One of a few words.
    pub fn choice<T: Copy>(&self, words: &[(&str, T)]) -> Option<T> {
        let list = || {
            let quoted: Vec<String> = words.iter().map(|(w, _)| format!("\"{w}\"")).collect();
            quoted.join(" or ")
        };
        let DeValue::String(text) = self.value else {
            self.trouble(
                &format!("this is {}, not one of the words for it", self.kind()),
                &format!("write {}", list()),
            );
            return None;
        };
        let found = words.iter().find(|(word, _)| *word == text.as_ref());
        if found.is_none() {
            self.trouble("no such choice", &format!("write {}", list()));
        }
        found.map(|(_, value)| *value)
    }

    /// The word of a text, without a trouble if it is none.
    pub fn is_word(&self, word: &str) -> bool {
        matches!(self.value, DeValue::String(text) if text.as_ref() == word)
    }

    /// Is it text at all?
    pub fn is_text(&self) -> bool {
        matches!(self.value, DeValue::String(_))
    }

    /// Is it a list?
    pub fn is_list(&self) -> bool {
        matches!(self.value, DeValue::Array(_))
    }

    /// A list's values; `one` names a value in a report.
    pub fn list(&self, one: &str, most: usize) -> Option<Vec<Item<'a>>> {
        let Some(items) = self.entries(one) else {
            self.trouble(
                &format!("this is {}, not a list", self.kind()),
                "write a list in square brackets, as in [1, 2]",
            );
            return None;
        };
        if items.len() > most {
            self.trouble(
                &format!("{} values are too many", items.len()),
                &format!("write at most {most}"),
            );
            return None;
        }
        for item in &items {
            self.log.note_place(&item.path, item.bytes.clone());
        }
        Some(items)
    }

    /// A list's values, without a trouble if it is none.
    pub fn entries(&self, one: &str) -> Option<Vec<Item<'a>>> {
        let DeValue::Array(array) = self.value else {
            return None;
        };
        let items = array.iter().enumerate().map(|(at, value)| Item {
            log: self.log,
            value: value.get_ref(),
            bytes: value.span(),
            path: self.path.entry(at),
            label: format!("{one} {} of {}", at + 1, self.label),
        });
        Some(items.collect())
    }

    /// A table's keys.
    pub fn table(&self) -> Option<Table<'a>> {
        let table = self.as_table();
        if table.is_none() {
            let heading = heading(&self.path);
            let remedy = if matches!(self.path.steps().last(), Some(Step::At(_))) {
                format!("write each as [[{heading}]] with its keys below")
            } else {
                format!("write it under a heading [{heading}] as key = value")
            };
            self.trouble(
                &format!("this is {}, not a table of keys", self.kind()),
                &remedy,
            );
        }
        table
    }

    /// A table's keys, without a trouble if it is none.
    pub fn as_table(&self) -> Option<Table<'a>> {
        let DeValue::Table(table) = self.value else {
            return None;
        };
        Some(Table::new(
            self.log,
            table,
            self.bytes.clone(),
            self.path.clone(),
        ))
    }

    /// The names under which a table has further tables.
    pub fn names_of_tables(&self) -> Vec<String> {
        let DeValue::Table(table) = self.value else {
            return Vec::new();
        };
        let tables = table.iter().filter(|(_, value)| value.get_ref().is_table());
        tables.map(|(name, _)| name.get_ref().to_string()).collect()
    }

    /// What bare numbers of the file are in.
    pub fn unit(&self) -> Unit {
        self.log.unit()
    }

    /// One text, or a list of texts.
    pub fn texts(&self, most: usize) -> Option<Vec<Item<'a>>> {
        match self.value {
            DeValue::Array(_) => self.list("name", most),
            _ => Some(vec![self.relabelled(self.label.clone())]),
        }
    }

    /// The same value called otherwise in reports.
    pub fn relabelled(&self, label: String) -> Item<'a> {
        Item {
            log: self.log,
            value: self.value,
            bytes: self.bytes.clone(),
            path: self.path.clone(),
            label,
        }
    }

    /// A whole number, without a trouble if it is none.
    pub fn plain_whole(&self) -> Option<usize> {
        match self.number() {
            // Within this range the conversion is exact.
            Number::Is(n) if n.fract() == 0.0 && (0.0..=1e9).contains(&n) => Some(n as usize),
            _ => None,
        }
    }

    /// What the file says here, as it stands.
    pub fn source(&self) -> &'a str {
        self.log.source(self.bytes.clone())
    }

    pub(super) fn number(&self) -> Number {
        let value: Option<f64> = match self.value {
            // Past 2^53 a float is no longer exact, but then it is out of any range too.
            DeValue::Integer(n) => i128::from_str_radix(n.as_str(), n.radix())
                .ok()
                .map(|n| n as f64),
            DeValue::Float(x) => x.as_str().parse().ok(),
            _ => return Number::Other,
        };
        match value {
            Some(value) if value.is_finite() => Number::Is(value),
            Some(value) if value.is_nan() => Number::IsNot("this is not a number"),
            _ => Number::IsNot("this is infinite or too large to be read"),
        }
    }

    pub(super) fn kind(&self) -> &'static str {
        match self.value {
            DeValue::String(_) => "text",
            DeValue::Integer(_) => "a number",
            DeValue::Float(x) if x.as_str().contains("nan") => "not a number (nan)",
            DeValue::Float(x) if x.as_str().contains("inf") => "infinite (inf)",
            DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date or time",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table of keys",
        }
    }

    /// The value as written, cut to fit a message.
    fn shown(&self) -> String {
        let source = self.log.source(self.bytes.clone());
        let mut words = source.split_whitespace();
        let mut out: String = words.next().unwrap_or("").chars().take(33).collect();
        for word in words {
            if out.chars().count() > 32 {
                break;
            }
            out.push(' ');
            out.extend(word.chars().take(33));
        }
        if out.chars().count() > 32 {
            out = out.chars().take(31).collect();
            out.push('…');
        }
        out.retain(|c| !c.is_control());
        out
    }
}

/// A number without needless decimals.
pub(super) fn plain(value: f64) -> String {
    if value.fract() == 0.0 {
        fixed(value, 0)
    } else {
        format!("{value}")
    }
}
