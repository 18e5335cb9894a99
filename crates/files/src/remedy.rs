//! What would do: in a sentence, and as changes of the project's file.
//!
//! A [`Way`] is a change that can be made as it stands: keys and the values to set them to.
//! Values are what a reader's rule or calliper shows, rounded to the side on which they do.
//! Nobody has to read the sentence to know what to change.
//!
//! ```
//! use files::key;
//! use files::message::{Reading, Round};
//! use files::remedy::{Remedy, Way};
//! use files::say;
//! use files::units::Unit;
//! use geometry::Length;
//!
//! let least = Reading::rounded(Length::mm(203.27), Round::Up, false);
//! let remedy = Remedy::from(say!("a section of at least {least}", least = least)).or(Way::new(
//!     say!("make the section {least} high", least = least),
//! )
//! .set(key::section(1).height(), least));
//! let said = remedy.said(Unit::Inch);
//! assert_eq!(said.ways[0].what, "make the section 8 1/64 in high");
//! assert_eq!(said.ways[0].settings[0].path, "section[1].height");
//! ```

use geometry::Angle;
use serde::Serialize;
use serde::ser::{SerializeStruct, Serializer};

use crate::edit::{Edit, Words};
use crate::key::KeyPath;
use crate::message::{Language, Message, Reading, Said, Unsaid, Wording};
use crate::report::said;
use crate::units::{Unit, degrees};

/// What would do.
#[derive(Debug, Clone, Default, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize"))]
pub struct Remedy<W: Wording = Unsaid> {
    /// In a sentence.
    #[serde(rename = "remedy")]
    pub words: W::Text,
    /// Changes of the project's file of which each is meant to do by itself, best first;
    /// none where none is known.
    pub ways: Vec<Way<W>>,
}

/// A change of the project's file.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize"))]
pub struct Way<W: Wording = Unsaid> {
    /// What it does, the thing and the value: `make the section 203.3 mm high`.
    pub what: W::Text,
    /// The keys that it sets, in this order.
    pub settings: Vec<Setting>,
}

/// A key and what it is set to.
#[derive(Debug, Clone, Serialize)]
pub struct Setting {
    /// The key, counted from 0: `section[1].height`.
    pub path: KeyPath,
    /// Its value.
    pub to: To,
}

/// What a key is set to.
#[derive(Debug, Clone)]
pub enum To {
    /// A length.
    Length(Reading),
    /// An angle, to a hundredth of a degree.
    Angle(Angle),
    /// Angles.
    Angles(Vec<Angle>),
    /// A count.
    Count(usize),
    /// The most that a force may be, N: written whole in the reader's unit, rounded down.
    Force(f64),
    /// Yes or no.
    Flag(bool),
    /// A word: of a choice, the name of a wood or a saw.
    Word(String),
    /// Nothing: the key is taken out of the file, which is back to what is usual.
    Usual,
    /// The entry of a list is taken out.
    Gone,
}

impl Remedy {
    /// The same with a way.
    #[must_use]
    pub fn or(mut self, way: Way) -> Remedy {
        self.ways.push(way);
        self
    }

    /// The same with several ways.
    #[must_use]
    pub fn or_any(mut self, ways: impl IntoIterator<Item = Way>) -> Remedy {
        self.ways.extend(ways);
        self
    }

    /// The remedy in one reader's language.
    pub fn said(&self, language: impl Into<Language>) -> Remedy<Said> {
        let language = language.into();
        Remedy {
            words: self.words.said(language),
            ways: self.ways.iter().map(|way| way.said(language)).collect(),
        }
    }
}

/// A remedy for which no change of the file is known.
impl From<Message> for Remedy {
    fn from(words: Message) -> Self {
        Remedy {
            words,
            ways: Vec::new(),
        }
    }
}

impl Way {
    /// A way that sets nothing yet; add keys with [`Way::set`].
    pub fn new(what: Message) -> Way {
        Way {
            what,
            settings: Vec::new(),
        }
    }

    /// The same with a key set.
    #[must_use]
    pub fn set(mut self, path: KeyPath, to: impl Into<To>) -> Way {
        let to = to.into();
        self.settings.push(Setting { path, to });
        self
    }

    fn said(&self, language: Language) -> Way<Said> {
        let settings = self.settings.iter().map(|setting| Setting {
            path: setting.path.clone(),
            to: setting.to.read_in(language.unit),
        });
        Way {
            what: self.what.said(language),
            settings: settings.collect(),
        }
    }
}

impl<W: Wording> Way<W> {
    /// The change as edits of a reader who works in a unit.
    pub fn edits(&self, unit: Unit) -> Vec<Edit> {
        self.settings.iter().map(|s| s.edit(unit)).collect()
    }
}

impl Setting {
    /// It as a report says it to a reader of a unit: `section 2, rings = 12`.
    pub fn said(&self, unit: Unit) -> String {
        let path = said(&self.path);
        match self.to.words(unit) {
            None => format!("{path} taken out"),
            Some(Words::None(())) => format!("{path} left out"),
            Some(words) => format!("{path} = {}", shown(&words)),
        }
    }

    fn edit(&self, unit: Unit) -> Edit {
        let path = self.path.clone();
        match self.to.words(unit) {
            Some(value) => Edit::Set { path, value },
            None => Edit::Remove { path },
        }
    }
}

