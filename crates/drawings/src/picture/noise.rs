//! Smooth noise from a fixed table: the same on every run.

/// Points of the table either way; a power of two.
const SIDE: usize = 256;
const MASK: usize = SIDE - 1;

/// A smooth, repeating field of values from -1 to 1.
#[derive(Debug, Clone)]
pub struct Noise(Vec<f32>);

impl Noise {
    /// The field of a seed.
    pub fn new(seed: u32) -> Self {
        Noise(
            (0..SIDE * SIDE)
                .map(|i| {
                    let mixed = seed.wrapping_add(i as u32).wrapping_mul(0x9e37_79b9);
                    unit(hash(mixed)) * 2.0 - 1.0
                })
                .collect(),
        )
    }

    /// The field, to be asked often.
    pub fn field(&self) -> Field<'_> {
        // A table of another length cannot be made; an empty field would be asked safely too.
        Field(self.0.first_chunk().unwrap_or(&[0.0; SIDE * SIDE]))
    }
}

/// A noise field in use. Its length is known, so that no index needs to be checked.
#[derive(Debug, Clone, Copy)]
pub struct Field<'a>(&'a [f32; SIDE * SIDE]);

impl Field<'_> {
    /// The value at a place: smooth between whole numbers, repeating after 256.
    #[inline(always)]
    pub fn at(self, x: f32, y: f32) -> f32 {
        let ((ix, tx), (iy, ty)) = (split(x), split(y));
        let (tx, ty) = (tx * tx * (3.0 - 2.0 * tx), ty * ty * (3.0 - 2.0 * ty));
        let (x0, x1) = (ix & MASK, (ix + 1) & MASK);
        let (y0, y1) = ((iy & MASK) * SIDE, ((iy + 1) & MASK) * SIDE);
        let t = self.0;
        let low = t[y0 + x0] + (t[y0 + x1] - t[y0 + x0]) * tx;
        let high = t[y1 + x0] + (t[y1 + x1] - t[y1 + x0]) * tx;
        low + (high - low) * ty
    }
}

/// A whole number (counted from far below zero) and the part above it. Places are far
/// within the range at which a float still has its fraction.
#[inline(always)]
pub fn split(x: f32) -> (usize, f32) {
    const FAR: f32 = 32_768.0;
    let shifted = x + FAR;
    // A cast cuts towards zero, which is down for what is positive.
    let whole = shifted as u32;
    (whole as usize, shifted - whole as f32)
}

/// Bits well mixed (finalizer in the manner of Murmur3).
pub fn hash(mut x: u32) -> u32 {
    x ^= x >> 16;
    x = x.wrapping_mul(0x85eb_ca6b);
    x ^= x >> 13;
    x = x.wrapping_mul(0xc2b2_ae35);
    x ^ (x >> 16)
}

/// Bits as a number from 0 to 1.
pub fn unit(bits: u32) -> f32 {
    (bits >> 8) as f32 / (1u32 << 24) as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_is_smooth_bounded_and_repeats() {
        let noise = Noise::new(7);
        let n = noise.field();
        for i in 0..2000 {
            let (x, y) = (i as f32 * 0.37 - 300.0, i as f32 * 0.11 - 90.0);
            let v = n.at(x, y);
            assert!((-1.0..=1.0).contains(&v));
            assert!((n.at(x + 0.01, y) - v).abs() < 0.05);
            assert!((n.at(x + 256.0, y - 256.0) - v).abs() < 0.02);
        }
    }
}
