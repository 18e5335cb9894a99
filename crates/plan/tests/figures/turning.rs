//! At the lathe: speeds, diameters, the foot.

use piece::form::WallSide;
use std::f64::consts::PI;

use plan::operations::OperationKind;

use crate::examples::*;
use crate::rings::outer_corner;

/// The widest swing of the rings of some sections, corner to corner, by crossing lines;
/// a disc has as many corners as its ring would have.
fn swing<'a>(sections: impl Iterator<Item = &'a piece::piece::Section>) -> f64 {
    let rings = sections.flat_map(|s| &s.rings);
    let corners = rings.map(|r| {
        let (x, y) = outer_corner(&r.sizes);
        2.0 * x.hypot(y)
    });
    corners.fold(0.0, f64::max)
}

fn largest(at: &At<'_>) -> f64 {
    let side = at.piece().form.turned(WallSide::Outside);
    let top = at.piece().form.height().as_mm();
    let radii = (0..=100_000).filter_map(|k| side.radius(top * f64::from(k) / 100_000.0));
    2.0 * radii.fold(0.0, f64::max)
}

/// Largest diameter that turns in an operation.
fn turning(at: &At<'_>) -> f64 {
    match at.operation.kind {
        OperationKind::TrueSection | OperationKind::JoinSections => {
            swing(std::iter::once(at.section()))
        }
        OperationKind::TrueAgain => {
            let flats = at.section().rings.iter().map(|r| r.sizes.flat_out.as_mm());
            2.0 * (flats.fold(0.0, f64::max) + EDGE)
        }
        OperationKind::TurnOutside => swing(at.piece().sections.iter()),
        _ => largest(at),
    }
}

#[test]
fn speeds_stay_in_the_band() {
    // Common practice: 6000 to 9000 over the diameter in inches; sanding at 500 and work held
    // by its rim at 300 to 500 rpm at most.
    for (kind, own) in [
        (OperationKind::TrueSection, FASTEST),
        (OperationKind::TrueAgain, FASTEST),
        (OperationKind::JoinSections, FASTEST),
        (OperationKind::TurnOutside, FASTEST),
        (OperationKind::Hollow, FASTEST),
        (OperationKind::Sand, 500.0),
        (OperationKind::PartOff, 400.0),
    ] {
        each(kind, "speed_start", 0.05, |at| {
            (6000.0 / (turning(at) / 25.4)).min(own)
        });
        each(kind, "speed_limit", 0.05, |at| {
            (9000.0 / (turning(at) / 25.4)).min(own)
        });
    }
}

#[test]
fn cylinder_is_the_widest_flat() {
    each(OperationKind::TrueSection, "cylinder", 1e-9, |at| {
        let flats = at.section().rings.iter().map(|r| r.sizes.flat_out.as_mm());
        2.0 * flats.fold(0.0, f64::max)
    });
}

#[test]
fn joined_joints_stand_half_a_segment_apart() {
    each(OperationKind::JoinSections, "section_turn", 1e-9, |at| {
        let number = at.operation.subject.section.unwrap();
        let (below, above) = (&at.piece().sections[number - 1], at.section());
        let (under, first) = (below.rings.last().unwrap(), &above.rings[0]);
        if under.repeats().is_none() || first.repeats().is_none() {
            return 0.0;
        }
        let share = 360.0 / first.woods.len() as f64;
        // Splits below have turned the ring under the joint.
        let splits = &at.example.design.sections[number - 1].splits;
        let split: f64 = splits.iter().map(|s| s.turn.as_deg()).sum();
        let under = under.rotation.as_deg() + split;
        let gap = (first.rotation.as_deg() + at.value() - under).rem_euclid(share);
        assert!(
            (gap - share / 2.0).abs() < 1e-6,
            "{}: {gap}",
            at.operation.title
        );
        at.value()
    });
    each(
        OperationKind::JoinSections,
        "section_turn_arc",
        1e-9,
        |at| {
            let number = at.operation.subject.section.unwrap();
            let under = at.piece().sections[number - 1].rings.last().unwrap();
            let first = &at.section().rings[0];
            let flat = under
                .sizes
                .flat_out
                .as_mm()
                .min(first.sizes.flat_out.as_mm());
            2.0 * PI * flat * at.beside("section_turn") / 360.0
        },
    );
}

fn height(at: &At<'_>) -> f64 {
    let working = at.figure.working.as_ref().unwrap();
    working.inputs[0].amount.number().unwrap()
}

