//! One open project.

use std::num::NonZeroUsize;
use std::sync::Arc;

use files::message::Language;
use files::reader::text_of;
use files::units::Unit;
use lru::LruCache;

use super::revision::{told, version};
use super::{Revision, Shop};
use crate::store::{Saved, Stamp, Store, StoreError, Stored, hash};
use crate::wire::{Conflict, Edit, Event, Problem};
use files::edit::{EditContext, SectionContext, Units, apply};
use files::keys::File;

/// Versions of one piece that are kept worked out: the last edits and previews.
const KEPT: NonZeroUsize = NonZeroUsize::new(12).expect("not zero");
/// How often a change is tried when other programs save at the same moments.
const TRIES: usize = 8;

/// One open project.
pub struct OpenProject {
    /// Its name.
    pub name: String,
    /// The piece as it stands; nothing where there never was a usable text.
    pub now: Option<Arc<Revision>>,
    /// What is wrong with the text on disk, where it is not the one that stands.
    pub broken: Option<Broken>,
    /// When it was saved, milliseconds since 1970 UTC.
    pub saved: f64,
    pub(super) undo: Vec<String>,
    pub(super) redo: Vec<String>,
    pub(super) revisions: LruCache<String, Arc<Revision>>,
    pub(super) disk: Disk,
    /// Whoever wants to know what happens to it, as long as they do.
    pub(super) listeners: Vec<Listener>,
    closed: bool,
}

/// Is told of each event; no longer when it answers that nobody listens.
type Listener = Box<dyn Fn(&Event) -> bool + Send>;

/// The file as it was last seen.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Disk {
    pub version: String,
    pub stamp: Option<Stamp>,
}

/// A text on disk that cannot be used.
#[derive(Debug, Clone)]
pub struct Broken {
    /// The text.
    pub text: String,
    /// What is wrong with it.
    pub problems: Vec<Problem>,
}

/// What became of an edit.
pub enum Answer {
    /// The piece stands as wished.
    Done,
    /// Nothing changed.
    Refused(Vec<Problem>),
    /// Someone else has changed it too.
    Conflict(Conflict),
    /// The disk would not take it.
    Disk(StoreError),
}

impl OpenProject {
    /// Opens a project of the store.
    pub fn open(
        store: &dyn Store,
        name: &str,
        shop: &Arc<Shop>,
    ) -> Result<OpenProject, StoreError> {
        let stamp = store.stamp(Stored::Project(name));
        let found = store.read(Stored::Project(name))?;
        let mut project = OpenProject {
            name: name.into(),
            now: None,
            broken: None,
            saved: found.saved,
            undo: Vec::new(),
            redo: Vec::new(),
            revisions: LruCache::new(KEPT),
            disk: Disk {
                version: found.version(),
                stamp,
            },
            listeners: Vec::new(),
            closed: false,
        };
        match project.look(&found.bytes, shop) {
            Ok(revision) => project.now = Some(revision),
            Err(broken) => project.broken = Some(broken),
        }
        project.seed(store, shop);
        Ok(project)
    }

    /// Earlier versions on disk are the first steps that can be undone; the newest of
    /// them stands in where the file itself cannot be used.
    fn seed(&mut self, store: &dyn Store, shop: &Arc<Shop>) {
        let Ok(kept) = store.versions(&self.name) else {
            return;
        };
        let texts = kept.iter().filter_map(|v| {
            let bytes = store.version(&self.name, v).ok()?;
            String::from_utf8(bytes).ok()
        });
        let current = self.now.as_ref().map(|m| m.text.clone());
        self.undo = texts.filter(|t| Some(t) != current.as_ref()).collect();
        while self.now.is_none() {
            let Some(text) = self.undo.pop() else { break };
            self.now = self.make(&text, shop).ok();
        }
    }

    fn look(&mut self, bytes: &[u8], shop: &Arc<Shop>) -> Result<Arc<Revision>, Broken> {
        match text_of(bytes) {
            Ok(text) => self.make(text, shop).map_err(|problems| Broken {
                text: text.into(),
                problems,
            }),
            Err(problem) => Err(Broken {
                text: String::from_utf8_lossy(bytes).into_owned(),
                problems: vec![told(&problem)],
            }),
        }
    }

    /// A text worked out, or found among those that are.
    pub fn make(&mut self, text: &str, shop: &Arc<Shop>) -> Result<Arc<Revision>, Vec<Problem>> {
        self.make_for(text, shop, None)
    }

    /// The same, with problems told to a reader of a language.
    fn make_for(
        &mut self,
        text: &str,
        shop: &Arc<Shop>,
        reader: Option<Language>,
    ) -> Result<Arc<Revision>, Vec<Problem>> {
        let wanted = version(text, shop);
        if let Some(revision) = self.revisions.get(&wanted) {
            return Ok(revision.clone());
        }
        let revision = Arc::new(match reader {
            Some(reader) => Revision::for_reader(&self.name, text, shop, reader)?,
            None => Revision::new(&self.name, text, shop)?,
        });
        self.remember(revision.clone());
        Ok(revision)
    }

