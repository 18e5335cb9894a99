//! What the program has to say, before it is said.
//!
//! A [`Message`] is a template with typed values, written with [`say!`](crate::say) where
//! it is found. It becomes words at the edge, in one reader's [`Language`]: unit and
//! spelling. What is found is therefore worked out once, whoever reads it, and nothing
//! ever has to read the words again.
//!
//! ```
//! use files::message::{Language, Spelling, Value};
//! use files::say;
//! use files::units::Unit;
//! use geometry::Length;
//!
//! let found = say!(
//!     "the mitre of {ring} is open by {gap}; a board of at least {width} closes it",
//!     ring = Value::name("ring 4 (centre)"),
//!     gap = Value::fine(Length::mm(0.254)),
//!     width = Value::up(Length::mm(31.21)),
//! );
//! let british = Language::new(Unit::Mm, Spelling::British);
//! assert_eq!(
//!     found.said(british),
//!     "the mitre of ring 4 (centre) is open by 0.25 mm; a board of at least 31.3 mm closes it"
//! );
//! // The maker's own names are never respelled.
//! let american = Language::new(Unit::Inch, Spelling::American);
//! assert_eq!(
//!     found.said(american),
//!     "the miter of ring 4 (centre) is open by 0.010 in; a board of at least 1 15/64 in closes it"
//! );
//! ```

mod amount;
mod spelling;
mod value;
mod wording;

use std::borrow::Cow;

pub use amount::Amount;
pub use spelling::Spelling;
pub use value::{Reading, Round, Value, at_least, at_most};
pub use wording::{Said, Unsaid, Wording, said_all};

use crate::units::Unit;

/// How one reader is spoken to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Language {
    /// The unit of every figure.
    pub unit: Unit,
    /// How words are spelled.
    pub spelling: Spelling,
}

impl Language {
    /// A unit and a spelling.
    pub const fn new(unit: Unit, spelling: Spelling) -> Self {
        Language { unit, spelling }
    }
}

impl From<Unit> for Language {
    /// A unit with the spelling of those who use it.
    fn from(unit: Unit) -> Self {
        Language::new(unit, Spelling::of(unit))
    }
}

/// A template with the values of its blanks.
///
/// Made with [`say!`](crate::say), which holds blanks and values against each other when
/// it is compiled.
#[derive(Debug, Clone, Default)]
pub struct Message {
    template: Cow<'static, str>,
    values: Vec<(&'static str, Value)>,
}

impl Message {
    /// A template and its values: what [`say!`](crate::say) writes.
    #[doc(hidden)]
    pub fn of_parts(template: &'static str, values: Vec<(&'static str, Value)>) -> Self {
        Message {
            template: Cow::Borrowed(template),
            values,
        }
    }

    /// Words without any blank, such as a label that stands in a table.
    pub const fn plain(words: &'static str) -> Self {
        Message {
            template: Cow::Borrowed(words),
            values: Vec::new(),
        }
    }

    /// A name that the maker gave, or words that are in no language.
    pub fn name(name: impl Into<String>) -> Self {
        Message::of_parts("{name}", vec![("name", Value::name(name))])
    }

    /// Several messages in a row, with the same words between each two.
    ///
    /// ```
    /// use files::{message::Message, say, units::Unit};
    /// let days = Message::joined([say!("day {n}", n = 1_usize), say!("rest")], "; ");
    /// assert_eq!(days.said(Unit::Mm), "day 1; rest");
    /// ```
    pub fn joined(messages: impl IntoIterator<Item = Message>, between: &'static str) -> Self {
        let all = Value::Joined(messages.into_iter().collect(), between);
        Message::of_parts("{all}", vec![("all", all)])
    }

    /// Is there nothing to say?
    pub fn is_empty(&self) -> bool {
        self.template.is_empty()
    }

    /// The words, in a reader's language.
    pub fn said(&self, language: impl Into<Language>) -> String {
        let mut out = String::with_capacity(self.template.len() + 16 * self.values.len());
        self.write(&mut out, language.into());
        out
    }

    fn write(&self, out: &mut String, language: Language) {
        let mut rest: &str = &self.template;
        // A template was held against its values when it was compiled; `{{` and `}}` are
        // braces, as in `format!`.
        while let Some(at) = rest.find(['{', '}']) {
            language.spelling.write(out, &rest[..at]);
            let doubled = rest[at + 1..].starts_with(&rest[at..=at]);
            if doubled {
                out.push_str(&rest[at..=at]);
                rest = &rest[at + 2..];
                continue;
            }
            let end = rest[at..].find('}').map_or(rest.len(), |e| at + e);
            let name = rest.get(at + 1..end).unwrap_or("");
            if let Some((_, value)) = self.values.iter().find(|(n, _)| *n == name) {
                value.write(out, language);
            }
            rest = rest.get(end + 1..).unwrap_or("");
        }
        language.spelling.write(out, rest);
    }
}

/// A single value, said by itself.
impl From<Value> for Message {
    fn from(value: Value) -> Self {
        Message::of_parts("{value}", vec![("value", value)])
    }
}

impl From<&'static str> for Message {
    fn from(words: &'static str) -> Self {
        Message::plain(words)
    }
}

/// A [`Message`](crate::message::Message): a template, and a value for each of its blanks.
///
/// Blanks are `{name}`; every one needs its value and every value its blank, or it does not
/// compile. Values are anything that is [`Into`]`<`[`Value`](crate::message::Value)`>`.
///
/// ```compile_fail
/// use files::say;
/// let _ = say!("a board {width} wide", depth = 3_usize);
/// ```
#[macro_export]
macro_rules! say {
    ($template:literal $(, $name:ident = $value:expr)* $(,)?) => {{
        // Compiled for its checks only: a blank without a value, a value without a blank.
        let _ = ::core::format_args!($template $(, $name = "")*);
        $crate::message::Message::of_parts(
            $template,
            ::std::vec![$((stringify!($name), $crate::message::Value::from($value))),*],
        )
    }};
}

#[cfg(test)]
mod tests {
    use geometry::{Angle, Length};

    use super::*;

    const MM: Language = Language::new(Unit::Mm, Spelling::British);

    #[test]
    fn blanks_are_filled_and_braces_kept() {
        let m = say!("{{{n}}} of {n}, {a}", n = 3_usize, a = Angle::deg(7.5));
        assert_eq!(m.said(MM), "{3} of 3, 7.50°");
        assert_eq!(say!("nothing to fill").said(MM), "nothing to fill");
        assert!(Message::default().is_empty());
    }

    #[test]
    fn a_name_with_braces_is_not_a_template() {
        let m = say!("section {name}", name = Value::name("{width}"));
        assert_eq!(m.said(MM), "section {width}");
    }

    #[test]
    fn messages_stand_in_messages_and_lists() {
        let inner = say!("{l} wide", l = Length::mm(31.0));
        let list = Value::list([say!("one"), say!("two"), inner]);
        let m = say!("make it {list}", list = list);
        assert_eq!(m.said(MM), "make it one, two and 31.0 mm wide");
    }
}
