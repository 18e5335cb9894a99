//! RandomStream, shares, and the same bytes whatever the threads.

use files::message::Said;
use files::units::Unit;
use files::workshop::Exactness;
use piece::work::{Cancel, Cancelled};
use plan::tolerance::{
    Cause, Errors, Limits, Makings, Measure, Spread, ToleranceStudy, WatchedPlaces, errors_of,
    study,
};

use crate::support::*;

fn studied(piece: &piece::piece::Piece, count: usize, seed: u64) -> ToleranceStudy {
    studied_in(Unit::Mm, piece, count, seed)
}

fn studied_in(unit: Unit, piece: &piece::piece::Piece, count: usize, seed: u64) -> ToleranceStudy {
    study(
        piece,
        Makings { count, seed },
        &Limits::default(),
        unit.into(),
        &Cancel::default(),
    )
    .unwrap()
}

fn number(figure: &plan::figure::Figure<Said>) -> f64 {
    figure.amount.number().unwrap()
}

#[test]
fn the_same_seed_gives_the_same_bytes_on_any_number_of_threads() {
    let piece = example("turnstone-box.toml");
    let bytes = |threads: usize, seed: u64| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| serde_json::to_string(&studied(&piece, 400, seed)).unwrap())
    };
    let one = bytes(1, 9);
    assert_eq!(one, bytes(2, 9));
    assert_eq!(one, bytes(5, 9));
    assert_ne!(one, bytes(2, 10));
}

#[test]
fn more_makings_are_the_same_makings_and_more() {
    let piece = tube(3);
    let (few, many) = (studied(&piece, 300, 4), studied(&piece, 900, 4));
    for (a, b) in few.results.iter().zip(&many.results) {
        let (a, b) = (number(&a.quantiles.worst), number(&b.quantiles.worst));
        let worse = if few
            .results
            .iter()
            .any(|r| r.measure.least_counts() && number(&r.quantiles.worst) == a)
        {
            b <= a
        } else {
            b >= a
        };
        assert!(worse, "{a} {b}");
    }
}

#[test]
fn shares_and_the_rest_add_to_the_whole() {
    for piece in [example("dunlin-vase.toml"), tube(3)] {
        let study = studied(&piece, 1000, 2);
        assert!(study.results.len() >= 8);
        for r in &study.results {
            let sum: f64 = r.causes.shares.iter().map(|s| s.share).sum();
            assert!((sum + r.causes.rest - 1.0).abs() < 1e-12);
            assert!(r.causes.shares.iter().all(|s| s.share >= 0.0));
            // Errors this small hardly work together (law of propagation of
            // uncertainty, JCGM 100:2008, 5.1.2); what is left is chance, to a few
            // hundredths for a thousand makings.
            if r.measure != Measure::WallLeft {
                assert!(
                    r.causes.rest.abs() < 0.08,
                    "{:?}: {}",
                    r.measure,
                    r.causes.rest
                );
            }
        }
    }
}

#[test]
fn one_error_alone_has_all_of_it() {
    let piece = by(tube(3), |e| {
        *e = Exactness {
            layer: e.layer,
            ..Exactness::none()
        };
    });
    let study = studied(&piece, 200, 1);
    let steps = study
        .results
        .iter()
        .find(|r| r.measure == Measure::StepsOutside)
        .unwrap();
    assert_eq!(steps.causes.shares.len(), 1);
    assert_eq!(steps.causes.shares[0].cause, Cause::Layer);
    assert!((steps.causes.shares[0].share - 1.0).abs() < 1e-12);
    let without = steps.causes.without.unwrap();
    assert!(without.of_20_mm < 1e-9 && without.beyond == 0.0);
}

