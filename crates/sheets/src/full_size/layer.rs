//! A layer's oval in its blank, with the segments' joints.

use drawings::vector::{Anchor, Area, Drawing, Fill, Item, Layer, LineKind, Shape, Text};
use drawings::views::{Options, layer_blank};
use files::message::{Language, Value};
use files::say;
use geometry::Length;
use glam::DVec2;
use plan::settings::band::BandAt;

use super::{Template, band_key};

/// Least radius of a hole, mm, that has room for the words.
const ROOMY: f64 = 45.0;

/// The template of a band's layers.
pub(super) fn template(at: &BandAt<'_>, language: Language) -> Option<Template> {
    let full = Options::full_size(language);
    let drawing = layer_blank(at.piece, at.section_number, at.band_number, &full)?;
    Some(Template {
        key: format!("layer-{}", band_key(at)),
        title: say!("Layer for {band}", band = at.name()).said(language),
        how: say!(
            "Lay a layer's blank on it: joints on the lines, the oval inside its edge, the \
             arrow the way the loop climbs."
        )
        .said(language),
        drawing: narrow(drawing, at, language),
    })
}

/// The drawing without heading, legend and hatch, under which lines are lost; with its
/// words inside the hole, where there is one, so that more of them fit on a page.
fn narrow(mut drawing: Drawing, at: &BandAt<'_>, language: Language) -> Drawing {
    let mut without = vec!["heading", "legend", "woods"];
    let hole = drawing
        .layers
        .iter()
        .filter(|l| l.name == "hole")
        .flat_map(|l| &l.items)
        .find_map(|item| match item {
            Item::Line(Shape::Circle { centre, radius }, _) => Some((*centre, *radius)),
            _ => None,
        })
        .filter(|hole| hole.1 > ROOMY);
    if hole.is_some() {
        without.extend(["climb", "dimensions", "axis"]);
    }
    drawing
        .layers
        .retain(|l| !without.contains(&l.name.as_str()));
    if let Some((centre, radius)) = hole {
        drawing.layers.push(cross(centre));
        drawing.layers.push(words(centre, radius, at, language));
    }
    drawing.trimmed(0.5)
}

/// Where the axis goes through the cut's middle.
fn cross(centre: DVec2) -> Layer {
    let line = |way: DVec2| Item::Line(Shape::line(centre - way, centre + way), LineKind::Centre);
    Layer {
        name: "axis".into(),
        items: [DVec2::X, DVec2::Y].map(|way| line(way * 14.0)).into(),
    }
}

/// An arrow to the right that says where the loop climbs, and the sizes.
fn words(centre: DVec2, radius: f64, at: &BandAt<'_>, language: Language) -> Layer {
    let blank = &at.band.blank;
    let mut lines = vec![
        say!("climbs this way"),
        say!(
            "heavy: oval {length} × {width}",
            length = Value::Bare(blank.length),
            width = Value::Bare(blank.width),
        ),
        say!(
            "dashed: largest hole ⌀ {across}",
            across = Value::Bare(Length::mm(radius * 2.0)),
        ),
    ];
    if let Some(ring) = &blank.ring {
        let across = Value::Bare(ring.flat_out * 2.0);
        lines.push(say!("ring, flats ⌀ {across}", across = across));
    }
    let middle = centre + DVec2::new(0.0, radius.min(60.0) * 0.3);
    let (half, side) = (DVec2::new(14.0, 0.0), DVec2::new(0.0, 0.5));
    let tip = middle + half;
    let back = tip - DVec2::new(2.6, 0.0);
    let mut items = vec![
        Item::Line(Shape::line(middle - half, tip), LineKind::Thin),
        Item::Area(Area {
            bounds: vec![vec![tip, back + side, back - side]],
            fill: Fill::Ink,
        }),
    ];
    for (k, line) in lines.into_iter().enumerate() {
        let under = DVec2::new(0.0, 5.0 * (k + 1) as f64);
        items.push(Item::Text(Text::new(
            middle + under,
            line.said(language),
            Anchor::Middle,
            3.5,
        )));
    }
    Layer {
        name: "words".into(),
        items,
    }
}
