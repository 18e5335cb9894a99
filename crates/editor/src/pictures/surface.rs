//! The whole surface in parts, as it is painted and shown in three dimensions.

use geometry::kurbo::Point;
use piece::piece::Piece;

use crate::wire::{PartMap, PartName};

/// A part of the surface: its name, its map, its line.
type Part = (PartName, PartMap, Vec<Point>);

/// The whole surface in parts, each going so that the wood is on its left.
pub fn surface(piece: &Piece) -> Vec<Part> {
    let form = &piece.form;
    let (outside, inside) = (form.outside().points(), form.inside().points());
    let recess = form.foot_recess().as_mm();
    let (foot, hole) = (
        outside.first().map_or(0.0, |p| p.x),
        (form.foot_radius() - form.foot_width()).as_mm(),
    );
    let mut under = vec![Point::new(0.0, recess)];
    if recess > 0.0 {
        under.extend([Point::new(hole, recess), Point::new(hole, 0.0)]);
    }
    under.push(Point::new(foot, 0.0));
    let mut down = inside.clone();
    down.reverse();
    let rim = outside
        .last()
        .copied()
        .into_iter()
        .chain(down.first().copied())
        .collect();
    let floor = down.last().copied().map(|p| vec![p, Point::new(0.0, p.y)]);
    let parts = vec![
        (PartName::Foot, PartMap::Disc, under),
        (PartName::Outside, PartMap::Skin, outside),
        (PartName::Rim, PartMap::Skin, rim),
        (PartName::Inside, PartMap::Skin, down),
        (PartName::Floor, PartMap::Disc, floor.unwrap_or_default()),
    ];
    let long = |line: &[Point]| line.windows(2).any(|w| w[0].distance(w[1]) > 1e-6);
    parts
        .into_iter()
        .filter(|(_, _, line)| long(line))
        .collect()
}
