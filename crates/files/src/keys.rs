//! The table of keys: every setting of the two files, declared once.
//!
//! ```text
//!   keys! { name: type = label, quantity, usual; with its line of documentation }
//!     ├─► the struct (Design, RingSpec, Sled ...) and its KeyTable
//!     ├─► reading, with ranges and remedies        ├─► what an edit takes (find)
//!     ├─► writing                                  ├─► the page's blank (settings)
//!     ├─► typed key paths (key::section(1).wood()) └─► remedies, rows of docs/files.md
//! ```
//!
//! A new key is one line in the `keys!` of its table, and its user. What holds between
//! keys (`reach` or `tilt`, a ring no higher than its board) stands beside the table, in
//! its [`Rules`].

mod element;
mod find;
mod given;
mod quantity;
mod row;
mod scalar;
mod scale;
mod settings;
pub(crate) mod slot;
mod usual;

use crate::reader::Table;

pub use find::{File, Found, find, in_words};
pub use given::{Given, Giver};
pub use quantity::{Angles, Counts, Lengths, Numbers, Points, Quantity, Word};
pub use scale::Scale;
pub use settings::{Setting, Value};
pub use usual::{Fixed, Usual};

pub(crate) use element::Element;
pub use scalar::Format;
pub(crate) use scalar::{Scalar, Words};
pub(crate) use slot::{Around, Slot, Slots, WholeTable, read_keys, write_keys};
pub(crate) use usual::{count, degrees, flag, mm, number, word};

/// One key of a file.
#[derive(Debug)]
pub struct Key {
    /// Its name in the file.
    pub name: &'static str,
    /// What a person calls it, as on the page: `board thickness`.
    pub label: &'static str,
    /// What it takes.
    pub quantity: Quantity,
    /// What holds where it is left out.
    pub usual: Usual,
    /// Its documentation, line by line.
    pub(crate) doc: &'static [&'static str],
}

impl Key {
    /// Its documentation: what it is, in a sentence.
    pub fn doc(&self) -> String {
        joined(self.doc)
    }

    /// May it be left out?
    pub fn may_be_left_out(&self) -> bool {
        !matches!(self.usual, Usual::Must { .. } | Usual::OneOf(..))
    }
}

/// The lines of a documentation as one.
fn joined(lines: &[&str]) -> String {
    let lines: Vec<&str> = lines.iter().map(|line| line.trim()).collect();
    lines.join(" ")
}

/// Two keys of which only one may be there.
#[derive(Debug)]
pub struct Rivals {
    /// One.
    pub one: &'static str,
    /// The other.
    pub other: &'static str,
    /// Why not both.
    pub why: &'static str,
    /// Where neither is: what is wrong with that, and what to do.
    pub neither: Option<(&'static str, &'static str)>,
}

/// A key that once stood here and is still read: files written then stay good.
#[derive(Debug)]
pub struct Moved {
    /// Its name.
    pub name: &'static str,
    /// What it takes.
    pub quantity: Quantity,
    /// Where it stands now: `the section's`.
    pub to: &'static str,
}

/// A table of keys.
#[derive(Debug)]
pub struct KeyTable {
    /// Its heading as the files write it: `[[section.ring]]`; empty at the top.
    pub heading: &'static str,
    /// What it is, line by line.
    pub(crate) doc: &'static [&'static str],
    /// Its keys, in the order of the file.
    pub keys: &'static [Key],
    /// Keys that exclude each other.
    pub rivals: &'static [Rivals],
    /// Keys that take the place of others when they are set.
    pub displaces: &'static [(&'static str, &'static [&'static str])],
    /// Keys that the workshop's file has not, where both files have the table.
    pub in_project_only: &'static [&'static str],
    /// Keys that stand in the table above now.
    pub moved: &'static [Moved],
}

impl KeyTable {
    /// Its documentation: what it is, in a sentence.
    pub fn doc(&self) -> String {
        joined(self.doc)
    }

    /// Its keys in one of the files.
    pub fn keys_of(&self, file: File) -> impl Iterator<Item = &'static Key> {
        self.keys
            .iter()
            .filter(move |key| self.is_of(file, key.name))
    }

    /// A key of its own.
    pub fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// The value that the table holds for a key of its own.
    pub fn usual(&self, name: &str) -> Fixed {
        self.key(name)
            .map_or(Fixed::Nothing, |key| key.usual.fixed())
    }

    pub(crate) fn is_of(&self, file: File, name: &str) -> bool {
        file == File::Project || !self.in_project_only.contains(&name)
    }

    /// Does setting one key take another's place?
    pub(crate) fn displaces(&self, key: &str, other: &str) -> bool {
        self.displaced_by(key).contains(&other)
    }

    /// The keys whose place a key takes.
    pub(crate) fn displaced_by(&self, key: &str) -> Vec<&'static str> {
        let rivals = self.rivals.iter().filter_map(|pair| match key {
            k if k == pair.one => Some(pair.other),
            k if k == pair.other => Some(pair.one),
            _ => None,
        });
        let others = self.displaces.iter().filter(|(by, _)| *by == key);
        rivals
            .chain(others.flat_map(|(_, all)| all.iter().copied()))
            .collect()
    }
}