#[test]
fn steps_spread_as_their_closed_form_says() {
    // A normal misfit of deviation s gives steps of deviation s · 'seen': their mean
    // square is its square, within five standard errors (sqrt(2/n) of it).
    let piece = by(tube(2), |e| {
        *e = Exactness {
            layer: e.layer,
            ..Exactness::none()
        };
    });
    let watch = WatchedPlaces::new(&piece);
    let s = piece.workshop.exactness.layer.as_mm() / 1.959_963_984_540_054;
    let t = TILT.to_radians();
    // Two loops opposite each other: m·n = cos 2t, and m·w = 0 where they cross.
    let seen = (2.0 * t).cos();
    let n = 4000;
    let mean: f64 = (0..n)
        .map(|i| watch.outcome(&errors_of(&piece, 1, i, 1.0)).squares[Measure::StepsOutside.at()])
        .sum::<f64>()
        / n as f64;
    let want = (s * seen).powi(2);
    assert!(
        (mean / want - 1.0).abs() < 5.0 * (2.0 / n as f64).sqrt(),
        "{mean} {want}"
    );
}

#[test]
fn shares_agree_with_first_order_indices_by_pick_and_freeze() {
    // A second road to one number. For the height of one loop's top, Sobol's first-order
    // index of a cause by Jansen's estimator, 1 − E[(f(B) − f(A with B's cause))²] / 2V
    // (Jansen 1999; Saltelli and others 2010, table 2), against the variance with that
    // cause alone.
    let piece = tube(3);
    let watch = WatchedPlaces::new(&piece);
    let spread = Spread::of(&piece.workshop.exactness);
    let n = 3000;
    let top = |errors: &Errors| {
        let ends = watch.ends_off(errors);
        ends.iter().find(|e| e.0 == Measure::TopsOutside).unwrap().1[0]
    };
    let normals = |making: u64| -> Vec<f64> {
        let mut chance = plan::tolerance::RandomStream::new(77, making);
        (0..2000).map(|_| chance.normal()).collect()
    };
    let whole = |i: u64| top(&Errors::drawn(&piece, &spread, &normals(i)));
    let values: Vec<f64> = (0..n).map(whole).collect();
    let mean = values.iter().sum::<f64>() / n as f64;
    let variance = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / n as f64;
    for cause in [Cause::Height, Cause::Tilt, Cause::Layer, Cause::Slip] {
        let (mut frozen, mut alone) = (0.0, 0.0);
        for i in 0..n {
            let (a, b) = (normals(i), normals(i + n));
            // A with this cause from B: its own draws are the only ones it looks at.
            let mut mixed = Errors::drawn(&piece, &spread.without(cause), &a);
            let own = Errors::drawn(&piece, &spread.only(cause), &b);
            add(&mut mixed, &own);
            frozen += (top(&Errors::drawn(&piece, &spread, &b)) - top(&mixed)).powi(2);
            alone += top(&own).powi(2);
        }
        let first = 1.0 - frozen / n as f64 / (2.0 * variance);
        let share = alone / n as f64 / variance;
        assert!((first - share).abs() < 0.06, "{cause:?}: {first} {share}");
    }
}

/// Errors of different causes are in different places or add.
fn add(into: &mut Errors, other: &Errors) {
    for (a, b) in into.sections.iter_mut().zip(&other.sections) {
        for (a, b) in a.bands.iter_mut().flatten().zip(b.bands.iter().flatten()) {
            a.index += b.index;
            a.tilt += b.tilt;
            a.height += b.height;
            a.misfit += b.misfit;
            a.slip += b.slip;
        }
    }
}

#[test]
fn the_more_makings_the_nearer_to_the_same() {
    // Law of large numbers: shares beyond a limit from two seeds differ by no more than
    // five standard errors, sqrt(p (1 − p) (1/n + 1/n)).
    let piece = example("turnstone-box.toml");
    for count in [200, 3000] {
        let (a, b) = (studied(&piece, count, 1), studied(&piece, count, 2));
        for (a, b) in a.results.iter().zip(&b.results) {
            let error = a.beyond_error.hypot(b.beyond_error).max(1.0 / count as f64);
            assert!(
                (a.beyond - b.beyond).abs() <= 5.0 * error,
                "{:?}",
                a.measure
            );
            if count == 3000 {
                let (p, q) = (number(&a.quantiles.of_20), number(&b.quantiles.of_20));
                assert!((p / q - 1.0).abs() < 0.08, "{:?}: {p} {q}", a.measure);
            }
        }
    }
}

