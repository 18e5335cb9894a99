//! Edits, one after another, all or none.

use toml_edit::{DocumentMut, Item, TableLike};

use super::asked::{Edit, Refused, Words};
use super::list;
use super::place::{Place, give, take};
use super::rings;
use super::value::{Units, value};
use crate::key::{KeyPath, Step};
use crate::keys::{File, Found, KeyTable, Quantity, find};

/// What a file's edits have to know besides its text.
#[derive(Debug, Clone)]
pub struct EditContext {
    /// Units of page and file.
    pub units: Units,
    /// Which file it is.
    pub file: File,
    /// Sections as they stand.
    pub sections: Vec<SectionContext>,
}

/// What new entries of a section are made from.
#[derive(Debug, Clone, Copy, Default)]
pub struct SectionContext {
    /// Rings.
    pub rings: usize,
    /// Height as stacked, mm.
    pub stacked: f64,
    /// Height of the glue line nearest to its middle, mm.
    pub joint: f64,
    /// Segments of its first ring.
    pub segments: usize,
    /// Reach of a new band, mm.
    pub reach: f64,
}

impl EditContext {
    pub(super) fn section(&self, at: usize) -> SectionContext {
        self.sections.get(at).copied().unwrap_or(SectionContext {
            rings: 1,
            ..SectionContext::default()
        })
    }
}

/// The text with all edits made; the first that cannot be made, if one cannot.
pub fn apply(text: &str, edits: &[Edit], ground: &EditContext) -> Result<String, Refused> {
    let mut document: DocumentMut = text.parse().map_err(|_| Refused {
        path: None,
        what: "the file cannot be read as it is".into(),
        remedy: "repair its text first, or take an earlier version".into(),
    })?;
    for edit in edits {
        let (Edit::Set { path, .. }
        | Edit::Add { path, .. }
        | Edit::Remove { path }
        | Edit::Move { path, .. }) = edit;
        let refuse = |what: String| Refused {
            path: Some(path.clone()),
            what,
            remedy: "nothing was changed".into(),
        };
        let done = match edit {
            Edit::Set { value, .. } => set(&mut document, path, value, ground),
            Edit::Add { at, value, .. } => {
                list::add(&mut document, path, *at as usize, value.as_ref(), ground)
            }
            Edit::Remove { .. } => list::remove(&mut document, path, ground),
            Edit::Move { to, .. } => list::shift(&mut document, path, *to as usize, ground),
        };
        done.map_err(refuse)?;
    }
    let mut out = document.to_string();
    if text.contains("\r\n") {
        // New lines end as the others do.
        out = out.replace("\r\n", "\n").replace('\n', "\r\n");
    }
    Ok(out)
}

/// The same way with real rings made entries of the file.
pub(super) fn settle(
    document: &mut DocumentMut,
    path: &KeyPath,
    ground: &EditContext,
) -> Result<KeyPath, String> {
    let mut steps: Vec<Step> = Vec::new();
    for step in &path.steps() {
        let Step::Real(k) = step else {
            steps.push(step.clone());
            continue;
        };
        let [Step::Key(sections), Step::At(at), Step::Key(ring)] = steps.as_slice() else {
            return Err("this is no ring".into());
        };
        if sections != "section" || ring != "ring" {
            return Err("this is no ring".into());
        }
        let auto = ground.section(*at).rings;
        let rings = rings::listed(section(document, *at)?, auto)?;
        let entry = rings::own(rings, *k)?;
        steps.push(Step::At(entry));
    }
    Ok(KeyPath::of_steps(&steps))
}

/// A section's table.
pub(super) fn section(
    document: &mut DocumentMut,
    at: usize,
) -> Result<&mut toml_edit::Table, String> {
    let item = document.get_mut("section").ok_or("there is no section")?;
    rings::tables(item)?
        .get_mut(at)
        .ok_or_else(|| format!("there is no section {}", at + 1))
}

fn set(
    document: &mut DocumentMut,
    path: &KeyPath,
    words: &Words,
    ground: &EditContext,
) -> Result<(), String> {
    let found = find(ground.file, path).ok_or("there is no such setting")?;
    let path = settle(document, path, ground)?;
    let steps = path.steps();
    let (last, parents) = steps.split_last().ok_or("this is no setting")?;
    match found.quantity {
        Quantity::Corner => return list::corner(document, parents, words),
        Quantity::Table(_) => return list::table(document, found, parents, words, ground),
        Quantity::Tables(..) | Quantity::Named(_) => {
            return Err("there is no such setting".into());
        }
        _ => {}
    }
    match last {
        Step::Key(key) => set_key(document, &found, (parents, key), words, ground),
        Step::At(at) => {
            let value = value(found.quantity, words, ground.units)?;
            let array = Place::Table(document).at(parents).and_then(Place::array);
            let array = array.ok_or("there is no such list")?;
            if *at >= array.len() {
                return Err(format!("there is no entry {}", at + 1));
            }
            array.replace(*at, value);
            Ok(())
        }
        Step::Real(_) => Err("a ring has no value of its own".into()),
    }
}

/// Gives a key of a table a value, or takes it out; what it excludes goes.
fn set_key(
    document: &mut DocumentMut,
    found: &Found,
    (parents, key): (&[Step], &str),
    words: &Words,
    ground: &EditContext,
) -> Result<(), String> {
    let counts_rings =
        matches!(found.quantity, Quantity::Rings(_)) || found.table.displaces(key, "ring");
    if counts_rings {
        let parent = Place::Table(document).at(parents).and_then(Place::table);
        take(parent.ok_or("there is no such setting")?, "ring");
    }
    let parent = parent_table(document, parents)?;
    take_old(parent, found.table, key);
    if matches!(words, Words::None(())) {
        take(parent, key);
        return Ok(());
    }
    let value = value(found.quantity, words, ground.units)?;
    let mut displaced = found.table.displaced_by(key);
    if let Some(yes) = value.as_bool() {
        // A yes stands on a line of its own; what it rules out goes.
        let ruled_out = std::mem::take(&mut displaced);
        for other in ruled_out.iter().filter(|_| yes) {
            take(parent, other);
        }
    }
    give(parent, key, value, &displaced);
    if matches!(found.quantity, Quantity::Rings(_)) && parent.get(key).is_some_and(Item::is_integer)
    {
        take(parent, "height");
    }
    Ok(())
}

/// Takes a key out of the tables below, where older files have it.
fn take_old(parent: &mut dyn TableLike, table: &'static KeyTable, key: &str) {
    for below in table.keys {
        let keys = below.quantity.table();
        if !keys.is_some_and(|keys| keys.moved.iter().any(|moved| moved.name == key)) {
            continue;
        }
        let Some(item) = parent.get_mut(below.name) else {
            continue;
        };
        if let Ok(tables) = super::rings::tables(item) {
            tables.iter_mut().for_each(|entry| {
                take(entry, key);
            });
        }
    }
}

/// The table that holds a key, made where the file has none yet.
fn parent_table<'a>(
    document: &'a mut DocumentMut,
    parents: &[Step],
) -> Result<&'a mut dyn TableLike, String> {
    if let [Step::Key(name)] = parents
        && !document.contains_key(name)
    {
        document.insert(name, toml_edit::table());
    }
    Place::Table(document)
        .at(parents)
        .and_then(Place::table)
        .ok_or_else(|| "this stands nowhere in the file".into())
}
