//! The form as a whole: its height, largest diameter and foot, which scale its points.

use geometry::Length;

use super::{Edit, Refused, Words};
use crate::design::{FormPoint, FormSpec, InnerSide};
use crate::key::{self, KeyPath};
use crate::units::{Unit, fixed, parse_length};

/// A measure of the whole form. It is no key of the file: setting it scales the points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WholeForm {
    /// The height, which scales every height.
    Height,
    /// The largest diameter, which scales every radius.
    Diameter,
    /// The diameter of the foot: that of the lowest point alone.
    Foot,
}

impl WholeForm {
    /// Every measure.
    pub const ALL: [WholeForm; 3] = [WholeForm::Height, WholeForm::Diameter, WholeForm::Foot];

    /// What it is called in an edit, where a key would stand.
    pub const fn path(self) -> &'static str {
        match self {
            WholeForm::Height => "shape.height",
            WholeForm::Diameter => "shape.diameter",
            WholeForm::Foot => "shape.foot",
        }
    }

    /// What a person calls it.
    pub const fn label(self) -> &'static str {
        match self {
            WholeForm::Height => "height of the piece",
            WholeForm::Diameter => "largest diameter",
            WholeForm::Foot => "diameter of the foot",
        }
    }

    /// Least and largest, as the form's own points may be.
    pub const fn range(self) -> (Length, Length) {
        let least = match self {
            WholeForm::Height | WholeForm::Diameter => 10.0,
            WholeForm::Foot => 0.0,
        };
        (Length::mm(least), Length::mm(3000.0))
    }

    /// What it is in a form.
    pub fn of(self, form: &FormSpec) -> Length {
        let largest = |of: fn(&FormPoint) -> Length| {
            let all = form.outer.iter().map(of);
            all.reduce(Length::max).unwrap_or(Length::ZERO)
        };
        match self {
            WholeForm::Height => largest(|p| p.height),
            WholeForm::Diameter => largest(|p| p.radius) * 2.0,
            WholeForm::Foot => form.outer.first().map_or(Length::ZERO, |p| p.radius) * 2.0,
        }
    }
}

/// Edits with those of the form as a whole written out point by point, for
/// [`apply`](super::apply). Figures are written in the unit of whoever edits.
///
/// # Errors
/// A measure that cannot be read or is out of its range.
pub fn point_by_point(form: &FormSpec, edits: &[Edit], page: Unit) -> Result<Vec<Edit>, Refused> {
    let mut out = Vec::with_capacity(edits.len());
    for edit in edits {
        match edit {
            Edit::Set { path, value } if path.as_str().starts_with("shape.") => {
                out.extend(scaled(form, path, value, page)?);
            }
            other => out.push(other.clone()),
        }
    }
    Ok(out)
}

fn scaled(
    spec: &FormSpec,
    path: &KeyPath,
    value: &Words,
    unit: Unit,
) -> Result<Vec<Edit>, Refused> {
    let refuse = |what: String, remedy: String| Refused {
        path: Some(path.clone()),
        what,
        remedy,
    };
    let wanted = match value {
        Words::Number(mm) => Length::mm(*mm),
        Words::Text(text) => {
            parse_length(text, unit).map_err(|e| refuse(format!("{text} {}", e.what), e.remedy))?
        }
        _ => return Err(refuse("this is no length".into(), "write a length".into())),
    };
    let mut all = WholeForm::ALL.into_iter();
    let Some(measure) = all.find(|m| m.path() == path.as_str()) else {
        return Err(refuse(
            "there is no such setting".into(),
            "nothing was changed".into(),
        ));
    };
    let (least, most) = measure.range();
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
    if measure == WholeForm::Foot {
        return Ok(vec![point_edit(
            &key::form().outer(),
            0,
            1,
            wanted / 2.0,
            unit,
        )]);
    }
    let (now, heights) = (measure.of(spec), measure == WholeForm::Height);
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

#[cfg(test)]
mod tests {
    use super::*;

    fn form() -> FormSpec {
        let text = include_str!("../../../../examples/sandpiper-bowl.toml");
        crate::read::read_design("bowl", text)
            .0
            .expect("the example is right")
            .form
    }

    fn set(path: &str, words: &str, page: Unit) -> Result<Vec<Edit>, Refused> {
        let asked = format!(r#"{{"op":"set","path":"{path}","value":"{words}"}}"#);
        let edit: Edit = serde_json::from_str(&asked).expect("an edit");
        point_by_point(&form(), &[edit], page)
    }

    #[test]
    fn a_height_scales_every_height_and_a_diameter_every_radius() {
        let form = form();
        let edits = set("shape.height", "100", Unit::Mm).expect("in range");
        let heights: Vec<&Edit> = edits
            .iter()
            .filter(|e| {
                matches!(e, Edit::Set { path, .. }
            if path.as_str().starts_with("form.outer") && path.as_str().ends_with("[0]"))
            })
            .collect();
        assert_eq!(heights.len(), form.outer.len());
        let Some(Edit::Set { value, .. }) = heights.last() else {
            panic!("no edit")
        };
        assert_eq!(*value, Words::Text("100 mm".into()));
        // What is asked for in inches comes back as it was given.
        let edits = set("shape.diameter", "8", Unit::Inch).expect("in range");
        let widest = edits
            .iter()
            .any(|e| matches!(e, Edit::Set { value: Words::Text(t), .. } if t == "4 in"));
        assert!(widest, "{edits:?}");
        let foot = set("shape.foot", "3", Unit::Inch).expect("in range");
        assert_eq!(foot.len(), 1);
    }

    #[test]
    fn a_size_that_no_piece_has_is_refused_with_its_range_in_the_readers_unit() {
        let refused = set("shape.height", "1", Unit::Mm).expect_err("too low");
        assert_eq!(refused.remedy, "write a length from 10.0 mm to 3000.0 mm");
        let refused = set("shape.diameter", "999", Unit::Inch).expect_err("too wide");
        assert!(refused.remedy.ends_with(" in"), "{}", refused.remedy);
        assert!(set("shape.width", "9", Unit::Mm).is_err());
    }
}
