//! Pictures of makings: the worst, a typical and the perfect wall side by side.

use std::f64::consts::TAU;

use piece::piece::Piece;
use plan::tolerance::{
    Errors, Face, ToleranceStudy, WatchedPlaces, erred_inside, erred_piece, errors_of,
};

use crate::picture::{Image, MapOptions, wall_between, wall_map};
use crate::wall::Wall;
use piece::form::WallSide;

/// Width of one wall in pixels.
const WIDTH: u32 = 1600;
/// Pixels to a millimetre where it is looked at closely.
const CLOSE: f64 = 16.0;
/// How far round and up a close look goes, mm.
const WINDOW: f64 = 48.0;
/// How many times larger the loops' errors are drawn, so that a small picture shows
/// of what sort they are.
const TIMES: f64 = 10.0;
const GAP: u32 = 40;
const PAPER: [u8; 3] = [0xf6, 0xf2, 0xe9];

/// Pictures by file name, each from left to right the study's worst making, its typical
/// one, and the piece as planned:
///
/// - the outside and the inside wall as they come out;
/// - the outside with the loops' errors ten times as large, to see of what sort they are;
/// - a close look at the crossing with the largest step of the worst making.
pub fn draw_makings(piece: &Piece, study: &ToleranceStudy) -> Vec<(String, Vec<u8>)> {
    let makings = |times: f64| {
        [study.worst, study.typical].map(|n| errors_of(piece, study.makings.seed, n, times))
    };
    let (as_made, enlarged) = (makings(1.0), makings(TIMES));
    let mut out = vec![
        (
            "outside-worst-typical-perfect.png".to_string(),
            walls(piece, &as_made, WallSide::Outside),
        ),
        (
            "inside-worst-typical-perfect.png".to_string(),
            walls(piece, &as_made, WallSide::Inside),
        ),
        (
            "outside-ten-times-worst-typical-perfect.png".to_string(),
            walls(piece, &enlarged, WallSide::Outside),
        ),
    ];
    if let Some(close) = close_up(piece, &as_made) {
        out.push(("close-up-worst-typical-perfect.png".to_string(), close));
    }
    out.into_iter().map(|(n, i)| (n, i.to_png())).collect()
}

fn walls(piece: &Piece, makings: &[Errors; 2], side: WallSide) -> Image {
    let options = MapOptions {
        width: WIDTH,
        height: None,
        grain: true,
    };
    let erred = |errors: &Errors| match side {
        WallSide::Outside => erred_piece(piece, errors),
        WallSide::Inside => erred_inside(piece, errors),
    };
    let mut pictures: Vec<Image> = makings
        .iter()
        .map(|errors| wall_map(&same_scale(erred(errors), piece), side, &options))
        .collect();
    pictures.push(wall_map(piece, side, &options));
    Image::beside(&pictures, GAP, PAPER)
}

/// An erred piece at the planned one's heights, by which the map's scale is chosen.
fn same_scale(mut erred: Piece, planned: &Piece) -> Piece {
    for (own, planned) in erred.sections.iter_mut().zip(&planned.sections) {
        own.bottom = planned.bottom;
    }
    erred
}

/// A close look at the worst making's largest step at a crossing, outside; nothing
/// where no loops cross.
fn close_up(piece: &Piece, makings: &[Errors; 2]) -> Option<Image> {
    let watch = WatchedPlaces::new(piece);
    let worst = watch.worst_crossing(&makings[0], Face::Outside)?;
    let wall = Wall::new(piece, WallSide::Outside);
    let round = wall.true_radius().as_mm() * TAU;
    let options = MapOptions {
        width: (round * CLOSE) as u32,
        height: None,
        grain: false,
    };
    let half = WINDOW / 2.0;
    let heights = (worst.height.as_mm() - half, worst.height.as_mm() + half);
    let count = (WINDOW.min(round) * CLOSE) as u32;
    let middle =
        (wall.share(worst.azimuth.as_rad()).rem_euclid(1.0) * f64::from(options.width)) as u32;
    let from = (middle + options.width).saturating_sub(count / 2);
    let look = |piece: &Piece| {
        wall_between(piece, WallSide::Outside, &options, heights).columns(from, count)
    };
    let mut pictures: Vec<Image> = makings
        .iter()
        .map(|errors| look(&same_scale(erred_piece(piece, errors), piece)))
        .collect();
    pictures.push(look(piece));
    Some(Image::beside(&pictures, GAP, PAPER))
}
