//! Templates at full size: cut out, taped on, held against the work.
//!
//! ```text
//!   Piece ──► Template (a drawing at 1 : 1) ──┬──► tiles on paper
//!                                             └──► SVG and DXF with check bars
//! ```

mod bars;
mod disc;
mod layer;
mod segment;
mod stick;
mod strip;
mod wedge;

use drawings::Drawing;
use files::message::Language;
use piece::piece::Piece;
use plan::ring_group::RingGroup;
use plan::settings::band::BandAt;

pub use bars::{INCHES_BAR, MM_BAR, with_check_bars};
pub(crate) use stick::{step, template as half_section};

/// One template at full size.
#[derive(Debug, Clone)]
pub struct Template {
    /// Its file's name without an ending: `wrap-strip-belly`.
    pub key: String,
    /// What it is.
    pub title: String,
    /// How it is used, in a sentence or two.
    pub how: String,
    /// The drawing, 1 : 1.
    pub drawing: Drawing,
}

/// Every template of a piece, in the order of the work, for one reader.
pub fn templates(piece: &Piece, language: Language) -> Vec<Template> {
    let mut out = Vec::new();
    for section in 0..piece.sections.len() {
        for group in RingGroup::of_section(piece, section) {
            out.extend(segment::template(&group, language));
        }
    }
    for section in 0..piece.sections.len() {
        for band in BandAt::of_section(piece, section) {
            out.push(wedge::template(&band, language));
            out.push(disc::template(&band, language));
            out.extend(strip::template(&band, language));
            out.extend(layer::template(&band, language));
        }
    }
    out.push(half_section(piece, language));
    one_key_each(&mut out);
    out
}

/// Files must not overwrite each other: a key that comes twice gets a number.
fn one_key_each(all: &mut [Template]) {
    let mut taken: Vec<String> = Vec::with_capacity(all.len());
    for template in all {
        let mut key = template.key.clone();
        let mut number = 2;
        while taken.contains(&key) {
            key = format!("{}-{number}", template.key);
            number += 1;
        }
        template.key.clone_from(&key);
        taken.push(key);
    }
}

/// A band's place in a file's name: the section's, and the band's number where it has several.
fn band_key(at: &BandAt<'_>) -> String {
    let section = slug(&at.section.name);
    if at.section.bands.len() == 1 {
        section
    } else {
        format!("{section}-{}", at.band_number + 1)
    }
}

/// Words as part of a file's name.
fn slug(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars().take(60) {
        if c.is_ascii_alphanumeric() {
            out.push(c.to_ascii_lowercase());
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    let out = out.trim_end_matches('-');
    if out.is_empty() {
        "part".into()
    } else {
        out.into()
    }
}
