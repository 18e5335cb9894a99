//! Grain: a solid texture in each part's own frame, x along the grain.
//!
//! A part is cut from a board whose pith lies somewhere beside or below it; growth rings
//! are shells round that pith, wavy along the grain. Where a surface cuts the shells
//! they show as lines on a face, arcs on an end.

use files::wood::{Colour, Wood};
use glam::DVec3;
use piece::model::{Part, Spot};
use piece::piece::Piece;

use super::noise::{Noise, hash, split, unit};

/// A colour as red, green and blue from 0 to 1, sRGB.
pub type Rgb = [f32; 3];

/// How a kind of wood is built, as far as it shows.
#[derive(Debug, Clone, Copy)]
struct Structure {
    /// Width of a growth ring, mm.
    ring: f32,
    /// How sharply late wood stands out, 0 to 1.
    late: f32,
    /// Pores: how dark, 0 to 1.
    pores: f32,
    /// Pores stand in the early wood only.
    porous_rings: bool,
    /// Ripple across the grain, 0 to 1.
    figure: f32,
    /// Long streaks of another tone, 0 to 1.
    streaks: f32,
}

/// What is known of woods' looks by their genus; anything else is fine and plain.
fn structure_of(wood: &Wood) -> Structure {
    let plain = Structure {
        ring: 2.6,
        late: 0.35,
        pores: 0.12,
        porous_rings: false,
        figure: 0.25,
        streaks: 0.4,
    };
    let genus = wood.botanical.split_whitespace().next().unwrap_or("");
    match genus {
        "Quercus" | "Fraxinus" | "Castanea" | "Ulmus" | "Robinia" | "Sassafras" | "Catalpa" => {
            Structure {
                ring: 2.8,
                late: 0.7,
                pores: 0.55,
                porous_rings: true,
                figure: 0.1,
                streaks: 0.4,
            }
        }
        "Carya" | "Juglans" | "Diospyros" => Structure {
            ring: 3.4,
            late: 0.55,
            pores: 0.4,
            figure: 0.3,
            streaks: 0.8,
            ..plain
        },
        "Pterocarpus" | "Swietenia" | "Khaya" | "Entandrophragma" | "Microberlinia"
        | "Guibourtia" => Structure {
            ring: 5.5,
            late: 0.3,
            pores: 0.5,
            figure: 0.35,
            streaks: 0.9,
            ..plain
        },
        "Millettia" | "Dalbergia" => Structure {
            ring: 1.6,
            late: 0.9,
            pores: 0.35,
            figure: 0.05,
            streaks: 0.9,
            ..plain
        },
        "Acer" | "Betula" | "Fagus" => Structure {
            ring: 3.2,
            late: 0.28,
            pores: 0.05,
            figure: 0.6,
            streaks: 0.25,
            ..plain
        },
        "Pinus" | "Pseudotsuga" | "Picea" | "Larix" | "Tsuga" | "Abies" | "Sequoia" | "Thuja"
        | "Taxodium" => Structure {
            ring: 3.0,
            late: 1.0,
            pores: 0.0,
            figure: 0.05,
            streaks: 0.3,
            ..plain
        },
        _ => plain,
    }
}

/// One wood's texture.
#[derive(Debug, Clone)]
struct Texture {
    base: Rgb,
    early: Rgb,
    late: Rgb,
    structure: Structure,
}

/// The textures of all woods of a piece.
#[derive(Debug, Clone)]
pub struct Textures {
    woods: Vec<Texture>,
    noise: Noise,
}

/// One part as it was cut: where its board's pith lay, how its tone differs from its
/// neighbours'.
#[derive(Debug, Clone, Copy)]
pub struct PartGrain {
    wood: usize,
    pith: (f32, f32),
    along: f32,
    aside: f32,
    tone: f32,
    /// Growth rings to a millimetre.
    per_mm: f32,
}

fn rgb(colour: Colour) -> Rgb {
    [colour.red, colour.green, colour.blue].map(|c| f32::from(c) / 255.0)
}

impl Textures {
    /// The textures of a piece's woods.
    pub fn new(piece: &Piece) -> Self {
        let woods = piece
            .woods
            .iter()
            .map(|wood| {
                let base = rgb(wood.colour);
                let bold = 0.45 + 0.55 * wood.contrast.clamp(0.0, 1.0) as f32;
                // Late wood is darker and warmer, early wood a little lighter.
                let late = [0, 1, 2].map(|i| base[i] * (1.0 - bold * [0.34, 0.42, 0.50][i]));
                let early = base.map(|c| c + (1.0 - c) * 0.10 * bold);
                Texture {
                    base,
                    early,
                    late,
                    structure: structure_of(wood),
                }
            })
            .collect();
        Textures {
            woods,
            noise: Noise::new(0x5eed),
        }
    }

