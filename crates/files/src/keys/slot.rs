//! What a key's value is held in, with its way from the file and to it.

use std::collections::BTreeMap;

use super::{Element, File, Fixed, Giver, Key, Keyed, Rules, Scalar, Setting, Usual, Value};
use crate::design::OwnWood;
use crate::key::KeyPath;
use crate::reader::{LONGEST_NAME, Table};
use crate::write::Text;

/// What is known around a value that is read.
pub(crate) struct Around<'a> {
    /// The project's own woods, by name.
    pub woods: &'a BTreeMap<String, OwnWood>,
    /// Who gives what is read.
    pub by: Giver,
}

impl Around<'_> {
    fn file(&self) -> File {
        match self.by {
            Giver::Workshop => File::Workshop,
            _ => File::Project,
        }
    }
}

/// The two passes of writing a table: values first, for what follows a heading is its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pass {
    /// `key = value`.
    Values,
    /// Tables under headings of their own.
    Tables,
}

/// What a key's value is held in.
pub(crate) trait Slot {
    /// What stands in it where nothing is said.
    fn usual(key: Option<&Key>) -> Self
    where
        Self: Sized;

    /// Takes what the file says.
    fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>);

    /// Writes it as the file has it; nothing where it was left out.
    fn write(&self, key: &Key, pass: Pass, out: &mut Text);

    /// Writes it even where it is as usual.
    fn write_said(&self, key: &Key, pass: Pass, out: &mut Text) {
        self.write(key, pass, out);
    }

    /// Lets nothing stand in it: no length, no word, no entry.
    fn clear(&mut self);

    /// Puts what is said here in the place of what stands there.
    fn over(&self, _under: &mut Self)
    where
        Self: Sized,
    {
    }

    /// Its settings, each with its path.
    fn settings(&self, path: KeyPath, key: &'static Key, out: &mut Vec<Setting>);
}

/// A table of keys by its slots, in the table's order.
pub(crate) trait Slots {
    /// Each key with what holds its value.
    fn slots(&self) -> Vec<(&'static Key, &dyn Slot)>;
    /// Each key with what holds its value, to be filled.
    fn slots_mut(&mut self) -> Vec<(&'static Key, &mut dyn Slot)>;
    /// Puts what is said here in the place of what stands there.
    fn over(&self, under: &mut Self);
}

pub(crate) fn clear_table<T: Slots>(table: &mut T) {
    for (_, slot) in table.slots_mut() {
        slot.clear();
    }
}

/// All that a table of keys is.
pub(crate) trait WholeTable: Keyed + Slots + Rules + Default {}
impl<T: Keyed + Slots + Rules + Default> WholeTable for T {}

/// Reads a table: each key, what must not be missing, what holds between keys, and last
/// the keys that nobody knows.
pub(crate) fn read_keys<T: WholeTable>(table: &Table<'_>, around: &Around<'_>) -> T {
    let mut read = T::start(table).unwrap_or_default();
    let file = around.file();
    for (key, slot) in read.slots_mut() {
        if !T::TABLE.is_of(file, key.name) {
            continue;
        }
        slot.read(table, key, around);
        if let Usual::Must(why, remedy) | Usual::Meanwhile(why, remedy, _) = key.usual {
            table.need(key.name, why, remedy);
        }
    }
    for pair in T::RIVALS {
        table.both(pair.one, pair.other, pair.why);
        if let Some((what, remedy)) = pair.neither {
            table.need_any(&[pair.one, pair.other], what.into(), remedy);
        }
    }
    read.gather(table, around);
    read.check(table);
    let moved: Vec<&str> = T::MOVED.iter().map(|key| key.name).collect();
    table.finish(T::ELSEWHERE, &moved);
    read
}

/// Writes a table's keys, without its heading.
pub(crate) fn write_keys<T: Slots>(table: &T, out: &mut Text) {
    for pass in [Pass::Values, Pass::Tables] {
        for (key, slot) in table.slots() {
            slot.write(key, pass, out);
        }
    }
}

fn table_settings<T: Slots>(table: &T, path: &KeyPath, out: &mut Vec<Setting>) {
    for (key, slot) in table.slots() {
        slot.settings(path.below(key.name), key, out);
    }
}

impl<T: Scalar> Slot for T {
    fn usual(key: Option<&Key>) -> Self {
        let fixed = key.map_or(Fixed::Nothing, |k| k.usual.fixed());
        T::of(fixed).unwrap_or_else(T::blank)
    }

    fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
        if let Some(value) = table.get(key.name).and_then(|i| T::read(&i, key, around)) {
            *self = value;
        }
    }

    fn write(&self, key: &Key, pass: Pass, out: &mut Text) {
        let usual = T::usual(Some(key));
        let said = self.text(key, out.unit());
        // What may be left out and is as usual is left out; words that say nothing too.
        let left_out = key.may_be_left_out() && said == usual.text(key, out.unit());
        if !left_out {
            self.write_said(key, pass, out);
        }
    }

    fn write_said(&self, key: &Key, pass: Pass, out: &mut Text) {
        if pass == Pass::Values {
            out.raw(key.name, &self.text(key, out.unit()));
        }
    }

    fn clear(&mut self) {
        *self = T::blank();
    }

    fn settings(&self, path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        out.push(Setting::new(
            path,
            key,
            Some(self.value()),
            Some(Giver::File),
        ));
    }
}

impl<T: Scalar> Slot for Option<T> {
    fn usual(_key: Option<&Key>) -> Self {
        None
    }

    fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
        *self = table.get(key.name).and_then(|i| T::read(&i, key, around));
    }

    fn write(&self, key: &Key, pass: Pass, out: &mut Text) {
        if let (Pass::Values, Some(value)) = (pass, self) {
            out.raw(key.name, &value.text(key, out.unit()));
        }
    }

    fn clear(&mut self) {
        *self = None;
    }

    fn settings(&self, path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        let by = self.as_ref().map(|_| Giver::File);
        out.push(Setting::new(path, key, self.as_ref().map(T::value), by));
    }
}

impl<T: Element> Slot for Vec<T> {
    fn usual(key: Option<&Key>) -> Self {
        key.map_or_else(Vec::new, |k| T::usual(k.usual.fixed()))
    }

    fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
        if let Some(item) = table.get(key.name) {
            *self = T::read_all(&item, key, around);
        }
    }

    fn write(&self, key: &Key, pass: Pass, out: &mut Text) {
        if pass == Pass::Values && !self.is_empty() {
            T::write_all(self, key, out);
        }
    }

    fn clear(&mut self) {
        Vec::clear(self);
    }

    fn settings(&self, path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
        T::settings_of(self, path, key, out);
    }
}

pub(crate) fn read_table<T: WholeTable>(
    held: &mut T,
    table: &Table<'_>,
    key: &'static Key,
    around: &Around<'_>,
) {
    if let Some(below) = table.get(key.name).and_then(|item| item.table()) {
        *held = read_keys(&below, around);
    }
}

pub(crate) fn read_list<T: WholeTable>(
    held: &mut Vec<T>,
    table: &Table<'_>,
    key: &'static Key,
    around: &Around<'_>,
) {
    let most = match key.quantity {
        super::Quantity::Tables(_, most) => most,
        _ => usize::MAX,
    };
    let tables = table.tables(key.name, most);
    if table.has(key.name) {
        *held = tables.iter().map(|t| read_keys(t, around)).collect();
    }
}

pub(crate) fn read_named<T: WholeTable>(
    held: &mut BTreeMap<String, T>,
    table: &Table<'_>,
    key: &'static Key,
    around: &Around<'_>,
) {
    let Some(all) = table.get(key.name).and_then(|item| item.table()) else {
        return;
    };
    for (name, item) in all.everything() {
        let Some(below) = item.table() else { continue };
        if name.trim().is_empty() {
            item.trouble("a wood needs a name", "write it as [woods.plum]");
            continue;
        }
        if name.chars().nth(LONGEST_NAME).is_some() {
            item.trouble(
                &format!("a wood's name is at most {LONGEST_NAME} characters long"),
                "make it shorter",
            );
            continue;
        }
        held.insert(name, read_keys(&below, around));
    }
}

/// Writes a table of keys: under its heading, or with its key before each of its own.
pub(crate) fn write_table<T: WholeTable>(table: &T, key: &Key, pass: Pass, out: &mut Text) {
    let heading = T::TABLE.heading;
    if !heading.starts_with('[') {
        if pass == Pass::Values {
            out.within(key.name, |out| write_keys(table, out));
        }
    } else if pass == Pass::Tables {
        out.under(heading, false, |out| write_keys(table, out));
    }
}

