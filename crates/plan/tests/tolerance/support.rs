//! Pieces to make over and over. All are our own invention.

use files::read::read_design;
use files::workshop::Exactness;
use files::workshop::Workshop;
use piece::model::{CutAndRejoin, StepKind};
use piece::piece::Piece;
use piece::settle::settle;
use plan::tolerance::Errors;

pub const RADIUS: f64 = 60.0;
pub const WALL: f64 = 8.0;
pub const HEIGHT: f64 = 70.0;
pub const TILT: f64 = 25.0;
pub const LAYER: f64 = 6.0;

/// A straight tube on a disc, `loops` loops in its second section.
pub fn tube(loops: usize) -> Piece {
    made(&format!(
        "ringwright = 1\nunit = \"mm\"\ntitle = \"tube\"\n[form]\n\
         outer = [[0, {RADIUS}], [160, {RADIUS}]]\nstraight = true\nwall = {WALL}\nfloor = 8\n\
         [[section]]\nname = \"foot\"\n[[section.ring]]\nsolid = true\nstock = 19\n\
         [[section]]\nname = \"body\"\nsegments = 12\nring_height = 20\nrings = 7\n\
         [[section.band]]\nloops = {loops}\nheight = {HEIGHT}\ntilt = {TILT}\n\
         layer = {LAYER}\nglue_line = 0\nwood = \"padauk\"\n"
    ))
}

pub fn made(text: &str) -> Piece {
    let (design, _, problems) = read_design("trial", text);
    assert!(problems.is_empty(), "{problems:?}");
    let settled = settle(&design.unwrap(), &Workshop::default());
    assert!(settled.troubles.is_empty(), "{:?}", settled.troubles);
    settled.piece.unwrap()
}

pub fn example(name: &str) -> Piece {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    made(&std::fs::read_to_string(folder.join(name)).unwrap())
}

/// The piece made by somebody of an exactness.
pub fn by(mut piece: Piece, change: impl FnOnce(&mut Exactness)) -> Piece {
    change(&mut piece.workshop.exactness);
    piece
}

/// No error but what `change` puts in.
pub fn with(piece: &Piece, change: impl FnOnce(&mut Errors)) -> Errors {
    let mut errors = Errors::none(piece);
    change(&mut errors);
    errors
}

/// The loops' steps of a section of a piece, by loop number.
pub fn loop_steps(piece: &Piece, section: usize) -> Vec<CutAndRejoin> {
    let mut steps: Vec<(u16, CutAndRejoin)> = piece.stack.sections()[section]
        .body
        .steps()
        .iter()
        .filter_map(|s| match s.kind {
            StepKind::Loop { number, .. } => Some((number, s.clone())),
            _ => None,
        })
        .collect();
    steps.sort_by_key(|s| s.0);
    steps.into_iter().map(|s| s.1).collect()
}
