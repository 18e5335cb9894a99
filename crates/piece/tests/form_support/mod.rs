//! Short ways to write down a form.
#![allow(dead_code)] // Each test file uses its own part.

use files::design::{FormPoint, FormSpec, WallPoint};
use geometry::Length;
use piece::form::{Form, FormProblem};

/// Millimetres.
pub fn mm(v: f64) -> Length {
    Length::mm(v)
}

/// A smooth point at height and radius.
pub fn at(height: f64, radius: f64) -> FormPoint {
    FormPoint {
        height: mm(height),
        radius: mm(radius),
        corner: false,
    }
}

/// Points from (height, radius).
pub fn points(list: &[(f64, f64)]) -> Vec<FormPoint> {
    list.iter().map(|(h, r)| at(*h, *r)).collect()
}

/// A form of straight lines with one wall thickness.
pub fn straight(outer: &[(f64, f64)], wall: f64, floor: f64) -> FormSpec {
    FormSpec {
        outer: points(outer),
        straight: true,
        wall: WallPoint::everywhere(mm(wall)),
        floor: Some(mm(floor)),
        ..FormSpec::default()
    }
}

/// The form of a spec without problems.
pub fn good(spec: &FormSpec) -> Form {
    let (form, problems) = Form::build(spec);
    assert!(problems.is_empty(), "{problems:?}");
    form.expect("a form without problems")
}

/// A spec's problems.
pub fn problems(spec: &FormSpec) -> Vec<FormProblem> {
    Form::build(spec).1
}

/// Within a share.
pub fn close(a: f64, b: f64, share: f64) {
    assert!((a / b - 1.0).abs() < share, "{a} against {b}");
}
