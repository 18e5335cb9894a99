//! Maps: walls, surfaces, sections and level cuts.

use geometry::Portable;
use std::f64::consts::TAU;

use drawings::{MapOptions, wall_map};
use geometry::kurbo::Point;
use glam::DVec3;
use piece::form::WallSide;
use piece::piece::Piece;

use super::canvas::{Image, Source, paint};
use super::surface::surface;
use super::{Part, tall};

/// How far inside the finished surface its wood is looked for, mm.
const SKIN: f64 = 0.01;

fn polar(r: f64, azimuth: f64, z: f64) -> DVec3 {
    DVec3::new(r * azimuth.cosine(), r * azimuth.sine(), z)
}

/// The middle of pixel `i` of `n` as a share from 0 to 1.
fn share(i: u32, n: u32) -> f64 {
    (f64::from(i) + 0.5) / f64::from(n.max(1))
}

/// A wall unrolled: azimuth to the right, height up from the foot to the rim, true to scale
/// at the widest. Above and below the wall it is clear.
pub fn wall(piece: &Piece, side: WallSide, width: u32, grain: bool) -> Image {
    let form = &piece.form;
    let (line, height) = (form.wall(side), form.height().as_mm());
    let tall = tall(width, height / (TAU * form.largest_radius().0.as_mm()));
    let row_of = |z: f64| ((1.0 - z / height) * f64::from(tall)).round().max(0.0) as u32;
    let first = row_of(line.highest()).min(tall - 1);
    let last = row_of(line.lowest()).clamp(first + 1, tall);
    let options = MapOptions {
        width,
        height: Some(last - first),
        grain,
    };
    let map = wall_map(piece, side, &options);
    let mut rgba = vec![0; width as usize * tall as usize * 4];
    let rows = rgba.chunks_exact_mut(width as usize * 4);
    let painted = map.rgb.chunks_exact(width as usize * 3);
    for (row, painted) in rows.skip(first as usize).zip(painted) {
        let mut pixels: Vec<&[u8]> = painted.chunks_exact(3).collect();
        // A map of the inside is seen from the axis; here azimuth always goes to the right.
        if side == WallSide::Inside {
            pixels.reverse();
        }
        for (pixel, colour) in row.chunks_exact_mut(4).zip(pixels) {
            pixel[..3].copy_from_slice(colour);
            pixel[3] = 255;
        }
    }
    Image {
        width,
        height: tall,
        rgba,
    }
}

/// A line by its length.
struct Line {
    points: Vec<Point>,
    lengths: Vec<f64>,
}

impl Line {
    fn new(points: Vec<Point>) -> Line {
        let mut lengths = vec![0.0];
        let mut sum = 0.0;
        for w in points.windows(2) {
            sum += w[0].distance(w[1]);
            lengths.push(sum);
        }
        Line { points, lengths }
    }

    fn length(&self) -> f64 {
        self.lengths.last().copied().unwrap_or(0.0)
    }

    /// A point a little way into the wood, which is on the line's left.
    fn inside(&self, share: f64) -> Option<Point> {
        let at = share * self.length();
        let i = self
            .lengths
            .partition_point(|l| *l <= at)
            .clamp(1, self.points.len().max(2) - 1);
        let (a, b) = (self.points.get(i - 1)?, self.points.get(i)?);
        let long = a.distance(*b);
        if long <= 0.0 {
            return Some(*a);
        }
        let t = ((at - self.lengths[i - 1]) / long).clamp(0.0, 1.0);
        let p = a.lerp(*b, t);
        let way = (*b - *a) / long;
        Some(Point::new(
            (p.x - way.y * SKIN).max(0.0),
            p.y + way.x * SKIN,
        ))
    }
}

fn line(piece: &Piece, part: Part) -> Option<Vec<Point>> {
    surface(piece)
        .into_iter()
        .find(|(name, _, _)| *name == part)
        .map(|(_, _, line)| line)
}

fn nothing() -> Image {
    Image {
        width: 1,
        height: 1,
        rgba: vec![0; 4],
    }
}

/// A part of the surface along its own line, its last point at the top.
pub fn skin(piece: &Piece, part: Part, width: u32, grain: bool) -> Image {
    let Some(points) = line(piece, part) else {
        return nothing();
    };
    let line = Line::new(points);
    let radius = piece.form.largest_radius().0.as_mm();
    let tall = tall(width, line.length() / (TAU * radius));
    let source = Source::new(piece, grain, TAU * radius / f64::from(width));
    paint((width, tall), &source, true, |x, y| {
        let p = line.inside(1.0 - share(y, tall))?;
        Some(polar(p.x, TAU * share(x, width), p.y))
    })
}

/// A square seen from above, from minus to plus the largest radius.
fn square(radius: f64, width: u32, (x, y): (u32, u32)) -> (f64, f64, f64) {
    let (px, py) = (
        radius * (2.0 * share(x, width) - 1.0),
        radius * (1.0 - 2.0 * share(y, width)),
    );
    (px, py, px.hypotenuse(py))
}

/// The floor or the underside, seen from above.
pub fn disc(piece: &Piece, part: Part, width: u32, grain: bool) -> Image {
    let form = &piece.form;
    let (inner, recess) = (form.inside(), form.foot_recess().as_mm());
    let hole = (form.foot_radius() - form.foot_width()).as_mm();
    let foot = form.outside().points().first().map_or(0.0, |p| p.x);
    let floor = inner.points().first().map_or(0.0, |p| p.x);
    let (floor_top, radius) = (form.floor_top().as_mm(), form.largest_radius().0.as_mm());
    let source = Source::new(piece, grain, 2.0 * radius / f64::from(width));
    paint((width, width), &source, false, |x, y| {
        let (px, py, r) = square(radius, width, (x, y));
        let z = match part {
            Part::Floor if r <= floor => floor_top - SKIN,
            Part::Foot if recess > 0.0 && r <= hole => recess + SKIN,
            Part::Foot if r <= foot => SKIN,
            _ => return None,
        };
        Some(DVec3::new(px, py, z))
    })
}

/// The face of the half-section at an azimuth: axis at the left, foot at the bottom.
pub fn section(piece: &Piece, degrees: f64, width: u32, grain: bool) -> Image {
    let form = &piece.form;
    let (height, radius) = (form.height().as_mm(), form.largest_radius().0.as_mm());
    let tall = tall(width, height / radius);
    let azimuth = degrees.to_radians();
    let source = Source::new(piece, grain, radius / f64::from(width));
    paint((width, tall), &source, false, |x, y| {
        let (r, z) = (radius * share(x, width), height * (1.0 - share(y, tall)));
        form.outline().contains(r, z).then(|| polar(r, azimuth, z))
    })
}

/// A level cut, seen from above.
pub fn level(piece: &Piece, z: f64, width: u32, grain: bool) -> Image {
    let outline = piece.form.outline();
    let radius = piece.form.largest_radius().0.as_mm();
    let z = if z.is_finite() {
        z.clamp(0.0, piece.form.height().as_mm())
    } else {
        0.0
    };
    let spans = outline.spans(z);
    let source = Source::new(piece, grain, 2.0 * radius / f64::from(width));
    // Just under the cut, so that a glue line at that height shows the ring below it.
    let under = (z - SKIN).max(0.0);
    paint((width, width), &source, false, |x, y| {
        let (px, py, r) = square(radius, width, (x, y));
        spans
            .iter()
            .any(|(a, b)| (*a..=*b).contains(&r))
            .then(|| DVec3::new(px, py, under))
    })
}
