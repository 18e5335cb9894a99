//! The form as a whole: its height, largest diameter and foot, which scale its points.

use files::design::{FormPoint, FormSpec, InnerSide};
use files::key::{self, KeyPath};
use files::units::{Unit, fixed, parse_length};
use geometry::Length;

use super::blanks::{Range, Sheet};
use crate::open_projects::Revision;
use crate::wire::{Edit, Origin, Problem, Words};

fn height(spec: &FormSpec) -> Length {
    let heights = spec.outer.iter().map(|p| p.height);
    heights.reduce(Length::max).unwrap_or(Length::ZERO)
}

fn radius(spec: &FormSpec) -> Length {
    let radii = spec.outer.iter().map(|p| p.radius);
    radii.reduce(Length::max).unwrap_or(Length::ZERO)
}

fn foot(spec: &FormSpec) -> Length {
    spec.outer.first().map_or(Length::ZERO, |p| p.radius)
}

/// The blanks of the form as a whole.
pub fn blanks(sheet: &mut Sheet, spec: &FormSpec) {
    let all = [
        (
            "shape.height",
            "height of the piece",
            height(spec),
            Range(10.0, 3000.0),
        ),
        (
            "shape.diameter",
            "largest diameter",
            radius(spec) * 2.0,
            Range(10.0, 3000.0),
        ),
        (
            "shape.foot",
            "diameter of the foot",
            foot(spec) * 2.0,
            Range(0.0, 3000.0),
        ),
    ];
    for (path, label, value, range) in all {
        sheet.length(path, label, Some(value), Origin::Maker, range);
    }
}

/// Edits with those of the form as a whole written out point by point.
pub fn as_edits(revision: &Revision, edits: &[Edit], page: Unit) -> Result<Vec<Edit>, Problem> {
    let mut out = Vec::with_capacity(edits.len());
    for edit in edits {
        match edit {
            Edit::Set { path, value } if path.as_str().starts_with("shape.") => {
                out.extend(scaled(&revision.design.form, path.as_str(), value, page)?);
            }
            other => out.push(other.clone()),
        }
    }
    Ok(out)
}

fn scaled(spec: &FormSpec, path: &str, value: &Words, unit: Unit) -> Result<Vec<Edit>, Problem> {
    let refuse = |what: String, remedy: String| Problem {
        path: Some(path.into()),
        what,
        remedy,
        ..Problem::default()
    };
    let wanted = match value {
        Words::Number(mm) => Length::mm(*mm),
        Words::Text(text) => {
            parse_length(text, unit).map_err(|e| refuse(format!("{text} {}", e.what), e.remedy))?
        }
        _ => return Err(refuse("this is no length".into(), "write a length".into())),
    };
    let (now, heights) = match path {
        "shape.height" => (height(spec), true),
        "shape.diameter" => (radius(spec) * 2.0, false),
        "shape.foot" => (foot(spec) * 2.0, false),
        _ => {
            return Err(refuse(
                "there is no such setting".into(),
                "nothing was changed".into(),
            ));
        }
    };
    let (least, most) = (
        Length::mm(if path == "shape.foot" { 0.0 } else { 10.0 }),
        Length::mm(3000.0),
    );
    if !wanted.as_mm().is_finite() || least.exceeds(wanted) || wanted.exceeds(most) {
        return Err(refuse(
            format!("{} is no size for a piece", unit.length(wanted)),
            format!(
                "write a length from {} to {}",
                unit.length(least),
                unit.length(most)
            ),
        ));
    }
    if path == "shape.foot" {
        return Ok(vec![point_edit(
            &key::form().outer(),
            0,
            1,
            wanted / 2.0,
            unit,
        )]);
    }
    if !now.exceeds(Length::ZERO) {
        return Err(refuse(
            "the form has no size to scale".into(),
            "set its points one by one".into(),
        ));
    }
    let by = wanted.as_mm() / now.as_mm();
    let mut edits = Vec::new();
    let mut points = |curve: KeyPath, points: &[FormPoint]| {
        for (i, p) in points.iter().enumerate() {
            let (part, value) = if heights {
                (0, p.height)
            } else {
                (1, p.radius)
            };
            edits.push(point_edit(&curve, i, part, value * by, unit));
        }
    };
    points(key::form().outer(), &spec.outer);
    match spec.inner_side() {
        InnerSide::Points(inner) => points(key::form().inner(), inner),
        InnerSide::Wall(walls) if heights && walls.len() > 1 => {
            for (i, wall) in walls.iter().enumerate() {
                edits.push(point_edit(
                    &key::form().wall(),
                    i,
                    0,
                    wall.height * by,
                    unit,
                ));
            }
        }
        InnerSide::Wall(_) => {}
    }
    Ok(edits)
}

/// A point's new measure in the page's unit: to 0.01 mm, or a fraction, or 0.0001 in,
/// so that a diameter comes back as it was given.
fn point_edit(curve: &KeyPath, at: usize, part: usize, value: Length, page: Unit) -> Edit {
    let words = match page {
        Unit::Mm => format!("{} mm", (value.as_mm() * 100.0).round() / 100.0),
        Unit::Inch => {
            let step = page.step().as_mm();
            let off = (value.as_mm() / step).fract().abs();
            if off.min(1.0 - off) < 1e-3 {
                page.length(value)
            } else {
                format!("{} in", fixed(value.as_inches(), 4))
            }
        }
    };
    Edit::Set {
        path: curve.entry(at).entry(part),
        value: Words::Text(words),
    }
}
