//! A layer's oval in its blank, with the segments' joints.

use drawings::sheet::{Anchor, Area, Drawing, Fill, Item, Layer, LineKind, Shape, Text};
use drawings::views::{Options, layer_blank};
use glam::DVec2;
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
        drawing: narrow(drawing),
    })
}

/// The drawing without its heading and legend, and with the arrow of the climb inside
/// the hole, where there is one: so that more of them fit on a page.
fn narrow(mut drawing: Drawing) -> Drawing {
    drawing
        .layers
        .retain(|l| l.name != "heading" && l.name != "legend");
    let hole = drawing
        .layers
        .iter()
        .filter(|l| l.name == "hole")
        .flat_map(|l| &l.items)
        .find_map(|item| match item {
            Item::Line(Shape::Circle { centre, radius }, _) => Some((*centre, *radius)),
            _ => None,
        });
    if let Some((centre, radius)) = hole.filter(|h| h.1 > 45.0) {
        drawing.layers.retain(|l| l.name != "climb");
        drawing
            .layers
            .push(climb(centre + DVec2::new(radius * 0.45, radius * 0.45)));
    }
    drawing.trimmed(2.0)
}

/// An arrow to the right with its words, in the middle at `at`.
fn climb(at: DVec2) -> Layer {
    let half = DVec2::new(14.0, 0.0);
    let (tip, side) = (at + half, DVec2::new(0.0, 0.5));
    let back = tip - DVec2::new(2.6, 0.0);
    Layer {
        name: "climb".into(),
        items: vec![
            Item::Line(Shape::line(at - half, tip), LineKind::Thin),
            Item::Area(Area {
                bounds: vec![vec![tip, back + side, back - side]],
                fill: Fill::Ink,
            }),
            Item::Text(
                Text::new(
                    at + DVec2::new(0.0, 5.0),
                    "climbs this way",
                    Anchor::Middle,
                    3.5,
                )
                .with_halo(),
            ),
        ],
    }
}
