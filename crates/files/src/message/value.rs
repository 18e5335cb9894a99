//! What fills a blank of a message.

use geometry::{Angle, Length};

use super::{Amount, Language, Message};
use crate::units::{Unit, degrees, fixed};

/// To which side a figure is rounded to what the reader's rule or calliper shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Round {
    /// To the nearest step.
    Nearest,
    /// Up: the smallest figure that is at least as large.
    Up,
    /// Down: the largest figure that is at most as large.
    Down,
}

/// A length as it is read off the reader's rule or calliper, in either unit.
#[derive(Debug, Clone, Copy)]
pub struct Reading {
    mm: Length,
    inch: Length,
    fine: bool,
    round: Round,
}

impl Reading {
    /// The same question answered for a reader of each unit; nothing if it has no answer
    /// for one of them. `fine` lengths are read off a calliper.
    ///
    /// ```
    /// use files::message::{Reading, at_least};
    /// use files::units::Unit;
    /// use geometry::Length;
    ///
    /// let least = Length::mm(31.21);
    /// let read = Reading::tried(false, |unit| {
    ///     let length = at_least(least, unit.step());
    ///     (length.as_mm() < 32.0).then_some(length)
    /// });
    /// let shown = |unit: Unit| read.map(|r| unit.length(r.length(unit)));
    /// assert_eq!(shown(Unit::Mm).as_deref(), Some("31.3 mm"));
    /// assert_eq!(shown(Unit::Inch).as_deref(), Some("1 15/64 in"));
    /// ```
    pub fn tried(fine: bool, answer: impl Fn(Unit) -> Option<Length>) -> Option<Reading> {
        Some(Reading {
            mm: answer(Unit::Mm)?,
            inch: answer(Unit::Inch)?,
            fine,
            round: Round::Nearest,
        })
    }

    /// A length rounded to one side, off a rule or (`fine`) a calliper.
    pub fn rounded(length: Length, round: Round, fine: bool) -> Reading {
        Reading {
            mm: rounded(length, round, fine, Unit::Mm),
            inch: rounded(length, round, fine, Unit::Inch),
            fine,
            round,
        }
    }

    /// What a reader of a unit reads, for every reader.
    pub const fn of(self, unit: Unit) -> Reading {
        let length = self.length(unit);
        Reading {
            mm: length,
            inch: length,
            ..self
        }
    }

    /// The side to which it was rounded: the one on which it does.
    pub const fn round(self) -> Round {
        self.round
    }

    /// It in words, with the unit.
    pub fn show(self, unit: Unit) -> String {
        if self.fine {
            unit.fine(self.length(unit))
        } else {
            unit.length(self.length(unit))
        }
    }

    /// The smallest figure on a rule that is not below a length.
    pub fn up(length: Length) -> Reading {
        Reading::rounded(length, Round::Up, false)
    }

    /// The largest figure on a rule that is not above a length.
    pub fn down(length: Length) -> Reading {
        Reading::rounded(length, Round::Down, false)
    }

    /// The figure on a rule that is nearest to a length.
    pub fn nearest(length: Length) -> Reading {
        Reading::rounded(length, Round::Nearest, false)
    }

    /// As [`Reading::up`] on a calliper.
    pub fn up_fine(length: Length) -> Reading {
        Reading::rounded(length, Round::Up, true)
    }

    /// As [`Reading::down`] on a calliper.
    pub fn down_fine(length: Length) -> Reading {
        Reading::rounded(length, Round::Down, true)
    }

    /// The same if what every reader reads does.
    pub fn where_each(self, does: impl Fn(Length) -> bool) -> Option<Reading> {
        (does(self.mm) && does(self.inch)).then_some(self)
    }

    /// What a reader of a unit reads.
    pub const fn length(self, unit: Unit) -> Length {
        match unit {
            Unit::Mm => self.mm,
            Unit::Inch => self.inch,
        }
    }
}

/// What fills a blank.
#[derive(Debug, Clone)]
pub enum Value {
    /// A value in the reader's unit, to the nearest step.
    Amount(Amount),
    /// A length read off a rule, or (`true`) off a calliper, rounded to one side.
    Rounded(Length, Round, bool),
    /// A length as each unit's readers read it.
    Reading(Reading),
    /// A difference: small ones are read off a calliper.
    By(Length),
    /// An angle with so many decimals.
    Degrees(Angle, usize),
    /// A number with so many decimals.
    Number(f64, usize),
    /// The maker's own words: never respelled, never a template.
    Name(String),
    /// A message within the message.
    Message(Box<Message>),
    /// `a, b and c`.
    List(Vec<Message>),
    /// Messages in a row, with the same words between each two.
    Joined(Vec<Message>, &'static str),
    /// A length off a rule without its unit, which is named beside it.
    Bare(Length),
    /// What is said differently to a reader of mm and to one of inches.
    PerUnit(Box<[Message; 2]>),
}

impl Value {
    /// A name that the maker gave, or words that are in no language.
    pub fn name(name: impl Into<String>) -> Self {
        Value::Name(name.into())
    }

    /// A length read off a calliper.
    pub const fn fine(length: Length) -> Self {
        Value::Amount(Amount::Fine(length))
    }

    /// The smallest figure on a rule that is not below a length.
    pub const fn up(length: Length) -> Self {
        Value::Rounded(length, Round::Up, false)
    }

