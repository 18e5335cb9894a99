//! The portrait's pixels.

use geometry::Portable;
use glam::{DVec2, DVec3};
use piece::model::Spot;
use piece::piece::Piece;

use super::camera::{Camera, Placed};
use super::light::Light;
use super::surface::{Ray, Surface};
use super::through::{Met, SKIN, has_gaps, meet};
use crate::picture::rows::owner;
use crate::picture::{Image, Textures, hash, unit};
use piece::parallel::each_chunk;

/// Paper, as the page has it, in linear light.
const PAPER: [f64; 3] = [0.9216, 0.8879, 0.8148];
const INK: [f64; 3] = [0.018, 0.013, 0.010];
/// Half the width of the line where parts meet, mm.
const LINE: f64 = 0.17;
/// Samples either way in a pixel where parts or edges meet.
const FINE: usize = 4;

/// The finished piece on paper, in studio light: `width` by `height` pixels.
/// The same picture for any number of threads. Colours are for looks only.
pub fn portrait(piece: &Piece, width: u32, height: u32, camera: &Camera) -> Image {
    let mut image = Image::new(width, height);
    let (w, h) = (image.width as usize, image.height as usize);
    let surface = Surface::new(piece.form.outline());
    let circles = surface.circles();
    let size = circles
        .iter()
        .fold(1.0_f64, |s, c| s.max(c.0).max(0.5 * c.1));
    let placed = Placed::before(camera, &circles, w as f64 / h as f64);
    // Over the photographer's left shoulder.
    let lamp = -placed.ahead * 0.75 - placed.right * 0.85 + DVec3::Z * 0.95;
    let studio = Studio {
        piece,
        light: Light::new(&surface, lamp, size),
        surface,
        textures: Textures::new(piece),
        pixel: placed.pixel(image.height),
        camera: placed,
        size: DVec2::new(w as f64, h as f64),
        reach: size,
        gaps: has_gaps(piece),
    };
    let mut marks: Vec<Mark> = vec![Mark::default(); w * h];
    each_chunk(&mut marks, w, |y, row| {
        for (x, mark) in row.iter_mut().enumerate() {
            *mark = studio.look(DVec2::new(x as f64 + 0.5, y as f64 + 0.5));
        }
    });
    each_chunk(&mut image.rgb, w * 3, |y, row| {
        for (x, pixel) in row.chunks_exact_mut(3).enumerate() {
            let mark = &marks[y * w + x];
            let reach = mark.reach(studio.pixel);
            let colour = if differs(&marks, (w, h), (x, y), reach) {
                studio.fine(x, y)
            } else {
                studio.shade(DVec2::new(x as f64 + 0.5, y as f64 + 0.5), false)
            };
            for (out, c) in pixel.iter_mut().zip(colour) {
                *out = encoded(c);
            }
        }
    });
    image
}

/// What a pixel's middle shows, as far as it matters for edges.
#[derive(Debug, Clone, Copy, Default)]
struct Mark {
    /// 0 for paper; else the part and the side of the outline.
    owner: u64,
    /// How far off.
    far: f32,
}

impl Mark {
    /// How many pixels off another part may lie for its line to reach this one.
    fn reach(&self, pixel: f64) -> usize {
        if self.owner == 0 {
            return 1;
        }
        let mm = (pixel * f64::from(self.far)).max(1e-9);
        ((LINE / mm).ceil() as usize).clamp(1, 4)
    }
}

/// Does any pixel within reach show another part, or the same one from behind?
fn differs(marks: &[Mark], (w, h): (usize, usize), (x, y): (usize, usize), reach: usize) -> bool {
    let here = &marks[y * w + x];
    for j in y.saturating_sub(reach)..(y + reach + 1).min(h) {
        for i in x.saturating_sub(reach)..(x + reach + 1).min(w) {
            let there = &marks[j * w + i];
            if there.owner != here.owner || (there.far - here.far).abs() > 0.004 * here.far {
                return true;
            }
        }
    }
    false
}

