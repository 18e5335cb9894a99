//! Strips to wrap round the trued section.

use drawings::Drawing;
use drawings::views::{Options, wrap_strip};
use files::design::BlankShape;
use files::message::{Language, Value};
use files::say;
use plan::settings::band::BandAt;

use super::{Template, band_key};

/// The page says what it is; a heading in the drawing would only make its tiles higher.
fn bare(mut drawing: Drawing) -> Drawing {
    drawing.layers.retain(|l| l.name != "heading");
    drawing.trimmed(3.0)
}

/// A strip with every loop's cuts, and one with a single loop's cuts and blocks that
/// serves all loops by turns. None for a section that is sawn as a polygon stack:
/// there is nothing round to wrap.
pub(super) fn template(at: &BandAt<'_>, language: Language) -> Vec<Template> {
    if at.section.blank == BlankShape::Polygon {
        return Vec::new();
    }
    let full = Options::full_size(language);
    let name = || Value::name(&at.section.name);
    let mut out = Vec::new();
    let strip = |only| wrap_strip(at.piece, at.section_number, only, &full);
    // A section with several bands has one strip for all of them.
    if at.band_number == 0
        && let Some(drawing) = strip(None)
    {
        out.push(Template {
            key: format!("wrap-strip-{}", super::slug(&at.section.name)),
            title: say!("Wrap-round strip, section {name}", name = name()).said(language),
            how: say!(
                "Join its parts, tape it round the trued section, start mark on start mark, and \
                 butt the ends: where they do not meet, the section's diameter is off. Every \
                 cut of every loop is on it."
            )
            .said(language),
            drawing: bare(drawing),
        });
    }
    let first = at.band.order.first().copied().unwrap_or(0);
    if let Some(drawing) = strip(Some((at.band_number, first))) {
        out.push(Template {
            key: format!("wrap-strip-{}-blocks", band_key(at)),
            title: say!(
                "Wrap-round strip with positioning blocks, section {name}, loop {number}",
                name = name(),
                number = first + 1,
            )
            .said(language),
            how: say!(
                "For loop {number} with its start mark on the start mark; for every other loop \
                 turned on by the difference of their index marks. Heavy: the two cuts.",
                number = first + 1,
            )
            .said(language),
            drawing: bare(drawing),
        });
    }
    out
}