    /// The largest figure on a rule that is not above a length.
    pub const fn down(length: Length) -> Self {
        Value::Rounded(length, Round::Down, false)
    }

    /// As [`Value::up`] on a calliper.
    pub const fn up_fine(length: Length) -> Self {
        Value::Rounded(length, Round::Up, true)
    }

    /// As [`Value::down`] on a calliper.
    pub const fn down_fine(length: Length) -> Self {
        Value::Rounded(length, Round::Down, true)
    }

    /// The figure on a rule that is nearest to a length.
    pub const fn nearest(length: Length) -> Self {
        Value::Rounded(length, Round::Nearest, false)
    }

    /// An angle to a tenth of a degree.
    pub const fn tenth(angle: Angle) -> Self {
        Value::Degrees(angle, 1)
    }

    /// Several messages as a list in words.
    pub fn list(messages: impl IntoIterator<Item = Message>) -> Self {
        Value::List(messages.into_iter().collect())
    }

    /// What each unit's readers are told: for words that hang on the unit itself.
    ///
    /// ```
    /// use files::{message::Value, say, units::Unit};
    /// let table = Value::per_unit(|unit| match unit {
    ///     Unit::Mm => say!("mm"),
    ///     Unit::Inch => say!("inches"),
    /// });
    /// assert_eq!(say!("heights in {unit}", unit = table).said(Unit::Inch), "heights in inches");
    /// ```
    pub fn per_unit(words: impl Fn(Unit) -> Message) -> Self {
        Value::PerUnit(Box::new([words(Unit::Mm), words(Unit::Inch)]))
    }

    pub(super) fn write(&self, out: &mut String, language: Language) {
        let unit = language.unit;
        match self {
            Value::Amount(amount) => out.push_str(&amount.show(language)),
            Value::Rounded(length, round, fine) => {
                let rounded = rounded(*length, *round, *fine, unit);
                out.push_str(&if *fine {
                    unit.fine(rounded)
                } else {
                    unit.length(rounded)
                });
            }
            Value::Reading(reading) => out.push_str(&reading.show(unit)),
            Value::By(length) if length.exceeds(unit.step() * 10.0) => {
                out.push_str(&unit.length(*length));
            }
            Value::By(length) => out.push_str(&unit.fine(*length)),
            Value::Degrees(angle, places) => out.push_str(&degrees(*angle, *places)),
            Value::Number(number, places) => out.push_str(&fixed(*number, *places)),
            Value::Name(name) => out.push_str(name),
            Value::Message(message) => message.write(out, language),
            Value::Bare(length) => out.push_str(&unit.length_bare(*length)),
            Value::PerUnit(words) => match unit {
                Unit::Mm => words[0].write(out, language),
                Unit::Inch => words[1].write(out, language),
            },
            Value::Joined(all, between) => {
                for (i, message) in all.iter().enumerate() {
                    if i > 0 {
                        language.spelling.write(out, between);
                    }
                    message.write(out, language);
                }
            }
            Value::List(all) => {
                for (i, message) in all.iter().enumerate() {
                    match all.len() - i {
                        _ if i == 0 => {}
                        1 => out.push_str(" and "),
                        _ => out.push_str(", "),
                    }
                    message.write(out, language);
                }
            }
        }
    }
}

/// A length as a rule, or (`fine`) a calliper, shows it in a unit.
pub(crate) fn rounded(length: Length, round: Round, fine: bool, unit: Unit) -> Length {
    let step = if fine { unit.fine_step() } else { unit.step() };
    match round {
        Round::Nearest => step * (length.as_mm() / step.as_mm()).round(),
        Round::Up => at_least(length, step),
        Round::Down => at_most(length, step),
    }
}

/// The smallest whole number of steps that is not below a length; what rounding has added
/// to it is not one more.
///
/// ```
/// use files::message::at_least;
/// use geometry::Length;
/// let up = at_least(Length::mm(31.21), Length::mm(0.1));
/// assert!(up.within(Length::mm(31.3), Length::mm(1e-9)));
/// ```
pub fn at_least(length: Length, step: Length) -> Length {
    step * (length.as_mm() / step.as_mm() - 1e-6).ceil()
}

/// The largest whole number of steps that is not above a length.
pub fn at_most(length: Length, step: Length) -> Length {
    -at_least(-length, step)
}

impl From<Amount> for Value {
    fn from(amount: Amount) -> Self {
        Value::Amount(amount)
    }
}

impl From<Reading> for Value {
    fn from(reading: Reading) -> Self {
        Value::Reading(reading)
    }
}

/// A length read off a rule, to the nearest step.
impl From<Length> for Value {
    fn from(length: Length) -> Self {
        Value::Amount(Amount::Length(length))
    }
}

/// An angle to a hundredth of a degree.
impl From<Angle> for Value {
    fn from(angle: Angle) -> Self {
        Value::Amount(Amount::Angle(angle))
    }
}

impl From<usize> for Value {
    fn from(count: usize) -> Self {
        Value::Amount(Amount::Count(count))
    }
}

impl From<Message> for Value {
    fn from(message: Message) -> Self {
        Value::Message(Box::new(message))
    }
}

/// The program's own words.
impl From<&'static str> for Value {
    fn from(words: &'static str) -> Self {
        Value::Message(Box::new(Message::plain(words)))
    }
}
