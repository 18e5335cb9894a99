//! From a maker's points to a form.

use files::say;
use geometry::kurbo::Point;
use geometry::{Length, Outline, OutlineError, Profile};

use super::curve::{Curve, checked_curve};
use super::foot::{floor_top, foot};
use super::gauge::Gauge;
use super::hollow::{check_inside, cut, hollow};
use super::problem::{
    FormPart, FormProblem, FormProblemKind as Kind, Report, below, on_a_rule, read, with_figure,
};
use super::rim::eased;
use files::design::{FormSpec, InnerSide};

use super::{Foot, Form};
use files::units::Unit;

/// Largest measure of a form, mm: ten metres.
const LARGEST: f64 = 10_000.0;
impl Report {
    /// Are all figures finite and below the largest measure? Reports if not.
    pub(super) fn in_range(
        &mut self,
        figures: &[f64],
        part: FormPart,
        entry: Option<usize>,
        name: &'static str,
    ) -> bool {
        // A NaN is in no range.
        if figures.iter().all(|f| f.abs() <= LARGEST) {
            return true;
        }
        let what = match entry {
            Some(i) => say!(
                "entry {entry} of the {name} is no usable measure",
                entry = i + 1,
                name = name,
            ),
            None => say!("the {name} is no usable measure", name = name),
        };
        let remedy = say!("give a figure up to {most}", most = Length::mm(LARGEST));
        let at = figures
            .first()
            .copied()
            .filter(|f| f.is_finite())
            .unwrap_or(0.0);
        self.add(
            (Kind::OutOfRange, part, entry),
            at,
            on_a_rule(LARGEST),
            what,
            remedy,
        );
        false
    }

    /// An optional measure that is to be zero or more; zero if it is not usable.
    fn measure(&mut self, given: Option<Length>, part: FormPart, name: &'static str) -> f64 {
        let mm = given.map_or(0.0, Length::as_mm);
        if !self.in_range(&[mm], part, None, name) {
            return 0.0;
        }
        if mm < 0.0 {
            let what = say!(
                "the {name} is {given}, less than nothing",
                name = name,
                given = Length::mm(mm),
            );
            let remedy = "give it as 0 or more, or leave it out".into();
            self.add(
                (Kind::Negative, part, None),
                0.0,
                on_a_rule(0.0),
                what,
                remedy,
            );
            return 0.0;
        }
        mm
    }
}

pub(super) fn build(spec: &FormSpec) -> (Option<Form>, Vec<FormProblem>) {
    let mut report = Report::default();
    let form = assemble(spec, &mut report);
    if form.is_none() && report.problems.is_empty() {
        let what = "the inner side leaves nothing hollow between floor and rim".into();
        let remedy = "let the inner side, or the wall, reach from the floor to the rim".into();
        let kind = (Kind::WallFillsUp, FormPart::Wall, None);
        report.add(kind, 0.0, None, what, remedy);
    }
    (form, report.problems)
}

fn assemble(spec: &FormSpec, report: &mut Report) -> Option<Form> {
    let outer = checked_curve(&spec.outer, spec.straight, FormPart::Outer, report);
    let recess = report.measure(spec.foot_recess, FormPart::FootRecess, "foot recess");
    let width = report.measure(spec.foot_width, FormPart::FootWidth, "foot width");
    let easing = report.measure(spec.rim_easing, FormPart::RimEasing, "rim easing");
    let outer = outer?;
    let hollow = hollow(spec, &outer, report)?;
    let at_bottom = hollow.wall(0.0).unwrap_or_else(|| {
        let inner = Profile::outside(&hollow.line).radius(hollow.lowest.unwrap_or(0.0));
        let outside = Profile::outside(&outer.line).radius(0.0);
        outside.unwrap_or(0.0) - inner.unwrap_or(0.0)
    });
    let foot = foot(spec, &outer, (recess, width), at_bottom, report);
    let floor_top = floor_top(spec, &outer, &hollow, foot.recess, report)?;
    let part = match spec.inner_side() {
        InnerSide::Points(_) => FormPart::Inner,
        InnerSide::Wall(_) => FormPart::Wall,
    };
    let inner = cut(&hollow.line, floor_top, outer.top());
    if inner.len() < 2 || !check_inside(&outer, &inner, part, report) {
        return None;
    }
    let rim = outer.line.last()?.x - inner.last()?.x;
    let gauge = Gauge::new(outer.line.clone(), hollow.line, floor_top, rim);
    let turned = [Profile::outside(&outer.line), Profile::inside(&inner)];
    let (outside, inside, easing) = ease(&outer, inner, easing, report);
    let mut corners = outer.corners.clone();
    corners.extend(&hollow.corners);
    corners.extend([foot.recess, floor_top]);
    if easing > 0.0 {
        // Near where the roundings begin.
        corners.push(outer.top() - easing);
    }
    let outline = outline(&outside, &inside, foot, &corners, report)?;
    Some(Form {
        wall_is_default: hollow.wall_is_default,
        floor_is_default: spec.floor.is_none(),
        foot_width_is_default: foot.recess > 0.0 && spec.foot_width.is_none(),
        outline,
        outside: Profile::outside(&outside),
        inside: Profile::inside(&inside),
        turned,
        gauge,
        foot,
        floor_top,
        rim_easing: easing,
    })
}

