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

/// What fills a blank.
#[derive(Debug, Clone)]
pub enum Value {
    /// A value in the reader's unit, to the nearest step.
    Amount(Amount),
    /// A length read off a rule, or (`true`) off a calliper, rounded to one side.
    Rounded(Length, Round, bool),
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

    /// An angle to a tenth of a degree.
    pub const fn tenth(angle: Angle) -> Self {
        Value::Degrees(angle, 1)
    }

    /// Several messages as a list in words.
    pub fn list(messages: impl IntoIterator<Item = Message>) -> Self {
        Value::List(messages.into_iter().collect())
    }

    pub(super) fn write(&self, out: &mut String, language: Language) {
        let unit = language.unit;
        match self {
            Value::Amount(amount) => out.push_str(&amount.show(unit)),
            Value::Rounded(length, round, fine) => {
                let rounded = rounded(*length, *round, *fine, unit);
                out.push_str(&if *fine {
                    unit.fine(rounded)
                } else {
                    unit.length(rounded)
                });
            }
            Value::By(length) if length.exceeds(unit.step() * 10.0) => {
                out.push_str(&unit.length(*length));
            }
            Value::By(length) => out.push_str(&unit.fine(*length)),
            Value::Degrees(angle, places) => out.push_str(&degrees(*angle, *places)),
            Value::Number(number, places) => out.push_str(&fixed(*number, *places)),
            Value::Name(name) => out.push_str(name),
            Value::Message(message) => message.write(out, language),
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
