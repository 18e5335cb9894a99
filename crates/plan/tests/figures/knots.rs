//! Knots: points on planes, sums by hand.

use std::f64::consts::PI;

use plan::operations::OperationKind;

use crate::examples::*;

/// Radius that passes the blade: the widest flat of the section's rings.
fn blade_radius(at: &At<'_>) -> f64 {
    let rings = at.section().rings.iter();
    rings.map(|r| r.sizes.flat_out.as_mm()).fold(0.0, f64::max)
}

/// Loops' middle, reach and layer as the file gives them, mm.
fn given(at: &At<'_>) -> (f64, f64, f64) {
    let spec = at.band_spec();
    let all = [spec.height, spec.reach, spec.layer];
    let [height, reach, layer] = all.map(|l| l.unwrap().as_mm());
    (height, reach, layer)
}

fn tilt(at: &At<'_>) -> f64 {
    at.band().cuts.tilt.as_rad()
}

/// All wood removed, by hand: the layer and its glue lines.
fn removed(at: &At<'_>) -> f64 {
    given(at).2 + 2.0 * GLUE_LINE
}

/// Highest or lowest point that an edge reaches on the finished outside wall: the wall
/// is walked in fine steps from the loops' middle until the cut is crossed.
fn edge(at: &At<'_>, way: f64) -> f64 {
    let form = &at.piece().form;
    let lift = at.section().bottom.as_mm();
    let (height, ..) = given(at);
    let start = height + way * removed(at) / (2.0 * tilt(at).cos());
    let step = 1e-3;
    let over = |z: f64| {
        let r = form.outside().radius(z + lift).unwrap();
        way * (z - start) - tilt(at).tan() * r
    };
    let mut z = start;
    while over(z) < 0.0 {
        z += way * step;
    }
    z
}

#[test]
fn tilt_gives_the_reach() {
    for kind in [
        OperationKind::Mount,
        OperationKind::FirstCut,
        OperationKind::SecondCut,
    ] {
        each(kind, "tilt", 1e-9, |at| {
            let (_, reach, _) = given(at);
            let got = edge(at, 1.0) - edge(at, -1.0);
            assert!((got - reach).abs() < 5e-3, "reach {got} for {reach}");
            tilt(at).to_degrees()
        });
    }
}

#[test]
fn tilt_of_a_straight_wall_has_a_closed_form() {
    // On a cylinder: reach = 2 R tan t + removed / cos t, so
    // (reach cos t − removed)² = 4 R² (1 − cos² t), a quadratic in cos t.
    let [_, _, boxed, _] = examples();
    let band = &boxed.piece().sections[1].bands[0];
    let spec = &boxed.design.sections[1].bands[0];
    let r = boxed.design.form.outer[0].radius.as_mm();
    let (reach, m) = (
        spec.reach.unwrap().as_mm(),
        spec.layer.unwrap().as_mm() + 2.0 * GLUE_LINE,
    );
    let a = reach * reach + 4.0 * r * r;
    let root = (reach * m).powi(2) - a * (m * m - 4.0 * r * r);
    let cos = (reach * m + root.sqrt()) / a;
    assert!((band.cuts.tilt.as_rad() - cos.acos()).abs() < 1e-9);
}

#[test]
fn spacer_makes_room_for_layer_and_glue() {
    each(OperationKind::Spacer, "spacer", 1e-9, |at| {
        (removed(at) - KERF_BAND) / tilt(at).cos()
    });
}

/// Distance between two parallel planes through heights on the axis.
fn between(at: &At<'_>, low: f64, high: f64) -> f64 {
    (high - low) * tilt(at).cos()
}

#[test]
fn slice_lies_between_the_kerfs() {
    for kind in [OperationKind::SecondCut, OperationKind::MeasureSlice] {
        each(kind, "slice", 1e-9, |at| {
            let sled = &at.band().sled;
            between(at, sled.second_cut.as_mm(), sled.first_cut.as_mm()) - KERF_BAND
        });
    }
}

#[test]
fn removed_is_slice_and_two_kerfs() {
    each(OperationKind::MeasureSlice, "removed", 1e-9, |at| {
        at.beside("slice") + 2.0 * KERF_BAND
    });
}

#[test]
fn layer_is_as_written() {
    each(OperationKind::FitLayer, "layer", 1e-9, |at| given(at).2);
}

#[test]
fn cuts_stand_off_the_faceplate() {
    let half = |at: &At<'_>| (removed(at) - KERF_BAND) / tilt(at).cos() / 2.0;
    let middle = |at: &At<'_>| WASTE_BLOCK + given(at).0;
    each(OperationKind::FirstCut, "first_cut", 1e-9, |at| {
        middle(at) + half(at)
    });
    each(OperationKind::SecondCut, "second_cut", 1e-9, |at| {
        middle(at) - half(at)
    });
}

#[test]
fn axis_stands_over_the_table() {
    each(OperationKind::Mount, "centre_height", 1e-9, |at| {
        SLED_BASE + CLEARANCE + blade_radius(at)
    });
}

#[test]
fn travel_passes_the_whole_cut() {
    each(OperationKind::Mount, "travel", 1e-9, |at| {
        // Both ends of the level chord through the axis, in the plane of the cut.
        let r = blade_radius(at);
        let rise = 2.0 * r * tilt(at).tan();
        (4.0 * r * r + rise * rise).sqrt() + 2.0 * RUN_OUT
    });
}

#[test]
fn blade_clears_the_highest_block() {
    each(OperationKind::Mount, "blade_height", 1e-9, |at| {
        let r = blade_radius(at);
        let tops = at.band().blocks.places.iter().map(|p| {
            // The climb lies level; what is a quarter turn from it stands up.
            (r + BLOCK_STANDS_OUT) * p.from_climb.as_rad().sin()
        });
        SLED_BASE + CLEARANCE + r + tops.fold(r, f64::max)
    });
}

