//! What fills the wall: segments of rings, and over them the layers in the order of the work.

use geometry::Portable;
use std::f64::consts::TAU;

use glam::DVec2;
use piece::model::{SectionBody, WoodId};
use piece::piece::Piece;

use super::faces::{Face, FaceKind, Faces};
use super::side::Wall;

/// An area of one wood on a wall, to be painted over what came before it. Its points
/// are azimuths (from 0 to once round) and heights.
#[derive(Debug, Clone)]
pub struct Filled {
    /// The wood.
    pub wood: WoodId,
    /// The line round it.
    pub bound: Vec<DVec2>,
}

/// A stretch of a section as it was stacked, and how splits have moved it.
struct Zone {
    from: f64,
    to: f64,
    rise: f64,
    turn: f64,
}

/// All areas of a wall, to be painted in order.
pub fn fills(wall: &Wall<'_>, faces: &Faces) -> Vec<Filled> {
    let mut out = Vec::new();
    let piece: &Piece = wall.piece;
    for (i, placed) in piece.stack.sections().iter().enumerate() {
        let zones = zones(&placed.body);
        for ring in placed.body.rings() {
            for zone in &zones {
                let low = ring.bottom.max(zone.from) + zone.rise + placed.bottom;
                let high = ring.top.min(zone.to) + zone.rise + placed.bottom;
                let (low, high) = (low.max(wall.lowest()), high.min(wall.highest()));
                if low >= high {
                    continue;
                }
                let turn = placed.turn + zone.turn + ring.rotation;
                for ((from, to), &wood) in ring.reaches(turn).into_iter().zip(ring.woods()) {
                    put(wood, &block(from, to, low, high), &mut out);
                }
            }
        }
        for (k, step) in placed.body.steps().iter().enumerate() {
            let Some(wood) = step.layer.as_ref().and_then(|l| l.woods.first()) else {
                continue;
            };
            layer(wall, faces, (i as u16, k as u16), *wood, &mut out);
        }
    }
    out
}

fn block(from: f64, to: f64, low: f64, high: f64) -> Vec<DVec2> {
    vec![
        DVec2::new(from, low),
        DVec2::new(to, low),
        DVec2::new(to, high),
        DVec2::new(from, high),
    ]
}

/// The stretches that level splits have parted a section into.
fn zones(body: &SectionBody) -> Vec<Zone> {
    let mut zones = vec![Zone {
        from: f64::MIN,
        to: f64::MAX,
        rise: 0.0,
        turn: 0.0,
    }];
    for step in body.steps() {
        if step.layer.is_some() || step.motion.is_still() {
            continue;
        }
        let (Some(low), Some(high)) = (step.lower.height_on_axis(), step.upper.height_on_axis())
        else {
            continue;
        };
        let x = step.motion.turn * glam::DVec3::X;
        let turn = x.y.arctangent2(x.x);
        zones = zones
            .into_iter()
            .flat_map(|z| {
                [
                    Zone {
                        from: z.from,
                        to: z.to.min(low - z.rise),
                        rise: z.rise,
                        turn: z.turn,
                    },
                    Zone {
                        from: z.from.max(high - z.rise),
                        to: z.to,
                        rise: z.rise + step.motion.shift.z,
                        turn: z.turn + turn,
                    },
                ]
            })
            .filter(|z| z.from < z.to)
            .collect();
    }
    zones
}

/// One layer: between its two faces, on both sides of the lean.
fn layer(
    wall: &Wall<'_>,
    faces: &Faces,
    (section, step): (u16, u16),
    wood: WoodId,
    out: &mut Vec<Filled>,
) {
    let of = |wanted: bool| {
        faces.all().iter().filter(move |f| {
            matches!(f.kind, FaceKind::Layer { section: s, step: k, upper }
                if s == section && k == step && upper == wanted)
        })
    };
    // Both faces were followed through the same steps: their parts pair up in order.
    for (lower, upper) in of(false).zip(of(true)) {
        let low = lower.heights.0.max(wall.lowest());
        let high = lower.heights.1.min(wall.highest());
        if let (Some(a), Some(b)) = (lower.level(), upper.level()) {
            let (a, b) = (a.max(low), b.min(high));
            if a < b {
                out.push(Filled {
                    wood,
                    bound: block(0.0, TAU, a, b),
                });
            }
            continue;
        }
        for heights in runs(wall, lower, upper, low, high) {
            for sign in [1.0, -1.0] {
                let edge = |face: &Face, z: f64| {
                    let r = wall.radius(z).unwrap_or(1.0);
                    let from_lean = face.cosine(r, z).clamp(-1.0, 1.0).arccosine();
                    DVec2::new(face.lean() + sign * from_lean, z)
                };
                let mut bound: Vec<DVec2> = heights.iter().map(|z| edge(lower, *z)).collect();
                bound.extend(heights.iter().rev().map(|z| edge(upper, *z)));
                put(wood, &bound, out);
            }
        }
    }
}

