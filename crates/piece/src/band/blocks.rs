//! Positioning blocks: three pairs glued on across a cut, each pair keyed by a
//! dowel that is drawn out while the saw passes and put back to find the place again.

use geometry::Portable;
use geometry::{Angle, Length};

use super::loops::Loops;
use super::sled::SledSetting;
use files::workshop::Sled;

/// Where one pair of blocks goes, the same for each loop seen from its climb.
#[derive(Debug, Clone, Copy)]
pub struct BlockPlace {
    /// Azimuth from the way the loop climbs.
    pub from_climb: Angle,
    /// Height of the cut's middle there, on the blank, above the section's underside.
    pub cut_height: Length,
    /// Wood between the upper cut and the end of the section.
    pub room_above: Length,
    /// Wood between the lower cut and the section's underside.
    pub room_below: Length,
}

/// Three places, and whether they serve.
#[derive(Debug, Clone)]
pub struct BlockPlaces {
    /// The places, anticlockwise.
    pub places: Vec<BlockPlace>,
    /// The least wood at any of them, above or below.
    pub least_room: Length,
    /// Blade height needed when the highest block passes.
    pub blade_height: Length,
}

impl BlockPlaces {
    /// Is there wood for a block of this length, clear of the cut and of the end?
    pub fn fit(&self, sled: &Sled) -> bool {
        !(*sled.block_length + *sled.keep_off).exceeds(self.least_room)
    }
}

/// The three places that leave the most wood for gluing.
///
/// They are looked for every 5°, none nearer than 75° to the next nor further than
/// 170° (the axis stays within their triangle), none low enough to touch the sled's
/// base. Of equal places the evenest spread is taken.
pub fn block_places(
    loops: &Loops,
    blank_radius: Length,
    section_height: Length,
    setting: &SledSetting,
    sled: &Sled,
) -> BlockPlaces {
    const STEPS: usize = 72;
    let r = blank_radius.as_mm();
    let out = r + sled.block_height.as_mm();
    let slope = loops.tilt.as_rad().tangent();
    let half = loops.thickness.as_mm() / (2.0 * loops.tilt.as_rad().cosine());
    let low_limit = r + sled.clearance.as_mm();
    let place = |k: usize| {
        let phi = std::f64::consts::TAU * k as f64 / STEPS as f64;
        let cut = loops.height.as_mm() + r * slope * phi.cosine();
        BlockPlace {
            from_climb: Angle::rad(phi),
            cut_height: Length::mm(cut),
            room_above: Length::mm(section_height.as_mm() - cut - half),
            room_below: Length::mm(cut - half),
        }
    };
    let places: Vec<BlockPlace> = (0..STEPS).map(place).collect();
    let room: Vec<f64> = places
        .iter()
        .map(|p| {
            // With the cut level on the sled, a quarter turn from the climb points up
            // and three quarters point down.
            let down = -out * p.from_climb.as_rad().sine();
            if down > low_limit {
                f64::MIN
            } else {
                p.room_above.min(p.room_below).as_mm()
            }
        })
        .collect();
    const NEAR: usize = 15;
    const FAR: usize = 34;
    let mut best = (f64::MIN, 0, [0, 24, 48]);
    for a in 0..STEPS {
        for b in a + NEAR..(a + FAR + 1).min(STEPS) {
            for c in b + NEAR..(b + FAR + 1).min(STEPS) {
                let back = STEPS - c + a;
                if !(NEAR..=FAR).contains(&back) {
                    continue;
                }
                let least = room[a].min(room[b]).min(room[c]);
                let spread = (b - a).min(c - b).min(back);
                if least > best.0 + 1e-9 || (least > best.0 - 1e-9 && spread > best.1) {
                    best = (least.max(best.0), spread, [a, b, c]);
                }
            }
        }
    }
    let chosen: Vec<BlockPlace> = best.2.iter().map(|&k| places[k]).collect();
    let highest = chosen
        .iter()
        .fold(r, |m, p| m.max(out * p.from_climb.as_rad().sine()));
    BlockPlaces {
        least_room: chosen
            .iter()
            .map(|p| p.room_above.min(p.room_below))
            .reduce(Length::min)
            .unwrap_or(Length::ZERO),
        blade_height: setting.centre_height + Length::mm(highest),
        places: chosen,
    }
}
