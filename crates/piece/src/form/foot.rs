//! The foot's recess and the floor.

use geometry::{Length, Profile};

use super::curve::Curve;
use super::hollow::{Hollow, check_filled};
use super::problem::{FormPart, FormProblemKind as Kind, Report};
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
    let what = format!(
        "The recess under the foot is {} deep, but the form only {} high.",
        report.say(recess),
        report.say(top)
    );
    let amount = report.below(top);
    let remedy = "Make the recess shallower; a few millimetres let a foot stand steadily.".into();
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
        let what = "The foot's ring around the recess has no width.".into();
        let remedy = "Give the ring a width, or leave the recess out.".into();
        let kind = (Kind::Negative, FormPart::FootWidth, None);
        report.add(kind, 0.0, Some(wall), what, remedy);
    }
    None
}

/// Does the ring leave room for a recess inside it? Reported if not.
fn narrower_than_the_foot(width: f64, radius: f64, report: &mut Report) -> bool {
    if width < radius {
        return true;
    }
    let what = format!(
        "The foot's ring is {} wide, but the foot's radius only {}: no room for the recess.",
        report.say(width),
        report.say(radius)
    );
    let amount = report.below(radius);
    let remedy = match amount {
        Some(a) => format!(
            "Make the ring {} or narrower, or leave the recess out.",
            report.say(a)
        ),
        None => "Give the form a foot to stand on, or leave the recess out.".into(),
    };
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
    let amount = report.above(radius - narrowest);
    let what = format!(
        "The recess, {} in radius, comes out through the outer side, which narrows to {}.",
        report.say(radius - width),
        report.say(narrowest)
    );
    let remedy = format!(
        "Make the foot's ring wider than {}, or the recess shallower.",
        report.say(radius - narrowest)
    );
    let kind = (Kind::RecessBreaksOut, FormPart::FootWidth, None);
    report.add(kind, height, Some(amount), what, remedy);
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
            Some(lowest) if given.is_none() => format!(
                "The inner side goes down to {}, where the recess reaches up to {}: no floor is left.",
                report.say(lowest),
                report.say(recess)
            ),
            _ => format!("The floor is {} thick.", report.say(floor)),
        };
        let remedy = "Give the floor a thickness, or let the inner side begin higher.".into();
        report.add(kind(Kind::FloorNotPositive), recess, None, what, remedy);
        return None;
    }
    let floor_top = recess + floor;
    if floor_top >= top * (1.0 - 1e-6) {
        let amount = report.below(top - recess);
        let what = format!(
            "The floor's top comes to {}, but the form is only {} high.",
            report.say(floor_top),
            report.say(top)
        );
        let remedy = match amount {
            Some(a) => format!(
                "Make the floor {} or thinner, so that something is hollow.",
                report.say(a)
            ),
            None => "Make the recess shallower.".into(),
        };
        report.add(kind(Kind::FloorTooThick), floor_top, amount, what, remedy);
        return None;
    }
    if let Some(lowest) = hollow.lowest
        && lowest > floor_top + 0.05
    {
        let amount = lowest - recess;
        let what = format!(
            "The floor is given as {}, but the inner side's lowest point leaves {}.",
            report.say(floor),
            report.say(amount)
        );
        let remedy = format!(
            "Leave the floor out, or let the inner side begin at {}.",
            report.say(floor_top)
        );
        report.add(
            kind(Kind::FloorDisagrees),
            lowest,
            Some(amount),
            what,
            remedy,
        );
        return None;
    }
    check_filled(hollow, outer, floor_top, given.is_none(), report)
}