/// A table of keys as a type.
pub trait Keyed {
    /// The path of such a table.
    type Path: From<crate::key::KeyPath>;
    /// Its keys.
    const TABLE: &'static KeyTable;
}

/// What holds between the keys of one table, and what makers write into it by mistake.
pub(crate) trait Rules: Sized {
    /// Keys that exclude each other.
    const RIVALS: &'static [Rivals] = &[];
    /// Keys that take the place of others when they are set.
    const DISPLACES: &'static [(&'static str, &'static [&'static str])] = &[];
    /// Keys that the workshop's file has not, where both files have the table.
    const IN_PROJECT_ONLY: &'static [&'static str] = &[];
    /// Keys that stand in the table above now, which takes them over in [`Rules::gather`].
    const MOVED: &'static [Moved] = &[];
    /// Keys that belong elsewhere, and where.
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[];

    /// What a list of such tables holds where the file has none.
    fn usual_list() -> Vec<Self> {
        Vec::new()
    }

    /// What the table is before its keys are read, where that depends on one of them.
    fn start(_table: &Table<'_>) -> Option<Self> {
        None
    }

    /// Takes over what older files say in the tables below.
    fn gather(&mut self, _table: &Table<'_>, _around: &Around<'_>) {}

    /// Tells what is wrong between the keys.
    fn check(&self, _table: &Table<'_>) {}
}