#[test]
fn outside_passes_the_given_points() {
    for example in &examples() {
        let mut passed = 0;
        let turn = example
            .plan
            .operations
            .iter()
            .find(|o| o.kind == OperationKind::TurnOutside);
        for figure in turn
            .unwrap()
            .figures
            .iter()
            .filter(|f| f.sort() == "outside")
        {
            let working = figure.working.as_ref().unwrap();
            let z = working.inputs[0].amount.number().unwrap();
            // The last point's edge is eased.
            let points = example.design.form.outer.split_last().unwrap().1;
            for point in points
                .iter()
                .filter(|p| (p.height.as_mm() - z).abs() < 1e-9)
            {
                let off = figure.amount.number().unwrap() - 2.0 * point.radius.as_mm();
                assert!(off.abs() < 1e-3, "{} at {z}: {off}", example.name);
                passed += 1;
            }
        }
        assert!(passed > 0, "{}", example.name);
    }
}

#[test]
fn outside_is_the_forms_own() {
    // Between two heights of the drawn line, by proportion.
    each(OperationKind::TurnOutside, "outside", 1e-9, |at| {
        let line = at.piece().form.turned(WallSide::Outside).points();
        let z = height(at);
        let pair = line
            .windows(2)
            .find(|w| w[0].y <= z && z <= w[1].y)
            .unwrap();
        let span = pair[1].y - pair[0].y;
        let share = if span > 0.0 {
            (z - pair[0].y) / span
        } else {
            0.0
        };
        2.0 * (pair[0].x + share * (pair[1].x - pair[0].x))
    });
}

#[test]
fn inside_keeps_the_wall() {
    // From each station inside, the nearest point of the outer line is a wall away; in
    // the vase, whose wall varies, between the thinnest and the thickest.
    each(OperationKind::Hollow, "inside", 1e-9, |at| {
        let z = height(at);
        let easing = at.piece().form.rim_easing().as_mm();
        if z < at.piece().form.height().as_mm() - 2.0 * easing {
            let r = at.value() / 2.0;
            let line = at.piece().form.turned(WallSide::Outside).points();
            let nearest = line
                .windows(2)
                .map(|w| {
                    let (dx, dy) = (w[1].x - w[0].x, w[1].y - w[0].y);
                    let long = (dx * dx + dy * dy).max(1e-300);
                    let t = (((r - w[0].x) * dx + (z - w[0].y) * dy) / long).clamp(0.0, 1.0);
                    (r - w[0].x - t * dx).hypot(z - w[0].y - t * dy)
                })
                .fold(f64::MAX, f64::min);
            let walls = &at.example.design.form.wall;
            let walls = walls.iter().map(|w| w.thickness.as_mm());
            let (least, most) = walls.fold((f64::MAX, 0.0_f64), |(a, b), w| (a.min(w), b.max(w)));
            assert!(
                nearest > least - 0.02 && nearest < most + 0.02,
                "{} at {z}: wall {nearest}",
                at.example.name
            );
        }
        at.value()
    });
}

#[test]
fn depth_is_height_less_floor() {
    each(OperationKind::Hollow, "depth", 1e-9, |at| {
        let form = &at.example.design.form;
        let top = form.outer.last().unwrap().height;
        (top - form.foot_recess.unwrap() - form.floor.unwrap()).as_mm()
    });
}

#[test]
fn foot_is_as_written() {
    each(OperationKind::PartOff, "foot_diameter", 1e-6, |at| {
        2.0 * at.example.design.form.outer[0].radius.as_mm()
    });
    each(OperationKind::PartOff, "recess_diameter", 1e-6, |at| {
        let form = &at.example.design.form;
        2.0 * (form.outer[0].radius - form.foot_width.unwrap()).as_mm()
    });
    each(OperationKind::PartOff, "recess_depth", 1e-9, |at| {
        at.example.design.form.foot_recess.unwrap().as_mm()
    });
}

/// Before the rim is eased it is as wide as the maker's own last point says, in the table of
/// diameters and as the largest diameter.
#[test]
fn the_rim_is_as_wide_as_the_form_says() {
    each(OperationKind::TurnOutside, "outside", 1e-9, |at| {
        let last = at.example.design.form.outer.last().unwrap();
        if (height(at) - last.height.as_mm()).abs() < 1e-9 {
            2.0 * last.radius.as_mm()
        } else {
            at.value()
        }
    });
}