impl To {
    /// What a reader of a unit sets, for every reader.
    fn read_in(&self, unit: Unit) -> To {
        match self {
            To::Length(reading) => To::Length(reading.of(unit)),
            other => other.clone(),
        }
    }

    /// The words that are entered; nothing for an entry that goes.
    fn words(&self, unit: Unit) -> Option<Words> {
        let bare = |angle: Angle| degrees(angle, 2).trim_end_matches('°').to_string();
        Some(match self {
            To::Length(reading) => Words::Text(reading.show(unit)),
            To::Angle(angle) => Words::Text(bare(*angle)),
            To::Angles(angles) => {
                Words::List(angles.iter().map(|a| Words::Text(bare(*a))).collect())
            }
            // Counts are far below 2^53.
            To::Count(count) => Words::Number(*count as f64),
            To::Force(newtons) => Words::Number(unit.force(*newtons).floor()),
            To::Flag(yes) => Words::Flag(*yes),
            To::Word(word) => Words::Text(word.clone()),
            To::Usual => Words::None(()),
            To::Gone => return None,
        })
    }
}

/// Words as a report shows them.
fn shown(words: &Words) -> String {
    match words {
        Words::None(()) => String::new(),
        Words::Flag(yes) => yes.to_string(),
        Words::Number(number) => number.to_string(),
        Words::Text(text) => text.clone(),
        Words::List(list) => {
            let all: Vec<String> = list.iter().map(shown).collect();
            format!("[{}]", all.join(", "))
        }
    }
}

/// `{kind, value}`: lengths in mm as the reader's rule shows them, angles in degrees.
impl Serialize for To {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut out = serializer.serialize_struct("To", 2)?;
        let kind = match self {
            To::Length(_) => "length",
            To::Angle(_) => "angle",
            To::Angles(_) => "angles",
            To::Count(_) => "count",
            To::Force(_) => "force",
            To::Flag(_) => "flag",
            To::Word(_) => "word",
            To::Usual => "usual",
            To::Gone => "gone",
        };
        out.serialize_field("kind", kind)?;
        match self {
            To::Length(reading) => {
                out.serialize_field("value", &reading.length(Unit::Mm).as_mm())?;
            }
            To::Angle(angle) => out.serialize_field("value", &angle.as_deg())?,
            To::Angles(angles) => {
                let degrees: Vec<f64> = angles.iter().map(|a| a.as_deg()).collect();
                out.serialize_field("value", &degrees)?;
            }
            To::Count(count) => out.serialize_field("value", count)?,
            To::Force(newtons) => out.serialize_field("value", &newtons.floor())?,
            To::Flag(yes) => out.serialize_field("value", yes)?,
            To::Word(word) => out.serialize_field("value", word)?,
            To::Usual | To::Gone => out.serialize_field("value", &())?,
        }
        out.end()
    }
}

impl From<Reading> for To {
    fn from(reading: Reading) -> Self {
        To::Length(reading)
    }
}

impl From<Angle> for To {
    fn from(angle: Angle) -> Self {
        To::Angle(angle)
    }
}

impl From<usize> for To {
    fn from(count: usize) -> Self {
        To::Count(count)
    }
}

impl From<bool> for To {
    fn from(yes: bool) -> Self {
        To::Flag(yes)
    }
}

impl From<&str> for To {
    fn from(word: &str) -> Self {
        To::Word(word.into())
    }
}

#[cfg(test)]
mod tests {
    use geometry::Length;

    use super::*;
    use crate::key;
    use crate::message::Round;
    use crate::say;

    #[test]
    fn a_way_is_edits_in_the_readers_unit() {
        let wide = Reading::rounded(Length::mm(31.21), Round::Up, false);
        let way = Way::new(say!("boards {wide} wide", wide = wide))
            .set(key::section(0).real_ring(2).width(), wide)
            .set(key::section(0).segments(), 12)
            .set(key::section(0).band(0).tilt(), Angle::deg(21.3));
        let values = |unit| {
            let edits = way.edits(unit).into_iter();
            let each = edits.map(|edit| match edit {
                Edit::Set { path, value } => (path.to_string(), value),
                other => panic!("{other:?}"),
            });
            each.collect::<Vec<_>>()
        };
        let text = |t: &str| Words::Text(t.into());
        let inch = values(Unit::Inch);
        assert_eq!(
            inch[0],
            ("section[0].ring#2.width".into(), text("1 15/64 in"))
        );
        assert_eq!(inch[1].1, Words::Number(12.0));
        assert_eq!(inch[2].1, text("21.30"));
        assert_eq!(values(Unit::Mm)[0].1, text("31.3 mm"));
        let said: Vec<String> = way.settings.iter().map(|s| s.said(Unit::Mm)).collect();
        assert_eq!(said[0], "section 1, ring 3, width = 31.3 mm");
        assert_eq!(said[1], "section 1, segments = 12");
        // Said to one reader, it is that reader's value for whoever takes it.
        let said = way.said(Language::from(Unit::Inch));
        let json = serde_json::to_value(&said.settings[0].to).unwrap();
        assert_eq!(json["kind"], "length");
        assert!((json["value"].as_f64().unwrap() - 25.4 * (1.0 + 15.0 / 64.0)).abs() < 1e-9);
    }
}
