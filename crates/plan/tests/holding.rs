//! A case of the shop, found before it happens: a three-part vase, 320 mm tall, on a
//! particleboard plate of 19 mm whose middle was cut away to inset the foot, hollowed near
//! the rim.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test may stop where its own files are not there"
)]

use files::units::Unit;
use std::f64::consts::PI;

use files::read::read_design;
use files::workshop::{Block, Holding, Workshop};
use geometry::Length;
use piece::piece::Piece;
use piece::settle::settle;
use plan::holding::{Held, Layer, held};
use plan::operations::OperationKind;

const VASE: &str = include_str!("../../../tests/findings/holding-weak.fail.toml");

fn vase() -> Piece {
    let (design, _, problems) = read_design("vase", VASE);
    assert!(problems.is_empty(), "{problems:?}");
    settle(&design.expect("a design"), &Workshop::default())
        .piece
        .expect("a piece")
}

fn with(piece: &Piece, change: impl FnOnce(&mut Holding)) -> Vec<Held> {
    let mut holding = piece.workshop.holding.clone();
    change(&mut holding);
    held(piece, &holding, *piece.workshop.sled.waste_block)
}

fn of(all: &[Held], kind: OperationKind) -> &Held {
    all.iter().find(|h| h.stage.kind == kind).expect("a stage")
}

fn layer(held: &Held, wanted: fn(&Layer) -> bool) -> f64 {
    let found = held.layers.iter().find(|l| wanted(&l.layer));
    found.expect("a layer").used
}

#[test]
fn the_vase_on_a_cut_out_plate_is_found_before_it_flies() {
    let piece = vase();
    assert!((piece.form.height().as_mm() - 320.0).abs() < 1e-9);
    let none = |h: &mut Holding| {
        h.recess.value = Length::ZERO;
        h.recess_depth.value = None;
    };
    let maple = |h: &mut Holding| h.block.value = Block::Wood("hard maple".into());
    let steady = |h: &mut Holding| h.steady.value = Some(Length::mm(256.0));
    let cases: [(&str, Vec<Held>); 6] = [
        ("particleboard, whole", with(&piece, none)),
        ("particleboard, middle cut away", with(&piece, |_| {})),
        ("particleboard, cut away, steady rest", with(&piece, steady)),
        (
            "maple, whole",
            with(&piece, |h| {
                none(h);
                maple(h);
            }),
        ),
        ("maple, middle cut away", with(&piece, maple)),
        (
            "maple, cut away, steady rest",
            with(&piece, |h| {
                maple(h);
                steady(h);
            }),
        ),
    ];
    for (name, all) in &cases {
        let h = of(all, OperationKind::Hollow);
        println!(
            "{name}: moment {:.1} N·m, shear {:.0} N, weight {:.0} g, middle {:.0} mm up",
            h.root.moment / 1000.0,
            h.root.shear,
            h.stage.body.grams,
            h.stage.middle
        );
        for l in &h.layers {
            println!("    {}: {:.0} %", l.name.said(Unit::Mm), l.used * 100.0);
        }
        for h in all {
            println!(
                "  {}: {:.0} % of {}",
                h.stage.name.said(Unit::Mm),
                h.used() * 100.0,
                h.layers[0].name.said(Unit::Mm)
            );
        }
    }
    let block = |n: usize| {
        layer(of(&cases[n].1, OperationKind::Hollow), |l| {
            matches!(l, Layer::Block)
        })
    };
    let (whole, cut) = (block(0), block(1));
    // By hand: the moment of 100 N at 320 mm and the weight at its middle over
    // π/32 · 100³, three times over, against 0.35 N/mm².
    let h = of(&cases[0].1, OperationKind::Hollow);
    let moment = 100.0 * 320.0 + h.stage.body.grams * 9.80665e-3 * h.stage.middle;
    let hand = 3.0 * moment / (PI / 32.0 * 1e6) / 0.35;
    assert!((whole / hand - 1.0).abs() < 1e-9, "{whole} {hand}");
    // The recess takes 0.7⁴ of the section.
    assert!((cut / whole - 1.0 / (1.0 - 0.7_f64.powi(4))).abs() < 1e-9);
    assert!(cut > 1.0 && whole > 1.0);
    for n in [3, 4, 5] {
        assert!(
            of(&cases[n].1, OperationKind::Hollow).used() < 1.0,
            "{}",
            cases[n].0
        );
    }
    assert!(of(&cases[2].1, OperationKind::Hollow).used() < 0.5 * cut);
}

/// A vase hangs on less as its block is let in deeper under the screws.
#[test]
fn a_recess_over_the_screws_takes_their_bite() {
    let piece = vase();
    let screws = |depth: f64| {
        let all = with(&piece, |h| h.recess_depth.value = Some(Length::mm(depth)));
        layer(of(&all, OperationKind::Hollow), |l| {
            matches!(l, Layer::Screws)
        })
    };
    assert!(
        (screws(2.0) - screws(3.0)).abs() < 1e-12,
        "16 mm of bite are left"
    );
    assert!(screws(11.0) > 1.9 * screws(3.0));
}
