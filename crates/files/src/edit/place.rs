//! Finding a place in a file, and giving and taking keys without losing comments.

use toml_edit::{Item, Key, RawString, Table, TableLike, Value};

use crate::key::Step;

/// A place in a file.
pub enum Place<'a> {
    /// An item of a table.
    Item(&'a mut Item),
    /// A table of a list of tables, or the whole file.
    Table(&'a mut Table),
    /// A value of a list.
    Value(&'a mut Value),
}

impl<'a> Place<'a> {
    /// The place below this one.
    pub fn below(self, step: &Step) -> Option<Place<'a>> {
        match step {
            Step::Key(key) => match self {
                Place::Item(item) => item.as_table_like_mut()?.get_mut(key).map(Place::Item),
                Place::Table(table) => table.get_mut(key).map(Place::Item),
                Place::Value(value) => value.as_inline_table_mut()?.get_mut(key).map(Place::Value),
            },
            Step::At(at) => match self {
                Place::Item(Item::ArrayOfTables(tables)) => tables.get_mut(*at).map(Place::Table),
                Place::Item(item) => item.as_array_mut()?.get_mut(*at).map(Place::Value),
                Place::Value(value) => value.as_array_mut()?.get_mut(*at).map(Place::Value),
                Place::Table(_) => None,
            },
            // Real rings are made entries of their own before a place is looked for.
            Step::Real(_) => None,
        }
    }

    /// The place at the end of a way.
    pub fn at(self, steps: &[Step]) -> Option<Place<'a>> {
        steps.iter().try_fold(self, |place, step| place.below(step))
    }

    /// The place as a table of keys.
    pub fn table(self) -> Option<&'a mut dyn TableLike> {
        match self {
            Place::Item(item) => item.as_table_like_mut(),
            Place::Table(table) => Some(table),
            Place::Value(value) => value.as_inline_table_mut().map(|t| t as &mut dyn TableLike),
        }
    }

    /// The place as a list of values.
    pub fn array(self) -> Option<&'a mut toml_edit::Array> {
        match self {
            Place::Item(item) => item.as_array_mut(),
            Place::Value(value) => value.as_array_mut(),
            Place::Table(_) => None,
        }
    }
}

/// Gives a key a value; what stands behind the old value on its line stays. Where there
/// was no such key, the first of `rivals` that is there gives its place.
pub fn give(table: &mut dyn TableLike, key: &str, value: Value, rivals: &[&str]) {
    if let Some(old) = table.get_mut(key) {
        replace(old, value);
    } else if let Some(rival) = rivals.iter().find(|r| table.contains_key(r)) {
        rename(table, rival, key);
        if let Some(old) = table.get_mut(key) {
            replace(old, value);
        }
    } else {
        let mut value = value;
        value.decor_mut().clear();
        table.insert(key, Item::Value(value));
        indent_like_others(table, key);
    }
    for rival in rivals {
        take(table, rival);
    }
}

fn replace(old: &mut Item, mut value: Value) {
    if let Some(decor) = old.as_value().map(|v| v.decor().clone()) {
        *value.decor_mut() = decor;
    } else {
        value.decor_mut().clear();
    }
    *old = Item::Value(value);
}

/// A new key stands as far in as the keys before it.
fn indent_like_others(table: &mut dyn TableLike, key: &str) {
    let others: Vec<String> = table
        .iter()
        .filter(|(k, item)| *k != key && item.is_value())
        .map(|(k, _)| k.to_string())
        .collect();
    let indent = others
        .last()
        .and_then(|last| table.key(last))
        .and_then(|key| key.leaf_decor().prefix())
        .and_then(RawString::as_str)
        .map(|p| p.rsplit('\n').next().unwrap_or("").to_string());
    if let (Some(indent), Some(mut key)) = (indent, table.key_mut(key))
        && indent.chars().all(char::is_whitespace)
    {
        key.leaf_decor_mut().set_prefix(indent);
    }
}

/// Puts a new key in the place of an old one, with its comments.
fn rename(table: &mut dyn TableLike, old: &str, new: &str) {
    let keys: Vec<String> = table.iter().map(|(k, _)| k.to_string()).collect();
    let mut entries: Vec<(Key, Item)> = Vec::with_capacity(keys.len());
    for name in keys {
        let decor = table
            .key(&name)
            .map(|k| (k.leaf_decor().clone(), k.dotted_decor().clone()));
        let Some(item) = table.remove(&name) else {
            continue;
        };
        let mut key = Key::new(if name == old { new } else { &name });
        if let Some((leaf, dotted)) = decor {
            *key.leaf_decor_mut() = leaf;
            *key.dotted_decor_mut() = dotted;
        }
        entries.push((key, item));
    }
    for (key, item) in entries {
        table.entry_format(&key).or_insert(item);
    }
}

/// Takes a key out; comments above it go to the key below it, or else behind the one
/// above it.
pub fn take(table: &mut dyn TableLike, key: &str) -> bool {
    if !table.contains_key(key) {
        return false;
    }
    let words =
        |decor: Option<&RawString>| decor.and_then(RawString::as_str).unwrap_or("").to_string();
    let above = table
        .key(key)
        .map(|k| words(k.leaf_decor().prefix()))
        .unwrap_or_default();
    let keys: Vec<String> = table
        .iter()
        .filter(|(_, item)| item.is_value())
        .map(|(k, _)| k.to_string())
        .collect();
    table.remove(key);
    if !above.contains('#') {
        return true;
    }
    let at = keys.iter().position(|k| k == key);
    let next = at.and_then(|i| keys.get(i + 1)).cloned();
    let before = at
        .and_then(|i| i.checked_sub(1))
        .and_then(|i| keys.get(i))
        .cloned();
    if let Some(mut next) = next.as_deref().and_then(|k| table.key_mut(k)) {
        let own = words(next.leaf_decor().prefix());
        next.leaf_decor_mut()
            .set_prefix(format!("{above}{}", own.trim_start_matches([' ', '\t'])));
    } else if let Some(value) = before
        .and_then(|k| table.get_mut(&k))
        .and_then(Item::as_value_mut)
    {
        let own = words(value.decor().suffix());
        value
            .decor_mut()
            .set_suffix(format!("{own}\n{}", above.trim_end()));
    }
    true
}
