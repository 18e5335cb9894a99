//! The foot's recess and the floor.

use files::say;
use geometry::{Length, Profile};

use super::curve::Curve;
use super::hollow::{Hollow, check_filled};
use super::problem::{
    FormPart, FormProblemKind as Kind, Report, above, below, on_a_rule, read, with_figure,
};
use files::design::FormSpec;

use super::Foot;

/// Anything thinner is no wall and no floor, mm.
pub(super) const LEAST: f64 = 1e-3;

/// The recess under the foot; none if it does not fit.
pub(super) fn foot(
    spec: &FormSpec,
    outer: &Curve,
    (recess, width): (f64, f64),
    wall: f64,
    report: &mut Report,
) -> Foot {
    let side = Profile::outside(&outer.line);
    let radius = side.radius(0.0).unwrap_or(0.0);
    let none = Foot {
        radius,
        recess: 0.0,
        width: 0.0,
    };
    if recess <= 0.0 {
        return none;
    }
    if !lower_than_the_form(recess, outer.top(), report) {
        return none;
    }
    let Some(width) = ring_width(spec, width, wall, radius, report) else {
        return none;
    };
    if !narrower_than_the_foot(width, radius, report)
        || !within_the_outside(recess, radius, width, outer, report)
    {
        return none;
    }
    Foot {
        radius,
        recess,
        width,
    }
}

/// Is the recess less deep than the form is high? Reported if not.
fn lower_than_the_form(recess: f64, top: f64, report: &mut Report) -> bool {
    if recess < top {
        return true;
    }
    let what = say!(
        "the recess under the foot is {recess} deep, but the form only {top} high",
        recess = Length::mm(recess),
        top = Length::mm(top),
    );
    let amount = read(|unit| below(top, unit));
    let remedy = "make the recess shallower; a few millimetres let a foot stand steadily".into();
    let kind = (Kind::RecessTooDeep, FormPart::FootRecess, None);
    report.add(kind, recess, amount, what, remedy);
    false
}

/// Width of the ring around the recess: as given, or as thick as the wall.
fn ring_width(
    spec: &FormSpec,
    width: f64,
    wall: f64,
    radius: f64,
    report: &mut Report,
) -> Option<f64> {
    let Some(given) = spec.foot_width else {
        return Some(wall.clamp(0.0, 0.5 * radius));
    };
    if width > 0.0 {
        return Some(width);
    }
    // A width below nothing has been reported already.
    if given.as_mm() == 0.0 {
        let what = "the foot's ring around the recess has no width".into();
        let remedy = "give the ring a width, or leave the recess out".into();
        let kind = (Kind::Negative, FormPart::FootWidth, None);
        report.add(kind, 0.0, on_a_rule(wall), what, remedy);
    }
    None
}

/// Does the ring leave room for a recess inside it? Reported if not.
fn narrower_than_the_foot(width: f64, radius: f64, report: &mut Report) -> bool {
    if width < radius {
        return true;
    }
    let what = say!(
        "the foot's ring is {width} wide, but the foot's radius only {radius}: no room for the \
         recess",
        width = Length::mm(width),
        radius = Length::mm(radius),
    );
    let most = |unit| below(radius, unit);
    let remedy = with_figure(most, |figure| match figure {
        Some(figure) => say!(
            "make the ring {figure} or narrower, or leave the recess out",
            figure = figure,
        ),
        None => say!("give the form a foot to stand on, or leave the recess out"),
    });
    let amount = read(most);
    let kind = (Kind::FootTooWide, FormPart::FootWidth, None);
    report.add(kind, 0.0, amount, what, remedy);
    false
}

/// Does the recess stay inside the outer side? Reported if not.
fn within_the_outside(
    recess: f64,
    radius: f64,
    width: f64,
    outer: &Curve,
    report: &mut Report,
) -> bool {
    let narrowest = Profile::inside(&outer.line)
        .min_between(0.0, recess)
        .unwrap_or(0.0);
    if radius - width < narrowest - 1e-6 * outer.size {
        return true;
    }
    let height = outer
        .line
        .iter()
        .filter(|p| p.y <= recess)
        .min_by(|a, b| a.x.total_cmp(&b.x))
        .map_or(recess, |p| p.y);
    let amount = read(|unit| Some(above(radius - narrowest, unit)));
    let what = say!(
        "the recess, {radius} in radius, comes out through the outer side, which narrows to \
         {narrowest}",
        radius = Length::mm(radius - width),
        narrowest = Length::mm(narrowest),
    );
    let remedy = say!(
        "make the foot's ring wider than {width}, or the recess shallower",
        width = Length::mm(radius - narrowest),
    );
    let kind = (Kind::RecessBreaksOut, FormPart::FootWidth, None);
    report.add(kind, height, amount, what, remedy);
    false
}

/// Height of the floor's upper face, checked against form and inner side.
pub(super) fn floor_top(
    spec: &FormSpec,
    outer: &Curve,
    hollow: &Hollow,
    recess: f64,
    report: &mut Report,
) -> Option<f64> {
    let top = outer.top();
    let given = spec.floor.map(Length::as_mm);
    if let Some(floor) = given
        && !report.in_range(&[floor], FormPart::Floor, None, "floor")
    {
        return None;
    }
    let floor = match (given, hollow.lowest) {
        (Some(floor), _) => floor,
        (None, Some(lowest)) => lowest - recess,
        (None, None) => hollow.wall(0.0)?,
    };
    let kind = |kind| (kind, FormPart::Floor, None);
    if floor < LEAST {
        let what = match hollow.lowest {
            Some(lowest) if given.is_none() => say!(
                "the inner side goes down to {lowest}, where the recess reaches up to {recess}: no \
                 floor is left",
                lowest = Length::mm(lowest),
                recess = Length::mm(recess),
            ),
            _ => say!("the floor is {floor} thick", floor = Length::mm(floor)),
        };
        let remedy = "give the floor a thickness, or let the inner side begin higher".into();
        report.add(kind(Kind::FloorNotPositive), recess, None, what, remedy);
        return None;
    }
    let floor_top = recess + floor;
    if floor_top >= top * (1.0 - 1e-6) {
        let what = say!(
            "the floor's top comes to {floor_top}, but the form is only {top} high",
            floor_top = Length::mm(floor_top),
            top = Length::mm(top),
        );
        let most = |unit| below(top - recess, unit);
        let remedy = with_figure(most, |figure| match figure {
            Some(figure) => say!(
                "make the floor {figure} or thinner, so that something is hollow",
                figure = figure,
            ),
            None => say!("make the recess shallower"),
        });
        report.add(
            kind(Kind::FloorTooThick),
            floor_top,
            read(most),
            what,
            remedy,
        );
        return None;
    }
    if let Some(lowest) = hollow.lowest
        && lowest > floor_top + 0.05
    {
        let amount = lowest - recess;
        let what = say!(
            "the floor is given as {floor}, but the inner side's lowest point leaves {left}",
            floor = Length::mm(floor),
            left = Length::mm(amount),
        );
        let remedy = say!(
            "leave the floor out, or let the inner side begin at {floor_top}",
            floor_top = Length::mm(floor_top),
        );
        report.add(
            kind(Kind::FloorDisagrees),
            lowest,
            on_a_rule(amount),
            what,
            remedy,
        );
        return None;
    }
    check_filled(hollow, outer, floor_top, given.is_none(), report)
}
