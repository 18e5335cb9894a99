//! Every setting of a file with its value and who gave it.

use std::borrow::Cow;

use geometry::{Angle, Length};

use super::{Giver, Key, Quantity};
use crate::key::KeyPath;

/// A value, whatever it is.
#[derive(Debug, Clone)]
pub enum Value {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A count.
    Count(usize),
    /// A number; what has a unit of its own in each system is metric.
    Number(f64),
    /// Yes or no.
    Flag(bool),
    /// A word or words.
    Word(String),
    /// Several words.
    Words(Vec<String>),
    /// Several lengths.
    Lengths(Vec<Length>),
    /// Several angles.
    Angles(Vec<Angle>),
    /// Several counts.
    Counts(Vec<usize>),
}

macro_rules! value_from {
    ($($type:ty => $kind:ident),+ $(,)?) => {$(
        impl From<$type> for Value {
            fn from(value: $type) -> Self {
                Value::$kind(value.into())
            }
        }
    )+};
}

value_from! {
    Length => Length, Angle => Angle, usize => Count, f64 => Number, bool => Flag,
    &str => Word, String => Word, Vec<String> => Words, Vec<Angle> => Angles,
    Vec<usize> => Counts,
}

/// One setting.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Where it stands.
    pub path: KeyPath,
    /// Its key.
    pub key: &'static Key,
    /// What it takes: the key's quantity, or that of an entry.
    pub quantity: Quantity,
    /// What a person calls it.
    pub label: Cow<'static, str>,
    /// Its value; nothing where there is none.
    pub value: Option<Value>,
    /// Who gave it; nothing where nobody did.
    pub by: Option<Giver>,
}

impl Setting {
    pub(crate) fn new(
        path: KeyPath,
        key: &'static Key,
        value: Option<Value>,
        by: Option<Giver>,
    ) -> Self {
        Setting {
            path,
            key,
            quantity: key.quantity,
            label: Cow::Borrowed(key.label),
            value,
            by,
        }
    }
}
