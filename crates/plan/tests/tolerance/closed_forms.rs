//! Single errors on a straight tube, where each has a closed form.

use glam::{DVec2, DVec3};
use plan::tolerance::{Errors, Face, Measure, WatchedPlaces, erred_piece};

use crate::support::*;

fn ends(watch: &WatchedPlaces<'_>, errors: &Errors, measure: Measure) -> Vec<f64> {
    let all = watch.ends_off(errors);
    all.into_iter().find(|e| e.0 == measure).unwrap().1
}

const ALL_ENDS: [Measure; 4] = [
    Measure::TopsOutside,
    Measure::BottomsOutside,
    Measure::TopsInside,
    Measure::BottomsInside,
];

fn radius_of(measure: Measure) -> f64 {
    match measure {
        Measure::TopsInside | Measure::BottomsInside => RADIUS - WALL,
        _ => RADIUS,
    }
}

#[test]
fn a_misfit_layer_moves_what_is_above_by_d_sin_t_sideways_and_d_cos_t_along() {
    // A layer of wrong thickness pushes the part above along the cut's normal, which
    // leans by the tilt: rigid motion along a unit vector.
    let piece = tube(3);
    let d = 0.35;
    let errors = with(&piece, |e| e.sections[1].bands[0][1].misfit = d);
    let erred = erred_piece(&piece, &errors);
    let step = &loop_steps(&erred, 1)[1];
    let t = TILT.to_radians();
    let (side, along) = (step.motion.shift.truncate(), step.motion.shift.z);
    assert!((side.length() - d * t.sin()).abs() < 1e-12);
    assert!((along - d * t.cos()).abs() < 1e-12);
    // It goes away from where the cut climbs.
    let climb = piece.sections[1].bands[0].loops.azimuths[1].as_rad();
    assert!((side.normalize() + DVec2::from_angle(climb)).length() < 1e-12);
    // And the model's wood does: what was near the rim is found that much aside.
    let p = DVec3::new(57.0, 3.0, 150.0);
    let before = piece.stack.wood_at(p).unwrap();
    let after = erred.stack.wood_at(p + step.motion.shift).unwrap();
    assert_eq!(before.part, after.part);
    assert!((before.local - after.local).length() < 1e-9);
}

#[test]
fn equal_misfits_of_equally_spaced_loops_cancel_sideways() {
    // The sum of n equally spaced unit vectors is nothing; along the axis they add up.
    for n in [3, 4, 5] {
        let piece = tube(n);
        let d = 0.2;
        let errors = with(&piece, |e| {
            for each in &mut e.sections[1].bands[0] {
                each.misfit = d;
            }
        });
        let erred = erred_piece(&piece, &errors);
        let sum: DVec3 = loop_steps(&erred, 1).iter().map(|s| s.motion.shift).sum();
        assert!(sum.truncate().length() < 1e-12, "{n}: {sum}");
        assert!((sum.z - n as f64 * d * TILT.to_radians().cos()).abs() < 1e-12);
        let p = DVec3::new(57.0, 3.0, 150.0);
        let found = erred.stack.wood_at(p + DVec3::Z * sum.z).unwrap();
        let planned = piece.stack.wood_at(p).unwrap();
        assert!((found.local - planned.local).length() < 1e-9);
    }
}

#[test]
fn an_error_of_height_moves_top_and_bottom_alike() {
    // The plane z = h + R tan(t) cos(azimuth) rises by what h does, everywhere.
    let piece = tube(4);
    let watch = WatchedPlaces::new(&piece);
    let errors = with(&piece, |e| e.sections[1].bands[0][2].height = 0.4);
    for measure in ALL_ENDS {
        for (k, off) in ends(&watch, &errors, measure).into_iter().enumerate() {
            let want = if k == 2 { 0.4 } else { 0.0 };
            assert!((off - want).abs() < 1e-9, "{measure:?} {k}: {off}");
        }
    }
}