/// Declares a table of keys: the struct, its [`KeyTable`], its key paths, and its way to
/// the reader and the writer.
///
/// ```text
/// keys! {
///     /// What the table is.
///     pub struct RingSpec, RingPath, "[[section.ring]]" {
///         /// Board thickness before flattening.
///         stock: Option<Length> = "board thickness", Quantity::Length(BOARD), SECTIONS;
///         @list bands as band: BandSpec = "loop band", Quantity::Tables(BandSpec::KEYS, 12), ...;
///     }
/// }
/// ```
///
/// A field has its key's name, or says `field as key`. Before it may stand `@table` (one
/// table of keys), `@part` (one that may be left out), `@list` (a list of tables) or
/// `@named` (tables under the maker's own names); the type is then that of one table.
macro_rules! keys {
    (
        $(#[doc = $about:literal])+
        pub struct $name:ident, $path:ident, $heading:literal {
            $(
                $(#[doc = $doc:literal])+
                $(@ $kind:ident)? $field:ident $(as $key:ident)?: $type:ty
                    = $label:expr, $quantity:expr, $usual:expr;
            )+
        }
    ) => {
        $(#[doc = $about])+
        #[derive(Debug, Clone)]
        pub struct $name {
            $( $(#[doc = $doc])+ pub $field: $crate::keys::keys!(@held $($kind)?, $type), )+
        }

        impl $name {
            /// The table of its keys.
            pub const KEYS: &'static $crate::keys::KeyTable = &$crate::keys::KeyTable {
                heading: $heading,
                doc: &[$($about),+],
                keys: &[$(
                    $crate::keys::Key {
                        name: $crate::keys::keys!(@name $field $($key)?),
                        label: $label,
                        quantity: $quantity,
                        usual: $usual,
                        doc: &[$($doc),+],
                    },
                )+],
                rivals: <$name as $crate::keys::Rules>::RIVALS,
                displaces: <$name as $crate::keys::Rules>::DISPLACES,
                in_project_only: <$name as $crate::keys::Rules>::IN_PROJECT_ONLY,
                moved: <$name as $crate::keys::Rules>::MOVED,
            };
        }

        impl Default for $name {
            fn default() -> Self {
                let mut keys = Self::KEYS.keys.iter();
                $name { $( $field: $crate::keys::Slot::usual(keys.next()), )+ }
            }
        }

        impl $crate::keys::Keyed for $name {
            type Path = $path;
            const TABLE: &'static $crate::keys::KeyTable = Self::KEYS;
        }

        impl $crate::keys::Slots for $name {
            fn slots(&self) -> Vec<(&'static $crate::keys::Key, &dyn $crate::keys::Slot)> {
                let all = [$( &self.$field as &dyn $crate::keys::Slot ),+];
                Self::KEYS.keys.iter().zip(all).collect()
            }

            fn slots_mut(
                &mut self,
            ) -> Vec<(&'static $crate::keys::Key, &mut dyn $crate::keys::Slot)> {
                let all = [$( &mut self.$field as &mut dyn $crate::keys::Slot ),+];
                Self::KEYS.keys.iter().zip(all).collect()
            }

            fn over(&self, under: &mut Self) {
                $( $crate::keys::Slot::over(&self.$field, &mut under.$field); )+
            }
        }

        $crate::keys::table_slots!($name);

        #[doc = concat!("The path of `", $heading, "` in its file.")]
        #[derive(Debug, Clone, PartialEq, Eq)]
        pub struct $path($crate::key::KeyPath);

        impl From<$crate::key::KeyPath> for $path {
            fn from(path: $crate::key::KeyPath) -> Self {
                $path(path)
            }
        }

        impl From<$path> for $crate::key::KeyPath {
            fn from(path: $path) -> Self {
                path.0
            }
        }

        impl $path {
            /// The table itself.
            pub fn path(&self) -> $crate::key::KeyPath {
                self.0.clone()
            }
            $( $crate::keys::keys!(
                @builder $($kind)?, $($doc),+; $field $(as $key)?: $type
            ); )+
        }
    };

    // A field's type by what stands before it.
    (@held , $type:ty) => { $type };
    (@held table, $type:ty) => { $type };
    (@held part, $type:ty) => { Option<$type> };
    (@held list, $type:ty) => { Vec<$type> };
    (@held rack, $type:ty) => { $crate::keys::Given<Vec<$type>> };
    (@held named, $type:ty) => { std::collections::BTreeMap<String, $type> };

    (@name $field:ident) => { stringify!($field) };
    (@name $field:ident $key:ident) => { stringify!($key) };

    // How a path goes on by a key.
    (@builder $($kind:ident)?, $($doc:literal),+; $field:ident as $key:ident: $type:ty) => {
        $crate::keys::keys!(@builder $($kind)?, $($doc),+; $key: $type);
    };
    (@builder , $($doc:literal),+; $key:ident: $type:ty) => {
        $(#[doc = $doc])+
        pub fn $key(&self) -> $crate::key::KeyPath {
            self.0.below(stringify!($key))
        }
    };
    (@builder table, $($doc:literal),+; $key:ident: $type:ty) => {
        $(#[doc = $doc])+
        pub fn $key(&self) -> <$type as $crate::keys::Keyed>::Path {
            self.0.below(stringify!($key)).into()
        }
    };
    (@builder part, $($doc:literal),+; $key:ident: $type:ty) => {
        $crate::keys::keys!(@builder table, $($doc),+; $key: $type);
    };
    (@builder list, $($doc:literal),+; $key:ident: $type:ty) => {
        $(#[doc = $doc])+
        ///
        /// The entry of a number, from 0.
        pub fn $key(&self, at: usize) -> <$type as $crate::keys::Keyed>::Path {
            self.0.below(stringify!($key)).entry(at).into()
        }
    };
    (@builder rack, $($doc:literal),+; $key:ident: $type:ty) => {
        $crate::keys::keys!(@builder list, $($doc),+; $key: $type);
    };
    (@builder named, $($doc:literal),+; $key:ident: $type:ty) => {
        $(#[doc = $doc])+
        ///
        /// The one of a name.
        pub fn $key(&self, name: &str) -> <$type as $crate::keys::Keyed>::Path {
            self.0.below(stringify!($key)).below(name).into()
        }
    };
}

/// Declares an enum of the words that a key takes.
macro_rules! words {
    (
        $(#[$about:meta])+
        pub enum $name:ident {
            $( $(#[$doc:meta])+ $variant:ident = $word:literal, $label:literal; )+
        }
    ) => {
        $(#[$about])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $( $(#[$doc])+ $variant, )+ }

        impl $crate::keys::Words for $name {
            const ALL: &'static [$name] = &[$( $name::$variant ),+];
            const WORDS: &'static [$crate::keys::Word] = &[$(
                $crate::keys::Word { word: $word, label: $label }
            ),+];
        }

        impl $name {
            /// The words for it.
            pub const WORDS: &'static [$crate::keys::Word] =
                <$name as $crate::keys::Words>::WORDS;

            /// The word that the file has for it.
            pub fn word(self) -> &'static str {
                $crate::keys::Words::spelled(self)
            }

            /// What a person calls it.
            pub fn label(self) -> &'static str {
                let words = Self::WORDS.iter().find(|w| w.word == self.word());
                words.map_or("", |w| w.label)
            }
        }
    };
}

pub(crate) use slot::table_slots;
pub(crate) use {keys, words};
