//! The tolerance study of the five-loop vase against its goal: 10,000 makings in two
//! seconds on two cores.

use files::units::Unit;
use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use files::read::read_design;
use files::workshop::Workshop;
use piece::settle::settle;
use piece::work::Cancel;
use plan::tolerance::{Limits, Makings, WatchedPlaces, errors_of, study};

fn tolerance(c: &mut Criterion) {
    let text = include_str!("../../../examples/dunlin-vase.toml");
    let (design, _, problems) = read_design("bench", text);
    let design = design.unwrap_or_else(|| panic!("{problems:?}"));
    let piece = settle(&design, &Workshop::default())
        .piece
        .expect("the example has a form");
    let watch = WatchedPlaces::new(&piece);
    c.bench_function("vase, one making drawn and measured", |b| {
        let mut number = 0;
        b.iter(|| {
            number += 1;
            watch.outcome(&errors_of(black_box(&piece), 1, number, 1.0))
        });
    });
    let mut group = c.benchmark_group("study");
    group.sample_size(10);
    for count in [1_000, 10_000] {
        group.bench_function(format!("vase, {count} makings with causes"), |b| {
            let (makings, limits) = (Makings { count, seed: 1 }, Limits::default());
            b.iter(|| {
                study(
                    &piece,
                    makings,
                    &limits,
                    Unit::Mm.into(),
                    &Cancel::default(),
                )
            });
        });
    }
    group.finish();
}

criterion_group!(benches, tolerance);
criterion_main!(benches);
