//! Where loops top out and bottom out, and how much they differ.

use geometry::Portable;
use geometry::{Plane, Profile};
use glam::{DVec2, DVec3};
use piece::band::Loops;
use piece::model::{Part, StepKind};
use piece::piece::Piece;

use super::follow::Follow;
use super::sample::{Face, PlacedCuts, Sample};

/// The tops, or the bottoms, of one band's loops on one wall.
#[derive(Debug)]
pub struct LoopEnds {
    section: usize,
    face: Face,
    top: bool,
    ends: Vec<LoopEnd>,
}

#[derive(Debug)]
struct LoopEnd {
    /// The loop's step in its section.
    step: usize,
    follow: Follow,
    /// Height above the section's underside without errors, mm.
    height: f64,
}

/// How far under a loop's edge the model is asked whether the loop shows there, mm.
const JUST_IN: f64 = 0.05;

impl LoopEnds {
    /// All that show on the finished piece, two loops or more to a band.
    pub fn of(piece: &Piece, perfect: &Sample<'_>) -> Vec<LoopEnds> {
        let mut out = Vec::new();
        for section in 0..piece.sections.len() {
            for band in 0..piece.sections[section].bands.len() {
                for face in [Face::Outside, Face::Inside] {
                    for top in [true, false] {
                        let ends = Self::of_band(piece, perfect, (section, band), face, top);
                        if ends.ends.len() > 1 {
                            out.push(ends);
                        }
                    }
                }
            }
        }
        out
    }

    fn of_band(
        piece: &Piece,
        perfect: &Sample<'_>,
        (section, number): (usize, usize),
        face: Face,
        top: bool,
    ) -> Self {
        let mut out = LoopEnds {
            section,
            face,
            top,
            ends: Vec::new(),
        };
        let band = &piece.sections[section].bands[number];
        let placed = &piece.stack.sections()[section];
        let edges = match face {
            Face::Outside => &band.outside,
            Face::Inside => &band.inside,
        };
        let Some(height) = (if top { edges.top } else { edges.bottom }) else {
            return out;
        };
        let wall = face.line(piece);
        let base = piece.sections[section].base_of(band).as_mm();
        let steps = placed.body.steps();
        for (step, cut) in steps.iter().enumerate() {
            let StepKind::Loop { band: b, number: k } = cut.kind else {
                continue;
            };
            let Some(climb) = band.loops.azimuths.get(usize::from(k)) else {
                continue;
            };
            let Some(radius) = wall.radius(height.as_mm() + base) else {
                continue;
            };
            if usize::from(b) != number {
                continue;
            }
            let way = DVec2::from_angle(climb.as_rad()) * if top { 1.0 } else { -1.0 };
            let at = (way * radius).extend(height.as_mm());
            let Some((follow, moved)) = Follow::from(steps, step + 1, at) else {
                continue;
            };
            let mut end = LoopEnd {
                step,
                follow,
                height: moved.z,
            };
            let Some(z) = perfect
                .sections
                .get(section)
                .and_then(|own| out.height(&end, own, wall))
            else {
                continue;
            };
            end.height = z;
            // Asked in the piece as it will stand, just within the edge and the wall.
            let within = z + if top { -JUST_IN } else { JUST_IN };
            let r = radius
                + if face == Face::Inside {
                    JUST_IN
                } else {
                    -JUST_IN
                };
            let flat = DVec2::new(moved.x, moved.y).normalize_or_zero() * r;
            let flat = DVec2::from_angle(placed.turn).rotate(flat);
            let spot = piece.stack.wood_at(flat.extend(within + placed.bottom));
            let shows = spot.is_some_and(|s| {
                usize::from(s.section) == section
                    && matches!(s.part, Part::Layer { step: s, .. } if usize::from(s) == step)
            });
            if shows {
                out.ends.push(end);
            }
        }
        out
    }

    /// On which wall.
    pub fn face(&self) -> Face {
        self.face
    }

    /// Tops, or bottoms?
    pub fn top(&self) -> bool {
        self.top
    }

    /// Height of an end above the section's underside, mm; nothing where the loop
    /// leaves the wall.
    fn height(&self, end: &LoopEnd, own: &PlacedCuts, wall: &Profile) -> Option<f64> {
        let cut = own.cuts.steps.get(end.step)?;
        let face = if self.top { cut.rejoined } else { cut.lower };
        let plane = end.follow.placed(face, &own.cuts);
        let way = if self.top { 1.0 } else { -1.0 };
        meets(&plane, own, self.face, wall, way, end.height)
    }

    /// Heights of all ends above their own without errors, mm, and so how far each is
    /// off its place. One that has left the wall stays where the wall ends.
    pub fn off(&self, piece: &Piece, making: &Sample<'_>) -> Vec<f64> {
        let wall = self.face.line(piece);
        let Some(own) = making.sections.get(self.section) else {
            return Vec::new();
        };
        let planned = piece.sections[self.section].bottom.as_mm();
        let moved = own.bottom - planned;
        self.ends
            .iter()
            .map(|end| {
                let z = self.height(end, own, wall).unwrap_or_else(|| {
                    let (low, high) = (wall.lowest(), wall.highest());
                    let end = if self.top { high } else { low };
                    end - own.bottom
                });
                z - end.height + moved
            })
            .collect()
    }
}

/// The height at which a plane, going its steepest way up or down, meets a wall.
fn meets(
    plane: &Plane,
    own: &PlacedCuts,
    face: Face,
    wall: &Profile,
    way: f64,
    start: f64,
) -> Option<f64> {
    let n = plane.normal;
    let offset = plane.offset - n.dot(own.axis(face).extend(0.0));
    let slope = way * n.x.hypotenuse(n.y) / n.z;
    let on_axis = offset / n.z;
    // Newton's way from where it is without errors; near a corner of the wall the
    // search that never leaves its bracket takes over.
    let mut z = start;
    for _ in 0..6 {
        let Some((r, lean)) = wall.radius_and_slope(z + own.bottom) else {
            break;
        };
        let miss = z - on_axis - slope * r;
        if miss.abs() < 1e-9 {
            return Some(z);
        }
        z -= miss / (1.0 - slope * lean);
    }
    Loops::height_on(&|z| wall.radius(z + own.bottom), on_axis, slope)
}

/// The largest of some heights less the smallest, and their mean square about their
/// own mean.
pub fn unevenness(off: &[f64]) -> (f64, f64) {
    if off.is_empty() {
        return (0.0, 0.0);
    }
    let count = off.len() as f64;
    let mean = off.iter().sum::<f64>() / count;
    let (low, high) = off
        .iter()
        .fold((f64::MAX, f64::MIN), |(l, h), &x| (l.min(x), h.max(x)));
    let square = off.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / count;
    (high - low, square)
}

/// The direction square to a wall at a place, a unit vector pointing out.
pub fn square_to_wall(at: DVec3, lean: f64) -> DVec3 {
    let out = DVec2::new(at.x, at.y).normalize_or_zero();
    out.extend(-lean).normalize_or_zero()
}
