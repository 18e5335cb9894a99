//! Blanks of the form.

use files::design::{FormSpec, InnerSide};
use geometry::Length;
use piece::piece::Piece;

use super::{Range, Sheet};
use crate::serve::desk::Made;
use crate::serve::view::shape;
use crate::serve::wire::Origin;

const HEIGHT: Range = Range(0.0, 3000.0);
const RADIUS: Range = Range(0.0, 1500.0);
const WALL: Range = Range(0.2, 100.0);
const FLOOR: Range = Range(0.2, 200.0);
const RECESS: Range = Range(0.0, 100.0);
const FOOT: Range = Range(0.5, 500.0);
const EASING: Range = Range(0.0, 50.0);

fn given<T>(value: Option<T>, otherwise: Origin) -> Origin {
    if value.is_some() {
        Origin::Maker
    } else {
        otherwise
    }
}

pub(super) fn blanks(sheet: &mut Sheet, made: &Made, piece: &Piece) {
    let (spec, form) = (&made.design.form, &piece.form);
    shape::blanks(sheet, spec);
    for (key, points) in [
        ("outer", Some(spec.outer.as_slice())),
        (
            "inner",
            match spec.inner_side() {
                InnerSide::Points(points) => Some(points),
                InnerSide::Wall(_) => None,
            },
        ),
    ] {
        for (i, point) in points.into_iter().flatten().enumerate() {
            let path = |n: usize| format!("form.{key}[{i}][{n}]");
            let of = format!(
                "point {} of the {}",
                i + 1,
                if key == "outer" { "outside" } else { "inside" }
            );
            sheet.length(
                &path(0),
                &format!("height of {of}"),
                Some(point.height),
                Origin::Maker,
                HEIGHT,
            );
            sheet.length(
                &path(1),
                &format!("radius of {of}"),
                Some(point.radius),
                Origin::Maker,
                RADIUS,
            );
            let corner = if point.corner { "corner" } else { "smooth" };
            let choices = [("smooth", "smooth"), ("corner", "corner")];
            sheet.choice(&path(2), &of, corner, Origin::Maker, &choices);
        }
    }
    sheet.flag(
        "form.straight",
        "straight lines between points",
        spec.straight,
        Origin::Maker,
    );
    match spec.inner_side() {
        InnerSide::Wall(walls) if walls.len() > 1 => {
            for (i, point) in walls.iter().enumerate() {
                let (height, wall) = (&point.height, &point.thickness);
                let path = |n: usize| format!("form.wall[{i}][{n}]");
                let height_label = format!("height of wall thickness {}", i + 1);
                sheet.length(
                    &path(0),
                    &height_label,
                    Some(*height),
                    Origin::Maker,
                    HEIGHT,
                );
                let label = format!("wall thickness {}", i + 1);
                sheet.length(&path(1), &label, Some(*wall), Origin::Maker, WALL);
            }
        }
        InnerSide::Wall(walls) => {
            let wall = walls.first().map(|w| w.thickness);
            let origin = given(wall, Origin::Default);
            sheet.length(
                "form.wall",
                "wall thickness",
                wall.or(Some(FormSpec::usual_wall())),
                origin,
                WALL,
            );
        }
        InnerSide::Points(_) => {}
    }
    let some = |v: Length| Some(v);
    sheet.length(
        "form.floor",
        "floor thickness",
        some(form.floor()),
        given(spec.floor, Origin::Form),
        FLOOR,
    );
    let recess = given(spec.foot_recess, Origin::Default);
    sheet.length(
        "form.foot_recess",
        "depth of the foot's recess",
        some(form.foot_recess()),
        recess,
        RECESS,
    );
    let foot = given(spec.foot_width, Origin::Form);
    sheet.length(
        "form.foot_width",
        "width of the foot's ring",
        some(form.foot_width()),
        foot,
        FOOT,
    );
    let easing = given(spec.rim_easing, Origin::Default);
    sheet.length(
        "form.rim_easing",
        "radius of the eased rim",
        some(form.rim_easing()),
        easing,
        EASING,
    );
}
