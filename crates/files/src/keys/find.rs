//! From a path to what stands there.

use super::{Key, KeyTable, Keyed, Quantity};
use crate::design::Design;
use crate::key::{KeyPath, Step};
use crate::workshop::Workshop;

/// One of the two files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum File {
    /// What is wanted.
    Project,
    /// What there is.
    Workshop,
}

impl File {
    /// The keys at its top.
    pub fn table(self) -> &'static KeyTable {
        match self {
            File::Project => Design::TABLE,
            File::Workshop => Workshop::TABLE,
        }
    }
}

/// A key, and what is taken at a path: the key's own quantity, or that of an entry.
#[derive(Debug, Clone, Copy)]
pub struct Found {
    /// The table that the key stands in.
    pub table: &'static KeyTable,
    /// The key.
    pub key: &'static Key,
    /// What is taken.
    pub quantity: Quantity,
}

/// What stands at a path of a file; nothing where the file has no such key.
///
/// ```
/// use files::key;
/// use files::keys::{File, find};
/// let found = find(File::Project, &key::section(3).ring(0).stock());
/// assert_eq!(found.map(|f| f.key.label), Some("board thickness"));
/// assert!(find(File::Workshop, &key::section(3).turn()).is_none());
/// ```
pub fn find(file: File, path: &KeyPath) -> Option<Found> {
    in_table(file, file.table(), &path.steps())
}

/// A path as a person says it, by what the keys are called: `section 2, loop band 1`.
/// Nothing where the file has no such key.
///
/// ```
/// use files::key;
/// use files::keys::{File, in_words};
/// let band = key::section(1).band(0).path();
/// assert_eq!(in_words(File::Project, &band).as_deref(), Some("section 2, loop band 1"));
/// ```
pub fn in_words(file: File, path: &KeyPath) -> Option<String> {
    let steps = path.steps();
    let mut out = String::new();
    for (at, step) in steps.iter().enumerate() {
        let found = find(file, &KeyPath::of_steps(&steps[..=at]))?;
        match step {
            Step::At(number) | Step::Real(number) => {
                out.push_str(&format!(" {}", number + 1));
                continue;
            }
            // What the maker named.
            Step::Key(name) if found.key.name != name => out.push_str(&format!(" {name}")),
            Step::Key(_) => {
                if !out.is_empty() {
                    out.push_str(", ");
                }
                out.push_str(found.key.label);
            }
        }
    }
    Some(out)
}

fn in_table(file: File, table: &'static KeyTable, steps: &[Step]) -> Option<Found> {
    let (Step::Key(name), rest) = steps.split_first()? else {
        return None;
    };
    let key = table.keys_of(file).find(|key| key.name == name)?;
    let found = Found {
        table,
        key,
        quantity: key.quantity,
    };
    onward(file, found, rest)
}

fn onward(file: File, found: Found, rest: &[Step]) -> Option<Found> {
    let Some((step, below)) = rest.split_first() else {
        return Some(found);
    };
    match (found.quantity, step) {
        (Quantity::Table(table), Step::Key(_)) => in_table(file, table, rest),
        (Quantity::Named(table), Step::Key(_)) => onward(
            file,
            Found {
                quantity: Quantity::Table(table),
                ..found
            },
            below,
        ),
        (Quantity::Tables(..), Step::At(_) | Step::Real(_)) => {
            let quantity = found.quantity.entry(0)?;
            onward(file, Found { quantity, ..found }, below)
        }
        (_, Step::At(at)) => {
            let quantity = found.quantity.entry(*at)?;
            onward(file, Found { quantity, ..found }, below)
        }
        _ => None,
    }
}
