//! Where loops cross: the step in an earlier loop where a later layer runs through it,
//! and how even a row of crossings is.

use geometry::Portable;
use geometry::{Plane, Profile};
use glam::{DVec2, DVec3};
use piece::model::{CutAndRejoin, Part, StepKind};
use piece::piece::Piece;

use super::erred::Cut;
use super::follow::Follow;
use super::loop_ends::{square_to_wall, unevenness};
use super::sample::{Face, PlacedCuts, Sample};

/// The crossings of one band on one wall.
#[derive(Debug)]
pub struct Crossings {
    section: usize,
    face: Face,
    crossings: Vec<Crossing>,
    /// The crossings of each row, by their place in the list.
    rows: Vec<Vec<usize>>,
}

#[derive(Debug)]
struct Crossing {
    /// Steps of the later and the earlier loop.
    over: usize,
    under: usize,
    /// Steps between the two that move the earlier loop there.
    between: Follow,
    /// Steps after the later one that move the crossing.
    later: Follow,
    /// Where it is when the later loop has been glued, without errors.
    at: DVec3,
    /// Square to the wall there.
    square: DVec3,
    /// Azimuth and height in the finished section, without errors.
    azimuth: f64,
    height: f64,
}

/// What one making's crossings came to, mm.
#[derive(Debug, Clone, Default)]
pub struct Missed {
    /// Step in the earlier loop at each crossing, along the wall and square to the
    /// loop; positive where the part above is too high.
    pub steps: Vec<f64>,
    /// By row: how far each crossing is off its height.
    pub rows: Vec<Vec<f64>>,
    /// By crossing: how far off its azimuth it is, radians.
    pub turned: Vec<f64>,
    /// By crossing: azimuth (radians) and height in the section as planned.
    pub places: Vec<(f64, f64)>,
}

impl Missed {
    /// The largest step and the mean square of all.
    pub fn step(&self) -> (f64, f64) {
        let count = self.steps.len().max(1) as f64;
        let largest = self.steps.iter().fold(0.0_f64, |m, s| m.max(s.abs()));
        let square = self.steps.iter().map(|s| s * s).sum::<f64>() / count;
        (largest, square)
    }

    /// The most uneven row and the mean of all rows' mean squares.
    pub fn row(&self) -> (f64, f64) {
        let count = self.rows.len().max(1) as f64;
        self.rows.iter().fold((0.0_f64, 0.0), |(most, sum), row| {
            let (uneven, square) = unevenness(row);
            (most.max(uneven), sum + square / count)
        })
    }
}

/// How deep in the wall the model is asked whether a crossing shows, mm.
const SKIN: f64 = 0.02;

