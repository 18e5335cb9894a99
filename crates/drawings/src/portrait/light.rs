//! Light, worked out beforehand: how open each place is to the room, and how much of the
//! lamp it sees.
//!
//! The piece is turned, and the room's light comes evenly from all round: what the room
//! gives depends only on the place along the outline. The lamp stands to one side, so
//! what it gives depends on the azimuth too.

use geometry::Portable;
use std::f64::consts::{PI, TAU};

use glam::{DVec2, DVec3};

use super::surface::{Ray, Surface};
use piece::parallel::map_each;

/// The lamp and what stands in its way.
#[derive(Debug, Clone)]
pub struct Light {
    /// Towards the lamp's middle.
    pub lamp: DVec3,
    room: Vec<f32>,
    /// Share of the lamp seen, by station and azimuth.
    seen: Vec<f32>,
    ground: GroundPlane,
}

/// Places along the outline at which light is worked out.
const STATIONS: usize = 320;
/// Azimuths at which the lamp is looked for.
const ROUND: usize = 96;
const ROOM_RAYS: usize = 160;
const LAMP_RAYS: usize = 20;
/// How large the lamp looks: the sine of half its angle.
const LAMP_SIZE: f64 = 0.24;
/// Light that wood throws back into a hollow.
const BOUNCE: f64 = 0.30;
const GROUND_SIDE: usize = 160;
const GROUND_RINGS: usize = 128;
const GROUND_ROOM_RAYS: usize = 400;
const GROUND_LAMP_RAYS: usize = 48;

/// The table that it stands on: how much of the lamp is seen, in a square grid, and how
/// much of the room, by distance from the axis.
#[derive(Debug, Clone)]
struct GroundPlane {
    half: f64,
    lamp: Vec<f32>,
    room: Vec<f32>,
}

impl Light {
    /// Works the light out for a surface with the lamp towards `lamp`.
    pub fn new(surface: &Surface, lamp: DVec3, size: f64) -> Self {
        let lamp = lamp.normalize_or(DVec3::Z);
        let far = size * 50.0;
        let lift = size * 2e-4;
        let room = map_each(STATIONS, |i| {
            let (at, normal) = surface.station(i as f64 / (STATIONS - 1) as f64);
            room(surface, at, normal, (lift, far), size)
        });
        let (right, up) = beside(lamp);
        let seen = map_each(STATIONS, |i| {
            let (at, normal) = surface.station(i as f64 / (STATIONS - 1) as f64);
            (0..ROUND)
                .map(|k| {
                    let turn = DVec2::from_angle(TAU * k as f64 / ROUND as f64);
                    let n = (turn * normal.x).extend(normal.y);
                    let p = (turn * at.x).extend(at.y) + n * lift;
                    let free = (0..LAMP_RAYS)
                        .filter(|j| {
                            let way = towards(lamp, right, up, *j, LAMP_RAYS);
                            n.dot(way) > 0.0 && !surface.blocked(&Ray { from: p, way }, 0.0, far)
                        })
                        .count();
                    free as f32 / LAMP_RAYS as f32
                })
                .collect::<Vec<f32>>()
        })
        .concat();
        let ground = GroundPlane::new(surface, lamp, size);
        Light {
            lamp,
            room,
            seen,
            ground,
        }
    }

    /// The room's light at a share of the outline: 1 in the open.
    pub fn room(&self, share: f64) -> f64 {
        let (i, t) = split(share, STATIONS);
        f64::from(self.room[i] + (self.room[i + 1] - self.room[i]) * t)
    }

    /// Share of the lamp that is seen at a share of the outline and an azimuth.
    pub fn seen(&self, share: f64, azimuth: f64) -> f64 {
        let (i, t) = split(share, STATIONS);
        let turn = (azimuth / TAU).rem_euclid(1.0) * ROUND as f64;
        let k = (turn as usize).min(ROUND - 1);
        let s = (turn - k as f64) as f32;
        let next = (k + 1) % ROUND;
        let row = |i: usize| {
            let (a, b) = (self.seen[i * ROUND + k], self.seen[i * ROUND + next]);
            a + (b - a) * s
        };
        let (a, b) = (row(i), row(i + 1));
        f64::from(a + (b - a) * t)
    }

    /// Shares of the lamp and of the room seen from a place on the table.
    pub fn ground(&self, at: DVec2) -> (f64, f64) {
        self.ground.at(at)
    }
}

/// A share as a place between two of `count` stations.
fn split(share: f64, count: usize) -> (usize, f32) {
    let at = share.clamp(0.0, 1.0) * (count - 1) as f64;
    let i = (at as usize).min(count - 2);
    (i, (at - i as f64) as f32)
}

/// Two directions square to one and to each other.
fn beside(way: DVec3) -> (DVec3, DVec3) {
    let help = if way.z.abs() < 0.9 {
        DVec3::Z
    } else {
        DVec3::X
    };
    let right = help.cross(way).normalize_or(DVec3::X);
    (right, way.cross(right))
}

/// The j-th of `count` ways to the lamp's face (sunflower spread).
fn towards(lamp: DVec3, right: DVec3, up: DVec3, j: usize, count: usize) -> DVec3 {
    let r = LAMP_SIZE * ((j as f64 + 0.5) / count as f64).sqrt();
    let a = j as f64 * PI * (3.0 - 5.0_f64.sqrt());
    (lamp + right * (r * a.cosine()) + up * (r * a.sine())).normalize()
}

