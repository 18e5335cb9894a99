//! Portraits that are painted already.

use std::sync::Mutex;

use super::{Asked, What};
use crate::serve::hold::hold;

/// Portraits kept; one is some hundred kilobytes.
const KEPT: usize = 64;

/// A version, a width and a PNG.
type Portrait = (String, u32, Vec<u8>);

/// The last portraits, newest last.
#[derive(Default)]
pub struct Portraits(Mutex<Vec<Portrait>>);

impl Portraits {
    /// The portrait of a version, if it was painted.
    pub fn get(&self, version: &str, asked: &Asked) -> Option<Vec<u8>> {
        let kept = hold(&self.0);
        let same = |p: &&Portrait| p.0 == version && p.1 == asked.width;
        let found = kept
            .iter()
            .find(|p| asked.what == What::Portrait && same(p));
        found.map(|p| p.2.clone())
    }

    /// Keeps a picture if it is a portrait.
    pub fn keep(&self, version: &str, asked: &Asked, png: &[u8]) {
        if asked.what != What::Portrait {
            return;
        }
        let mut kept = hold(&self.0);
        if kept.len() >= KEPT {
            kept.remove(0);
        }
        kept.push((version.into(), asked.width, png.to_vec()));
    }
}
