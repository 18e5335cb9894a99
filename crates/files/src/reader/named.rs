//! A value read as a wood's name.

use std::collections::BTreeMap;

use super::Item;
use crate::design::OwnWood;
use crate::wood;

impl Item<'_> {
    /// A wood's name that is known, built in or own.
    pub fn known_wood(&self, own: &BTreeMap<String, OwnWood>) -> Option<String> {
        let name = self.text()?;
        if own.contains_key(&name) {
            return Some(name);
        }
        let Err(unknown) = wood::find_among(&name, own) else {
            return Some(name);
        };
        let short: String = name.chars().take(40).collect();
        let bare = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
        let own_wood = if short.chars().all(bare) {
            format!("describe it under [woods.{short}]")
        } else {
            let quoted = short.replace(['"', '\\', '\n'], " ");
            format!("describe it under [woods.\"{quoted}\"]")
        };
        let remedy = if unknown.nearest.is_empty() {
            format!("{own_wood}, or choose a wood of the list")
        } else {
            let nearest = unknown.nearest.join(" or ");
            format!("did you mean {nearest}? Otherwise {own_wood}")
        };
        self.trouble("no wood of that name is known", &remedy);
        None
    }

    /// A wood of the built-in table.
    pub fn listed_wood(&self) -> Option<String> {
        let name = self.text()?;
        let Err(unknown) = wood::find(&name) else {
            return Some(name);
        };
        let remedy = if unknown.nearest.is_empty() {
            "choose a wood of the list".into()
        } else {
            format!("did you mean {}?", unknown.nearest.join(" or "))
        };
        self.trouble("no wood of that name is in the list", &remedy);
        None
    }
}
