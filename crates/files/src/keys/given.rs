//! A value and who gave it.

use std::ops::Deref;

use serde::Serialize;

use super::slot::{Around, Pass, Slot};
use super::{Key, Setting};
use crate::key::KeyPath;
use crate::reader::Table;
use crate::write::Text;

/// Who gave a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Giver {
    /// The project's file.
    File,
    /// The workshop's file.
    Workshop,
    /// Nobody: it is common practice.
    CommonPractice,
    /// It follows from the form.
    Form,
    /// It was measured at the bench.
    Measured,
}

/// A value and who gave it.
///
/// ```
/// use files::keys::Giver;
/// use files::read::read_workshop;
/// let text = "ringwright = 1\nunit = \"mm\"\n[lathe]\nswing = 350\n";
/// let lathe = read_workshop(text).0.map(|shop| shop.lathe).unwrap_or_default();
/// assert_eq!(lathe.swing.by, Giver::Workshop);
/// assert_eq!(lathe.length.by, Giver::CommonPractice);
/// assert_eq!(lathe.length.as_mm(), 600.0);
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// Who gave it.
    pub by: Giver,
}

impl<T> Given<T> {
    /// A value of common practice.
    pub const fn usual(value: T) -> Self {
        Given {
            value,
            by: Giver::CommonPractice,
        }
    }

    /// A value that follows from the form.
    pub const fn by_form(value: T) -> Self {
        Given {
            value,
            by: Giver::Form,
        }
    }

    /// Does a file or a measurement say so?
    pub const fn is_said(&self) -> bool {
        !matches!(self.by, Giver::CommonPractice | Giver::Form)
    }

    /// The value of something made from it, by the same giver.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Given<U> {
        Given {
            value: change(self.value),
            by: self.by,
        }
    }

    /// What is said here, else what is given there.
    pub fn or(self, other: Given<T>) -> Given<T> {
        if self.is_said() { self } else { other }
    }
}

impl<T> Deref for Given<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T: Slot + Clone> Slot for Given<T> {
    fn usual(key: Option<&Key>) -> Self {
        Given::usual(T::usual(key))
    }

    fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
        if table.has(key.name) {
            self.by = around.by;
        }
        self.value.read(table, key, around);
    }

    fn write(&self, key: &Key, pass: Pass, out: &mut Text) {
        let lines = |value: &T, pass: Pass| {
            let mut text = Text::new(out.unit());
            value.write_said(key, pass, &mut text);
            text.done()
        };
        let both = |value: &T| [Pass::Values, Pass::Tables].map(|pass| lines(value, pass));
        let said = both(&self.value);
        if !self.is_said() && said == both(&T::usual(Some(key))) {
            return;
        }
        let nothing = said.iter().all(String::is_empty);
        let [values, tables] = said;
        match pass {
            // No table at all is said by an empty list, which headings cannot be.
            Pass::Values if nothing && key.quantity.table().is_some() => out.raw(key.name, "[]"),
            Pass::Values => out.push(&values),
            Pass::Tables => out.push(&tables),
        }
    }

    fn clear(&mut self) {
        self.value.clear();
    }

    fn over(&self, under: &mut Self) {
        if self.is_said() {
            *under = self.clone();
        }
    }

    fn settings(&self, path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let from = out.len();
        self.value.settings(path, key, out);
        for setting in &mut out[from..] {
            setting.by = Some(self.by);
        }
    }
}
