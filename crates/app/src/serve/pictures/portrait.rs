//! The piece from the side and a little from above, for the shelf.

use glam::DVec3;
use piece::model::Stack;
use piece::piece::Piece;

use super::canvas::{Image, Source};
use super::tall;
use crate::serve::view::surface;

/// How far from above, radians.
const DOWN: f64 = 0.32;

/// The portrait on clear ground.
pub fn portrait(piece: &Piece, stack: &Stack, width: u32, grain: bool) -> Image {
    let form = &piece.form;
    let (radius, height) = (form.largest_radius().0.as_mm(), form.height().as_mm());
    let (sin, cos) = DOWN.sin_cos();
    let margin = 1.06;
    let (wide, high) = (2.0 * radius * margin, (height * cos + 2.0 * radius * sin) * margin);
    let tall = tall(width, high / wide);
    let source = Source::new(piece, stack, grain);
    let mut canvas = Canvas {
        width,
        height: tall,
        scale: f64::from(width) / wide,
        middle: height / 2.0,
        sin,
        cos,
        depth: vec![f64::NEG_INFINITY; width as usize * tall as usize],
        image: Image { width, height: tall, rgba: vec![0; width as usize * tall as usize * 4] },
    };
    // Every part of the surface in fine steps; what is nearest to the eye stays.
    let step = 0.6 * wide / f64::from(width);
    for (_, _, line) in surface(piece) {
        for pair in line.windows(2) {
            let long = pair[0].distance(pair[1]);
            let rows = (long / step).ceil().clamp(1.0, 4096.0) as u32;
            let way = (pair[1] - pair[0]) / long.max(1e-9);
            for k in 0..rows {
                let p = pair[0].lerp(pair[1], (f64::from(k) + 0.5) / f64::from(rows));
                let inside = (p.x - way.y * 0.01, p.y + way.x * 0.01);
                // Out of the wood, to the line's right.
                let out = (way.y, -way.x);
                let around = (std::f64::consts::TAU * p.x / step).ceil().clamp(8.0, 16_384.0) as u32;
                for a in 0..around {
                    let (s, c) = (std::f64::consts::TAU * f64::from(a) / f64::from(around)).sin_cos();
                    let normal = DVec3::new(out.0 * c, out.0 * s, out.1);
                    let at = DVec3::new(p.x * c, p.x * s, p.y);
                    let inside = DVec3::new(inside.0.max(0.0) * c, inside.0.max(0.0) * s, inside.1);
                    canvas.put(&source, at, inside, normal);
                }
            }
        }
    }
    canvas.image
}

struct Canvas {
    width: u32,
    height: u32,
    scale: f64,
    middle: f64,
    sin: f64,
    cos: f64,
    depth: Vec<f64>,
    image: Image,
}

impl Canvas {
    /// The eye looks along +y, a little down.
    fn put(&mut self, source: &Source<'_>, at: DVec3, inside: DVec3, normal: DVec3) {
        let (z, depth) = (at.z - self.middle, -at.y);
        let facing = -normal.y * self.cos + normal.z * self.sin;
        if facing <= 0.0 {
            return;
        }
        let up = z * self.cos - depth * self.sin;
        let near = depth * self.cos + z * self.sin;
        let x = f64::from(self.width) / 2.0 + at.x * self.scale;
        let y = f64::from(self.height) / 2.0 - up * self.scale;
        if x < 0.0 || y < 0.0 || x >= f64::from(self.width) || y >= f64::from(self.height) {
            return;
        }
        let index = y as usize * self.width as usize + x as usize;
        let Some(old) = self.depth.get_mut(index) else {
            return;
        };
        if near <= *old {
            return;
        }
        *old = near;
        let Some((_, colour)) = source.at(inside) else {
            return;
        };
        // One lamp from above left, and light from everywhere.
        let lamp = DVec3::new(-0.5, -0.65, 0.58);
        let light = 0.42 + 0.62 * normal.dot(lamp).max(0.0);
        let hollow = if normal.x * at.x + normal.y * at.y < -1e-9 { 0.72 } else { 1.0 };
        if let Some(pixel) = self.image.rgba.get_mut(index * 4..index * 4 + 4) {
            for (byte, value) in pixel.iter_mut().zip(colour) {
                *byte = (f64::from(value) * light * hollow * 255.0).clamp(0.0, 255.0) as u8;
            }
            pixel[3] = 255;
        }
    }
}
