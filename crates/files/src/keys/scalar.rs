//! Single values, read and written by what their key takes.

use geometry::{Angle, Length};

use super::slot::Around;
use super::{Fixed, Key, Quantity, Value, Word};
use crate::design::id;
use crate::read::FORMAT;
use crate::reader::Item;
use crate::units::Unit;
use crate::wood::Colour;
use crate::write::{degrees, number, quoted, shortest};

/// A single value.
pub(crate) trait Scalar: Sized {
    /// The value of the file, if it is one that the key takes; what is wrong is told.
    fn read(item: &Item<'_>, key: &Key, around: &Around<'_>) -> Option<Self>;
    /// The value as TOML, in the file's unit.
    fn text(&self, key: &Key, unit: Unit) -> String;
    /// The value for whoever shows it.
    fn value(&self) -> Value;
    /// The value that stands in the table.
    fn of(fixed: Fixed) -> Option<Self>;
    /// What stands where a value is missing that must be there.
    fn blank() -> Self;
}

impl Scalar for Length {
    fn read(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Option<Self> {
        match key.quantity {
            Quantity::Length(range) => item.length(&range),
            _ => None,
        }
    }

    fn text(&self, _key: &Key, unit: Unit) -> String {
        number(unit, *self)
    }

    fn value(&self) -> Value {
        Value::Length(*self)
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Length(length) => Some(length),
            _ => None,
        }
    }

    fn blank() -> Self {
        Length::ZERO
    }
}

impl Scalar for Angle {
    fn read(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Option<Self> {
        match key.quantity {
            Quantity::Angle(range) => item.angle(&range),
            // Half a segment is what is taken where nothing is said.
            Quantity::Turn(_) if item.is_word("half") => None,
            Quantity::Turn(_) if item.is_text() => {
                item.trouble("no such turn", "write degrees as a number, or \"half\"");
                None
            }
            Quantity::Turn(range) => item.angle(&range),
            _ => None,
        }
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        degrees(*self)
    }

    fn value(&self) -> Value {
        Value::Angle(*self)
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Angle(angle) => Some(angle),
            _ => None,
        }
    }

    fn blank() -> Self {
        Angle::ZERO
    }
}

impl Scalar for usize {
    fn read(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Option<Self> {
        match key.quantity {
            Quantity::Count(range) => item.whole(&range),
            Quantity::Rings(_) if item.is_word("auto") => None,
            Quantity::Rings(_) if item.is_text() => {
                item.trouble("no such choice", "write how many rings, or \"auto\"");
                None
            }
            Quantity::Rings(range) => item.whole(&range),
            _ => None,
        }
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        self.to_string()
    }

    fn value(&self) -> Value {
        Value::Count(*self)
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Count(count) => Some(count),
            _ => None,
        }
    }

    fn blank() -> Self {
        0
    }
}

impl Scalar for f64 {
    fn read(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Option<Self> {
        match key.quantity {
            Quantity::Number(range) => item.figure(&range),
            Quantity::Scaled(scale, metric, inch) => {
                let unit = item.unit();
                let range = match unit {
                    Unit::Mm => metric,
                    Unit::Inch => inch,
                };
                item.figure(&range)
                    .map(|figure| scale.of_file(figure, unit))
            }
            _ => None,
        }
    }

    fn text(&self, key: &Key, unit: Unit) -> String {
        match key.quantity {
            Quantity::Scaled(scale, ..) => shortest(scale.to_file(*self, unit)),
            _ => shortest(*self),
        }
    }

    fn value(&self) -> Value {
        Value::Number(*self)
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Number(number) => Some(number),
            _ => None,
        }
    }

    fn blank() -> Self {
        0.0
    }
}

impl Scalar for bool {
    fn read(item: &Item<'_>, _key: &Key, _around: &Around<'_>) -> Option<Self> {
        item.flag()
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        self.to_string()
    }

    fn value(&self) -> Value {
        Value::Flag(*self)
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Flag(flag) => Some(flag),
            _ => None,
        }
    }

    fn blank() -> Self {
        false
    }
}

impl Scalar for String {
    fn read(item: &Item<'_>, key: &Key, around: &Around<'_>) -> Option<Self> {
        match key.quantity {
            Quantity::Colour => colour(item),
            Quantity::Id => item.text().and_then(|text| id::read(item, text)),
            Quantity::ListedWood => item.listed_wood(),
            Quantity::Wood => item.known_wood(around.woods),
            Quantity::Text(most) => item.text_up_to(most),
            _ => item.text(),
        }
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        quoted(self)
    }

    fn value(&self) -> Value {
        Value::Word(self.clone())
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Word(word) => Some(word.into()),
            _ => None,
        }
    }

    fn blank() -> Self {
        String::new()
    }
}

fn colour(item: &Item<'_>) -> Option<String> {
    let text = item.text()?;
    if Colour::parse(&text).is_none() {
        item.trouble(
            "this is not a colour",
            "write # and six digits, as in \"#8a4a2c\"",
        );
        return None;
    }
    Some(text)
}

/// The file format that this program reads and writes.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Format;

impl Scalar for Format {
    fn read(item: &Item<'_>, _key: &Key, _around: &Around<'_>) -> Option<Self> {
        // A newer format has been refused before any key is read.
        (item.plain_whole() == Some(FORMAT)).then_some(Format)
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        FORMAT.to_string()
    }

    fn value(&self) -> Value {
        Value::Count(FORMAT)
    }

    fn of(_fixed: Fixed) -> Option<Self> {
        None
    }

    fn blank() -> Self {
        Format
    }
}

/// An enum of the words that a key takes.
pub(crate) trait Words: Copy + PartialEq + 'static {
    /// Every value.
    const ALL: &'static [Self];
    /// The word of each, in the same order.
    const WORDS: &'static [Word];

    /// The word of a value.
    fn spelled(self) -> &'static str {
        let at = Self::ALL.iter().position(|value| *value == self);
        // Both lists come from one declaration, so the first is never needed.
        Self::WORDS[at.unwrap_or(0)].word
    }

    /// The value of a word.
    fn of_word(word: &str) -> Option<Self> {
        let at = Self::WORDS.iter().position(|w| w.word == word)?;
        Self::ALL.get(at).copied()
    }
}

impl<T: Words> Scalar for T {
    fn read(item: &Item<'_>, key: &Key, _around: &Around<'_>) -> Option<Self> {
        // A key may take some of the words only.
        let taken = |word: &Word| match key.quantity {
            Quantity::Choice(words) => words.contains(word),
            _ => true,
        };
        let words: Vec<(&str, T)> = T::WORDS
            .iter()
            .zip(T::ALL)
            .filter(|(word, _)| taken(word))
            .map(|(word, value)| (word.word, *value))
            .collect();
        item.choice(&words)
    }

    fn text(&self, _key: &Key, _unit: Unit) -> String {
        quoted(self.spelled())
    }

    fn value(&self) -> Value {
        Value::Word(self.spelled().into())
    }

    fn of(fixed: Fixed) -> Option<Self> {
        match fixed {
            Fixed::Word(word) => T::of_word(word),
            _ => None,
        }
    }

    fn blank() -> Self {
        T::ALL[0]
    }
}
