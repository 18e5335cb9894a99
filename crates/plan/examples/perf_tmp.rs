#![allow(clippy::all, missing_docs)]
use piece::read::read_design;
use piece::settle::settle;
use piece::workshop::Workshop;
use std::time::Instant;
fn main() {
    let text = r#"
ringwright = 1
title = "Bench jar"
unit = "mm"
[woods.padauk]
like = "padauk"
density = 745
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
  loops = 6
  height = 240
  reach = 120
  wood = "padauk"
  layer = 5
"#;
    let (d, _, p) = read_design("x", text);
    assert!(p.is_empty(), "{p:?}");
    let d = d.unwrap();
    let w = Workshop::default();
    for _ in 0..3 {
        let n = 50;
        let mut best = f64::MAX;
        for _ in 0..200 {
            let t = Instant::now();
            let s = settle(&d, &w);
            std::hint::black_box(plan::plan_unweighed(&s));
            best = best.min(t.elapsed().as_secs_f64() * 1e3);
        }
        println!("settle+plan_unweighed best {best:.2} ms");
        let s0 = settle(&d, &w);
        let mut best = f64::MAX;
        for _ in 0..200 {
            let t = Instant::now();
            std::hint::black_box(plan::plan_unweighed(&s0));
            best = best.min(t.elapsed().as_secs_f64() * 1e3);
        }
        println!("plan_unweighed best {best:.2} ms");
        let mut best = f64::MAX;
        for _ in 0..200 {
            let t = Instant::now();
            std::hint::black_box(plan::findings::find(&s0));
            best = best.min(t.elapsed().as_secs_f64() * 1e3);
        }
        println!("findings best {best:.2} ms");
        let pi = s0.piece.as_ref().unwrap();
        let mut best = f64::MAX;
        for _ in 0..200 {
            let t = Instant::now();
            std::hint::black_box(plan::glue::study(pi));
            best = best.min(t.elapsed().as_secs_f64() * 1e3);
        }
        println!("glue best {best:.3} ms");
        let s = settle(&d, &w);
        let t = Instant::now();
        for _ in 0..n {
            std::hint::black_box(settle(&d, &w));
        }
        println!("settle {:.2}", t.elapsed().as_secs_f64() * 1e3 / n as f64);
        let t = Instant::now();
        for _ in 0..n {
            std::hint::black_box(plan::findings::find(&s));
        }
        println!("findings {:.2}", t.elapsed().as_secs_f64() * 1e3 / n as f64);
        let piece = s.piece.as_ref().unwrap();
        for c in plan::findings::registry() {
            let t = Instant::now();
            for _ in 0..n {
                std::hint::black_box(c.find(&plan::findings::Survey::new(&s)));
            }
            let ms = t.elapsed().as_secs_f64() * 1e3 / n as f64;
            if ms > 0.03 {
                println!("   {} {:.3}", c.key(), ms);
            }
        }
        let t = Instant::now();
        for _ in 0..n {
            std::hint::black_box(plan::holding::study(piece));
        }
        println!("holding {:.3}", t.elapsed().as_secs_f64() * 1e3 / n as f64);
        let t = Instant::now();
        for _ in 0..n {
            std::hint::black_box(plan::movement::study(piece));
        }
        println!("movement {:.3}", t.elapsed().as_secs_f64() * 1e3 / n as f64);
    }
}
