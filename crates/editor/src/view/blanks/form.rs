//! Blanks of the form.

use files::design::{FormPoint, FormSpec, InnerSide};
use files::edit::WholeForm;
use files::key::{self, KeyPath};
use piece::piece::Piece;

use super::{Range, Sheet, maker_or};
use crate::open_projects::Revision;
use crate::wire::Origin;

pub(super) fn blanks(sheet: &mut Sheet, revision: &Revision, piece: &Piece) {
    let (spec, form, at) = (&revision.design.form, &piece.form, key::form());
    for measure in WholeForm::ALL {
        let (least, most) = measure.range();
        let range = Range(least.as_mm(), most.as_mm());
        let (path, label) = (measure.path(), measure.label());
        sheet.length(path, label, Some(measure.of(spec)), Origin::Maker, range);
    }
    points(sheet, &at.outer(), "outside", &spec.outer);
    if let InnerSide::Points(inner) = spec.inner_side() {
        points(sheet, &at.inner(), "inside", inner);
    }
    sheet.key(&at.straight(), "", spec.straight, Origin::Maker);
    wall(sheet, &at.wall(), spec);
    let by = |given: bool| maker_or(given, Origin::Form);
    sheet.key(&at.floor(), "", form.floor(), by(spec.floor.is_some()));
    let usual = |given: bool| maker_or(given, Origin::Default);
    let given = usual(spec.foot_recess.is_some());
    sheet.key(&at.foot_recess(), "", form.foot_recess(), given);
    let given = by(spec.foot_width.is_some());
    sheet.key(&at.foot_width(), "", form.foot_width(), given);
    let given = usual(spec.rim_easing.is_some());
    sheet.key(&at.rim_easing(), "", form.rim_easing(), given);
}

/// The points of one side.
fn points(sheet: &mut Sheet, curve: &KeyPath, side: &str, points: &[FormPoint]) {
    for (i, point) in points.iter().enumerate() {
        let at = curve.entry(i);
        let of = format!("point {} of the {side}", i + 1);
        let maker = Origin::Maker;
        sheet.labelled(
            &at.entry(0),
            &format!("height of {of}"),
            point.height,
            maker,
        );
        sheet.labelled(
            &at.entry(1),
            &format!("radius of {of}"),
            point.radius,
            maker,
        );
        let corner = if point.corner { "corner" } else { "smooth" };
        sheet.labelled(&at.entry(2), &of, corner, maker);
    }
}

/// The wall: one thickness, or several at heights of their own.
fn wall(sheet: &mut Sheet, path: &KeyPath, spec: &FormSpec) {
    let InnerSide::Wall(walls) = spec.inner_side() else {
        return;
    };
    if walls.len() <= 1 {
        let given = walls.first().map(|w| w.thickness);
        let by = maker_or(given.is_some(), Origin::Default);
        let thickness = given.unwrap_or_else(FormSpec::usual_wall);
        sheet.key(path, "", thickness, by);
        return;
    }
    for (i, point) in walls.iter().enumerate() {
        let at = path.entry(i);
        let of = format!("wall thickness {}", i + 1);
        let maker = Origin::Maker;
        sheet.labelled(
            &at.entry(0),
            &format!("height of {of}"),
            point.height,
            maker,
        );
        sheet.labelled(&at.entry(1), &of, point.thickness, maker);
    }
}
