//! A layer's oval in its blank, with the segments' joints.

use drawings::views::{Options, layer_blank};
use plan::settings::band::BandAt;

use super::{Template, band_key};

/// The template of a band's layers.
pub(super) fn template(at: &BandAt<'_>) -> Option<Template> {
    let full = Options::full_size(at.piece.unit);
    let drawing = layer_blank(at.piece, at.section_number, at.band_number, &full)?;
    Some(Template {
        key: format!("layer-{}", band_key(at)),
        title: format!("Layer for {}", at.name()),
        how: "Lay a layer's blank on it: joints on the lines, the oval inside its edge, the \
              arrow the way the loop climbs."
            .into(),
        drawing,
    })
}
