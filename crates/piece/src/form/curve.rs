//! A side's curve through the maker's points, checked.

use files::message::Message;
use files::say;
use geometry::Length;
use geometry::kurbo::{BezPath, Line, ParamCurve, PathEl, Point, flatten};
use geometry::{ProfilePoint, profile_curve};

use super::problem::{FormPart, FormProblemKind as Kind, Report, on_a_rule};
use files::design::FormPoint;

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
    let reached = reached(points, (part, side, name), report)?;
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
        let what = say!(
            "the {side} curve has no height: it needs two points or more",
            side = side,
        );
        let remedy = "give at least two points, at different heights".into();
        report.add((Kind::TooFewPoints, part, None), lowest, None, what, remedy);
        return None;
    }
    if part == FormPart::Outer && lowest.abs() > 1e-6 {
        let what = say!(
            "the outer curve begins at height {height}",
            height = Length::mm(lowest),
        );
        let remedy = "count heights from the foot's underside: let the first point be at 0".into();
        report.add(
            (Kind::NotOnTheFoot, part, Some(0)),
            lowest,
            on_a_rule(0.0),
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
    let line = rising(&path, &profile, (size, tolerance), (part, side), report)?;
    Some(Curve {
        path,
        line,
        corners,
        size,
        tolerance,
    })
}

/// The height that points from the bottom up reach; nothing where one is in no place that a
/// point can be.
fn reached(
    points: &[FormPoint],
    (part, side, name): (FormPart, &'static str, &'static str),
    report: &mut Report,
) -> Option<f64> {
    let before = report.problems.len();
    let mut reached = f64::NEG_INFINITY;
    for (i, p) in points.iter().enumerate() {
        let (z, r) = (p.height.as_mm(), p.radius.as_mm());
        if !report.in_range(&[z, r], part, Some(i), name) {
            continue;
        }
        if r < 0.0 {
            let what = say!(
                "at height {height} the {side} radius is {radius}",
                height = Length::mm(z),
                side = side,
                radius = Length::mm(r),
            );
            let remedy = "give the distance from the axis, 0 or more".into();
            report.add(
                (Kind::RadiusNegative, part, Some(i)),
                z,
                on_a_rule(0.0),
                what,
                remedy,
            );
        }
        if z < reached {
            let what = say!(
                "the {side} point at height {height} follows one at {reached}, which is higher",
                side = side,
                height = Length::mm(z),
                reached = Length::mm(reached),
            );
            let remedy = "list points from the bottom up".into();
            report.add(
                (Kind::DoublesBack, part, Some(i)),
                z,
                on_a_rule(reached),
                what,
                remedy,
            );
        }
        reached = reached.max(z);
    }
    (report.problems.len() == before).then_some(reached)
}

/// Fine straight lines along a curve that rises and stays off the axis.
fn rising(
    path: &BezPath,
    profile: &[ProfilePoint],
    (size, tolerance): (f64, f64),
    (part, side): (FormPart, &'static str),
    report: &mut Report,
) -> Option<Vec<Point>> {
    let mut line: Vec<Point> = Vec::new();
    flatten(path.iter(), tolerance, |el| {
        if let PathEl::MoveTo(p) | PathEl::LineTo(p) = el {
            line.push(p);
        }
    });
    let mut drawn = line.clone();
    drawn.dedup_by(|b, a| (*b - *a).hypot() <= 1e-9 * size);
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
        let (kind, height, culprit, what) = match crossing(&drawn) {
            Some(c) => (
                Kind::CrossesItself,
                c.y,
                smooth_point(profile, &[c, from, to]),
                say!(
                    "the smooth {side} curve makes a loop and crosses itself at height {height}",
                    side = side,
                    height = Length::mm(c.y),
                ),
            ),
            None => (
                Kind::DoublesBack,
                from.y,
                smooth_point(profile, &[from, to]),
                say!(
                    "the {side} curve swings up to {from} and comes down again to {to} on its way \
                     through the points",
                    side = side,
                    from = Length::mm(from.y),
                    to = Length::mm(to.y),
                ),
            ),
        };
        let remedy = unbend(profile, culprit);
        report.add((kind, part, culprit), height, None, what, remedy);
        good = false;
    }
    if least.x < -DIP * size {
        let what = say!(
            "the smooth {side} curve swings past the axis at height {height}",
            side = side,
            height = Length::mm(least.y),
        );
        let entry = smooth_point(profile, &[least]);
        let remedy = unbend(profile, entry);
        report.add(
            (Kind::RadiusNegative, part, entry),
            least.y,
            on_a_rule(0.0),
            what,
            remedy,
        );
        good = false;
    }
    line.iter_mut().for_each(|p| p.x = p.x.max(0.0));
    good.then_some(line)
}

/// Which of the maker's points that are not corners lies nearest to any of `places`.
fn smooth_point(profile: &[ProfilePoint], places: &[Point]) -> Option<usize> {
    let inner = 1..profile.len().saturating_sub(1);
    let away = |i: usize| {
        let p = Point::new(profile[i].radius, profile[i].height);
        let squares = places.iter().map(|q| (*q - p).hypot2());
        squares.fold(f64::INFINITY, f64::min)
    };
    inner
        .filter(|i| !profile[*i].corner)
        .min_by(|a, b| away(*a).total_cmp(&away(*b)))
}

/// How to take a swing out of a smooth curve.
fn unbend(profile: &[ProfilePoint], point: Option<usize>) -> Message {
    match point.and_then(|i| profile.get(i)) {
        Some(p) => say!(
            "mark the point at height {height}, radius {radius} as a corner, or put another point \
             beside it",
            height = Length::mm(p.height),
            radius = Length::mm(p.radius),
        ),
        None => say!("move the points there, or put another between"),
    }
}

/// The lowest point where a line crosses itself. Every pair of edges is tried, but only
/// for a curve that is already known to be wrong.
fn crossing(line: &[Point]) -> Option<Point> {
    let edges: Vec<Line> = line.windows(2).map(|w| Line::new(w[0], w[1])).collect();
    let mut lowest: Option<Point> = None;
    for (i, a) in edges.iter().enumerate() {
        for b in edges.iter().skip(i + 2) {
            let (u, v, w) = (a.p1 - a.p0, b.p1 - b.p0, b.p0 - a.p0);
            let across = u.cross(v);
            let (s, t) = (w.cross(v) / across, w.cross(u) / across);
            if (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) {
                let p = a.eval(s);
                if lowest.is_none_or(|l| p.y < l.y) {
                    lowest = Some(p);
                }
            }
        }
    }
    lowest
}
