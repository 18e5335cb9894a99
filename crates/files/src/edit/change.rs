//! Edits, one after another, all or none.

use toml_edit::{DocumentMut, Item, TableLike};

use super::asked::{Edit, Refused, Words};
use super::kind::{self, Kind};
use super::list;
use super::path::{Path, Step};
use super::place::{Place, give, take};
use super::rings;
use super::value::{Units, value};

/// What a file's edits have to know besides its text.
#[derive(Debug, Clone)]
pub struct Ground {
    /// Units of page and file.
    pub units: Units,
    /// It is the workshop's file.
    pub workshop: bool,
    /// Sections as they stand.
    pub sections: Vec<SectionGround>,
}

/// What new entries of a section are made from.
#[derive(Debug, Clone, Copy, Default)]
pub struct SectionGround {
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

impl Ground {
    fn kind(&self, path: &Path) -> Option<Kind> {
        if self.workshop {
            kind::of_workshop(path)
        } else {
            kind::of_project(path)
        }
    }

    pub(super) fn section(&self, at: usize) -> SectionGround {
        self.sections.get(at).copied().unwrap_or(SectionGround {
            rings: 1,
            ..SectionGround::default()
        })
    }
}

/// The text with all edits made; the first that cannot be made, if one cannot.
pub fn apply(text: &str, edits: &[Edit], ground: &Ground) -> Result<String, Refused> {
    let mut document: DocumentMut = text.parse().map_err(|_| Refused {
        path: None,
        what: "the file cannot be read as it is".into(),
        remedy: "repair its text first, or take an earlier version".into(),
    })?;
    for edit in edits {
        let (Edit::Set { path: text, .. }
        | Edit::Add { path: text, .. }
        | Edit::Remove { path: text }
        | Edit::Move { path: text, .. }) = edit;
        let refuse = |what: String| Refused {
            path: Some(text.clone()),
            what,
            remedy: "nothing was changed".into(),
        };
        let path = Path::parse(text).ok_or_else(|| refuse("this is no setting".into()))?;
        let done = match edit {
            Edit::Set { value, .. } => set(&mut document, &path, value, ground),
            Edit::Add { at, value, .. } => {
                list::add(&mut document, &path, *at as usize, value.as_ref(), ground)
            }
            Edit::Remove { .. } => list::remove(&mut document, &path, ground),
            Edit::Move { to, .. } => list::shift(&mut document, &path, *to as usize, ground),
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
    path: &Path,
    ground: &Ground,
) -> Result<Path, String> {
    let mut steps: Vec<Step> = Vec::with_capacity(path.0.len());
    for step in &path.0 {
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
    Ok(Path(steps))
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
    path: &Path,
    words: &Words,
    ground: &Ground,
) -> Result<(), String> {
    let kind = ground.kind(path).ok_or("there is no such setting")?;
    let path = settle(document, path, ground)?;
    let pattern = path.pattern();
    let (parents, last) = path.split_last().ok_or("this is no setting")?;
    if kind == Kind::Corner {
        return list::corner(document, parents, words);
    }
    if kind == Kind::Table {
        return list::table(document, &path, words, ground);
    }
    match last {
        Step::Key(key) => {
            if pattern == "section[].rings" || pattern == "section[].height" {
                let parent = Place::Table(document).at(parents).and_then(Place::table);
                take(parent.ok_or("there is no such setting")?, "ring");
            }
            let parent = parent_table(document, parents)?;
            if matches!(words, Words::None(())) {
                take(parent, key);
                return Ok(());
            }
            let value = value(kind, words, ground.units)?;
            give(parent, key, value, kind::rivals(&pattern));
            if pattern == "section[].rings" && parent.get("rings").is_some_and(Item::is_integer) {
                take(parent, "height");
            }
            if pattern == "section[].ring[].solid" && *words == Words::Flag(true) {
                for key in ["segments", "width", "floor"] {
                    take(parent, key);
                }
            }
            Ok(())
        }
        Step::At(at) => {
            let value = value(kind, words, ground.units)?;
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
