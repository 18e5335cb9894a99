//! The inner side: an offset of the outer one, or a curve of its own.

use files::message::Message;
use files::say;
use geometry::Length;
use geometry::kurbo::{BezPath, ParamCurveNearest, Point};
use geometry::{Profile, inner_offset};

use super::curve::{Curve, checked_curve};
use super::foot::LEAST;
use super::problem::{FormPart, FormProblemKind as Kind, Report, below, read, with_figure};
use files::design::{FormPoint, FormSpec, InnerSide, WallPoint};

/// The inner side before it is cut to floor and rim.
pub(super) struct Hollow {
    /// From the bottom up, past floor and rim where the curve goes on.
    pub(super) line: Vec<Point>,
    /// Heights where the wall leaves nothing hollow.
    pub(super) filled: Vec<(f64, f64)>,
    /// Thickness the floor gets if none is given, counted from the form's underside
    /// for a curve of its own.
    pub(super) lowest: Option<f64>,
    /// Wall thickness by height, where that is what was given.
    pub(super) walls: Vec<(f64, f64)>,
    /// Heights of corners.
    pub(super) corners: Vec<f64>,
    pub(super) wall_is_default: bool,
}

impl Hollow {
    /// Wall thickness at a height: in proportion between entries, level beyond.
    pub(super) fn wall(&self, z: f64) -> Option<f64> {
        wall(&self.walls, z)
    }
}

fn wall(walls: &[(f64, f64)], z: f64) -> Option<f64> {
    let (first, last) = (walls.first()?, walls.last()?);
    if z <= first.0 {
        return Some(first.1);
    }
    let next = walls.partition_point(|w| w.0 <= z);
    let (Some(a), Some(b)) = (walls.get(next.wrapping_sub(1)), walls.get(next)) else {
        return Some(last.1);
    };
    Some(a.1 + (b.1 - a.1) * (z - a.0) / (b.0 - a.0))
}

pub(super) fn hollow(spec: &FormSpec, outer: &Curve, report: &mut Report) -> Option<Hollow> {
    match spec.inner_side() {
        InnerSide::Points(points) => own_points(points, spec.straight, outer, report),
        InnerSide::Wall(entries) => offset(entries, outer, report),
    }
}

fn offset(entries: &[WallPoint], outer: &Curve, report: &mut Report) -> Option<Hollow> {
    let before = report.problems.len();
    let mut walls: Vec<(f64, f64)> = Vec::new();
    for (i, (z, t)) in entries
        .iter()
        .map(|e| (e.height.as_mm(), e.thickness.as_mm()))
        .enumerate()
    {
        if !report.in_range(&[z, t], FormPart::Wall, Some(i), "wall thickness") {
            continue;
        }
        if t < LEAST {
            let what = say!(
                "at {height} the wall is {wall} thick",
                height = Length::mm(z),
                wall = Length::mm(t),
            );
            let remedy = "give every wall thickness as more than nothing".into();
            report.add(
                (Kind::WallNotPositive, FormPart::Wall, Some(i)),
                z,
                None,
                what,
                remedy,
            );
        } else if walls.last().is_some_and(|l| l.0 >= z) {
            let what = say!(
                "the wall thickness at {height} comes after one at the same height or higher",
                height = Length::mm(z),
            );
            let remedy = "list wall thicknesses from the bottom up, each height once".into();
            report.add(
                (Kind::WallOutOfOrder, FormPart::Wall, Some(i)),
                z,
                None,
                what,
                remedy,
            );
        } else {
            walls.push((z, t));
        }
    }
    if report.problems.len() > before {
        return None;
    }
    let wall_is_default = walls.is_empty();
    let usual = FormSpec::usual_wall().as_mm();
    if wall_is_default {
        walls.push((0.0, usual));
    }
    let thickness = |z: f64| wall(&walls, z).unwrap_or(usual);
    // Every thickness is positive and the curve has length, so this cannot fail.
    let offset = inner_offset(&outer.path, &thickness, outer.tolerance).ok()?;
    Some(Hollow {
        line: offset.points,
        filled: offset.filled,
        lowest: None,
        corners: walls.iter().map(|w| w.0).collect(),
        walls,
        wall_is_default,
    })
}

fn own_points(
    points: &[FormPoint],
    straight: bool,
    outer: &Curve,
    report: &mut Report,
) -> Option<Hollow> {
    let curve = checked_curve(points, straight, FormPart::Inner, report)?;
    let (lowest, highest) = (*curve.line.first()?, *curve.line.last()?);
    let mut line = curve.line.clone();
    // Up past the rim and down past the underside, for the gauge and the cuts; straight
    // on where that is steep, else parallel to the axis.
    let on = |a: Point, b: Point, far: f64| {
        let slope = (b.x - a.x) / (b.y - a.y);
        let slope = if slope.abs() <= 1.0 { slope } else { 0.0 };
        Point::new((b.x + slope * far).max(0.0), b.y + far)
    };
    let top = outer.top();
    if let [.., a, b] = curve.line[..] {
        line.push(on(a, b, (top - highest.y).max(0.0) + 0.25 * top));
    }
    if let [b, a, ..] = curve.line[..] {
        line.insert(0, on(a, b, -(lowest.y.max(0.0) + 0.25 * top)));
    }
    Some(Hollow {
        line,
        filled: Vec::new(),
        lowest: Some(lowest.y),
        walls: Vec::new(),
        corners: curve.corners,
        wall_is_default: false,
    })
}