pub(crate) fn write_list<T: WholeTable>(list: &[T], pass: Pass, out: &mut Text) {
    if pass == Pass::Tables {
        for table in list {
            out.under(T::TABLE.heading, true, |out| write_keys(table, out));
        }
    }
}

pub(crate) fn write_named<T: WholeTable>(named: &BTreeMap<String, T>, pass: Pass, out: &mut Text) {
    if pass == Pass::Tables {
        for (name, table) in named {
            let heading = T::TABLE.heading.replace("NAME", &crate::write::key(name));
            out.under(&heading, true, |out| write_keys(table, out));
        }
    }
}

pub(crate) fn settings_of_table<T: Slots>(table: &T, path: &KeyPath, out: &mut Vec<Setting>) {
    table_settings(table, path, out);
}

pub(crate) fn settings_of_none(path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
    out.push(Setting::new(path, key, None::<Value>, None));
}

/// Ways to and from the file for a table of keys: alone, left out, listed or named.
macro_rules! table_slots {
    ($name:ident) => {
        const _: () = {
            use std::collections::BTreeMap;

            use $crate::key::KeyPath;
            use $crate::keys::slot::{self, Around, Pass, Slot};
            use $crate::keys::{Key, Rules, Setting};
            use $crate::reader::Table;
            use $crate::write::Text;

            impl Slot for $name {
                fn usual(_key: Option<&Key>) -> Self {
                    Self::default()
                }
                fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
                    slot::read_table(self, table, key, around);
                }
                fn write(&self, key: &Key, pass: Pass, out: &mut Text) {
                    slot::write_table(self, key, pass, out);
                }
                fn clear(&mut self) {
                    slot::clear_table(self);
                }
                fn settings(&self, path: KeyPath, _key: &'static Key, out: &mut Vec<Setting>) {
                    slot::settings_of_table(self, &path, out);
                }
            }

            impl Slot for Option<$name> {
                fn usual(_key: Option<&Key>) -> Self {
                    None
                }
                fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
                    if table.has(key.name) {
                        slot::read_table(self.insert($name::default()), table, key, around);
                    } else {
                        table.ask(key.name);
                    }
                }
                fn write(&self, key: &Key, pass: Pass, out: &mut Text) {
                    if let Some(table) = self {
                        slot::write_table(table, key, pass, out);
                    }
                }
                fn clear(&mut self) {
                    *self = None;
                }
                fn settings(&self, path: KeyPath, key: &'static Key, out: &mut Vec<Setting>) {
                    match self {
                        Some(table) => slot::settings_of_table(table, &path, out),
                        None => slot::settings_of_none(path, key, out),
                    }
                }
            }

            impl Slot for Vec<$name> {
                fn usual(_key: Option<&Key>) -> Self {
                    <$name as Rules>::usual_list()
                }
                fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
                    slot::read_list(self, table, key, around);
                }
                fn write(&self, _key: &Key, pass: Pass, out: &mut Text) {
                    slot::write_list(self, pass, out);
                }
                fn clear(&mut self) {
                    Vec::clear(self);
                }
                fn settings(&self, path: KeyPath, _key: &'static Key, out: &mut Vec<Setting>) {
                    for (at, table) in self.iter().enumerate() {
                        slot::settings_of_table(table, &path.entry(at), out);
                    }
                }
            }

            impl Slot for BTreeMap<String, $name> {
                fn usual(_key: Option<&Key>) -> Self {
                    BTreeMap::new()
                }
                fn read(&mut self, table: &Table<'_>, key: &'static Key, around: &Around<'_>) {
                    slot::read_named(self, table, key, around);
                }
                fn write(&self, _key: &Key, pass: Pass, out: &mut Text) {
                    slot::write_named(self, pass, out);
                }
                fn clear(&mut self) {
                    BTreeMap::clear(self);
                }
                fn settings(&self, path: KeyPath, _key: &'static Key, out: &mut Vec<Setting>) {
                    for (name, table) in self {
                        slot::settings_of_table(table, &path.below(name), out);
                    }
                }
            }
        };
    };
}

pub(crate) use table_slots;
