//! The drawing as plain entities for any other format.

use std::f64::consts::TAU;

use glam::DVec2;

use super::drawing::{Drawing, Item, LineKind, Shape};
use super::text::Text;

/// One plain entity, mm on paper, y down.
#[derive(Debug, Clone)]
pub enum Entity<'a> {
    /// A straight line.
    Line {
        /// The layer it is on.
        layer: &'a str,
        /// Its kind.
        kind: LineKind,
        /// From here.
        from: DVec2,
        /// To there.
        to: DVec2,
    },
    /// A part of a circle, or all of it; see [`Shape::Arc`] for the angles.
    Arc {
        /// The layer it is on.
        layer: &'a str,
        /// Its kind.
        kind: LineKind,
        /// Its middle.
        centre: DVec2,
        /// Its radius.
        radius: f64,
        /// Where it starts, radians.
        from: f64,
        /// How far it runs, radians.
        sweep: f64,
    },
    /// Words.
    Text {
        /// The layer they are on.
        layer: &'a str,
        /// The words, their place and size.
        text: &'a Text,
    },
}

/// All lines, arcs and words of a drawing. Fills are left out: they repeat what
/// lines and letters say.
pub fn geometry(drawing: &Drawing) -> impl Iterator<Item = Entity<'_>> {
    drawing.layers.iter().flat_map(|layer| {
        let name = layer.name.as_str();
        layer
            .items
            .iter()
            .flat_map(move |item| entities(name, item))
    })
}

fn entities<'a>(layer: &'a str, item: &'a Item) -> Vec<Entity<'a>> {
    match item {
        Item::Text(text) => vec![Entity::Text { layer, text }],
        Item::Area(_) => Vec::new(),
        Item::Line(Shape::Polyline { points, closed }, kind) => {
            let back = closed.then(|| Some((*points.last()?, *points.first()?)));
            points
                .windows(2)
                .map(|w| (w[0], w[1]))
                .chain(back.flatten())
                .map(|(from, to)| Entity::Line {
                    layer,
                    kind: *kind,
                    from,
                    to,
                })
                .collect()
        }
        Item::Line(
            Shape::Arc {
                centre,
                radius,
                from,
                sweep,
            },
            kind,
        ) => vec![Entity::Arc {
            layer,
            kind: *kind,
            centre: *centre,
            radius: *radius,
            from: *from,
            sweep: *sweep,
        }],
        Item::Line(Shape::Circle { centre, radius }, kind) => vec![Entity::Arc {
            layer,
            kind: *kind,
            centre: *centre,
            radius: *radius,
            from: 0.0,
            sweep: TAU,
        }],
    }
}