/// Runs of heights at which a layer is on the wall, close together where either face
/// turns over.
fn runs(wall: &Wall<'_>, lower: &Face, upper: &Face, low: f64, high: f64) -> Vec<Vec<f64>> {
    let on = |z: f64| {
        wall.radius(z).is_some_and(|r| {
            let (a, b) = (lower.cosine(r, z), upper.cosine(r, z));
            !(a > 1.0 && b > 1.0 || a < -1.0 && b < -1.0)
        })
    };
    let turns_over = |face: &Face, z: f64| {
        wall.radius(z).map_or(0, |r| {
            let c = face.cosine(r, z);
            if c > 1.0 {
                1
            } else if c < -1.0 {
                -1
            } else {
                0
            }
        })
    };
    let steps = (((high - low) / 0.5).ceil()).clamp(8.0, 4096.0) as usize;
    let grid = |i: usize| low + (high - low) * i as f64 / steps as f64;
    let mut out: Vec<Vec<f64>> = Vec::new();
    let mut now: Vec<f64> = Vec::new();
    for i in 0..steps {
        let (a, b) = (grid(i), grid(i + 1));
        let state = |z: f64| (on(z), turns_over(lower, z), turns_over(upper, z));
        let mut places = vec![a];
        if state(a) != state(b) {
            // Find the turn, then crowd heights towards it from both sides.
            let (mut p, mut q) = (a, b);
            for _ in 0..50 {
                let mid = 0.5 * (p + q);
                if state(mid) == state(a) {
                    p = mid;
                } else {
                    q = mid;
                }
            }
            let near =
                |from: f64, to: f64, k: i32| to + (from - to) * (f64::from(k) / 12.0).to_the(2);
            places.extend((0..12).rev().map(|k| near(a, p, k)));
            places.extend((0..12).map(|k| near(b, q, k)));
        }
        places.push(b);
        for z in places {
            if on(z) {
                if now.last().is_none_or(|l| z > *l) {
                    now.push(z);
                }
            } else if !now.is_empty() {
                out.push(std::mem::take(&mut now));
            }
        }
    }
    out.push(now);
    out.retain(|run| run.len() > 1);
    out
}

/// An area of any turn, cut to one.
fn put(wood: WoodId, bound: &[DVec2], out: &mut Vec<Filled>) {
    let (lo, hi) = bound.iter().fold((f64::MAX, f64::MIN), |(lo, hi), p| {
        (lo.min(p.x), hi.max(p.x))
    });
    if !(lo.is_finite() && hi.is_finite()) {
        return;
    }
    let (first, last) = ((lo / TAU).floor() as i64, (hi / TAU).ceil() as i64);
    for turn in first..last {
        let shift = turn as f64 * TAU;
        let moved: Vec<DVec2> = bound.iter().map(|p| *p - DVec2::new(shift, 0.0)).collect();
        let right = beyond(&moved, 0.0, 1.0);
        let both = beyond(&right, TAU, -1.0);
        if both.len() > 2 {
            out.push(Filled { wood, bound: both });
        }
    }
}

/// The part of an area on one side of an upright line (Sutherland and Hodgman's way).
fn beyond(bound: &[DVec2], x: f64, way: f64) -> Vec<DVec2> {
    let mut out = Vec::with_capacity(bound.len() + 2);
    for i in 0..bound.len() {
        let (a, b) = (bound[i], bound[(i + 1) % bound.len()]);
        let (da, db) = ((a.x - x) * way, (b.x - x) * way);
        if da >= 0.0 {
            out.push(a);
        }
        if (da > 0.0 && db < 0.0) || (da < 0.0 && db > 0.0) {
            let t = da / (da - db);
            out.push(DVec2::new(x, a.y + (b.y - a.y) * t));
        }
    }
    out
}