impl Crossings {
    /// All that show on the finished piece.
    pub fn of(piece: &Piece, perfect: &Sample<'_>) -> Vec<Crossings> {
        let mut out = Vec::new();
        for section in 0..piece.sections.len() {
            for band in 0..piece.sections[section].bands.len() {
                for face in [Face::Outside, Face::Inside] {
                    let all = Self::of_band(piece, perfect, (section, band), face);
                    if !all.crossings.is_empty() {
                        out.push(all);
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
    ) -> Self {
        let band = &piece.sections[section].bands[number];
        let placed = &piece.stack.sections()[section];
        let steps = placed.body.steps();
        let wall = face.line(piece);
        let rows = match face {
            Face::Outside => &band.rows_outside,
            Face::Inside => &band.rows_inside,
        };
        let mut out = Crossings {
            section,
            face,
            crossings: Vec::new(),
            rows: Vec::new(),
        };
        let step_of = |wanted: usize| {
            steps.iter().position(|s| {
                matches!(s.kind, StepKind::Loop { band: b, number: k }
                    if usize::from(b) == number && usize::from(k) == wanted)
            })
        };
        let base = piece.sections[section].base_of(band).as_mm();
        for row in rows {
            let Some(height) = row.height.map(|h| h.as_mm()) else {
                continue;
            };
            let mut own = Vec::new();
            for c in &row.crossings {
                let (Some(over), Some(under)) = (step_of(c.over), step_of(c.under)) else {
                    continue;
                };
                let z = height + base;
                let (Some(radius), Some(lean)) = (wall.radius(z), wall.slope(z)) else {
                    continue;
                };
                let flat = DVec2::from_angle(c.azimuth.as_rad()) * radius;
                let at = flat.extend(height);
                let Some(between) = between(steps, under, over, at) else {
                    continue;
                };
                let Some((later, moved)) = Follow::from(steps, over + 1, at) else {
                    continue;
                };
                let mut crossing = Crossing {
                    over,
                    under,
                    between,
                    later,
                    at,
                    square: square_to_wall(at, lean),
                    azimuth: moved.y.arctangent2(moved.x),
                    height: moved.z,
                };
                let place = perfect
                    .sections
                    .get(section)
                    .and_then(|own| crossing.place(own, face, wall));
                let Some((azimuth, z)) = place else {
                    continue;
                };
                (crossing.azimuth, crossing.height) = (azimuth, z);
                if crossing.shows(piece, section, face) {
                    own.push(out.crossings.len());
                    out.crossings.push(crossing);
                }
            }
            if own.len() > 1 {
                out.rows.push(own);
            }
        }
        out
    }

    /// On which wall.
    pub fn face(&self) -> Face {
        self.face
    }

    /// In which section.
    pub fn section(&self) -> usize {
        self.section
    }

    /// Has it a row of two or more?
    pub fn has_rows(&self) -> bool {
        !self.rows.is_empty()
    }

    /// What a making's crossings come to.
    pub fn missed(&self, piece: &Piece, making: &Sample<'_>) -> Missed {
        let mut out = Missed::default();
        let Some(own) = making.sections.get(self.section) else {
            return out;
        };
        let wall = self.face.line(piece);
        let mut heights = Vec::with_capacity(self.crossings.len());
        for c in &self.crossings {
            out.steps.push(c.step(&own.cuts.steps));
            let (azimuth, height) = c
                .place(own, self.face, wall)
                .unwrap_or((c.azimuth, c.height));
            heights.push(height - c.height);
            out.turned.push(azimuth - c.azimuth);
            out.places.push((c.azimuth, c.height));
        }
        out.rows = self
            .rows
            .iter()
            .map(|row| row.iter().map(|&i| heights[i]).collect())
            .collect();
        out
    }
}

/// The steps between two that move a place of the earlier loop; nothing if one of them
/// saws it out.
fn between(steps: &[CutAndRejoin], under: usize, over: usize, at: DVec3) -> Option<Follow> {
    let until = steps.get(..over)?;
    Follow::from(until, under + 1, at).map(|(follow, _)| follow)
}

/// The plane half way between a layer's faces. Its normal is not of length 1; its
/// direction and place are right.
fn middle(cut: &Cut) -> Plane {
    half_way(&cut.lower, &cut.rejoined)
}

fn half_way(a: &Plane, b: &Plane) -> Plane {
    Plane {
        normal: (a.normal + b.normal) * 0.5,
        offset: 0.5 * (a.offset + b.offset),
    }
}

impl Crossing {
    /// The earlier loop's middle plane below the later cut and above it, when the later
    /// layer has just been glued in.
    fn halves(&self, steps: &[Cut]) -> Option<(Plane, Plane)> {
        let below = self.between.moved(middle(steps.get(self.under)?), steps);
        Some((below, below.moved(&steps.get(self.over)?.motion)))
    }

    /// The step in the earlier loop, where it would be without errors: an error moves
    /// the place itself by about a millimetre, over which the step is the same.
    fn step(&self, steps: &[Cut]) -> f64 {
        let Some((below, above)) = self.halves(steps) else {
            return 0.0;
        };
        let n = below.normal.normalize_or_zero();
        let along_wall = (1.0 - n.dot(self.square).to_the(2)).max(1e-12).sqrt();
        (below.above(self.at) - above.above(self.at)) / along_wall
    }

    /// Azimuth and height of the crossing in the finished section, by Newton's way from
    /// where it is without errors; nothing where there is none.
    fn place(&self, own: &PlacedCuts, face: Face, wall: &Profile) -> Option<(f64, f64)> {
        let steps = &own.cuts.steps;
        let (below, above) = self.halves(steps)?;
        let earlier = self.later.placed(half_way(&below, &above), &own.cuts);
        let over = self.later.placed(middle(steps.get(self.over)?), &own.cuts);
        let axis = own.axis(face).extend(0.0);
        let (mut azimuth, mut z) = (self.azimuth, self.height);
        for _ in 0..8 {
            let way = DVec2::from_angle(azimuth);
            let (r, lean) = wall.radius_and_slope(z + own.bottom)?;
            let p = axis + (way * r).extend(z);
            let (a, b) = (earlier.above(p), over.above(p));
            if a.abs().max(b.abs()) < 1e-9 {
                return Some((azimuth, z));
            }
            let round = (way.perp() * r).extend(0.0);
            let up = (way * lean).extend(1.0);
            let (ar, au) = (earlier.normal.dot(round), earlier.normal.dot(up));
            let (br, bu) = (over.normal.dot(round), over.normal.dot(up));
            let det = ar * bu - au * br;
            if det.abs() < 1e-12 {
                return None;
            }
            azimuth -= (a * bu - b * au) / det;
            z -= (b * ar - a * br) / det;
        }
        None
    }

    /// Does the later loop's layer show there on the piece as planned?
    fn shows(&self, piece: &Piece, section: usize, face: Face) -> bool {
        let placed = &piece.stack.sections()[section];
        let z = self.height + placed.bottom;
        let Some(radius) = face.line(piece).radius(z) else {
            return false;
        };
        let r = radius + if face == Face::Inside { SKIN } else { -SKIN };
        let flat = DVec2::from_angle(self.azimuth + placed.turn) * r;
        piece.stack.wood_at(flat.extend(z)).is_some_and(|s| {
            usize::from(s.section) == section
                && matches!(s.part, Part::Layer { step, .. } if usize::from(step) == self.over)
        })
    }
}
