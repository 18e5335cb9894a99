//! Laws of the model: conservation, identity, symmetry, two roads to one answer.

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

use geometry::{Angle, ConvexCell, Length, Motion, Plane, Tube, turned_volume};
use glam::{DVec2, DVec3};
use piece::band::{Loops, TwoCuts, crossing_rows};
use piece::model::{
    CourseBody, CutAndRejoin, LayerBody, LayerShape, PanelBody, Part, SectionBody, Stack, StepKind,
    WoodId, volumes_by_part, volumes_by_wood,
};
use piece::ring::RingSizes;
use proptest::prelude::*;

const LOOP: StepKind = StepKind::Loop { band: 0, number: 0 };

fn ring(n: usize, heights: (f64, f64), flats: (f64, f64), rotation: f64) -> CourseBody {
    CourseBody::segmented(heights, flats, rotation, vec![WoodId(0); n])
}

fn rings(counts: &[usize], each: f64, out: f64, inner: f64) -> Vec<CourseBody> {
    counts
        .iter()
        .enumerate()
        .map(|(i, &n)| {
            let z = each * i as f64;
            ring(n, (z, z + each), (out, inner), 0.37 * i as f64)
        })
        .collect()
}

fn layer(shape: LayerShape, wood: u16, climb: f64) -> impl FnOnce(&Plane) -> LayerBody {
    move |lower| LayerBody::new(shape, vec![WoodId(wood)], lower, climb)
}

fn board() -> LayerShape {
    LayerShape::Board {
        length: 400.0,
        width: 300.0,
    }
}

