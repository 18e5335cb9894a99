//! A side's curve through the maker's points, checked.

use geometry::kurbo::{BezPath, ParamCurve, PathEl, Point, flatten};
use geometry::{ProfilePoint, profile_curve};

use super::FormPoint;
use super::problem::{FormPart, FormProblemKind as Kind, Report};

/// Straight lines leave a curve by at most this share of the form's size: 1 µm in 100 mm.
const FINE: f64 = 1e-5;
/// A curve that comes down by less than this share of its size is taken as level.
const DIP: f64 = 1e-4;

/// A checked curve from the bottom up.
pub(super) struct Curve {
    pub(super) path: BezPath,
    /// Fine straight lines, never falling.
    pub(super) line: Vec<Point>,
    /// Heights of corners.
    pub(super) corners: Vec<f64>,
    /// Largest coordinate.
    pub(super) size: f64,
    pub(super) tolerance: f64,
}

impl Curve {
    pub(super) fn top(&self) -> f64 {
        self.line.last().map_or(0.0, |p| p.y)
    }
}

/// The curve through a maker's points, if they make one.
pub(super) fn checked_curve(
    points: &[FormPoint],
    straight: bool,
    part: FormPart,
    report: &mut Report,
) -> Option<Curve> {
    let (side, name) = match part {
        FormPart::Inner => ("inner", "inner points"),
        _ => ("outer", "outer points"),
    };
    let before = report.problems.len();
    let mut reached = f64::NEG_INFINITY;
    for (i, p) in points.iter().enumerate() {
        let (z, r) = (p.height.as_mm(), p.radius.as_mm());
        if !report.in_range(&[z, r], part, Some(i), name) {
            continue;
        }
        if r < 0.0 {
            let what = format!(
                "At height {} the {side} radius is {}.",
                report.say(z),
                report.say(r)
            );
            let remedy = "Give the distance from the axis, 0 or more.".into();
            report.add(
                (Kind::RadiusNegative, part, Some(i)),
                z,
                Some(0.0),
                what,
                remedy,
            );
        }
        if z < reached {
            let what = format!(
                "The {side} point at height {} follows one at {}, which is higher.",
                report.say(z),
                report.say(reached)
            );
            let remedy = "List points from the bottom up.".into();
            report.add(
                (Kind::DoublesBack, part, Some(i)),
                z,
                Some(reached),
                what,
                remedy,
            );
        }
        reached = reached.max(z);
    }
    if report.problems.len() > before {
        return None;
    }
    let profile: Vec<ProfilePoint> = points
        .iter()
        .map(|p| ProfilePoint {
            height: p.height.as_mm(),
            radius: p.radius.as_mm(),
            corner: p.corner,
        })
        .collect();
    let size = profile
        .iter()
        .fold(0.0_f64, |s, p| s.max(p.height.abs()).max(p.radius));
    let path = profile_curve(&profile, straight);
    let lowest = profile.first().map_or(0.0, |p| p.height);
    if path.is_empty() || reached - lowest <= 1e-9 * size {
        let what = format!("The {side} curve has no height: it needs two points or more.");
        let remedy = "Give at least two points, at different heights.".into();
        report.add((Kind::TooFewPoints, part, None), lowest, None, what, remedy);
        return None;
    }
    if part == FormPart::Outer && lowest.abs() > 1e-6 {
        let what = format!("The outer curve begins at height {}.", report.say(lowest));
        let remedy = "Count heights from the foot's underside: let the first point be at 0.".into();
        report.add(
            (Kind::NotOnTheFoot, part, Some(0)),
            lowest,
            Some(0.0),
            what,
            remedy,
        );
        return None;
    }
    let corners = profile
        .iter()
        .filter(|p| p.corner || straight)
        .map(|p| p.height)
        .collect();
    let tolerance = FINE * size;
    let line = rising(&path, size, tolerance, part, side, report)?;
    Some(Curve {
        path,
        line,
        corners,
        size,
        tolerance,
    })
}

/// Fine straight lines along a curve that rises and stays off the axis.
fn rising(
    path: &BezPath,
    size: f64,
    tolerance: f64,
    part: FormPart,
    side: &str,
    report: &mut Report,
) -> Option<Vec<Point>> {
    let mut line: Vec<Point> = Vec::new();
    flatten(path.iter(), tolerance, |el| {
        if let PathEl::MoveTo(p) | PathEl::LineTo(p) = el {
            line.push(p);
        }
    });
    let ends: Vec<Point> = path.segments().map(|s| s.end()).collect();
    // The stretch between two of the maker's points that a height lies in.
    let between = |z: f64| ends.iter().position(|e| e.y >= z).unwrap_or(0);
    let mut top = Point::new(0.0, f64::NEG_INFINITY);
    let (mut deepest, mut least) = ((0.0, top, top), Point::new(f64::INFINITY, 0.0));
    for p in &mut line {
        if p.y < top.y {
            if top.y - p.y > deepest.0 {
                deepest = (top.y - p.y, top, *p);
            }
            p.y = top.y;
        } else {
            top = *p;
        }
        if p.x < least.x {
            least = *p;
        }
    }
    let mut good = true;
    if deepest.0 > DIP * size {
        let (_, from, to) = deepest;
        let what = format!(
            "The {side} curve swings up to {} and comes down again to {} on its way through the points.",
            report.say(from.y),
            report.say(to.y)
        );
        let remedy = "Mark the point there as a corner, move it, or put another between.".into();
        report.add(
            (Kind::DoublesBack, part, Some(between(from.y))),
            from.y,
            None,
            what,
            remedy,
        );
        good = false;
    }
    if least.x < -DIP * size {
        let what = format!(
            "The smooth {side} curve swings past the axis at height {}.",
            report.say(least.y)
        );
        let remedy = "Mark the point there as a corner, or put another between.".into();
        let entry = Some(between(least.y));
        report.add(
            (Kind::RadiusNegative, part, entry),
            least.y,
            Some(0.0),
            what,
            remedy,
        );
        good = false;
    }
    line.iter_mut().for_each(|p| p.x = p.x.max(0.0));
    good.then_some(line)
}