#[test]
fn an_error_of_tilt_moves_top_and_bottom_apart() {
    // Top edge: h + R tan(t) + thickness / (2 cos(t)); the bottom edge is its image.
    let piece = tube(3);
    let watch = WatchedPlaces::new(&piece);
    let (t, e) = (TILT.to_radians(), 0.003);
    let errors = with(&piece, |x| x.sections[1].bands[0][0].tilt = e);
    for measure in ALL_ENDS {
        let top = |t: f64| radius_of(measure) * t.tan() + LAYER / (2.0 * t.cos());
        let sign = match measure {
            Measure::TopsOutside | Measure::TopsInside => 1.0,
            _ => -1.0,
        };
        let off = ends(&watch, &errors, measure)[0];
        assert!(
            (off - sign * (top(t + e) - top(t))).abs() < 1e-9,
            "{measure:?}"
        );
    }
}

#[test]
fn an_error_of_index_moves_a_crossing_by_half_of_it() {
    // Two planes z = h + R tan(t) cos(azimuth − a), and b for a, meet at azimuth
    // (a + b)/2, height h + R tan(t) cos((a − b)/2).
    let piece = tube(2);
    let watch = WatchedPlaces::new(&piece);
    let e = 0.01;
    let errors = with(&piece, |x| x.sections[1].bands[0][0].index = e);
    let rise = RADIUS * TILT.to_radians().tan();
    let a = std::f64::consts::PI;
    let missed = watch.crossings_missed(&errors);
    let outside = &missed.iter().find(|m| m.0 == Face::Outside).unwrap().1;
    assert_eq!(outside.turned.len(), 2);
    let heights: Vec<f64> = outside.rows.iter().flatten().copied().collect();
    for (turned, height) in outside.turned.iter().zip(&heights) {
        assert!((turned - e / 2.0).abs() < 1e-9, "{turned}");
        let want = rise * (((a - e) / 2.0).cos() - (a / 2.0).cos());
        // Of the two crossings opposite each other one rises as the other sinks.
        assert!((height.abs() - want.abs()).abs() < 1e-9, "{height} {want}");
    }
    assert!((heights[0] + heights[1]).abs() < 1e-9);
    // Nothing is out of step: both halves of the earlier loop were cut in one cut.
    assert!(outside.steps.iter().all(|s| s.abs() < 1e-9));
}

#[test]
fn a_misfit_layer_leaves_a_step_at_every_loop_it_crosses() {
    // The part above moves by d along the later loop's normal n. Square to the earlier
    // loop, normal m, that is d m·n with m·n = cos² t + sin² t cos(a − b); along the
    // wall it is seen longer by 1 / sqrt(1 − (m·w)²), w square to the wall and
    // m·w = −sin(t) cos((a − b)/2), or its opposite.
    let piece = tube(3);
    let watch = WatchedPlaces::new(&piece);
    let d = 0.3;
    // The last loop cut: number 3.
    let errors = with(&piece, |e| e.sections[1].bands[0][2].misfit = d);
    let t = TILT.to_radians();
    let between = 120_f64.to_radians();
    let square = d * (t.cos().powi(2) + t.sin().powi(2) * between.cos());
    let seen = square / (1.0 - (t.sin() * (between / 2.0).cos()).powi(2)).sqrt();
    let missed = watch.crossings_missed(&errors);
    for (_, own) in &missed {
        let stepped: Vec<f64> = own
            .steps
            .iter()
            .copied()
            .filter(|s| s.abs() > 1e-9)
            .collect();
        // It crosses each of the two others twice.
        assert_eq!((own.steps.len(), stepped.len()), (6, 4));
        for step in stepped {
            assert!((step - seen).abs() < 1e-9, "{step} {seen}");
        }
    }
}

#[test]
fn a_wedge_shaped_layer_leans_what_is_above_by_its_taper() {
    // Thickness differs by w over the blank's diameter: the faces stand atan(w / 2R)
    // apart, and the part above turns by that.
    let piece = tube(3);
    let w = 0.5;
    let radius = piece.sections[1].blank_radius.as_mm();
    for (slice, want) in [(0.0, 1.0), (1.0, 0.0)] {
        let errors = with(&piece, |e| {
            let own = &mut e.sections[1].bands[0][0];
            own.layer_wedge = DVec2::new(w, 0.0) * want;
            own.slice_wedge = DVec2::new(0.0, w) * slice;
        });
        let erred = erred_piece(&piece, &errors);
        let turn = loop_steps(&erred, 1)[0].motion.turn;
        // The angle of a rotation from its trace.
        let trace = turn.x_axis.x + turn.y_axis.y + turn.z_axis.z;
        let angle = ((trace - 1.0) / 2.0).clamp(-1.0, 1.0).acos();
        assert!(
            (angle - (w / (2.0 * radius)).atan()).abs() < 1e-7,
            "{angle}"
        );
    }
    // A layer with the same wedge as the slice puts everything back.
    let errors = with(&piece, |e| {
        let own = &mut e.sections[1].bands[0][0];
        own.slice_wedge = DVec2::new(w, 0.0);
        own.layer_wedge = DVec2::new(-w, 0.0);
    });
    let turn = loop_steps(&erred_piece(&piece, &errors), 1)[0].motion.turn;
    assert!((turn.z_axis.z - 1.0).abs() < 1e-9 && turn.z_axis.x.abs() < 1e-6);
}