prop_compose! {
    fn a_loop(shapes: bool)(
        height in 10.0..70.0_f64,
        tilt in 0.0..0.9_f64,
        climb in 0.0..6.3_f64,
        removed in 1.5..9.0_f64,
        misfit in -0.8..0.8_f64,
        kind in 0..3_usize,
        n in 3..9_usize,
        stretch in 0.0..12.0_f64,
    ) -> CutAndRejoin {
        let shape = match kind {
            1 if shapes => LayerShape::Ring { segments: 2 * n, flat_out: 70.0, flat_in: 20.0, stretch },
            2 if shapes => LayerShape::Ring { segments: n, flat_out: 75.0, flat_in: 25.0, stretch: 0.0 },
            _ => board(),
        };
        CutAndRejoin::sawn_loop(LOOP, &Plane::tilted(height, tilt, climb), removed, removed + misfit,
            layer(shape, 1, climb))
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Two roads: the cell that holds a point is the part that `wood_at` names, for
    /// rings, discs, floor panels, every kind of layer, misfits, splits, turns.
    #[test]
    fn cells_and_wood_at_agree(
        counts in prop::collection::vec(3..17_usize, 2..5),
        loops in prop::collection::vec(a_loop(true), 0..4),
        split in prop::option::of((5.0..75.0_f64, 0.5..3.0_f64, -1.0..1.0_f64)),
        turn in -3.0..3.0_f64,
        panel in prop::option::of((0.0..1.5_f64, 2.0..6.0_f64)),
        points in prop::collection::vec((0.0..1.0_f64, -60.0..60.0_f64, -60.0..60.0_f64), 60),
    ) {
        let mut low = vec![CourseBody::disc((0.0, 12.0), 40.0, 0.2, WoodId(2))];
        let mut base = ring(8, (12.0, 30.0), (50.0, 30.0), 0.1);
        if let Some((gap, thick)) = panel {
            base = base.with_panel(&PanelBody {
                wood: WoodId(3), bottom: 14.0, top: 14.0 + thick, flat: 35.0, groove: 35.0 + gap,
            });
        }
        low.push(base);
        let mut steps = loops;
        if let Some((height, kerf, turn)) = split {
            steps.push(CutAndRejoin::split(0, height, kerf, turn));
        }
        let stack = Stack::new(vec![
            (SectionBody::new(low, vec![]), 0.0),
            (SectionBody::new(rings(&counts, 22.0, 55.0, 28.0), steps), turn),
        ]);
        let cells = stack.cells();
        for (share, x, y) in points {
            let p = DVec3::new(x, y, share * stack.height());
            // A point within rounding of a face belongs to either side.
            if cells.iter().any(|c| c.cell.contains(p, -1e-6) && !c.cell.contains(p, 1e-6)) {
                continue;
            }
            let holding: Vec<_> = cells.iter().filter(|c| c.cell.contains(p, 0.0)).collect();
            let found = stack.wood_at(p);
            // Layers of misfit thickness over one another may leave slivers of nothing,
            // but never two parts at one point.
            prop_assert!(holding.len() <= 1, "{} parts at {p}", holding.len());
            let by_cell = holding.first().map(|c| (c.section, c.part, c.wood));
            let by_walk = found.map(|f| (f.section, f.part, f.wood));
            prop_assert_eq!(by_cell, by_walk, "at {}", p);
        }
    }

    /// Conservation: what is left, and what the saw took, is what there was.
    #[test]
    fn pieces_and_kerf_make_the_blank(
        height in 20.0..60.0_f64, tilt in 0.0..0.5_f64, climb in 0.0..6.3_f64, removed in 0.5..8.0_f64,
    ) {
        let blank = SectionBody::new(rings(&[12, 9, 12, 7], 20.0, 50.0, 30.0), vec![]);
        let before: f64 = blank.cells().iter().map(|c| c.cell.volume()).sum();
        let plane = Plane::tilted(height, tilt, climb);
        let mut taken = 0.0;
        let mut left = 0.0;
        for c in blank.cells() {
            let (below, rest) = c.cell.split(&plane.shifted(-removed / 2.0));
            let (slab, above) = rest.split(&plane.shifted(removed / 2.0));
            taken += slab.volume();
            left += below.volume() + above.volume();
        }
        prop_assert!((left + taken - before).abs() < 1e-6 * before);
        // And the model's own cells, without the layer, are what is left.
        let cut = SectionBody::new(
            rings(&[12, 9, 12, 7], 20.0, 50.0, 30.0),
            vec![CutAndRejoin::sawn_loop(LOOP, &plane, removed, removed, layer(board(), 1, climb))],
        );
        let wood: f64 = cut.cells().iter().filter(|c| c.wood == WoodId(0)).map(|c| c.cell.volume()).sum();
        prop_assert!((wood - left).abs() < 1e-6 * before);
    }

    /// Identity: a cut that removes and adds nothing changes nothing.
    #[test]
    fn a_slice_of_nothing_changes_nothing(
        height in 5.0..75.0_f64, tilt in 0.0..1.2_f64, climb in 0.0..6.3_f64,
        x in -50.0..50.0_f64, y in -50.0..50.0_f64, z in 0.0..80.0_f64,
    ) {
        let plain = SectionBody::new(rings(&[12, 9, 12, 7], 20.0, 50.0, 30.0), vec![]);
        let nothing = CutAndRejoin::new(LOOP, Plane::tilted(height, tilt, climb),
            Plane::tilted(height, tilt, climb), Motion::STAY, None);
        let cut = SectionBody::new(rings(&[12, 9, 12, 7], 20.0, 50.0, 30.0), vec![nothing]);
        let p = DVec3::new(x, y, z);
        prop_assert_eq!(plain.find(p).map(|f| f.part), cut.find(p).map(|f| f.part));
        let a: f64 = plain.cells().iter().map(|c| c.cell.volume()).sum();
        let b: f64 = cut.cells().iter().map(|c| c.cell.volume()).sum();
        prop_assert!((a - b).abs() < 1e-6 * a);
    }

    /// n equal loops give a wall that repeats n times, before order is counted:
    /// whether a point is in any layer does not change when it goes round by 360°/n.
    #[test]
    fn equal_loops_repeat_round_the_wall(
        n in 2..9_usize, tilt in 0.05..0.6_f64, thick in 2.0..8.0_f64,
        az in 0.0..6.3_f64, z in 0.0..80.0_f64,
    ) {
        let step = std::f64::consts::TAU / n as f64;
        let steps = (0..n).map(|i| {
            let climb = step * i as f64;
            CutAndRejoin::sawn_loop(LOOP, &Plane::tilted(40.0, tilt, climb), thick, thick, layer(board(), 1, climb))
        }).collect();
        let section = SectionBody::new(rings(&[12; 4], 20.0, 50.0, 30.0), steps);
        let in_layer = |az: f64| {
            let p = DVec2::from_angle(az) * 42.0;
            section.find(DVec3::new(p.x, p.y, z)).map(|f| matches!(f.part, Part::Layer { .. }))
        };
        let first = in_layer(az);
        // On an edge rounding decides.
        let near = in_layer(az + 1e-7) != first || in_layer(az - 1e-7) != first;
        for i in 1..n {
            prop_assert!(near || in_layer(az + step * i as f64) == first);
        }
    }

    /// Round trip: the reach of the tilt that was solved from a reach, on a curved wall.
    #[test]
    fn tilt_and_reach_are_each_others_way_back(
        tilt in 0.02..0.45_f64, height in 55.0..85.0_f64, thick in 2.0..8.0_f64, bulge in -10.0..20.0_f64,
    ) {
        let wall = |z: f64| (0.0..=140.0).contains(&z)
            .then(|| 50.0 + bulge * (std::f64::consts::PI * z / 140.0).sin());
        let loops = Loops {
            height: Length::mm(height), tilt: Angle::rad(tilt),
            thickness: Length::mm(thick), azimuths: vec![],
        };
        let Some(reach) = loops.edges(&wall).reach() else { return Ok(()) };
        let back = Loops::tilt_for_reach(&wall, Length::mm(height), reach, Angle::deg(80.0),
            &|_| Length::mm(thick));
        prop_assert!(back.is_ok(), "{back:?}");
        if let Ok(back) = back {
            prop_assert!((back.as_rad() - tilt).abs() < 1e-7, "{} {}", back.as_rad(), tilt);
        }
    }

    /// Round trip: thickness from spacer, spacer from thickness.
    #[test]
    fn layer_and_spacer_are_each_others_way_back(
        layer in 1.0..20.0_f64, glue in 0.0..0.3_f64, kerf in 0.3..4.0_f64, tilt in 0.0..1.3_f64,
    ) {
        let cuts = TwoCuts::for_layer(Length::mm(layer), Length::mm(glue), Length::mm(kerf), Angle::rad(tilt));
        prop_assert!((cuts.layer(Length::mm(glue)).as_mm() - layer).abs() < 1e-9);
        prop_assert!((cuts.removed().as_mm() - cuts.slice().as_mm() - 2.0 * kerf).abs() < 1e-9);
    }

    /// A segment's area by its edges is the cell's, and n of them are the ring's.
    #[test]
    fn segments_fill_their_ring(n in 3..145_usize, out in 5.0..400.0_f64, share in 0.0..0.95_f64) {
        let sizes = RingSizes::closed(n, Length::mm(out), Length::mm(out * share));
        let trapezoid = 0.5 * (sizes.long_edge() + sizes.short_edge()).as_mm() * sizes.board_width().as_mm();
        let body = ring(n, (0.0, 1.0), (out, sizes.flat_in().as_mm()), 0.3);
        let mut cells = Vec::new();
        body.cells(0, &mut cells);
        let sum: f64 = cells.iter().map(|c| c.cell.volume()).sum();
        prop_assert!((sum - trapezoid * n as f64).abs() < 1e-9 * sum.max(1.0));
        // Turned, what is left is the annulus between the two true circles.
        let inner = sizes.corner_in.as_mm();
        let tube = Tube::new(inner, out, 0.0, 1.0);
        let turned: f64 = cells.iter().map(|c| turned_volume(&c.cell, &tube, 1e-9).volume).sum();
        let annulus = std::f64::consts::PI * (out * out - inner * inner);
        prop_assert!((turned - annulus).abs() < 1e-9 * annulus.max(1.0), "{turned} {annulus}");
    }
}

#[test]
fn a_misfit_layer_moves_the_part_above_by_its_sine_and_cosine() {
    // Closed form: a layer d too thick at tilt t moves the part above by d·sin t
    // sideways, away from the climb, and d·cos t up.
    let (d, tilt, climb) = (0.4, 0.5_f64, 1.0_f64);
    let step = CutAndRejoin::sawn_loop(
        LOOP,
        &Plane::tilted(40.0, tilt, climb),
        5.0,
        5.0 + d,
        layer(board(), 1, climb),
    );
    let shift = step.motion.shift;
    let sideways = DVec2::new(shift.x, shift.y).dot(DVec2::from_angle(climb));
    assert!((sideways + d * tilt.sin()).abs() < 1e-12);
    assert!((shift.z - d * tilt.cos()).abs() < 1e-12);
}

#[test]
fn equal_misfits_of_even_loops_cancel_sideways() {
    let n = 5;
    let sum: DVec3 = (0..n)
        .map(|i| {
            let climb = std::f64::consts::TAU * f64::from(i) / f64::from(n);
            CutAndRejoin::sawn_loop(
                LOOP,
                &Plane::tilted(40.0, 0.4, climb),
                5.0,
                5.3,
                layer(board(), 1, climb),
            )
            .motion
            .shift
        })
        .sum();
    assert!(sum.x.abs() < 1e-12 && sum.y.abs() < 1e-12);
    assert!((sum.z - 5.0 * 0.3 * 0.4_f64.cos()).abs() < 1e-12);
}

#[test]
fn volumes_do_not_depend_on_the_number_of_threads() {
    let steps = (0..3)
        .map(|i| {
            let climb = 2.1 * f64::from(i);
            CutAndRejoin::sawn_loop(
                LOOP,
                &Plane::tilted(40.0, 0.3, climb),
                4.0,
                4.0,
                layer(board(), 1, climb),
            )
        })
        .collect();
    let stack = Stack::new(vec![(
        SectionBody::new(rings(&[12; 4], 20.0, 50.0, 30.0), steps),
        0.4,
    )]);
    let tube = Tube::new(33.0, 47.0, 1.0, 79.0);
    let bits = || -> Vec<u64> {
        volumes_by_wood(&volumes_by_part(&stack, Some(&tube), 1e-6))
            .values()
            .map(|v| v.volume.to_bits())
            .collect()
    };
    let many = bits();
    let one = rayon::ThreadPoolBuilder::new()
        .num_threads(1)
        .build()
        .unwrap()
        .install(bits);
    assert_eq!(many, one);
}

#[test]
fn rows_of_three_and_opposite_loops_are_counted() {
    // n(n−1) crossings in n−1 rows of n, whichever way the loops are numbered.
    let wall = |_: f64| Some(50.0);
    for n in 2..=16_usize {
        let loops = Loops {
            height: Length::mm(70.0),
            tilt: Angle::deg(20.0),
            thickness: Length::mm(5.0),
            azimuths: (0..n)
                .map(|i| Angle::full().divided_by(n) * i as f64)
                .collect(),
        };
        let order: Vec<usize> = (0..n).rev().collect();
        let rows = crossing_rows(&loops, &order, &wall);
        assert_eq!(rows.len(), n - 1, "{n} loops");
        for row in &rows {
            assert_eq!(row.crossings.len(), n);
            assert!(row.crossings.iter().all(|c| c.over < c.under));
        }
    }
}

#[test]
fn nothing_is_found_in_an_empty_or_degenerate_model() {
    let empty = Stack::default();
    assert!(empty.wood_at(DVec3::ZERO).is_none());
    assert!(empty.wood_at(DVec3::splat(f64::NAN)).is_none());
    let stack = Stack::new(vec![(
        SectionBody::new(rings(&[3], 20.0, 50.0, 0.0), vec![]),
        0.0,
    )]);
    assert!(stack.wood_at(DVec3::splat(f64::NAN)).is_none());
    assert!(stack.wood_at(DVec3::splat(f64::INFINITY)).is_none());
    assert_eq!(ConvexCell::prism(&[], 0.0, 1.0).volume(), 0.0);
}

#[test]
fn cells_alike_but_for_a_turn_are_measured_once_and_turned() {
    // Each cell measured on its own, against the sums that measure one of its kind.
    let steps = (0..3)
        .map(|i| {
            let climb = std::f64::consts::TAU / 3.0 * f64::from(i);
            CutAndRejoin::sawn_loop(
                LOOP,
                &Plane::tilted(40.0, 0.3, climb),
                4.0,
                4.0,
                layer(board(), 1, climb),
            )
        })
        .collect();
    let stack = Stack::new(vec![(
        SectionBody::new(rings(&[12; 4], 20.0, 50.0, 30.0), steps),
        0.4,
    )]);
    let tube = Tube::new(33.0, 47.0, 1.0, 79.0);
    for v in volumes_by_part(&stack, Some(&tube), 1e-9) {
        let mut volume = 0.0;
        let mut first = DVec3::ZERO;
        for c in stack.cells().iter().filter(|c| c.part == v.part) {
            let own = turned_volume(&c.cell, &tube, 1e-9 * c.cell.volume());
            volume += own.volume;
            first += own.first;
        }
        assert!(
            (v.moments.volume - volume).abs() < 1e-5 * volume.max(1.0),
            "{:?}",
            v.part
        );
        assert!(
            (v.moments.first - first).length() < 1e-3 * volume.max(1.0),
            "{:?}",
            v.part
        );
    }
}
