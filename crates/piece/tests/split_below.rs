//! A split below the loops: where the plan says the loops end and cross is where the
//! model has them. Two roads: closed forms on the curved wall, and `wood_at`.

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

use files::read::read_design;
use files::workshop::Workshop;
use glam::DVec3;
use piece::model::{Part, StepKind};
use piece::piece::Piece;
use piece::settle::settle;

/// A vase that flares by 1 in 4, so that a height that is wrong by a kerf shows.
fn vase(split: &str) -> Piece {
    let text = format!(
        r#"
ringwright = 1
title = "A split below"
unit = "mm"
[form]
outer = [[0, 40], [160, 80]]
straight = true
wall = 8
floor = 8
[[section]]
name = "body"
segments = 12
wood = "cherry"
stock = 22
ring_height = 20
rings = 8
  [[section.band]]
  loops = 3
  height = 95
  reach = 60
  layer = 6
  wood = "walnut"
{split}"#
    );
    let design = read_design("split", &text).0.unwrap();
    settle(&design, &Workshop::default()).piece.unwrap()
}

/// Is the layer of a loop just inside the outer wall?
fn layer_there(piece: &Piece, azimuth: f64, z: f64) -> bool {
    let r = piece.form.outside().radius(z).unwrap() - 0.02;
    let p = DVec3::new(r * azimuth.cos(), r * azimuth.sin(), z);
    let spot = piece.stack.wood_at(p).unwrap();
    let Part::Layer { step, .. } = spot.part else {
        return false;
    };
    let steps = piece.stack.sections()[0].body.steps();
    matches!(steps[usize::from(step)].kind, StepKind::Loop { .. })
}

#[test]
fn loops_end_where_the_plan_says_with_a_split_below_or_above_them() {
    for (split, lost, turned) in [
        ("", 0.0, 0.0),
        (
            "[[section.split]]\nheight = 20\nturn = 7\nsaw = \"table saw\"\n",
            3.0,
            7.0,
        ),
        (
            "[[section.split]]\nheight = 150\nturn = 7\nsaw = \"table saw\"\n",
            0.0,
            0.0,
        ),
    ] {
        let piece = vase(split);
        let section = &piece.sections[0];
        let band = &section.bands[0];
        let base = section.base_of(band).as_mm();
        let turn = section.turn_of(band);
        assert!(
            (section.bottom.as_mm() - base - lost).abs() < 1e-9,
            "{split}"
        );
        assert!(
            ((turn - section.turn).as_deg() - turned).abs() < 1e-9,
            "{split}"
        );
        let reach = band.outside.reach().unwrap().as_mm();
        assert!((reach - 60.0).abs() < 1e-6, "reach {reach} with {split:?}");
        let (top, bottom) = (
            band.outside.top.unwrap().as_mm() + base,
            band.outside.bottom.unwrap().as_mm() + base,
        );
        for climb in &band.loops.azimuths {
            let up = (*climb + turn).as_rad();
            let down = up + std::f64::consts::PI;
            assert!(layer_there(&piece, up, top - 0.1), "top of {split:?}");
            assert!(
                !layer_there(&piece, up, top + 0.1),
                "over the top of {split:?}"
            );
            assert!(
                layer_there(&piece, down, bottom + 0.1),
                "bottom of {split:?}"
            );
            assert!(!layer_there(&piece, down, bottom - 0.1), "under {split:?}");
        }
        for row in &band.rows_outside {
            for crossing in &row.crossings {
                let z = crossing.height.unwrap().as_mm() + base;
                let azimuth = (crossing.azimuth + turn).as_rad();
                assert!(layer_there(&piece, azimuth, z), "crossing of {split:?}");
            }
        }
    }
}
