//! Scales at a drawing's edge: heights and azimuths.

use files::units::Unit;
use geometry::Length;
use glam::DVec2;

use crate::vector::{Anchor, LineKind, Pen};

/// An upright scale of heights from `low` to `high` mm, its line at `x`, `place` giving
/// the paper's y for a height. Ticks and figures stand to the left. Returns how far
/// they reach.
pub fn heights(pen: &mut Pen, x: f64, (low, high): (f64, f64), place: &dyn Fn(f64) -> f64) -> f64 {
    let span = (high - low).abs().max(1e-6);
    let per_mm = (place(low) - place(high)).abs() / span;
    let (tick, every) = steps(pen.unit, per_mm);
    pen.line(
        DVec2::new(x, place(low)),
        DVec2::new(x, place(high)),
        LineKind::Dimension,
    );
    let first = (low / tick - 1e-6).ceil() as i64;
    let last = (high / tick + 1e-6).floor() as i64;
    for k in first..=last {
        let z = k as f64 * tick;
        let y = place(z);
        let labelled = k.rem_euclid(every) == 0;
        let long = if labelled { 2.6 } else { 1.4 };
        pen.line(
            DVec2::new(x, y),
            DVec2::new(x - long, y),
            LineKind::Dimension,
        );
        if labelled {
            let words = label(pen.unit, z);
            pen.small(DVec2::new(x - 3.4, y + 1.0), words, Anchor::End);
        }
    }
    11.0
}

/// A height on a scale: whole millimetres, inches with their fraction.
fn label(unit: Unit, z: f64) -> String {
    match unit {
        Unit::Mm => files::units::fixed(z, 0),
        Unit::Inch => unit.length_bare(Length::mm(z)),
    }
}

/// A tick's worth in mm, and how many ticks to a figure: ticks no closer than 2 mm on
/// paper, figures no closer than 7.
fn steps(unit: Unit, per_mm: f64) -> (f64, i64) {
    let choices: &[(f64, i64)] = match unit {
        Unit::Mm => &[
            (1.0, 10),
            (2.0, 5),
            (5.0, 2),
            (10.0, 2),
            (20.0, 5),
            (50.0, 2),
            (100.0, 5),
        ],
        Unit::Inch => &[
            (25.4 / 16.0, 8),
            (25.4 / 8.0, 4),
            (25.4 / 4.0, 2),
            (25.4 / 2.0, 2),
            (25.4, 1),
            (50.8, 1),
            (127.0, 2),
        ],
    };
    choices
        .iter()
        .copied()
        .find(|(tick, every)| tick * per_mm >= 1.8 && tick * *every as f64 * per_mm >= 7.0)
        .or(choices.last().copied())
        .unwrap_or((100.0, 1))
}

/// A level scale of azimuths below `y`, `place` giving the paper's x for a share of a
/// turn as it is seen. `azimuth_of` says which azimuth, in degrees, stands at a share.
pub fn azimuths(pen: &mut Pen, y: f64, width: f64, runs_left: bool) {
    pen.line(
        DVec2::new(0.0, y),
        DVec2::new(width, y),
        LineKind::Dimension,
    );
    let every = if width > 150.0 { 30 } else { 60 };
    let tick = if width > 300.0 { 5 } else { 15 };
    for degrees in (0..=360).step_by(tick) {
        let share = f64::from(degrees) / 360.0;
        let x = width * if runs_left { 1.0 - share } else { share };
        let labelled = degrees % every == 0;
        let long = if labelled {
            2.6
        } else if degrees % 15 == 0 {
            1.8
        } else {
            1.1
        };
        pen.line(
            DVec2::new(x, y),
            DVec2::new(x, y + long),
            LineKind::Dimension,
        );
        if labelled {
            pen.small(
                DVec2::new(x, y + 6.0),
                format!("{degrees}°"),
                Anchor::Middle,
            );
        }
    }
}
