//! The finished form against closed forms.

mod form_support;

use std::f64::consts::PI;

use files::design::{FormPoint, FormSpec, WallPoint};
use form_support::{at, close, good, mm, points, straight};
use geometry::Angle;

#[test]
fn a_cylinder_box_in_every_measure() {
    let form = good(&straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 8.0));
    let (whole, hole) = (PI * 1600.0 * 100.0, PI * 1225.0 * 92.0);
    close(form.wood_volume().as_mm3(), whole - hole, 1e-12);
    close(form.capacity().as_mm3(), hole, 1e-12);
    close(form.capacity().as_cubic_inches(), hole / 16387.064, 1e-12);
    close(
        form.capacity().as_us_fl_oz(),
        hole / 29_573.529_562_5,
        1e-12,
    );
    let areas = form.surface_areas();
    close(areas.outside, 2.0 * PI * 40.0 * 100.0, 1e-12);
    close(areas.inside, 2.0 * PI * 35.0 * 92.0 + PI * 1225.0, 1e-12);
    close(areas.rim, PI * (1600.0 - 1225.0), 1e-12);
    close(areas.underside, PI * 1600.0, 1e-12);
    let centre = (whole * 50.0 - hole * 54.0) / (whole - hole);
    close(form.centre_of_gravity_height().as_mm(), centre, 1e-12);
    let tip = Angle::rad((40.0 / centre).atan());
    assert!(form.tipping_angle().within(tip, Angle::rad(1e-12)));
    assert!(form.wall_at(mm(50.0)).unwrap().within(mm(5.0), mm(1e-9)));
    assert!(form.wall_at(mm(4.0)).is_none() && form.wall_at(mm(101.0)).is_none());
    let (wall, _) = form.thinnest_wall();
    assert!(wall.within(mm(5.0), mm(1e-6)));
    assert!(form.largest_radius().0.within(mm(40.0), mm(1e-9)));
    assert_eq!(*form.outline().spans(50.0), [(35.0, 40.0)]);
    assert_eq!(form.outline().break_heights(), [0.0, 8.0, 100.0]);
}

#[test]
fn a_cone_keeps_its_wall_square_and_holds_a_frustum() {
    let slope: f64 = 0.4;
    let form = good(&straight(&[(0.0, 30.0), (100.0, 70.0)], 6.0, 6.0));
    // Square to a wall that leans, level thickness is t·√(1 + slope²).
    let level = 6.0 * (1.0 + slope * slope).sqrt();
    let (a, b) = (30.0 + 6.0 * slope - level, 70.0 - level);
    close(
        form.capacity().as_mm3(),
        PI * 94.0 / 3.0 * (a * a + a * b + b * b),
        1e-9,
    );
    for z in [20.0, 50.0, 99.0, 100.0] {
        assert!(
            form.wall_at(mm(z)).unwrap().within(mm(6.0), mm(1e-9)),
            "{z}"
        );
    }
    // Pappus: lateral surface of a frustum is π(R + r)·slant.
    close(
        form.surface_areas().outside,
        PI * 100.0 * (100.0_f64.powi(2) + 40.0_f64.powi(2)).sqrt(),
        1e-12,
    );
}

#[test]
fn a_half_ball_bowl() {
    let outer: Vec<FormPoint> = (0..=18)
        .map(|i| f64::from(i) * PI / 36.0)
        .map(|a| at(60.0 - 60.0 * a.cos(), 60.0 * a.sin()))
        .collect();
    let form = good(&FormSpec {
        outer,
        wall: WallPoint::everywhere(mm(6.0)),
        ..FormSpec::default()
    });
    // The spline's free ends leave the circle by 0.02 mm, which bounds the error.
    close(
        form.wood_volume().as_mm3(),
        2.0 / 3.0 * PI * (60.0_f64.powi(3) - 54.0_f64.powi(3)),
        1e-3,
    );
    close(
        form.capacity().as_mm3(),
        2.0 / 3.0 * PI * 54.0_f64.powi(3),
        1e-3,
    );
    close(form.surface_areas().outside, 2.0 * PI * 3600.0, 1e-3);
    close(form.surface_areas().inside, 2.0 * PI * 54.0 * 54.0, 1e-3);
    // Centre of a half shell, 3(R⁴ − r⁴)/8(R³ − r³) below its rim.
    let (r4, r3) = (
        60.0_f64.powi(4) - 54.0_f64.powi(4),
        60.0_f64.powi(3) - 54.0_f64.powi(3),
    );
    close(
        form.centre_of_gravity_height().as_mm(),
        60.0 - 0.375 * r4 / r3,
        1e-3,
    );
    assert!(form.floor_is_default && form.floor().within(mm(6.0), mm(0.05)));
    assert!(form.foot_radius().as_mm() == 0.0 && form.tipping_angle().as_rad() == 0.0);
    for z in [10.0, 30.0, 59.0] {
        assert!(
            form.wall_at(mm(z)).unwrap().within(mm(6.0), mm(1e-3)),
            "{z}"
        );
    }
}