    /// Keeps a version worked out.
    pub fn remember(&mut self, revision: Arc<Revision>) {
        self.revisions.put(revision.version.clone(), revision);
    }

    /// A version that is worked out.
    pub fn version(&self, version: &str) -> Option<Arc<Revision>> {
        let kept = self.revisions.peek(version);
        let now = self.now.as_ref().filter(|now| now.version == version);
        kept.or(now).cloned()
    }

    /// Steps that can be undone and redone.
    pub fn steps(&self) -> (u32, u32) {
        (self.undo.len() as u32, self.redo.len() as u32)
    }

    /// Tells `listener` of each event from now on, until it answers that nobody listens any
    /// more.
    pub fn listen(&mut self, listener: impl Fn(&Event) -> bool + Send + 'static) {
        self.listeners.push(Box::new(listener));
    }

    fn send(&mut self, event: &Event) {
        self.listeners.retain(|listener| listener(event));
    }

    /// The text with edits made; nothing is changed.
    pub fn edited(revision: &Revision, edits: &[Edit], page: Unit) -> Result<String, Vec<Problem>> {
        apply(&revision.text, edits, &ground(revision, page)).map_err(|p| vec![p.into()])
    }

    /// Makes edits that were meant on version `base`, and saves.
    pub fn edit(
        &mut self,
        store: &dyn Store,
        shop: &Arc<Shop>,
        (edits, page): (&[Edit], Language),
        base: &str,
        client: Option<&str>,
    ) -> Answer {
        self.in_step(store, shop, |project| {
            let Some(now) = project.now.clone() else {
                let broken = project.broken.as_ref().map(|b| b.problems.clone());
                return Some(Answer::Refused(broken.unwrap_or_default()));
            };
            if let Some(conflict) = project.conflict(store, shop, (edits, page.unit), base, &now) {
                return Some(Answer::Conflict(conflict));
            }
            let text = match Self::edited(&now, edits, page.unit) {
                Ok(text) => text,
                Err(problems) => return Some(Answer::Refused(problems)),
            };
            if text == now.text {
                return Some(Answer::Done);
            }
            match project.make_for(&text, shop, Some(page)) {
                Ok(revision) => project.put(store, revision, client, true),
                Err(problems) => Some(Answer::Refused(problems)),
            }
        })
    }

    /// Does something on what the disk holds now. Where another program saves at the same
    /// moment its text stands, and it is done again on that, as if the other had come a
    /// moment earlier.
    pub(super) fn in_step(
        &mut self,
        store: &dyn Store,
        shop: &Arc<Shop>,
        mut act: impl FnMut(&mut Self) -> Option<Answer>,
    ) -> Answer {
        for _ in 0..TRIES {
            if let Err(trouble) = self.catch_up(store, shop) {
                return Answer::Disk(trouble);
            }
            if let Some(answer) = act(self) {
                return answer;
            }
        }
        Answer::Disk(StoreError::new("another program keeps saving this file"))
    }

    /// Lets a piece stand, saves it and tells everyone. With `step` it can be undone.
    /// `None` if another program has saved at the same moment: then nothing has changed.
    pub(super) fn put(
        &mut self,
        store: &dyn Store,
        revision: Arc<Revision>,
        client: Option<&str>,
        step: bool,
    ) -> Option<Answer> {
        let seen = (!self.disk.version.is_empty()).then_some(self.disk.version.as_str());
        match store.save(Stored::Project(&self.name), revision.text.as_bytes(), seen) {
            Ok(Saved::Done) => {}
            Ok(Saved::Overtaken) => return None,
            Err(trouble) => return Some(Answer::Disk(trouble)),
        }
        self.seen(store, hash(&[revision.text.as_bytes()]));
        self.broken = None;
        if let Some(old) = self.now.replace(revision)
            && step
        {
            self.undo.push(old.text.clone());
            self.redo.clear();
        }
        self.tell(false, client.map(String::from));
        Some(Answer::Done)
    }

    pub(super) fn seen(&mut self, store: &dyn Store, version: String) {
        let stamp = store.stamp(Stored::Project(&self.name));
        self.saved = stamp.map_or(self.saved, Stamp::millis);
        self.disk = Disk { version, stamp };
    }

    pub(super) fn tell(&mut self, on_disk: bool, client: Option<String>) {
        let version = self
            .now
            .as_ref()
            .map(|m| m.version.clone())
            .unwrap_or_default();
        self.send(&Event::Changed {
            version,
            on_disk,
            broken: self.broken.is_some(),
            client,
        });
    }

    /// Takes back the last step.
    pub fn undo(&mut self, store: &dyn Store, shop: &Arc<Shop>) -> Answer {
        self.step(store, shop, true)
    }

    /// Makes the last step that was taken back again.
    pub fn redo(&mut self, store: &dyn Store, shop: &Arc<Shop>) -> Answer {
        self.step(store, shop, false)
    }

