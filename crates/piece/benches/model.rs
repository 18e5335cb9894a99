//! The model against the design's budgets: `wood_at` in 4 loops and 40 rings,
//! settling 40 rings of 24 segments with 6 loops, volumes by wood of the vase.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use files::read::read_design;
use files::workshop::Workshop;
use glam::DVec3;
use piece::model::{volumes_by_part, volumes_by_wood};
use piece::piece::Piece;
use piece::settle::settle;

fn settled(text: &str) -> Piece {
    let (design, _, problems) = read_design("bench", text);
    let design = design.unwrap_or_else(|| panic!("{problems:?}"));
    settle(&design, &Workshop::default()).piece.expect("a form")
}

/// A tall jar: 40 rings of 24 segments, a band of `loops`.
fn jar(loops: usize) -> String {
    format!(
        r#"
ringwright = 1
title = "Bench jar"
unit = "mm"
[form]
outer = [[0, 60], [180, 80], [360, 78], [470, 55], [600, 70]]
wall = 8
floor = 10
[[section]]
name = "all"
wood = ["hard maple", "cherry"]
segments = 24
ring_height = 15
rings = 40
  [[section.band]]
  loops = {loops}
  height = 240
  reach = 120
  layer = 6
  wood = "holly"
"#
    )
}

/// Points spread evenly inside the outer wall, from a fixed sequence.
fn points(piece: &Piece, count: usize) -> Vec<DVec3> {
    let height = piece.form.height().as_mm();
    // Steps by the plastic number's powers spread evenly (Roberts' R3 sequence).
    (0..count)
        .map(|i| {
            let part = |step: f64| (0.5 + step * i as f64).fract();
            let z = height * part(0.819_172_513_396_164_4);
            let r =
                piece.form.outside().radius(z).unwrap_or(1.0) - 7.0 * part(0.671_043_606_703_789_3);
            let (y, x) = (std::f64::consts::TAU * part(0.549_700_477_901_970_3)).sin_cos();
            DVec3::new(r * x, r * y, z)
        })
        .collect()
}

fn model(c: &mut Criterion) {
    let jar4 = settled(&jar(4));
    let spots = points(&jar4, 4096);
    c.bench_function("wood_at, 4 loops in 40 rings, 4096 points", |b| {
        b.iter(|| {
            spots
                .iter()
                .filter(|p| jar4.stack.wood_at(**p).is_some())
                .count()
        });
    });
    let text = jar(6);
    c.bench_function("file to piece, 40 rings x 24 segments, 6 loops", |b| {
        b.iter(|| settled(black_box(&text)));
    });
    let vase = settled(include_str!("../../../examples/dunlin-vase.toml"));
    for tolerance in [1e-3, 1e-4, 1e-6] {
        c.bench_function(
            &format!("vase, volumes by wood, tolerance {tolerance:e}"),
            |b| {
                b.iter(|| {
                    volumes_by_wood(&volumes_by_part(
                        &vase.stack,
                        Some(vase.form.outline()),
                        tolerance,
                    ))
                });
            },
        );
    }
    c.bench_function("vase, cells", |b| b.iter(|| vase.stack.cells().len()));
}

criterion_group!(benches, model);
criterion_main!(benches);