#[test]
fn marks_divide_the_turn() {
    let mark = |at: &At<'_>| {
        let loops = at.band_spec().loops.unwrap() as f64;
        let start = at.band_spec().start;
        start.map_or(0.0, |a| a.as_deg())
            + 360.0 * at.operation.subject.loop_number.unwrap() as f64 / loops
    };
    each(OperationKind::Index, "mark", 1e-9, mark);
    each(OperationKind::Index, "mark_arc", 1e-9, |at| {
        2.0 * PI * blade_radius(at) * mark(at) / 360.0
    });
}

#[test]
fn blocks_stand_apart_on_the_cut() {
    each(OperationKind::Position, "block", 1e-9, |at| {
        let mut all: Vec<f64> = (1..=3).map(|k| at.beside(&format!("block_{k}"))).collect();
        all.sort_by(f64::total_cmp);
        for k in 0..3 {
            let apart = (all[(k + 1) % 3] - all[k]).rem_euclid(360.0);
            assert!((75.0 - 1e-6..=170.0 + 1e-6).contains(&apart), "{all:?}");
        }
        // Every 5° from the climb.
        let climb = at.band().loops.azimuths[at.operation.subject.loop_number.unwrap()];
        let from = (at.value() - climb.as_deg()).rem_euclid(360.0);
        (climb.as_deg() + 5.0 * (from / 5.0).round()).rem_euclid(360.0)
    });
    each(OperationKind::Position, "block_arc", 1e-9, |at| {
        2.0 * PI * blade_radius(at) * at.beside(&format!("block_{}", at.number())) / 360.0
    });
    each(OperationKind::Position, "block_height", 1e-9, |at| {
        // The place as a point on the blank, put into the plane's equation.
        let climb = at.band().loops.azimuths[at.operation.subject.loop_number.unwrap()].as_rad();
        let azimuth = at.beside(&format!("block_{}", at.number())).to_radians();
        let r = blade_radius(at);
        let (x, y) = (r * azimuth.cos(), r * azimuth.sin());
        given(at).0 + tilt(at).tan() * (x * climb.cos() + y * climb.sin())
    });
}

#[test]
fn no_other_places_leave_more_wood_for_blocks() {
    // Every set of three places that keeps the spread and stays off the sled's base,
    // tried one by one.
    for example in &examples() {
        for section in &example.piece().sections {
            for band in &section.bands {
                let r = section.blank_radius.as_mm();
                let t = band.loops.tilt.as_rad();
                let half = band.loops.thickness.as_mm() / (2.0 * t.cos());
                let room = |k: usize| {
                    let a = (5.0 * k as f64).to_radians();
                    let cut = band.loops.height.as_mm() + r * t.tan() * a.cos();
                    let hangs = -(r + BLOCK_STANDS_OUT) * a.sin();
                    if hangs > r + CLEARANCE {
                        return f64::MIN;
                    }
                    (section.stacked.as_mm() - cut - half).min(cut - half)
                };
                let mut best = f64::MIN;
                for a in 0..72 {
                    for b in a + 15..a + 35 {
                        for c in b + 15..b + 35 {
                            let back = (72 + a) as i64 - c as i64;
                            if (15..=34).contains(&back) {
                                best = best.max(room(a).min(room(b % 72)).min(room(c % 72)));
                            }
                        }
                    }
                }
                assert!((band.blocks.least_room.as_mm() - best).abs() < 1e-6);
            }
        }
    }
}

/// The oval's half length, by sliding along the slab's two faces on the blank.
fn oval_length(at: &At<'_>) -> f64 {
    let (r, t, half) = (blade_radius(at), tilt(at), removed(at) / 2.0);
    // A point at azimuth a on a face, as a length along the climb in the cut's plane.
    let mut most = 0.0_f64;
    for k in 0..=7200 {
        let a = f64::from(k) * PI / 7200.0;
        for face in [-half, half] {
            let x = r * a.cos();
            let z = face / t.cos() + x * t.tan();
            most = most.max(x * t.cos() + z * t.sin());
        }
    }
    2.0 * most
}

#[test]
fn layer_board_covers_the_oval() {
    each(OperationKind::MakeLayers, "blank_length", 1e-9, |at| {
        oval_length(at) + 2.0 * EDGE
    });
    each(OperationKind::MakeLayers, "blank_width", 1e-9, |at| {
        2.0 * (blade_radius(at) + EDGE)
    });
}

#[test]
fn long_ring_is_longer_by_the_oval() {
    each(OperationKind::MakeLayers, "lengthened", 1e-9, |at| {
        oval_length(at) - 2.0 * blade_radius(at)
    });
}

#[test]
fn rough_layer_leaves_two_faces() {
    each(OperationKind::MakeLayers, "rough_layer", 1e-9, |at| {
        given(at).2 + 2.0 * FLATTENING
    });
}

#[test]
fn split_is_as_written() {
    let split = |at: &At<'_>| at.section_spec().splits[0].clone();
    each(OperationKind::SplitTurnGlue, "split_height", 1e-9, |at| {
        WASTE_BLOCK + split(at).height.as_mm()
    });
    each(OperationKind::SplitTurnGlue, "split_turn", 1e-9, |at| {
        split(at).turn.as_deg()
    });
    each(OperationKind::SplitTurnGlue, "split_arc", 1e-9, |at| {
        2.0 * PI * blade_radius(at) * split(at).turn.as_deg() / 360.0
    });
}