    fn step(&mut self, store: &dyn Store, shop: &Arc<Shop>, back: bool) -> Answer {
        self.in_step(store, shop, |project| project.step_once(store, shop, back))
    }

    fn step_once(&mut self, store: &dyn Store, shop: &Arc<Shop>, back: bool) -> Option<Answer> {
        loop {
            let from = if back { &mut self.undo } else { &mut self.redo };
            let Some(text) = from.pop() else {
                let what = if back {
                    "there is nothing to undo"
                } else {
                    "there is nothing to redo"
                };
                return Some(Answer::Refused(vec![Problem {
                    what: what.into(),
                    remedy: "go on from here".into(),
                    ..Problem::default()
                }]));
            };
            // A version from before this session may be unusable; it is passed over.
            let Ok(revision) = self.make(&text, shop) else {
                continue;
            };
            if self.now.as_ref().is_some_and(|now| now.text == text) {
                continue;
            }
            let old = self.now.as_ref().map(|now| now.text.clone());
            let answer = self.put(store, revision, None, false);
            match (&answer, old) {
                (Some(Answer::Done), Some(old)) if back => self.redo.push(old),
                (Some(Answer::Done), Some(old)) => self.undo.push(old),
                // The step is still there to be taken when the disk is.
                _ if back => self.undo.push(text),
                _ => self.redo.push(text),
            }
            return answer;
        }
    }

    /// Looks whether the file was changed by someone else and, if it was, takes that as
    /// one more step. True if it was.
    pub fn catch_up(&mut self, store: &dyn Store, shop: &Arc<Shop>) -> Result<bool, StoreError> {
        if self.closed {
            return Err(StoreError::no_project());
        }
        let name = self.name.clone();
        let stamp = store.stamp(Stored::Project(&name));
        let found = match store.read(Stored::Project(&name)) {
            Ok(found) => found,
            Err(trouble) if trouble.missing => {
                if self.disk.stamp.take().is_some() {
                    self.send(&Event::Gone {});
                }
                self.disk.version.clear();
                return Ok(false);
            }
            Err(trouble) => return Err(trouble),
        };
        let version = found.version();
        if version == self.disk.version {
            self.disk.stamp = stamp;
            return Ok(false);
        }
        // Both sides are kept: theirs now, ours was when it was saved.
        store.keep(&self.name, &found.bytes)?;
        self.disk = Disk { version, stamp };
        self.saved = found.saved;
        match self.look(&found.bytes, shop) {
            Ok(revision) => {
                self.broken = None;
                if let Some(old) = self.now.replace(revision)
                    && self.now.as_ref().is_some_and(|now| now.text != old.text)
                {
                    self.undo.push(old.text.clone());
                    self.redo.clear();
                }
            }
            Err(broken) => self.broken = Some(broken),
        }
        self.tell(true, None);
        Ok(true)
    }

    /// Nothing is done here any more: the project was renamed or deleted.
    pub fn close(&mut self) {
        self.closed = true;
    }

    /// May the file have changed since it was last seen?
    pub fn may_have_changed(&self, store: &dyn Store) -> bool {
        !self.closed && store.stamp(Stored::Project(&self.name)) != self.disk.stamp
    }

    /// The same piece in a workshop that has changed.
    pub fn move_to(&mut self, store: &dyn Store, shop: &Arc<Shop>) {
        let text = self.now.as_ref().map(|m| m.text.clone());
        match text.map(|text| self.make(&text, shop)) {
            Some(Ok(revision)) => {
                self.now = Some(revision);
                self.tell(false, None);
            }
            // The new workshop lacks a saw that the piece names: the old one stays in view.
            Some(Err(problems)) => {
                let text = self
                    .now
                    .as_ref()
                    .map(|m| m.text.clone())
                    .unwrap_or_default();
                self.broken = Some(Broken { text, problems });
                self.tell(false, None);
            }
            None => {
                // What was broken may be whole in this workshop.
                self.disk.version.clear();
                let _ = self.catch_up(store, shop);
            }
        }
    }
}

/// What edits have to know of a piece.
pub fn ground(revision: &Revision, page: Unit) -> EditContext {
    let piece = revision.settled.piece.as_ref();
    let sections = piece.map_or(&[][..], |p| &p.sections);
    EditContext {
        units: Units {
            page,
            file: revision.design.unit,
        },
        file: File::Project,
        sections: sections
            .iter()
            .map(|s| {
                let middle = s.stacked.as_mm() / 2.0;
                let joints = s.rings.iter().skip(1).map(|r| r.bottom.as_mm());
                SectionContext {
                    rings: s.rings.len(),
                    stacked: s.stacked.as_mm(),
                    joint: joints
                        .min_by(|a, b| (a - middle).abs().total_cmp(&(b - middle).abs()))
                        .unwrap_or(middle),
                    segments: s.rings.first().map_or(12, |r| r.sizes.segments),
                    reach: s.stacked.as_mm() * 0.5,
                }
            })
            .collect(),
    }
}