    /// A wood's plain colour.
    pub fn plain(&self, spot: &Spot) -> Rgb {
        self.woods
            .get(spot.wood.0 as usize)
            .map_or([0.5; 3], |g| g.base)
    }

    /// How the part of a spot was cut. Its numbers alone decide it.
    pub fn grain_of(&self, spot: &Spot) -> PartGrain {
        let (kind, a, b) = match spot.part {
            Part::Segment { ring, segment } => (1, ring, segment),
            Part::Disc { ring } => (2, ring, 0),
            Part::Panel { ring } => (3, ring, 0),
            Part::Layer { step, segment } => (4, step, segment),
        };
        let seed = hash(u32::from(spot.section).wrapping_mul(0x0100_0193) ^ (kind << 28))
            ^ hash((u32::from(a) << 16) | u32::from(b));
        let random = |k: u32| unit(hash(seed.wrapping_add(k.wrapping_mul(0x9e37_79b9))));
        let wood = spot.wood.0 as usize;
        let ring = self.woods.get(wood).map_or(3.0, |g| g.structure.ring);
        // Mostly between flat-sawn and rift: the pith well below the board and off to a side.
        let deep = 18.0 + 70.0 * random(1);
        let off = (random(2) - 0.5) * 90.0;
        let up = if random(3) < 0.5 { -1.0 } else { 1.0 };
        PartGrain {
            wood,
            pith: (off, up * deep),
            along: random(4) * 230.0,
            aside: random(5) * 230.0,
            tone: (random(6) - 0.5) * 0.11,
            per_mm: 1.0 / (ring * (0.8 + 0.5 * random(7))),
        }
    }

    /// The colour at a point in a part's own frame. `pixel` is the size of a pixel in mm:
    /// what is finer than that is left out.
    #[inline]
    pub fn colour(&self, grain: &PartGrain, local: DVec3, pixel: f32) -> Rgb {
        let Some(texture) = self.woods.get(grain.wood) else {
            return [0.5; 3];
        };
        let structure = &texture.structure;
        let n = self.noise.field();
        let (x, y, z) = (local.x as f32, local.y as f32, local.z as f32);
        let (py, pz) = (y - grain.pith.0 - 60.0, z - grain.pith.1);
        let along = x + grain.along;
        let shell = (py * py + pz * pz).sqrt();
        // Round the pith, as a length at the shell.
        let round = if pz.abs() > py.abs() { py } else { pz };
        let wave = 1.9 * n.at(along * 0.018, grain.aside)
            + 0.7 * n.at(along * 0.055, shell * 0.09 + grain.aside);
        let depth = shell + wave;
        let ring = depth * grain.per_mm;
        // Rings are not all as wide as each other.
        let ring = ring + 0.45 * n.at(ring * 0.35, grain.aside + 40.0);
        let phase = split(ring).1;
        // Late wood builds up slowly and ends sharply; softer where a pixel is coarse.
        let soft = (pixel * grain.per_mm).min(0.5);
        let rise = phase * phase * (0.55 + 0.45 * phase);
        let fall = ((1.0 - phase) / (0.06 + soft)).min(1.0);
        let late = rise * fall;
        let streak = n.at(along * 0.012 + 90.0, depth * 0.34);
        let fine = (1.0 - pixel / 0.9).max(0.0);
        let mut t = 0.30
            + structure.late * 0.85 * (late - 0.28)
            + (0.06 + 0.20 * structure.streaks) * streak;
        if fine > 0.0 {
            let fibre = n.at(along * 0.09, depth * 2.6 + round * 1.7);
            t += 0.10 * fine * fibre;
            if structure.pores > 0.0 {
                let pore = n.at(along * 0.21, depth * 3.1 + round * 2.3 + 11.0);
                let early = if structure.porous_rings {
                    1.0 - (phase * 2.2).min(1.0)
                } else {
                    0.6
                };
                t += fine * structure.pores * early * ((pore - 0.25).max(0.0) * 1.5);
            }
        }
        if structure.figure > 0.0 {
            let ripple = n.at(along * 0.15 + 0.02 * shell, round * 0.05 + grain.aside);
            // Strong in places, as the streaks have it.
            t += 0.22 * structure.figure * ripple * streak.abs();
        }
        let t = t.clamp(-0.25, 1.15);
        let tone = 1.0 + grain.tone;
        [0, 1, 2].map(|i| (texture.early[i] + (texture.late[i] - texture.early[i]) * t) * tone)
    }
}