#[test]
fn a_hollow_off_its_axis_thins_the_wall_by_as_much() {
    let piece = tube(3);
    let watch = WatchedPlaces::new(&piece);
    let errors = with(&piece, |e| e.inside = DVec2::new(0.3, -0.4));
    let left = watch.outcome(&errors).values[Measure::WallLeft.at()];
    assert!((left - (WALL - 0.5)).abs() < 1e-6, "{left}");
}

#[test]
fn a_ring_that_does_not_cover_the_wall_leaves_less_of_it() {
    // Outside, the ring's flat stands the allowance (3 mm) beyond the wall; shifted by
    // 5 mm straight away from it, 2 mm inside. On the other side a corner, 3 mm clear of
    // the hollow, comes out to |5 + 49 at 15°|, 1.84 mm past it: less.
    let piece = tube(3);
    let watch = WatchedPlaces::new(&piece);
    let errors = with(&piece, |e| {
        // A ring clear of the loops.
        e.sections[1].rings[6].shift = DVec2::new(5.0, 0.0);
    });
    let left = watch.outcome(&errors).values[Measure::WallLeft.at()];
    assert!((left - (WALL - 2.0)).abs() < 1e-6, "{left}");
    let erred = erred_piece(&piece, &errors);
    // The model has no wood there either.
    let at = |r: f64, degrees: f64| {
        let flat = DVec2::from_angle(degrees.to_radians()) * r;
        erred.stack.wood_at(flat.extend(18.0 + 130.0))
    };
    assert!(at(RADIUS - 2.01, 180.0).is_some() && at(RADIUS - 1.99, 180.0).is_none());
    let corner = DVec2::new(5.0, 0.0) + DVec2::from_angle(15_f64.to_radians()) * 49.0;
    let (r, degrees) = (corner.length(), corner.y.atan2(corner.x).to_degrees());
    assert!((r - 52.0 - 1.84).abs() < 0.01);
    assert!(at(r + 0.01, degrees).is_some() && at(r - 0.01, degrees).is_none());
}

#[test]
fn segments_too_short_bring_the_flats_in() {
    // Regular polygon: flat radius = length / (2 tan(180°/n)).
    let piece = tube(3);
    let errors = with(&piece, |e| {
        for s in &mut e.sections[1].rings[0].segments {
            s.length = -0.4;
        }
    });
    let in_by = 0.4 / (2.0 * 15_f64.to_radians().tan());
    let flat = |p: &piece::piece::Piece| p.stack.sections()[1].body.rings()[0].flat_out();
    assert!((flat(&piece) - flat(&erred_piece(&piece, &errors)) - in_by).abs() < 1e-9);
}

#[test]
fn a_section_mounted_off_the_axis_lifts_tops_by_the_slope() {
    // Shifted by s, the plane at the climb rises by −tan(t) s·climb; on a straight wall
    // that is exact.
    let piece = tube(4);
    let watch = WatchedPlaces::new(&piece);
    let s = DVec2::new(0.2, 0.1);
    let errors = with(&piece, |e| e.sections[1].shift = s);
    let tops = ends(&watch, &errors, Measure::TopsOutside);
    for (off, azimuth) in tops.iter().zip(&piece.sections[1].bands[0].loops.azimuths) {
        let want = -TILT.to_radians().tan() * s.dot(DVec2::from_angle(azimuth.as_rad()));
        assert!((off - want).abs() < 1e-9, "{off} {want}");
    }
}