/// Both sides with the rim eased; as they are, with a report, if there is no room.
fn ease(
    outer: &Curve,
    inner: Vec<Point>,
    easing: f64,
    report: &mut Report,
) -> (Vec<Point>, Vec<Point>, f64) {
    let as_they_are = outer.line.clone();
    if easing <= 0.0 {
        return (as_they_are, inner, 0.0);
    }
    match eased(&outer.line, &inner, easing, outer.tolerance) {
        Ok((outside, inside)) => (outside, inside, easing),
        Err(largest) => {
            let width = outer.line.last().map_or(0.0, |p| p.x) - inner.last().map_or(0.0, |p| p.x);
            let most = |unit: Unit| below(largest + 1e-5 * unit.step().as_mm(), unit);
            let what = say!(
                "the rim, {width} wide, has no room to ease both edges to a radius of {easing}",
                width = Length::mm(width),
                easing = Length::mm(easing),
            );
            let remedy = with_figure(most, |figure| match figure {
                Some(figure) => say!("ease them to {figure} or less", figure = figure),
                None => say!("leave the rim's edges sharp"),
            });
            let kind = (Kind::RimEasingTooLarge, FormPart::RimEasing, None);
            report.add(kind, outer.top(), read(most), what, remedy);
            (as_they_are, inner, 0.0)
        }
    }
}

fn outline(
    outside: &[Point],
    inside: &[Point],
    foot: Foot,
    corners: &[f64],
    report: &mut Report,
) -> Option<Outline> {
    let mut ring: Vec<Point> = Vec::with_capacity(outside.len() + inside.len() + 6);
    ring.push(Point::new(0.0, foot.recess));
    if foot.recess > 0.0 {
        let hole = foot.radius - foot.width;
        ring.extend([Point::new(hole, foot.recess), Point::new(hole, 0.0)]);
        // The outer line may cross the underside on its way out from the axis.
        let first = outside.iter().position(|p| p.x >= foot.radius || p.y > 0.0);
        ring.extend(&outside[first.unwrap_or(0)..]);
    } else {
        ring.extend(outside);
    }
    ring.extend(inside.iter().rev());
    if let Some(floor) = inside.first() {
        ring.push(Point::new(0.0, floor.y));
    }
    match Outline::new(&ring, corners) {
        Ok(outline) => Some(outline),
        Err(error) => {
            let (height, what) = match error {
                OutlineError::CrossesItself { height } | OutlineError::TooManySpans { height } => {
                    (height, "the form's outline crosses itself")
                }
                OutlineError::BeyondAxis { height, .. } => {
                    (height, "the form reaches past the axis")
                }
                OutlineError::NoArea | OutlineError::NotFinite => (0.0, "the form has no wood"),
            };
            let what = say!(
                "{what} at height {height}",
                what = what,
                height = Length::mm(height),
            );
            let remedy = "look at the points near that height".into();
            let kind = (Kind::CrossesItself, FormPart::Outer, None);
            report.add(kind, height, None, what, remedy);
            None
        }
    }
}