#[test]
fn the_text_keeps_to_its_width_and_its_unit() {
    for (unit, other) in [(Unit::Mm, " in"), (Unit::Inch, " mm")] {
        let piece = example("dunlin-vase.toml");
        let study = studied_in(unit, &piece, 200, 1);
        for working in [false, true] {
            let text = plan::render_study(&study, 80, working);
            for line in text.lines() {
                assert!(line.chars().count() <= 80, "{line}");
                let foreign = line.match_indices(other).any(|(i, _)| {
                    line[..i].ends_with(|c: char| c.is_ascii_digit())
                        && !line[i + other.len()..].starts_with(char::is_alphabetic)
                });
                assert!(!foreign, "{line}");
            }
            let words: Vec<&str> = text.split_whitespace().collect();
            let text = words.join(" ");
            assert!(text.contains("estimate") && text.contains("common practice") == working);
            assert_eq!(text.contains("JCGM 101:2008"), working);
        }
    }
}

#[test]
fn the_makers_own_figures_are_told_from_common_practice() {
    use piece::piece::Origin;
    let mut piece = tube(3);
    let (shop, _, problems) = files::read::read_workshop(
        "ringwright = 1\nunit = \"mm\"\n[exactness]\nlayer = 0.04\ntilt = 0.2\n",
    );
    assert!(problems.is_empty());
    piece.workshop = shop.unwrap();
    let study = studied(&piece, 10, 1);
    let own: Vec<Cause> = study
        .errors
        .iter()
        .filter(|e| e.by == Origin::Workshop)
        .map(|e| e.cause)
        .collect();
    assert_eq!(own, [Cause::Tilt, Cause::Layer]);
    let layer = study
        .errors
        .iter()
        .find(|e| e.cause == Cause::Layer)
        .unwrap();
    assert_eq!(layer.figure.shown, "0.04 mm");
}

#[test]
fn worst_and_typical_are_makings_of_the_study() {
    let piece = tube(3);
    let study = studied(&piece, 500, 6);
    let watch = WatchedPlaces::new(&piece);
    let shown = |making: u64| {
        let outcome = watch.outcome(&errors_of(&piece, 6, making, 1.0));
        let of = Measure::ALL.into_iter().filter(|m| m.shows_outside());
        of.fold(0.0_f64, |m, s| m.max(outcome.values[s.at()]))
    };
    let mut all: Vec<f64> = (0..500).map(shown).collect();
    all.sort_by(f64::total_cmp);
    assert_eq!(shown(study.worst), all[499]);
    assert_eq!(shown(study.typical), all[250]);
}

#[test]
fn the_documentation_has_every_error_with_its_default_and_every_measure() {
    let text = include_str!("../../../../docs/how-exact.md");
    let usual = Exactness::default();
    for cause in Cause::ALL {
        let shown = match cause.amount(&usual).value {
            plan::figure::Amount::Angle(a) => format!("{:.2}°", a.as_deg()),
            other => format!("{} mm", other.number().unwrap()),
        };
        let row = text
            .lines()
            .find(|l| l.starts_with(&format!("| `{}` |", cause.key())));
        let row = row.unwrap_or_else(|| panic!("{} is not in docs/how-exact.md", cause.key()));
        assert!(
            row.contains(&format!("| {shown} |")),
            "{row} should say {shown}"
        );
    }
    for measure in Measure::ALL {
        let words = measure.words().split(',').next().unwrap();
        assert!(text.contains(words), "{words} is not in docs/how-exact.md");
    }
}

#[test]
fn a_study_that_nobody_waits_for_is_given_up() {
    let piece = example("dunlin-vase.toml");
    // More makings than could be worked through in a test.
    let makings = Makings {
        count: 1_000_000,
        seed: 1,
    };
    let cancel = Cancel::default();
    let asked = cancel.clone();
    let waits = std::thread::spawn(move || {
        std::thread::sleep(std::time::Duration::from_millis(50));
        asked.cancel();
    });
    let started = std::time::Instant::now();
    let given_up = study(
        &piece,
        makings,
        &Limits::default(),
        Unit::Mm.into(),
        &cancel,
    );
    assert_eq!(given_up.err(), Some(Cancelled));
    assert!(started.elapsed() < std::time::Duration::from_secs(10));
    waits.join().unwrap();
}
