//! What is measured against the erred piece's own `wood_at`.

use files::keys::{Given, Key, Quantity};
use files::workshop::Exactness;
use geometry::Profile;
use glam::{DVec2, DVec3};
use piece::model::{Part, StepKind};
use piece::piece::Piece;
use plan::tolerance::{Errors, Measure, WatchedPlaces, erred_inside, erred_piece, errors_of};
use proptest::prelude::*;

use crate::support::*;

#[test]
fn without_errors_it_is_the_piece_as_planned() {
    for name in [
        "dunlin-vase.toml",
        "sandpiper-bowl.toml",
        "turnstone-box.toml",
    ] {
        let piece = example(name);
        let none = Errors::none(&piece);
        let same = erred_piece(&piece, &none);
        let height = piece.stack.height();
        assert!((same.stack.height() - height).abs() < 1e-9);
        for i in 0..20_000 {
            // Points spread evenly (Roberts' R3 sequence).
            let part = |step: f64| (0.5 + step * f64::from(i)).fract();
            let r = 110.0 * part(0.671_043_606_703_789_3);
            let flat = DVec2::from_angle(7.0 * part(0.549_700_477_901_970_3)) * r;
            let p = flat.extend(height * part(0.819_172_513_396_164_4));
            let (a, b) = (piece.stack.wood_at(p), same.stack.wood_at(p));
            assert_eq!(a.map(|s| (s.part, s.wood)), b.map(|s| (s.part, s.wood)));
        }
        let outcome = WatchedPlaces::new(&piece).outcome(&none);
        for measure in Measure::ALL {
            let value = outcome.values[measure.at()];
            let want = match measure {
                Measure::WallLeft => piece.form.thinnest_wall().0.as_mm(),
                _ => 0.0,
            };
            assert!((value - want).abs() < 1e-6, "{name} {measure:?}: {value}");
        }
    }
}

/// Every height at which a loop's layer ends on a wall near its climb or opposite,
/// found by asking the model alone: the highest, or the lowest.
fn asked(erred: &Piece, wall: &Profile, section: usize, number: u16, top: bool) -> f64 {
    let placed = &erred.stack.sections()[section];
    let steps = placed.body.steps();
    let own = |p: DVec3| {
        erred.stack.wood_at(p).is_some_and(|s| {
            matches!(s.part, Part::Layer { step, .. }
                if matches!(steps[usize::from(step)].kind, StepKind::Loop { number: n, .. } if n == number))
        })
    };
    let band = &erred.sections[section].bands[0];
    let climb = band.loops.azimuths[usize::from(number)].as_rad() + placed.turn;
    let middle = placed.bottom + band.loops.height.as_mm();
    let way = if top { 1.0 } else { -1.0 };
    let mut best = f64::MIN;
    for k in -60..=60 {
        let flat = DVec2::from_angle(climb + 0.001 * f64::from(k)) * way;
        let on = |z: f64| wall.radius(z).is_some_and(|r| own((flat * r).extend(z)));
        // March from the middle outwards to the layer and through it.
        let mut z = middle;
        let mut seen = None;
        for _ in 0..2000 {
            z += way * 0.05;
            match (seen, on(z)) {
                (_, true) => seen = Some(z),
                (Some(_), false) => break,
                _ => {}
            }
        }
        let Some(mut inside) = seen else { continue };
        let mut outside = inside + way * 0.05;
        for _ in 0..40 {
            let mid = 0.5 * (inside + outside);
            if on(mid) {
                inside = mid;
            } else {
                outside = mid;
            }
        }
        best = best.max(way * inside);
    }
    way * best
}

#[test]
fn tops_and_bottoms_are_where_the_erred_pieces_wood_is() {
    for name in ["dunlin-vase.toml", "sandpiper-bowl.toml"] {
        let piece = example(name);
        let watch = WatchedPlaces::new(&piece);
        for making in 0..2 {
            // Larger than any maker's, so that what is left out would show.
            let errors = errors_of(&piece, 3, making, 4.0);
            let pieces = [erred_piece(&piece, &errors), erred_inside(&piece, &errors)];
            let planned = Errors::none(&piece);
            assert!(
                watch
                    .ends_off(&planned)
                    .iter()
                    .all(|e| e.1.iter().all(|z| z.abs() < 1e-9))
            );
            for (measure, off) in watch.ends_off(&errors) {
                let (erred, wall, top) = match measure {
                    Measure::TopsOutside => (&pieces[0], piece.form.outside(), true),
                    Measure::BottomsOutside => (&pieces[0], piece.form.outside(), false),
                    Measure::TopsInside => (&pieces[1], piece.form.inside(), true),
                    _ => (&pieces[1], piece.form.inside(), false),
                };
                let order = &piece.sections[1].bands[0].order;
                for (off, &number) in off.iter().zip(order) {
                    let number = number as u16;
                    let before = asked(&piece, wall, 1, number, top);
                    let after = asked(erred, wall, 1, number, top);
                    let moved = after - before;
                    assert!(
                        (moved - off).abs() < 0.004,
                        "{name}, making {making}, {measure:?}, loop {number}: {off}, asked {moved}"
                    );
                }
            }
        }
    }
}

#[test]
fn heights_of_the_erred_piece_add_up() {
    let piece = example("dunlin-vase.toml");
    let errors = errors_of(&piece, 5, 0, 1.0);
    let erred = erred_piece(&piece, &errors);
    let sum: f64 = erred.sections.iter().map(|s| s.height.as_mm()).sum();
    assert!((sum - erred.stack.height()).abs() < 1e-9);
    assert!((sum - piece.stack.height()).abs() < 2.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn no_exactness_however_bad_makes_nonsense(
        mm in 0.0..5.0_f64, degrees in 0.0..5.0_f64, making in 0..1000_u64, stays in any::<bool>()
    ) {
        let piece = by(example("turnstone-box.toml"), |e| {
            let figure = |key: &Key| match key.quantity {
                Quantity::Angle(_) => format!("{} = {degrees}\n", key.name),
                Quantity::Flag => format!("{} = {stays}\n", key.name),
                _ => format!("{} = {mm}\n", key.name),
            };
            let keys: String = Exactness::KEYS.keys.iter().map(figure).collect();
            let text = format!("ringwright = 1\nunit = \"mm\"\n[exactness]\n{keys}");
            let shop = files::read::read_workshop(&text).0;
            *e = shop.expect("every figure is in range").exactness;
        });
        let errors = errors_of(&piece, 1, making, 1.0);
        let outcome = WatchedPlaces::new(&piece).outcome(&errors);
        for value in outcome.values.iter().chain(&outcome.squares) {
            prop_assert!(value.is_finite() && *value >= 0.0, "{outcome:?}");
        }
        let erred = erred_piece(&piece, &errors);
        prop_assert!(erred.stack.height().is_finite());
        let _ = erred.stack.cells().len();
    }
}

#[test]
fn a_sled_that_stays_set_makes_no_unevenness_of_tilt_or_height() {
    let piece = by(tube(4), |e| {
        *e = Exactness {
            tilt: e.tilt,
            height: e.height,
            sled_stays_set: Given::usual(true),
            ..Exactness::none()
        };
    });
    let watch = WatchedPlaces::new(&piece);
    for making in 0..20 {
        let outcome = watch.outcome(&errors_of(&piece, 1, making, 1.0));
        for measure in Measure::ALL {
            if measure != Measure::WallLeft {
                assert!(outcome.values[measure.at()] < 1e-8, "{measure:?}");
            }
        }
    }
}
