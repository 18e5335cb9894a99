//! Pixels, each a point of the piece.

use drawings::picture::{PartGrain, Textures};
use glam::DVec3;
use piece::model::{Part, Spot, Stack};
use piece::parallel::each_chunk;
use piece::piece::Piece;

/// A picture: four bytes a pixel, row by row from the top.
pub struct Image {
    /// Pixels across.
    pub width: u32,
    /// Pixels down.
    pub height: u32,
    /// Red, green, blue, opacity.
    pub rgba: Vec<u8>,
}

/// How dark a joint's line is.
const JOINT: f32 = 0.68;

/// Which part a pixel shows; pixels of one part have no joint between them.
fn part_of(spot: &Spot) -> u64 {
    let (kind, a, b) = match spot.part {
        Part::Segment { ring, segment } => (1, ring, segment),
        Part::Disc { ring } => (2, ring, 0),
        Part::Panel { ring } => (3, ring, 0),
        Part::Layer { step, segment } => (4, step, segment),
    };
    (u64::from(spot.section) << 40) | (kind << 36) | (u64::from(a) << 18) | u64::from(b)
}

/// Where pixels take their wood from.
pub struct Source<'a> {
    textures: Textures,
    stack: &'a Stack,
    grain: bool,
    pixel: f32,
}

impl<'a> Source<'a> {
    /// The woods of a piece as glued, for pixels of a size in mm.
    pub fn new(piece: &'a Piece, grain: bool, pixel: f64) -> Source<'a> {
        Source {
            textures: Textures::new(piece),
            stack: &piece.stack,
            grain,
            pixel: pixel as f32,
        }
    }

    /// The part and colour at a point, if there is wood. `last` is the part that the pixel
    /// before it was of.
    fn at(&self, p: DVec3, last: &mut Option<(u64, PartGrain)>) -> Option<(u64, [f32; 3])> {
        let spot = self.stack.wood_at(p)?;
        let part = part_of(&spot);
        if !self.grain {
            return Some((part, self.textures.plain(&spot)));
        }
        let grain = match last {
            Some((same, grain)) if *same == part => *grain,
            _ => self.textures.grain_of(&spot),
        };
        *last = Some((part, grain));
        Some((part, self.textures.colour(&grain, spot.local, self.pixel)))
    }
}

/// Paints every pixel whose point `place` knows; the others stay clear. `wraps` joins
/// the right edge to the left.
pub fn paint(
    (width, height): (u32, u32),
    source: &Source<'_>,
    wraps: bool,
    place: impl Fn(u32, u32) -> Option<DVec3> + Sync,
) -> Image {
    let (w, h) = (width as usize, height as usize);
    let mut pixels = vec![(0u64, [0u8; 4]); w * h];
    each_chunk(&mut pixels, w, |y, row| {
        let mut last = None;
        for (x, pixel) in row.iter_mut().enumerate() {
            let found = place(x as u32, y as u32).and_then(|p| source.at(p, &mut last));
            if let Some((part, colour)) = found {
                let [r, g, b] = colour.map(|v| (v * 255.0).round().clamp(0.0, 255.0) as u8);
                *pixel = (part, [r, g, b, 255]);
            }
        }
    });
    let (parts, colours): (Vec<u64>, Vec<[u8; 4]>) = pixels.into_iter().unzip();
    let mut rgba = colours.into_flattened();
    joints(&parts, &mut rgba, (w, h), wraps);
    Image {
        width,
        height,
        rgba,
    }
}

/// A darker pixel wherever the part to the right or below is another one.
fn joints(parts: &[u64], rgba: &mut [u8], (w, h): (usize, usize), wraps: bool) {
    each_chunk(rgba, w * 4, |y, pixels| {
        let row = &parts[y * w..(y + 1) * w];
        let below = if y + 1 < h {
            &parts[(y + 1) * w..(y + 2) * w]
        } else {
            row
        };
        for x in 0..w {
            let right = match (x + 1 < w, wraps) {
                (true, _) => row[x + 1],
                (false, true) => row[0],
                (false, false) => row[x],
            };
            let own = row[x];
            let differs = |other: u64| other != own && other != 0;
            if own != 0 && (differs(right) || differs(below[x])) {
                for byte in &mut pixels[x * 4..x * 4 + 3] {
                    *byte = (f32::from(*byte) * JOINT) as u8;
                }
            }
        }
    });
}

impl Image {
    /// The picture as a PNG, quickly rather than small: it goes no further than this machine.
    pub fn png(&self) -> Result<Vec<u8>, png::EncodingError> {
        let mut out = Vec::with_capacity(self.rgba.len() / 3);
        let mut encoder = png::Encoder::new(&mut out, self.width, self.height);
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_compression(png::Compression::Fastest);
        let mut writer = encoder.write_header()?;
        writer.write_image_data(&self.rgba)?;
        writer.finish()?;
        Ok(out)
    }
}