/// The j-th of `count` ways over a surface, more of them the steeper (cosine law).
fn over(normal: DVec3, right: DVec3, up: DVec3, j: usize, count: usize) -> DVec3 {
    let s = ((j as f64 + 0.5) / count as f64).sqrt();
    let a = j as f64 * PI * (3.0 - 5.0_f64.sqrt());
    normal * (1.0 - s * s).sqrt() + right * (s * a.cosine()) + up * (s * a.sine())
}

/// How bright the room is in a direction: lighter above; below, the table.
fn room_in(way: DVec3, from: DVec3, size: f64) -> f64 {
    if way.z >= 0.0 {
        return 0.72 + 0.42 * way.z;
    }
    // Where it looks at the table close to the piece, the piece stands in the light.
    let t = from.z / -way.z;
    let at = DVec2::new(from.x + way.x * t, from.y + way.y * t).length();
    let open = (at / (0.9 * size)).clamp(0.0, 1.0);
    0.22 + 0.42 * open
}

fn room(surface: &Surface, at: DVec2, normal: DVec2, (lift, far): (f64, f64), size: f64) -> f32 {
    let n = DVec3::new(normal.x, 0.0, normal.y);
    let p = DVec3::new(at.x, 0.0, at.y) + n * lift;
    let (right, up) = beside(n);
    let sum: f64 = (0..ROOM_RAYS)
        .map(|j| {
            let way = over(n, right, up, j, ROOM_RAYS);
            if surface.blocked(&Ray { from: p, way }, 0.0, far) {
                BOUNCE
            } else {
                room_in(way, p, size)
            }
        })
        .sum();
    (sum / ROOM_RAYS as f64) as f32
}

impl GroundPlane {
    fn new(surface: &Surface, lamp: DVec3, size: f64) -> Self {
        let half = size * 3.4;
        let far = size * 50.0;
        let (right, up) = beside(lamp);
        // Under the foot the table sees nothing; its edge's shade goes on there, so that
        // none of that darkness leaks out between the grid's points.
        let foot = surface.foot() + size * 4e-3;
        let free = |from: DVec3, way: DVec3| !surface.blocked(&Ray { from, way }, 1e-6, far);
        let room = map_each(GROUND_RINGS, |i| {
            let r = (half * 1.5 * i as f64 / (GROUND_RINGS - 1) as f64).max(foot);
            let from = DVec3::new(r, 0.0, 0.0);
            let open = (0..GROUND_ROOM_RAYS)
                .filter(|k| {
                    free(
                        from,
                        over(DVec3::Z, DVec3::X, DVec3::Y, *k, GROUND_ROOM_RAYS),
                    )
                })
                .count();
            open as f32 / GROUND_ROOM_RAYS as f32
        });
        let grid = map_each(GROUND_SIDE, |j| {
            (0..GROUND_SIDE)
                .map(|i| {
                    let place = |k: usize| half * (2.0 * k as f64 / (GROUND_SIDE - 1) as f64 - 1.0);
                    let at = DVec2::new(place(i), place(j));
                    let at = if at.length() < foot {
                        at.normalize_or(DVec2::X) * foot
                    } else {
                        at
                    };
                    let open = (0..GROUND_LAMP_RAYS)
                        .filter(|k| {
                            free(
                                at.extend(0.0),
                                towards(lamp, right, up, *k, GROUND_LAMP_RAYS),
                            )
                        })
                        .count();
                    open as f32 / GROUND_LAMP_RAYS as f32
                })
                .collect::<Vec<_>>()
        })
        .concat();
        GroundPlane {
            half,
            lamp: smoothed(&smoothed(&grid)),
            room,
        }
    }

    fn at(&self, p: DVec2) -> (f64, f64) {
        let (i, t) = split(p.length() / (self.half * 1.5), GROUND_RINGS);
        let room = f64::from(self.room[i] + (self.room[i + 1] - self.room[i]) * t);
        let place = |x: f64| (x / self.half + 1.0) * 0.5 * (GROUND_SIDE - 1) as f64;
        let (x, y) = (place(p.x), place(p.y));
        let last = (GROUND_SIDE - 2) as f64;
        if !(x >= 0.0 && y >= 0.0 && x <= last && y <= last) {
            return (1.0, room);
        }
        let (i, j) = (x as usize, y as usize);
        let (s, t) = ((x - i as f64) as f32, (y - j as f64) as f32);
        let cell = |i: usize, j: usize| self.lamp[j * GROUND_SIDE + i];
        let low = cell(i, j) + (cell(i + 1, j) - cell(i, j)) * s;
        let high = cell(i, j + 1) + (cell(i + 1, j + 1) - cell(i, j + 1)) * s;
        (f64::from(low + (high - low) * t), room)
    }
}

/// The grid with each point the mean of itself and its eight neighbours: the lamp's
/// single points no longer show in the shadow's edge.
fn smoothed(grid: &[f32]) -> Vec<f32> {
    let n = GROUND_SIDE;
    let mut out = Vec::with_capacity(grid.len());
    for j in 0..n {
        for i in 0..n {
            let mut sum = 0.0;
            for y in [j.saturating_sub(1), j, (j + 1).min(n - 1)] {
                for x in [i.saturating_sub(1), i, (i + 1).min(n - 1)] {
                    sum += grid[y * n + x];
                }
            }
            out.push(sum / 9.0);
        }
    }
    out
}
