//! Stations on the finished form: heights that a turner measures diameters at.

use files::say;
use files::units::Unit;
use geometry::Length;
use piece::form::{Form, WallSide};

use super::WALL;
use crate::figure::{Amount, Figure, Working};

/// At most so many stations: more is not measured at a lathe.
const MOST: f64 = 12.0;

/// Round heights up the form, foot and rim included.
pub fn stations(form: &Form, unit: Unit) -> Vec<Length> {
    let steps: [f64; 8] = match unit {
        Unit::Mm => [5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0],
        Unit::Inch => [0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 12.0, 24.0],
    };
    let height = form.height();
    let fits = |step: &&f64| unit.of(**step).as_mm() * MOST >= height.as_mm();
    let step = unit.of(steps.iter().find(fits).copied().unwrap_or(steps[7]));
    let mut out: Vec<Length> = (0..64)
        .map(|k| step * f64::from(k))
        // A station a hair below the rim would be measured twice.
        .take_while(|z| height.exceeds(*z + step * 0.25))
        .collect();
    out.push(height);
    out
}

/// Finished diameters outside, from the foot up.
pub fn outside_diameters(form: &Form, unit: Unit) -> Vec<Figure> {
    let at = |(k, z): (usize, Length)| {
        let radius = form.turned(WallSide::Outside).radius(z.as_mm())?;
        Some(Figure::setting(
            format!("outside_{}", k + 1),
            say!("diameter outside at height {height}", height = z),
            Amount::Length(Length::mm(radius * 2.0)),
            Working::new(
                "2 · radius of the outer curve at that height, before the rim is eased",
                WALL,
            )
            .with("height", Amount::Length(z)),
        ))
    };
    let all = stations(form, unit).into_iter().enumerate();
    all.filter_map(at).collect()
}

/// Finished diameters inside, from the floor up.
pub fn inside_diameters(form: &Form, unit: Unit) -> Vec<Figure> {
    let at = |(k, z): (usize, Length)| {
        let radius = form.turned(WallSide::Inside).radius(z.as_mm())?;
        Some(Figure::setting(
            format!("inside_{}", k + 1),
            say!("diameter inside at height {height}", height = z),
            Amount::Length(Length::mm(radius * 2.0)),
            Working::new(
                "2 · radius of the inner side at that height, before the rim is eased",
                WALL,
            )
            .with("height", Amount::Length(z)),
        ))
    };
    let above = |(_, z): &(usize, Length)| z.exceeds(form.floor_top());
    let all = stations(form, unit).into_iter().enumerate();
    all.filter(above).filter_map(at).collect()
}

/// Depth of the hollow: rim to floor.
pub fn depth(form: &Form) -> Figure {
    Figure::setting(
        "depth",
        "depth, rim to floor",
        Amount::Length(form.height() - form.floor_top()),
        Working::new("depth = height − recess − floor", super::SUM)
            .with("height", Amount::Length(form.height()))
            .with("recess", Amount::Length(form.foot_recess()))
            .with("floor", Amount::Length(form.floor())),
    )
}
