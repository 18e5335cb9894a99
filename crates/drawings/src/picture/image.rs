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
        let (width, height) = (width.clamp(1, MOST), height.clamp(1, MOST));
        Image {
            width,
            height,
            rgb: vec![0; width as usize * height as usize * 3],
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
