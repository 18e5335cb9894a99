//! British and American spelling of the trade's words.

use crate::units::Unit;

/// How words are spelled.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Spelling {
    /// mitre, centre, colour: as the program's own texts are written.
    #[default]
    British,
    /// miter, center, color.
    American,
}

/// Beginnings of words that differ, the longer ones first: what they are in British and
/// in American spelling. Endings follow by themselves.
const STEMS: [(&str, &str); 13] = [
    ("mitred", "mitered"),
    ("mitre", "miter"),
    ("mitring", "mitering"),
    ("calliper", "caliper"),
    ("centred", "centered"),
    ("centre", "center"),
    ("centring", "centering"),
    ("colour", "color"),
    ("grey", "gray"),
    ("mould", "mold"),
    ("anticlockwise", "counterclockwise"),
    ("millimetre", "millimeter"),
    ("fibre", "fiber"),
];

impl Spelling {
    /// The spelling of those who use a unit, unless they say otherwise.
    pub const fn of(unit: Unit) -> Self {
        match unit {
            Unit::Mm => Spelling::British,
            Unit::Inch => Spelling::American,
        }
    }

    /// The country that spells so, as language tags name it.
    pub const fn region(self) -> &'static str {
        match self {
            Spelling::British => "GB",
            Spelling::American => "US",
        }
    }

    /// Words, spelled.
    ///
    /// ```
    /// use files::message::Spelling;
    /// let american = Spelling::American;
    /// assert_eq!(american.of_words("Mitred, off centre, centred"), "Mitered, off center, centered");
    /// ```
    pub fn of_words(self, words: &str) -> String {
        let mut out = String::with_capacity(words.len());
        self.write(&mut out, words);
        out
    }

    pub(super) fn write(self, out: &mut String, words: &str) {
        if self == Spelling::British {
            out.push_str(words);
            return;
        }
        let mut rest = words;
        while let Some(at) = rest.find(|c: char| c.is_ascii_alphabetic()) {
            out.push_str(&rest[..at]);
            rest = &rest[at..];
            let end = rest
                .find(|c: char| !c.is_ascii_alphabetic())
                .unwrap_or(rest.len());
            word(out, &rest[..end]);
            rest = &rest[end..];
        }
        out.push_str(rest);
    }
}

fn word(out: &mut String, word: &str) {
    let begins = |stem: &str| {
        word.get(..stem.len())
            .is_some_and(|head| head.eq_ignore_ascii_case(stem))
    };
    let Some((british, american)) = STEMS.iter().find(|(british, _)| begins(british)) else {
        out.push_str(word);
        return;
    };
    let mut chars = american.chars();
    if word.starts_with(|c: char| c.is_ascii_uppercase())
        && let Some(first) = chars.next()
    {
        out.push(first.to_ascii_uppercase());
    }
    out.extend(chars);
    out.push_str(&word[british.len()..]);
}
