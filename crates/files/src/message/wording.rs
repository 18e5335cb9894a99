//! Words before and after they are said.

use std::fmt::Debug;

use super::{Language, Message};

/// Whether the words of a value are messages still, or were said in one reader's language.
///
/// A value with words in it is declared once, for both: worked out [`Unsaid`], printed
/// [`Said`].
///
/// ```
/// use files::message::{Language, Message, Said, Spelling, Unsaid, Wording};
/// use files::say;
/// use files::units::Unit;
///
/// struct Label<W: Wording>(W::Text);
///
/// impl Label<Unsaid> {
///     fn said(&self, language: Language) -> Label<Said> {
///         Label(self.0.said(language))
///     }
/// }
///
/// let label = Label::<Unsaid>(say!("centre of the mitre"));
/// let american = Language::new(Unit::Inch, Spelling::American);
/// assert_eq!(label.said(american).0, "center of the miter");
/// ```
pub trait Wording: Debug + Clone + Copy + Default {
    /// Words.
    type Text: Debug + Clone + Default;
    /// A value written out beside its number; nothing before it is said.
    type Shown: Debug + Clone + Default;
}

/// Messages, for whoever reads them.
#[derive(Debug, Clone, Copy, Default)]
pub struct Unsaid;

/// Words in the unit and spelling of one reader.
#[derive(Debug, Clone, Copy, Default)]
pub struct Said;

impl Wording for Unsaid {
    type Text = Message;
    type Shown = ();
}

impl Wording for Said {
    type Text = String;
    type Shown = String;
}

/// Says every message of a list.
pub fn said_all(messages: &[Message], language: Language) -> Vec<String> {
    messages.iter().map(|m| m.said(language)).collect()
}
