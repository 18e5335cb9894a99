//! Portraits that are painted already.

use std::num::NonZeroUsize;
use std::sync::Mutex;

use lru::LruCache;

use super::{Asked, What};
use crate::hold::hold;

/// Portraits kept; one is some hundred kilobytes.
const KEPT: NonZeroUsize = NonZeroUsize::new(64).expect("not zero");

/// The portraits asked for last, each a PNG of a version at a width.
pub struct Portraits(Mutex<LruCache<(String, u32), Vec<u8>>>);

impl Default for Portraits {
    fn default() -> Self {
        Portraits(Mutex::new(LruCache::new(KEPT)))
    }
}

impl Portraits {
    /// The portrait of a version, if it was painted.
    pub fn get(&self, version: &str, asked: &Asked) -> Option<Vec<u8>> {
        if asked.what != What::Portrait {
            return None;
        }
        let wanted = (version.to_string(), asked.width);
        hold(&self.0).get(&wanted).cloned()
    }

    /// Keeps a picture if it is a portrait.
    pub fn keep(&self, version: &str, asked: &Asked, png: &[u8]) {
        if asked.what == What::Portrait {
            hold(&self.0).put((version.into(), asked.width), png.to_vec());
        }
    }
}
