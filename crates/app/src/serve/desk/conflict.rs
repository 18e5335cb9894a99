//! Two sides that changed one piece.

use std::sync::Arc;

use files::units::Unit;

use super::made::version;
use super::merge::commute;
use super::project::{Answer, Desk, ground};
use super::{Made, Shop};
use crate::serve::store::{Folder, hash};
use crate::serve::wire::{Conflict, Edit, Problem};
use files::edit::apply;

impl Desk {
    /// Why edits meant on `base` cannot be made on what now stands, if so. The other side
    /// is kept among the versions, so that it can be taken.
    pub(super) fn conflict(
        &mut self,
        folder: &Folder,
        shop: &Arc<Shop>,
        (edits, page): (&[Edit], Unit),
        base: &str,
        now: &Arc<Made>,
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
            folder.keep(&self.name, text.as_bytes()).ok()?;
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
        if let Some(made) = self.version(base) {
            return Some(made.text.clone());
        }
        let texts = self.undo.iter().rev().chain(&self.redo);
        texts
            .into_iter()
            .find(|t| version(t, shop) == base)
            .cloned()
    }

    /// Lets an earlier version, or the other side of a conflict, stand.
    pub fn take(&mut self, folder: &Folder, shop: &Arc<Shop>, wanted: &str) -> Answer {
        if let Err(trouble) = self.catch_up(folder, shop) {
            return Answer::Disk(trouble);
        }
        let by_text = |t: &&String| version(t, shop) == wanted || hash(&[t.as_bytes()]) == wanted;
        let mut text = self.version(wanted).map(|m| m.text.clone());
        if text.is_none() {
            text = self
                .undo
                .iter()
                .rev()
                .chain(&self.redo)
                .find(by_text)
                .cloned();
        }
        if text.is_none() {
            let kept = folder.versions(&self.name).unwrap_or_default();
            let found = kept.iter().find(|v| v.version == wanted);
            text = found
                .and_then(|v| folder.version(v).ok())
                .and_then(|bytes| String::from_utf8(bytes).ok());
        }
        let Some(text) = text else {
            return Answer::Refused(vec![Problem {
                what: "that version is no longer there".into(),
                remedy: "choose one that is".into(),
                ..Problem::default()
            }]);
        };
        self.write(folder, shop, &text)
    }

    /// Lets a whole new text stand.
    pub fn write(&mut self, folder: &Folder, shop: &Arc<Shop>, text: &str) -> Answer {
        match self.make(text, shop) {
            Ok(made) => {
                let changed = self.now.as_ref().is_none_or(|now| now.text != made.text);
                self.put(folder, made, None, changed)
            }
            Err(problems) => Answer::Refused(problems),
        }
    }
}