#[test]
fn recess_and_easing_take_away_what_they_should() {
    let mut spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 8.0, 8.0);
    let plain = good(&spec).wood_volume().as_mm3();
    spec.rim_easing = Some(mm(3.0));
    let eased = good(&spec);
    // Pappus' second theorem on the corner outside a quarter circle: area (1 − π/4)e²,
    // its middle (10 − 3π)/(12 − 3π)·e from either edge.
    let (area, middle) = (
        9.0 * (1.0 - PI / 4.0),
        3.0 * (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI),
    );
    let off = 2.0 * PI * area * ((40.0 - middle) + (32.0 + middle));
    close(plain - eased.wood_volume().as_mm3(), off, 2e-3);
    assert!((eased.outside().radius(100.0).unwrap() - 37.0).abs() < 1e-6);
    assert!((eased.inside().radius(100.0).unwrap() - 35.0).abs() < 1e-6);
    spec.rim_easing = None;
    spec.foot_recess = Some(mm(4.0));
    spec.foot_width = Some(mm(10.0));
    let footed = good(&spec);
    // The floor goes up with the recess: 4 mm more under the hollow, less the recess.
    close(
        footed.wood_volume().as_mm3() - plain,
        PI * 4.0 * (32.0 * 32.0 - 30.0 * 30.0),
        1e-9,
    );
    assert!(footed.floor_top().within(mm(12.0), mm(1e-9)));
    assert_eq!(*footed.outline().spans(2.0), [(30.0, 40.0)]);
    close(
        footed.surface_areas().underside,
        PI * 1600.0 + 2.0 * PI * 30.0 * 4.0,
        1e-12,
    );
}

#[test]
fn walls_may_vary_and_the_thinnest_is_found() {
    let mut spec = straight(&[(0.0, 40.0), (100.0, 40.0)], 5.0, 8.0);
    spec.wall = [(0.0, 9.0), (60.0, 4.0), (100.0, 6.0)]
        .map(|(height, thickness)| WallPoint {
            height: mm(height),
            thickness: mm(thickness),
        })
        .to_vec();
    let form = good(&spec);
    assert!(form.wall_at(mm(30.0)).unwrap().within(mm(6.5), mm(1e-3)));
    assert!(form.wall_at(mm(80.0)).unwrap().within(mm(5.0), mm(1e-3)));
    let (wall, height) = form.thinnest_wall();
    assert!(
        wall.within(mm(4.0), mm(1e-3)) && height.within(mm(60.0), mm(2.0)),
        "{wall:?} {height:?}"
    );
}

#[test]
fn an_inner_side_of_its_own() {
    let spec = FormSpec {
        outer: points(&[(0.0, 40.0), (100.0, 40.0)]),
        straight: true,
        inner: points(&[(6.0, 0.0), (6.0, 30.0), (90.0, 35.0)]),
        foot_recess: Some(mm(2.0)),
        ..FormSpec::default()
    };
    let form = good(&spec);
    assert!(form.floor_is_default && form.floor().within(mm(4.0), mm(1e-9)));
    assert!(form.foot_width_is_default && form.foot_width().within(mm(10.0), mm(1e-9)));
    // It is carried on to the rim in the direction it had.
    let slope = 5.0 / 84.0;
    assert!((form.inside().radius(100.0).unwrap() - (35.0 + 10.0 * slope)).abs() < 1e-9);
    assert!((form.inside().radius(6.0).unwrap() - 30.0).abs() < 1e-9);
    let (a, b) = (30.0, 35.0 + 10.0 * slope);
    close(
        form.capacity().as_mm3(),
        PI * 94.0 / 3.0 * (a * a + a * b + b * b),
        1e-9,
    );
}

#[test]
fn a_platter_keeps_its_wall_out_to_the_rim() {
    let form = good(&FormSpec {
        outer: points(&[(0.0, 50.0), (8.0, 90.0), (30.0, 160.0), (38.0, 170.0)]),
        ..FormSpec::default()
    });
    for z in [5.0, 10.0, 20.0, 30.0, 38.0] {
        assert!(
            form.wall_at(mm(z)).unwrap().within(mm(6.0), mm(0.005)),
            "{z}"
        );
    }
}

#[test]
fn a_hollow_form_keeps_its_mouth() {
    let outer = [(0.0, 25.0), (40.0, 70.0), (80.0, 60.0), (95.0, 20.0)];
    let form = good(&FormSpec {
        outer: points(&outer),
        ..FormSpec::default()
    });
    assert!(form.wall_is_default);
    let mouth = form.inside().radius(95.0).unwrap();
    assert!((20.0 - mouth - 9.0).abs() < 0.01, "{mouth}");
    let (wall, _) = form.thinnest_wall();
    assert!(wall.within(mm(6.0), mm(0.01)), "{wall:?}");
}
