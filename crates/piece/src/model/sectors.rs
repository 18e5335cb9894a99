//! The sectors of a regular polygon: which side of it lies in a direction.

use std::f64::consts::TAU;

use geometry::Portable;
use glam::DVec2;

/// Equal sectors round the axis, found without an arc tangent.
///
/// A table over a square's perimeter, which grows with the azimuth as the azimuth does,
/// gives the first sector that a direction may belong to; the middle that it leans to more
/// decides between that and the next.
#[derive(Debug, Clone)]
pub struct Sectors {
    /// Azimuth of the middle of the first, radians.
    first: f64,
    /// Directions of their middles.
    mids: Vec<DVec2>,
    /// For each part of the square's perimeter, the first sector met there.
    by_bin: Vec<u16>,
}

impl Sectors {
    /// So many sectors (one at least), the middle of the first at an azimuth in radians.
    pub fn new(count: usize, first: f64) -> Self {
        let count = count.max(1);
        let share = TAU / count as f64;
        Sectors {
            first,
            mids: (0..count)
                .map(|i| DVec2::from_angle(first + share * i as f64))
                .collect(),
            by_bin: by_bin(count, first),
        }
    }

    /// How many.
    pub fn count(&self) -> usize {
        self.mids.len()
    }

    /// Azimuth of the middle of the first, radians.
    pub fn first(&self) -> f64 {
        self.first
    }

    /// Directions of their middles.
    pub fn mids(&self) -> &[DVec2] {
        &self.mids
    }

    /// The sector that holds a direction, and the direction of its middle.
    #[inline]
    pub fn of(&self, p: DVec2) -> Option<(usize, DVec2)> {
        let bin = (square_turn(p) * self.by_bin.len() as f64) as usize;
        let first = usize::from(*self.by_bin.get(bin).or(self.by_bin.last())?);
        let next = if first + 1 == self.mids.len() {
            0
        } else {
            first + 1
        };
        let next_is_nearer = self.mids.get(next)?.dot(p) > self.mids.get(first)?.dot(p);
        // The number is chosen and the middle looked up again: half of all points lean either
        // way, and a branch would be foreseen for half of them.
        let sector = if next_is_nearer { next } else { first };
        Some((sector, *self.mids.get(sector)?))
    }
}

/// How far round a direction is, 0 to 1, measured along a square's perimeter from
/// +x: cheaper than the azimuth and in step with it at every eighth of a turn.
#[inline]
fn square_turn(p: DVec2) -> f64 {
    let sum = p.x.abs() + p.y.abs();
    let t = if sum > 0.0 { p.y / sum } else { 0.0 };
    0.25 * if p.x < 0.0 {
        2.0 - t
    } else if t < 0.0 {
        4.0 + t
    } else {
        t
    }
}

/// For each part of the square's perimeter the sector that its start belongs
/// to. With eight parts a sector no part holds more than two of them.
fn by_bin(n: usize, first: f64) -> Vec<u16> {
    let bins = 8 * n;
    (0..bins)
        .map(|bin| {
            let t = 4.0 * bin as f64 / bins as f64;
            let at = match t {
                t if t < 1.0 => DVec2::new(1.0 - t, t),
                t if t < 2.0 => DVec2::new(1.0 - t, 2.0 - t),
                t if t < 3.0 => DVec2::new(t - 3.0, 2.0 - t),
                t => DVec2::new(t - 3.0, t - 4.0),
            };
            // A hair back, so that a start on a joint counts to the sector before it.
            let azimuth = at.y.arctangent2(at.x) - 1e-9;
            let turns = (azimuth - first) * n as f64 / TAU;
            (turns.round().rem_euclid(n as f64) as usize % n) as u16
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the azimuth itself, by the system's arc tangent.
    #[test]
    fn a_direction_is_in_the_sector_of_its_azimuth() {
        for count in [1, 2, 3, 5, 12, 48, 144] {
            for first in [0.0, 0.3, -2.0, 7.5] {
                let (sectors, share) = (Sectors::new(count, first), TAU / count as f64);
                for k in 0..1000 {
                    let azimuth = k as f64 * 0.0628319 + 0.001;
                    let p = DVec2::new(azimuth.cos(), azimuth.sin()) * 37.0;
                    let (found, mid) = sectors.of(p).unwrap();
                    let off = (azimuth - first - share * found as f64 + TAU / 2.0).rem_euclid(TAU)
                        - TAU / 2.0;
                    assert!(off.abs() <= share / 2.0 + 1e-9, "{count} {first} {azimuth}");
                    assert!((mid.dot(p) - 37.0 * off.cos()).abs() < 1e-9);
                }
            }
        }
    }
}