struct Studio<'a> {
    piece: &'a Piece,
    surface: Surface,
    light: Light,
    textures: Textures,
    camera: Placed,
    /// Size of a pixel at a distance of 1.
    pixel: f64,
    size: DVec2,
    /// How large the piece is.
    reach: f64,
    /// Its wall has gaps to look through.
    gaps: bool,
}

impl Studio<'_> {
    fn ray(&self, at: DVec2) -> Ray {
        let place = DVec2::new(
            2.0 * at.x / self.size.x - 1.0,
            1.0 - 2.0 * at.y / self.size.y,
        );
        Ray {
            from: self.camera.eye,
            way: self.camera.way(place),
        }
    }

    fn ask(&self, p: DVec3, normal: DVec3) -> Option<Spot> {
        self.piece.stack.wood_at(p - normal * SKIN)
    }

    fn meet(&self, ray: &Ray) -> Option<Met> {
        meet(&self.surface, &self.piece.stack, self.gaps, ray)
    }

    /// How far off a meeting is.
    fn far(&self, ray: &Ray, met: &Met) -> f64 {
        if met.within {
            met.p.distance(ray.from)
        } else {
            met.hit.far
        }
    }

    fn look(&self, at: DVec2) -> Mark {
        let ray = self.ray(at);
        let Some(met) = self.meet(&ray) else {
            return Mark::default();
        };
        let part = match self.ask(met.p, met.normal) {
            None => 1,
            Some(spot) => {
                use piece::model::Part;
                let (kind, a, b) = match spot.part {
                    Part::Segment { ring, segment } => (2, ring, segment),
                    Part::Disc { ring } => (3, ring, 0),
                    Part::Panel { ring } => (4, ring, 0),
                    Part::Layer { step, segment } => (5, step, segment),
                };
                (kind << 56) | (u64::from(spot.section) << 32) | (u64::from(a) << 16) | u64::from(b)
            }
        };
        Mark {
            owner: part | 1 << 63 | u64::from(met.within) << 62,
            far: self.far(&ray, &met) as f32,
        }
    }

    /// The mean of many samples in a pixel.
    fn fine(&self, x: usize, y: usize) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for j in 0..FINE {
            for i in 0..FINE {
                let at = DVec2::new(
                    x as f64 + (i as f64 + 0.5) / FINE as f64,
                    y as f64 + (j as f64 + 0.5) / FINE as f64,
                );
                let c = self.shade(at, true);
                for k in 0..3 {
                    sum[k] += c[k];
                }
            }
        }
        sum.map(|c| c / (FINE * FINE) as f64)
    }

    /// The light from a place in the picture, linear.
    fn shade(&self, at: DVec2, lines: bool) -> [f64; 3] {
        let ray = self.ray(at);
        match self.meet(&ray) {
            Some(met) => self.wood(&ray, &met, lines),
            None => self.paper(&ray, at),
        }
    }

    fn paper(&self, ray: &Ray, at: DVec2) -> [f64; 3] {
        if ray.way.z > -1e-6 {
            return PAPER;
        }
        let t = -ray.from.z / ray.way.z;
        let p = ray.from + ray.way * t;
        let at_table = DVec2::new(p.x, p.y);
        let (lamp, room) = self.light.ground(at_table);
        // The shade fades out with the distance, so that the sheet's edge stays paper.
        let off = at_table.length() / (2.6 * self.reach);
        let near = 1.0 - (off * off).min(1.0);
        let light = 1.0 - (0.36 * (1.0 - lamp) + 0.62 * (1.0 - room)) * near;
        // Shadows on warm paper stay warm; a shade of less than one step is scattered, so
        // that no contour shows.
        let seed = (at.y * 16.0) as u32 ^ ((at.x * 16.0) as u32).rotate_left(16);
        let scatter = 1.0 + 0.0045 * (f64::from(unit(hash(seed))) - 0.5);
        let warm = [1.0, 1.02, 1.06];
        [0, 1, 2].map(|i| PAPER[i] * light.max(0.0).power(warm[i]) * scatter)
    }

    fn wood(&self, ray: &Ray, met: &Met, lines: bool) -> [f64; 3] {
        let Met { p, normal, .. } = *met;
        let pixel = self.pixel * self.far(ray, met);
        let spot = self.ask(p, normal);
        let mut colour = match &spot {
            None => PAPER.map(|c| c * 0.6),
            Some(spot) => {
                let grain = self.textures.grain_of(spot);
                self.textures
                    .colour(&grain, spot.local, pixel as f32)
                    .map(|c| decoded(f64::from(c)))
            }
        };
        if lines && self.on_a_line(met, pixel, &spot) {
            colour = [0, 1, 2].map(|i| colour[i] + (INK[i] - colour[i]) * 0.72);
        }
        self.lit(ray, met, colour)
    }

    /// Does another part begin within a line's half width?
    fn on_a_line(&self, met: &Met, pixel: f64, spot: &Option<Spot>) -> bool {
        let Met { p, normal, .. } = *met;
        let half = LINE.max(0.42 * pixel);
        let round = DVec3::new(-p.y, p.x, 0.0).normalize_or_zero();
        let (up, round) = if met.within {
            let outward = DVec3::new(p.x, p.y, 0.0).normalize_or_zero();
            (normal.cross(outward), outward)
        } else {
            (self.surface.along(&met.hit, p), round)
        };
        let here = owner(spot);
        [up, -up, round, -round].into_iter().any(|way| {
            let there = self.ask(p + way * half, normal);
            // Past the rim or the foot there is no wood and no line.
            there.is_some() && owner(&there) != here
        })
    }

    fn lit(&self, ray: &Ray, met: &Met, colour: [f64; 3]) -> [f64; 3] {
        let Met { p, normal, .. } = *met;
        let share = self.surface.share(&met.hit);
        let room = self.light.room(share);
        let seen = self.light.seen(share, p.y.arctangent2(p.x));
        let lamp = self.light.lamp;
        let facing = normal.dot(lamp).max(0.0);
        // A softer lamp from the other side, and one from behind for the edge.
        let fill_way = (self.camera.right * 0.9 - self.camera.ahead * 0.35 + DVec3::Z * 0.25)
            .normalize_or(DVec3::X);
        let fill = (0.5 + 0.5 * normal.dot(fill_way)).to_the(2);
        let diffuse = 0.58 * room + 0.94 * facing * seen + 0.15 * fill * room;
        // Satin: a broad and a narrow gloss from the lamp, and the room at a glance.
        let back = -ray.way;
        let glance = (1.0 - normal.dot(back).clamp(0.0, 1.0)).to_the(5);
        let half = (lamp + back).normalize_or(normal);
        let gloss = normal.dot(half).max(0.0);
        let shine = seen * (0.055 * gloss.to_the(24) + 0.075 * gloss.to_the(120));
        let mirror = ray.way - normal * (2.0 * normal.dot(ray.way));
        let sky = 0.45 + 0.55 * (0.5 + 0.5 * mirror.z);
        let gleam = shine + (0.012 + 0.22 * glance) * sky * room * 0.5;
        // Lamplight is a little warm, the room a little cool.
        let tint = [1.02, 1.0, 0.97];
        [0, 1, 2].map(|i| colour[i] * diffuse * tint[i] + gleam)
    }
}

/// sRGB to linear light (IEC 61966-2-1).
fn decoded(c: f64) -> f64 {
    let c = c.clamp(0.0, 1.0);
    if c <= 0.040_45 {
        c / 12.92
    } else {
        ((c + 0.055) / 1.055).power(2.4)
    }
}

/// Linear light to sRGB, bright light eased off instead of cut.
fn encoded(c: f64) -> u8 {
    const KNEE: f64 = 0.86;
    let c = if c > KNEE {
        KNEE + (1.0 - KNEE) * (1.0 - (-(c - KNEE) / (1.0 - KNEE)).exponential())
    } else {
        c.max(0.0)
    };
    let s = if c <= 0.003_130_8 {
        c * 12.92
    } else {
        1.055 * c.power(1.0 / 2.4) - 0.055
    };
    (s.clamp(0.0, 1.0) * 255.0 + 0.5) as u8
}
