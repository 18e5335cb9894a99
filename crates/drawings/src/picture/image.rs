//! A picture in memory, and its bytes as a PNG file.

/// Colour pixels, row by row from the upper left corner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Image {
    /// Pixels across, 1 or more.
    pub width: u32,
    /// Pixels down, 1 or more.
    pub height: u32,
    /// Red, green and blue of each pixel, sRGB.
    pub rgb: Vec<u8>,
}

/// Most pixels either way.
const MOST: u32 = 32_768;

impl Image {
    /// A black picture of about the wanted size: from 1 to 32768 pixels either way.
    pub fn new(width: u32, height: u32) -> Self {
        let (width, height) = Self::size(width, height);
        Image {
            width,
            height,
            rgb: vec![0; width as usize * height as usize * 3],
        }
    }

    /// The size that a picture of a wanted size gets.
    pub(crate) fn size(width: u32, height: u32) -> (u32, u32) {
        (width.clamp(1, MOST), height.clamp(1, MOST))
    }

    /// Some of its columns from `from` on; past the right edge it goes on at the left,
    /// as a wall does.
    pub fn columns(&self, from: u32, count: u32) -> Image {
        let mut out = Image::new(count, self.height);
        for y in 0..out.height {
            for x in 0..out.width {
                let colour = self.pixel((from % self.width + x) % self.width, y);
                out.put(x, y, colour);
            }
        }
        out
    }

    /// Pictures side by side, their lower edges level, `gap` pixels of `ground` between.
    pub fn beside(pictures: &[Image], gap: u32, ground: [u8; 3]) -> Image {
        let gaps = gap * (pictures.len().max(1) as u32 - 1);
        let width = pictures.iter().map(|p| p.width).sum::<u32>() + gaps;
        let height = pictures.iter().map(|p| p.height).max().unwrap_or(1);
        let mut out = Image::new(width, height);
        for pixel in out.rgb.chunks_exact_mut(3) {
            pixel.copy_from_slice(&ground);
        }
        let mut left = 0;
        for picture in pictures {
            let down = out.height - picture.height;
            for y in 0..picture.height {
                for x in 0..picture.width {
                    out.put(left + x, down + y, picture.pixel(x, y));
                }
            }
            left += picture.width + gap;
        }
        out
    }

    fn put(&mut self, x: u32, y: u32, colour: [u8; 3]) {
        if x < self.width && y < self.height {
            let at = (y as usize * self.width as usize + x as usize) * 3;
            self.rgb[at..at + 3].copy_from_slice(&colour);
        }
    }

    /// A pixel's colour; black outside.
    pub fn pixel(&self, x: u32, y: u32) -> [u8; 3] {
        if x >= self.width || y >= self.height {
            return [0; 3];
        }
        let at = (y as usize * self.width as usize + x as usize) * 3;
        [self.rgb[at], self.rgb[at + 1], self.rgb[at + 2]]
    }

    /// The bytes of a PNG file.
    pub fn to_png(&self) -> Vec<u8> {
        let mut bytes = Vec::new();
        // Writing to memory fails only if sizes and pixels do not agree; then there is no file.
        match self.encode(&mut bytes) {
            Ok(()) => bytes,
            Err(_) => Vec::new(),
        }
    }

    fn encode(&self, out: &mut Vec<u8>) -> Result<(), png::EncodingError> {
        let mut encoder = png::Encoder::new(out, self.width, self.height);
        encoder.set_color(png::ColorType::Rgb);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_source_srgb(png::SrgbRenderingIntent::Perceptual);
        encoder.set_compression(png::Compression::Fast);
        let mut writer = encoder.write_header()?;
        writer.write_image_data(&self.rgb)?;
        writer.finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(width: u32, height: u32, colour: [u8; 3]) -> Image {
        let mut out = Image::new(width, height);
        for (x, y) in (0..height).flat_map(|y| (0..width).map(move |x| (x, y))) {
            out.put(x, y, colour);
        }
        out
    }

    #[test]
    fn pictures_stand_side_by_side_on_one_level() {
        let (a, b) = (plain(2, 3, [1; 3]), plain(4, 1, [2; 3]));
        let both = Image::beside(&[a, b], 1, [9; 3]);
        assert_eq!((both.width, both.height), (7, 3));
        assert_eq!(both.pixel(1, 0), [1; 3]);
        assert_eq!(both.pixel(2, 2), [9; 3]);
        assert_eq!(both.pixel(3, 1), [9; 3]);
        assert_eq!(both.pixel(6, 2), [2; 3]);
    }

    #[test]
    fn columns_go_on_at_the_left() {
        let mut round = plain(5, 1, [0; 3]);
        round.put(0, 0, [7; 3]);
        let part = round.columns(4, 3);
        assert_eq!(part.pixel(0, 0), [0; 3]);
        assert_eq!(part.pixel(1, 0), [7; 3]);
        assert_eq!(part.width, 3);
    }
}
