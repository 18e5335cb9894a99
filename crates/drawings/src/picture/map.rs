//! Wall maps: the finished wall, unrolled, in its woods.

use std::f64::consts::TAU;

use glam::DVec2;
use piece::form::WallSide;
use piece::model::Spot;
use piece::piece::Piece;

use super::Image;
use super::grain::{PartGrain, Rgb, Textures};
use super::rows::{Rows, Stretch, owner};
use super::stroke::Strokes;
use crate::wall::{FaceKind, Faces, Wall, traces};
use piece::parallel::each_chunk;

/// How a wall map is made.
#[derive(Debug, Clone, Copy)]
pub struct MapOptions {
    /// Pixels once round the wall.
    pub width: u32,
    /// Pixels from the lowest to the highest height; `None` keeps to scale, a pixel being
    /// as high as it is wide at [`Wall::true_radius`].
    pub height: Option<u32>,
    /// Grain and a little shading; otherwise flat colours.
    pub grain: bool,
}

/// What stands where wood is missing: the ring is too narrow there.
const NOTHING: Rgb = [0.94, 0.91, 0.85];
const INK: Rgb = [0.10, 0.075, 0.055];

/// One side of the finished wall, unrolled as [`crate::views::unrolled_wall`] unrolls it.
/// The same picture for any number of threads.
pub fn wall_map(piece: &Piece, side: WallSide, options: &MapOptions) -> Image {
    wall_between(piece, side, options, (f64::NEG_INFINITY, f64::INFINITY))
}

/// The rows of a wall map between two heights of the piece, mm, at the scale that the
/// whole map would have.
pub fn wall_between(
    piece: &Piece,
    side: WallSide,
    options: &MapOptions,
    heights: (f64, f64),
) -> Image {
    let wall = Wall::new(piece, side);
    let span = (wall.highest() - wall.lowest()).max(1e-6);
    let round = wall.true_radius().as_mm() * TAU;
    let to_scale = (f64::from(options.width) * span / round).round();
    let height = options.height.unwrap_or(to_scale as u32);
    let whole = Image::size(options.width, height);
    let (w, h) = (whole.0 as usize, whole.1 as usize);
    // A cast of what lies past either end is the end.
    let row_of = |z: f64| ((wall.highest() - z) / span * h as f64).round() as usize;
    let first = row_of(heights.1).min(h - 1);
    let last = row_of(heights.0).clamp(first + 1, h);
    let mut image = Image::new(whole.0, (last - first) as u32);
    let faces = Faces::of(piece);
    let painter = Painter {
        textures: Textures::new(piece),
        grain: options.grain,
        pixel: (span / h as f64).max(round / w as f64) as f32,
        step: TAU / w as f64,
        ways: (0..w)
            .map(|x| DVec2::from_angle((x as f64 + 0.5) * TAU / w as f64))
            .collect(),
    };
    let rows = Rows::new(wall, &faces);
    let strokes = strokes(&wall, &faces, w, h);
    let z_of = |y: f64| wall.highest() - y / h as f64 * span;
    each_chunk(&mut image.rgb, w * 3, |row_number, row| {
        let y = first + row_number;
        let mut colours = painter.row(
            &rows.at(z_of(y as f64 + 0.25)),
            &rows.at(z_of(y as f64 + 0.75)),
            w,
        );
        if side == WallSide::Inside {
            colours.reverse();
        }
        let mut dark = vec![0.0; w];
        strokes.row(y, &mut dark);
        let light = if options.grain {
            255.0 * lightness(&wall, z_of(y as f64 + 0.5))
        } else {
            255.0
        };
        for ((pixel, colour), dark) in row.chunks_exact_mut(3).zip(&colours).zip(&dark) {
            for i in 0..3 {
                let lit = colour[i] * light;
                let value = lit + (INK[i] * 255.0 - lit) * dark;
                // A cast holds at 0 and 255.
                pixel[i] = (value + 0.5) as u8;
            }
        }
    });
    image
}

/// Light from above: what faces up is a little lighter.
fn lightness(wall: &Wall<'_>, z: f64) -> f32 {
    let slope = wall.slope(z).clamp(-50.0, 50.0);
    let out = match wall.side {
        WallSide::Outside => 1.0,
        WallSide::Inside => -1.0,
    };
    let up = -slope * out / (1.0 + slope * slope).sqrt();
    (1.0 + 0.07 * up) as f32
}

struct Painter {
    textures: Textures,
    grain: bool,
    pixel: f32,
    step: f64,
    /// The direction of each pixel's middle.
    ways: Vec<DVec2>,
}

