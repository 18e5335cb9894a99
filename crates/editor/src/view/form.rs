//! The form for the page.

use ::plan::finding::Finding;
use ::plan::findings::of_the_wall;
use files::design::{FormPoint as SpecPoint, FormSpec, InnerSide, WallPoint};
use files::message::{Language, Said};
use geometry::kurbo::Point;
use piece::piece::Piece;

use super::plan::figure;
use super::round;
use crate::open_projects::Revision;
use crate::pictures::surface;
use crate::wire::{FormPoint, FormView, Pair, PartName, SurfacePart, Thin, Wall};

/// The form.
pub fn form(
    revision: &Revision,
    piece: &Piece,
    language: Language,
    address: &str,
    whole: bool,
) -> FormView {
    let form = &piece.form;
    let spec = &revision.design.form;
    let unit = language.unit;
    let shown = revision.shown(language);
    let figures = if whole {
        shown.plan().overview.as_ref()
    } else {
        None
    };
    let (inner_points, walls) = match spec.inner_side() {
        InnerSide::Points(points) => (self::points("inner", points), Vec::new()),
        InnerSide::Wall(walls) => (Vec::new(), self::walls(walls)),
    };
    FormView {
        height: form.height().as_mm(),
        radius: form.largest_radius().0.as_mm(),
        outer: pairs(&form.outside().points()),
        inner: pairs(&form.inside().points()),
        outline: pairs(form.outline().points()),
        points: points("outer", &spec.outer),
        inner_points,
        walls,
        thin: thin(shown.findings(), piece),
        figures: figures.map_or_else(Vec::new, |o| {
            let woods = o.woods.iter().flat_map(|w| [&w.volume, &w.weight]);
            o.figures
                .iter()
                .chain(woods)
                .map(|f| figure(f, unit))
                .collect()
        }),
        parts: parts(piece, &revision.version, address),
    }
}

fn pairs(points: &[Point]) -> Vec<Pair> {
    points.iter().map(|p| (round(p.x), round(p.y))).collect()
}

fn points(key: &str, points: &[SpecPoint]) -> Vec<FormPoint> {
    let each = points.iter().enumerate();
    each.map(|(i, p)| FormPoint {
        path: format!("form.{key}[{i}]"),
        height: p.height.as_mm(),
        radius: p.radius.as_mm(),
        corner: p.corner,
    })
    .collect()
}

fn walls(walls: &[WallPoint]) -> Vec<Wall> {
    match walls {
        [] | [_] => {
            let wall = walls
                .first()
                .map_or_else(FormSpec::usual_wall, |w| w.thickness);
            vec![Wall {
                path: "form.wall".into(),
                height: 0.0,
                thickness: wall.as_mm(),
            }]
        }
        many => many
            .iter()
            .enumerate()
            .map(|(i, wall)| Wall {
                path: format!("form.wall[{i}]"),
                height: wall.height.as_mm(),
                thickness: wall.thickness.as_mm(),
            })
            .collect(),
    }
}

/// Where findings about a thin wall lie: the rings that they are about.
fn thin(findings: &[Finding<Said>], piece: &Piece) -> Vec<Thin> {
    findings
        .iter()
        .filter(|f| of_the_wall(f))
        .flat_map(|f| {
            let section = f.subject.section.and_then(|s| piece.sections.get(s));
            let rings = f.rings().into_iter();
            rings.filter_map(move |ring| {
                let ring = section?.rings.get(ring)?;
                Some(Thin {
                    z0: ring.spans.0.as_mm(),
                    z1: ring.spans.1.as_mm(),
                    what: f.what.clone(),
                })
            })
        })
        .collect()
}

fn parts(piece: &Piece, version: &str, address: &str) -> Vec<SurfacePart> {
    surface(piece)
        .into_iter()
        .map(|(name, map, line)| {
            let word = match name {
                PartName::Outside => "skin-outside",
                PartName::Rim => "skin-rim",
                PartName::Inside => "skin-inside",
                PartName::Floor => "disc-floor",
                PartName::Foot => "disc-foot",
            };
            SurfacePart {
                name,
                map,
                line: pairs(&line),
                picture: format!("{address}/{word}.png?v={version}"),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use files::units::Unit;

    use super::*;
    use crate::open_projects::Shop;

    const MM: &str = "ringwright = 1\nunit = \"mm\"\n";

    fn thin_of(text: &str) -> Vec<Thin> {
        let revision = Revision::new("trial", text, &Arc::new(Shop::from_text(MM))).unwrap();
        let shown = revision.shown(Unit::Mm.into());
        thin(shown.findings(), shown.settled.piece.as_ref().unwrap())
    }

    #[test]
    fn a_thin_wall_is_marked_and_a_thin_board_is_not() {
        let board = include_str!("../../../../tests/findings/stock-thin.fail.toml");
        assert!(thin_of(board).is_empty());
        let ring = include_str!("../../../../tests/findings/ring-narrow-inside.fail.toml");
        let marked = thin_of(ring);
        assert!(marked.iter().any(|t| t.what.contains("too narrow inside")));
        let many = include_str!("../../../../tests/findings/ring-narrow-inside.fail-many.toml");
        assert_eq!(thin_of(many).len(), 6);
    }
}
