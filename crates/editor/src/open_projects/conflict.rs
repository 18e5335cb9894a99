//! Two sides that changed one piece.

use std::sync::Arc;

use files::units::Unit;

use super::merge::commute;
use super::project::{Answer, OpenProject, ground};
use super::revision::version;
use super::{Revision, Shop};
use crate::store::{Store, hash};
use crate::wire::{Conflict, Edit, Problem};
use files::edit::apply;

impl OpenProject {
    /// Why edits meant on `base` cannot be made on what now stands, if so. The other side
    /// is kept among the versions, so that it can be taken.
    pub(super) fn conflict(
        &mut self,
        store: &dyn Store,
        shop: &Arc<Shop>,
        (edits, page): (&[Edit], Unit),
        base: &str,
        now: &Arc<Revision>,
    ) -> Option<Conflict> {
        if self.broken.is_none() && base == now.version {
            return None;
        }
        let old = self.base_text(base, shop);
        if let (None, Some(old)) = (&self.broken, &old)
            && (*old == now.text || commute(old, &now.text, edits))
        {
            return None;
        }
        let mine = old.and_then(|old| {
            let text = apply(&old, edits, &ground(now, page)).ok()?;
            self.make(&text, shop).ok()?;
            store.keep(&self.name, text.as_bytes()).ok()?;
            Some(hash(&[text.as_bytes()]))
        });
        let (what, theirs) = match &self.broken {
            Some(broken) => (
                "the file on the disk was changed by another program and cannot be used as it is",
                hash(&[broken.text.as_bytes()]),
            ),
            None => (
                "the same setting was changed elsewhere",
                now.version.clone(),
            ),
        };
        Some(Conflict {
            what: what.into(),
            theirs,
            mine,
        })
    }

    fn base_text(&self, base: &str, shop: &Shop) -> Option<String> {
        if let Some(revision) = self.version(base) {
            return Some(revision.text.clone());
        }
        let texts = self.undo.iter().rev().chain(&self.redo);
        texts
            .into_iter()
            .find(|t| version(t, shop) == base)
            .cloned()
    }

    /// Lets an earlier version, or the other side of a conflict, stand.
    pub fn take(&mut self, store: &dyn Store, shop: &Arc<Shop>, wanted: &str) -> Answer {
        self.in_step(store, shop, |project| {
            let Some(text) = project.text_of(store, shop, wanted) else {
                return Some(Answer::Refused(vec![Problem {
                    what: "that version is no longer there".into(),
                    remedy: "choose one that is".into(),
                    ..Problem::default()
                }]));
            };
            project.stand(store, shop, &text)
        })
    }

    /// The text of a version, wherever it is.
    fn text_of(&self, store: &dyn Store, shop: &Shop, wanted: &str) -> Option<String> {
        if let Some(revision) = self.version(wanted) {
            return Some(revision.text.clone());
        }
        let by_text = |t: &&String| version(t, shop) == wanted || hash(&[t.as_bytes()]) == wanted;
        let mut steps = self.undo.iter().rev().chain(&self.redo);
        if let Some(text) = steps.find(by_text) {
            return Some(text.clone());
        }
        let kept = store.versions(&self.name).unwrap_or_default();
        let found = kept.iter().find(|v| v.version == wanted)?;
        String::from_utf8(store.version(&self.name, found).ok()?).ok()
    }

    /// Lets a whole new text stand that was meant on version `base`.
    pub fn write(
        &mut self,
        store: &dyn Store,
        shop: &Arc<Shop>,
        (text, base): (&str, &str),
    ) -> Answer {
        self.in_step(store, shop, |project| {
            let now = project.now.as_ref().map_or("", |m| m.version.as_str());
            if now != base {
                return Some(Answer::Refused(vec![Problem {
                    what: "the piece was changed elsewhere in the meantime".into(),
                    remedy: "look at it again; your text is still here".into(),
                    ..Problem::default()
                }]));
            }
            project.stand(store, shop, text)
        })
    }

    fn stand(&mut self, store: &dyn Store, shop: &Arc<Shop>, text: &str) -> Option<Answer> {
        match self.make(text, shop) {
            Ok(revision) => {
                let changed = self
                    .now
                    .as_ref()
                    .is_none_or(|now| now.text != revision.text);
                self.put(store, revision, None, changed)
            }
            Err(problems) => Some(Answer::Refused(problems)),
        }
    }
}