impl Painter {
    /// A row of colours from the stretches at a quarter and three quarters of it.
    fn row(&self, upper: &[Stretch], lower: &[Stretch], width: usize) -> Vec<Rgb> {
        let mut out = vec![NOTHING; width];
        if upper.is_empty() || lower.is_empty() {
            return out;
        }
        let grains: Vec<Option<PartGrain>> = upper.iter().map(|s| self.grain_of(s)).collect();
        let grains_low: Vec<Option<PartGrain>> = lower.iter().map(|s| self.grain_of(s)).collect();
        let (mut i, mut j, mut x) = (0, 0, 0);
        while x < width {
            let (from, to) = (x as f64 * self.step, (x + 1) as f64 * self.step);
            let advance = |stretches: &[Stretch], k: &mut usize| {
                while *k + 1 < stretches.len() && stretches[*k].to <= from {
                    *k += 1;
                }
            };
            advance(upper, &mut i);
            advance(lower, &mut j);
            // Pixels up to the nearer end are of one part, if both rows agree on it.
            let end = upper[i].to.min(lower[j].to);
            let last = ((end / self.step) as usize).min(width);
            if last > x && owner(&upper[i].spot) == owner(&lower[j].spot) {
                self.run(&upper[i], &grains[i], x, &mut out[x..last]);
                x = last;
                continue;
            }
            let a = self.mixed(&upper[i..], &grains[i..], from, to);
            let b = self.mixed(&lower[j..], &grains_low[j..], from, to);
            out[x] = [0, 1, 2].map(|c| 0.5 * (a[c] + b[c]));
            x += 1;
        }
        out
    }

    /// Pixels of one part, the first of them number `x`.
    fn run(&self, stretch: &Stretch, grain: &Option<PartGrain>, x: usize, out: &mut [Rgb]) {
        match (&stretch.spot, grain) {
            (Some(_), Some(grain)) if self.grain => {
                for (pixel, way) in out.iter_mut().zip(&self.ways[x..]) {
                    let local = stretch.frame.along(*way);
                    *pixel = self.textures.colour(grain, local, self.pixel);
                }
            }
            (Some(spot), _) => out.fill(self.textures.plain(spot)),
            _ => out.fill(NOTHING),
        }
    }

    fn grain_of(&self, stretch: &Stretch) -> Option<PartGrain> {
        stretch
            .spot
            .as_ref()
            .map(|s: &Spot| self.textures.grain_of(s))
    }

    /// The mean colour from one azimuth to another, each stretch by its share.
    fn mixed(
        &self,
        stretches: &[Stretch],
        grains: &[Option<PartGrain>],
        from: f64,
        to: f64,
    ) -> Rgb {
        let mut sum = [0.0; 3];
        let mut all = 0.0;
        for (stretch, grain) in stretches.iter().zip(grains) {
            if stretch.from >= to {
                break;
            }
            let (a, b) = (stretch.from.max(from), stretch.to.min(to));
            let share = ((b - a) / (to - from)) as f32;
            if share <= 0.0 {
                continue;
            }
            let colour = self.colour(stretch, grain, 0.5 * (a + b));
            for i in 0..3 {
                sum[i] += colour[i] * share;
            }
            all += share;
        }
        if all > 0.0 {
            sum.map(|c| c / all)
        } else {
            NOTHING
        }
    }

    #[inline]
    fn colour(&self, stretch: &Stretch, grain: &Option<PartGrain>, azimuth: f64) -> Rgb {
        match (&stretch.spot, grain) {
            (Some(_), Some(grain)) if self.grain => {
                self.textures
                    .colour(grain, stretch.frame.at(azimuth), self.pixel)
            }
            (Some(spot), _) => self.textures.plain(spot),
            _ => NOTHING,
        }
    }
}

/// The lines where parts meet, as strokes on a map of `w` by `h` pixels.
fn strokes(wall: &Wall<'_>, faces: &Faces, w: usize, h: usize) -> Strokes {
    let span = (wall.highest() - wall.lowest()).max(1e-6);
    let per_mm = h as f64 / span;
    let mut out = Strokes::new(w as u32, h as u32);
    for trace in traces(wall, faces) {
        let (mm, dark) = match trace.kind {
            FaceKind::Layer { .. } => (0.36, 0.80),
            FaceKind::Section { .. } | FaceKind::Split { .. } => (0.30, 0.70),
            FaceKind::Ring { .. } | FaceKind::Joint { .. } => (0.26, 0.62),
            FaceKind::LayerJoint { .. } => (0.20, 0.45),
        };
        // Never thinner than can be seen, on a small map.
        let wide = (mm * per_mm).max(0.75);
        let points: Vec<DVec2> = trace
            .points
            .iter()
            .map(|p| {
                DVec2::new(
                    wall.share(p.x) * w as f64,
                    (wall.highest() - p.y) / span * h as f64,
                )
            })
            .collect();
        out.draw(&points, wide, dark);
    }
    out
}
