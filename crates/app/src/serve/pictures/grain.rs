//! Grain as a solid texture in a part's own frame: x runs along it, so that sides show
//! it lengthwise and ends show rings. For looks only.

use glam::DVec3;
use piece::wood::Wood;

/// A wood's colours, sRGB from 0 to 1.
#[derive(Debug, Clone, Copy)]
pub struct Tint {
    /// Its even colour.
    pub flat: [f32; 3],
    contrast: f32,
    /// Width of a year, mm.
    year: f32,
    /// How much of a pore's streak shows.
    pores: f32,
}

impl Tint {
    /// A wood's colours.
    pub fn of(wood: &Wood) -> Tint {
        let c = wood.colour;
        // Woods differ in the width of their years; any steady choice will do for looks.
        let seed = wood.plain.bytes().fold(17u32, |h, b| h.wrapping_mul(31).wrapping_add(u32::from(b)));
        let share = (mixed(seed) & 0xffff) as f32 / 65_535.0;
        Tint {
            flat: [c.red, c.green, c.blue].map(|b| f32::from(b) / 255.0),
            contrast: wood.contrast as f32,
            year: 2.2 + 2.6 * share,
            pores: 0.25 + 0.5 * wood.contrast as f32,
        }
    }
}

/// One part's grain: where its board lay in the tree.
#[derive(Debug, Clone, Copy)]
pub struct Grain {
    seed: u32,
    pith: (f32, f32),
    shift: f32,
}

fn mixed(mut h: u32) -> u32 {
    h ^= h >> 16;
    h = h.wrapping_mul(0x7feb_352d);
    h ^= h >> 15;
    h = h.wrapping_mul(0x846c_a68b);
    h ^ (h >> 16)
}

fn unit(h: u32) -> f32 {
    (h >> 8) as f32 / 16_777_216.0
}

impl Grain {
    /// The grain of a part.
    pub fn of(part: u64) -> Grain {
        let seed = mixed(part as u32 ^ mixed((part >> 32) as u32 ^ 0x9e37_79b9));
        let angle = unit(mixed(seed ^ 1)) * std::f32::consts::TAU;
        let away = 60.0 + 140.0 * unit(mixed(seed ^ 2));
        Grain {
            seed,
            pith: (away * angle.cos(), away * angle.sin()),
            shift: unit(mixed(seed ^ 3)) * 1000.0,
        }
    }

    /// The colour at a point of the part.
    pub fn shade(&self, tint: &Tint, local: DVec3) -> [f32; 3] {
        let (x, y, z) = (local.x as f32 + self.shift, local.y as f32, local.z as f32);
        // Trees do not grow straight: rings wander slowly along the board.
        let wander = 3.0 * smooth(self.seed, x * 0.012, y * 0.03, z * 0.03);
        let sway = 2.2 * smooth(self.seed ^ 5, x * 0.02, 0.0, 0.0);
        let (dy, dz) = (y - self.pith.0 + sway, z - self.pith.1);
        let radius = (dy * dy + dz * dz).sqrt() + wander;
        let year = radius / tint.year;
        // Light early wood darkens slowly and ends at once where the next year begins.
        let share = year - year.floor();
        let late = share * share * share;
        let strength = 0.75 + 0.5 * unit(mixed(self.seed ^ (year.floor() as i32 as u32)));
        // Streaks run far along the grain and are narrow across it; at the ends, dots.
        let streak = smooth(self.seed ^ 9, x * 0.05, y * 1.9, z * 1.9);
        let fine = smooth(self.seed ^ 11, x * 0.16, y * 4.6, z * 4.6);
        let ray = smooth(self.seed ^ 13, x * 0.35, dy.atan2(dz) * 90.0, 0.0);
        let board = unit(mixed(self.seed ^ 4)) - 0.5;
        let c = tint.contrast;
        let dark = 0.10 * board
            + c * (0.34 * strength * late - 0.08)
            + tint.pores * (0.10 * streak.max(0.0) + 0.07 * fine)
            - 0.03 * c * ray;
        let by = 1.0 - dark;
        // Dark wood leans to red, light wood to yellow.
        let warm = 0.05 * c * (late - 0.3);
        let [r, g, b] = tint.flat;
        [r * by * (1.0 + warm), g * by, b * by * (1.0 - warm)].map(|v| v.clamp(0.0, 1.0))
    }
}

/// Value noise, from -1 to 1.
fn smooth(seed: u32, x: f32, y: f32, z: f32) -> f32 {
    let (fx, fy, fz) = (x.floor(), y.floor(), z.floor());
    let (ix, iy, iz) = (fx as i32 as u32, fy as i32 as u32, fz as i32 as u32);
    let ease = |t: f32| t * t * (3.0 - 2.0 * t);
    let (tx, ty, tz) = (ease(x - fx), ease(y - fy), ease(z - fz));
    let corner = |dx: u32, dy: u32, dz: u32| {
        let h = ix.wrapping_add(dx).wrapping_mul(0x8da6_b343)
            ^ iy.wrapping_add(dy).wrapping_mul(0xd816_3841)
            ^ iz.wrapping_add(dz).wrapping_mul(0xcb1a_b31f)
            ^ seed;
        unit(mixed(h)) * 2.0 - 1.0
    };
    let mix = |a: f32, b: f32, t: f32| a + (b - a) * t;
    let along = |dy: u32, dz: u32| mix(corner(0, dy, dz), corner(1, dy, dz), tx);
    let across = |dz: u32| mix(along(0, dz), along(1, dz), ty);
    mix(across(0), across(1), tz)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grain_is_steady_finite_and_follows_the_board() {
        let wood = piece::wood::find("cherry").unwrap();
        let tint = Tint::of(&wood);
        let grain = Grain::of(77);
        let at = |x: f64, y: f64| grain.shade(&tint, DVec3::new(x, y, 2.0))[0];
        // Between neighbours along the grain there is less change than across it.
        let (mut along, mut across) = (0.0, 0.0);
        for i in 0..400 {
            let (x, y) = (f64::from(i % 20) * 3.1, f64::from(i / 20) * 1.7);
            along += (at(x, y) - at(x + 0.5, y)).abs();
            across += (at(x, y) - at(x, y + 0.5)).abs();
        }
        assert!(along * 2.0 < across, "{along} along, {across} across");
        for v in [1e300, -1e300, f64::INFINITY, f64::NAN] {
            let shade = grain.shade(&tint, DVec3::splat(v));
            assert!(shade.iter().all(|c| (0.0..=1.0).contains(c) || c.is_nan()));
        }
    }
}