/// Is anything hollow between floor and rim, and does the floor stand where the hollow
/// can begin? Gives the floor's top, raised where the wall closes the bottom anyway.
pub(super) fn check_filled(
    hollow: &Hollow,
    outer: &Curve,
    floor_top: f64,
    floor_is_default: bool,
    report: &mut Report,
) -> Option<f64> {
    let top = outer.top();
    let mut floor_top = floor_top;
    for (from, to) in &hollow.filled {
        let (from, to) = (from.max(floor_top), to.min(top));
        if to - from <= 1e-9 * top {
            continue;
        }
        let t = hollow.wall(from).unwrap_or(0.0);
        // A round bottom closes by itself a little above where the maker reckons.
        if from <= floor_top && to < top && (floor_is_default || to - floor_top <= 0.1 * t + 0.1) {
            floor_top = to;
            continue;
        }
        let room = (0..=32)
            .map(|k| Point::new(0.0, from + (to - from) * f64::from(k) / 32.0))
            .map(|p| (distance(&outer.path, p), p.y))
            .fold((f64::INFINITY, from), |a, b| if b.0 < a.0 { b } else { a });
        let what = say!(
            "from {from} to {to} the wall of {wall} reaches the axis, so nothing is hollow there",
            from = Length::mm(from),
            to = Length::mm(to),
            wall = Length::mm(t),
        );
        let most = |unit| below(room.0, unit);
        let above = (to < top).then_some(Length::mm(to));
        let remedy = with_figure(most, |wall| thinner(wall, above));
        report.add(
            (Kind::WallFillsUp, FormPart::Wall, None),
            room.1,
            read(most),
            what,
            remedy,
        );
        return None;
    }
    Some(floor_top)
}

/// How something comes to be hollow: by a thinner wall, or by a floor above a height.
fn thinner(wall: Option<Length>, above: Option<Length>) -> Message {
    let wall = wall.map(|wall| say!("make the wall there {wall} or thinner", wall = wall));
    let floor = above.map(|top| say!("let the floor's top lie above {top}", top = top));
    match (wall, floor) {
        (Some(wall), Some(floor)) => say!("{wall}, or {floor}", wall = wall, floor = floor),
        (Some(wall), None) => say!("{wall}, or make the form wider", wall = wall),
        (None, Some(floor)) => say!("make the form wider there, or {floor}", floor = floor),
        (None, None) => say!("make the form wider there"),
    }
}

/// Does the inner side stay inside the outer one from floor to rim?
pub(super) fn check_inside(
    outer: &Curve,
    inner: &[Point],
    part: FormPart,
    report: &mut Report,
) -> bool {
    // At a step the narrower outside and the wider inside count.
    let (narrow, wide) = (Profile::inside(&outer.line), Profile::outside(inner));
    // A level edge at the very top is no part of a side, but the rim lies on it.
    let rim = outer.line.last().zip(inner.last());
    let worst = outer
        .line
        .iter()
        .chain(inner)
        .filter_map(|p| Some((narrow.radius(p.y)?, wide.radius(p.y)?, p.y)))
        .chain(rim.map(|(o, i)| (o.x, i.x, o.y)))
        .min_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)));
    let Some((r_out, r_in, z)) = worst else {
        return true;
    };
    if r_out - r_in > 1e-6 * outer.size {
        return true;
    }
    let what = say!(
        "at height {height} the inner side's radius is {inner}, the outer side's only {outer}: no \
         wall is left",
        height = Length::mm(z),
        inner = Length::mm(r_in),
        outer = Length::mm(r_out),
    );
    let most = |unit| below(r_out, unit);
    let remedy = with_figure(most, |figure| match figure {
        Some(figure) => say!(
            "keep the inner radius there to {figure} or less",
            figure = figure,
        ),
        None => say!("let the hollow end below this height"),
    });
    report.add(
        (Kind::InnerOutside, part, None),
        z,
        read(most),
        what,
        remedy,
    );
    false
}

fn distance(path: &BezPath, p: Point) -> f64 {
    path.segments()
        .map(|s| s.nearest(p, 1e-6).distance_sq.sqrt())
        .fold(f64::INFINITY, f64::min)
}

/// A rising line cut to a range of heights, continued parallel to the axis if it does
/// not reach the upper end.
pub(super) fn cut(line: &[Point], from: f64, to: f64) -> Vec<Point> {
    let side = Profile::inside(line);
    let (Some(a), highest) = (side.radius(from), side.highest()) else {
        return Vec::new();
    };
    let b = side.radius(to.min(highest)).unwrap_or(a);
    // Level edges at either end belong to it.
    let mut out = vec![Point::new(a.max(0.0), from)];
    out.extend(
        line.iter()
            .filter(|p| p.y >= from && p.y <= to)
            .map(|p| Point::new(p.x.max(0.0), p.y)),
    );
    out.push(Point::new(b.max(0.0), to));
    out.dedup();
    out
}
