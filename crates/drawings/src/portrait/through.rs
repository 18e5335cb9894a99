//! What a ray meets where it may pass through gaps in the wall.

use geometry::Angle;
use glam::DVec3;
use piece::model::Stack;
use piece::piece::Piece;

use super::surface::{Hit, Ray, Surface};

/// How deep under a face the model is asked, mm.
pub const SKIN: f64 = 0.02;
/// Steps on the way through a gap, mm.
const STEP: f64 = 0.4;
/// Walls that a ray may pass at most.
const WALLS: usize = 8;

/// Where a ray meets wood.
#[derive(Debug, Clone, Copy)]
pub struct Met {
    /// The meeting with the finished surface; of a face in a gap that where the ray went in.
    pub hit: Hit,
    /// The point.
    pub p: DVec3,
    /// The way out of the wood.
    pub normal: DVec3,
    /// It is the face of a gap.
    pub within: bool,
}

/// Does any wall of a piece have gaps to look through?
pub fn has_gaps(piece: &Piece) -> bool {
    let mut rings = piece.sections.iter().flat_map(|s| &s.rings);
    rings.any(|ring| ring.gap().exceeds(Angle::ZERO))
}

/// The first wood that a ray meets; without gaps the surface itself.
pub fn meet(surface: &Surface, stack: &Stack, gaps: bool, ray: &Ray) -> Option<Met> {
    let mut least = 0.0;
    for _ in 0..WALLS {
        let hit = surface.hit(ray, least, 1e9)?;
        let p = ray.from + ray.way * hit.far;
        let normal = surface.normal(&hit, p);
        let under = p - normal * SKIN;
        let met = Met {
            hit,
            p,
            normal,
            within: false,
        };
        if !gaps || !stack.meant_empty(under) {
            return Some(met);
        }
        let out = surface.hit(ray, hit.far + 1e-6, 1e9)?.far;
        if let Some(p) = first_wood(stack, ray, (hit.far, out)) {
            return Some(Met {
                p,
                normal: way_out(stack, p, ray.way),
                within: true,
                ..met
            });
        }
        least = out + 1e-6;
    }
    None
}

/// The first point of wood on a ray between two distances that is within the form.
fn first_wood(stack: &Stack, ray: &Ray, (from, to): (f64, f64)) -> Option<DVec3> {
    let at = |t: f64| ray.from + ray.way * t;
    let wood = |t: f64| stack.wood_at(at(t)).is_some();
    let steps = ((to - from) / STEP).ceil().max(1.0);
    let step = (to - from) / steps;
    let k = (1..steps as usize).find(|k| wood(from + step * *k as f64))?;
    let (mut low, mut high) = (from + step * (k - 1) as f64, from + step * k as f64);
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if wood(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(at(high))
}

/// The normal of a gap's face at a point of it: its sides are upright and pass the axis, its
/// floor and ceiling are level.
fn way_out(stack: &Stack, p: DVec3, way: DVec3) -> DVec3 {
    let round = DVec3::new(-p.y, p.x, 0.0).normalize_or_zero();
    let free = |n: &DVec3| {
        stack.wood_at(p + *n * SKIN).is_none() && stack.wood_at(p - *n * SKIN).is_some()
    };
    let ways = [round, -round, DVec3::Z, -DVec3::Z];
    let facing = |n: &DVec3| -n.dot(way);
    ways.into_iter()
        .filter(free)
        .max_by(|a, b| facing(a).total_cmp(&facing(b)))
        .unwrap_or(-way)
}

#[cfg(test)]
mod tests {
    use files::read::read_design;
    use files::workshop::Workshop;
    use piece::settle::settle;

    use super::*;

    /// Level rays all round at the middle of an open ring: wood that is met is wood, its
    /// normal looks back along the ray, and what is passed was empty all the way.
    #[test]
    fn a_ray_goes_through_gaps_and_stops_at_wood() {
        let text = include_str!("../../../../examples/avocet-lantern.toml");
        let (design, _, _) = read_design("lantern", text);
        let piece = settle(&design.unwrap(), &Workshop::default())
            .piece
            .unwrap();
        let surface = Surface::new(piece.form.outline());
        assert!(has_gaps(&piece));
        let ring = &piece.sections[1].rings[2];
        let z = 0.5 * (ring.spans.0 + ring.spans.1).as_mm();
        let (mut on, mut within, mut past) = (0, 0, 0);
        for k in 0..720 {
            let (sin, cos) = f64::from(k).to_radians().sin_cos();
            let (out, aside) = (DVec3::new(cos, sin, 0.0), DVec3::new(-sin, cos, 0.0));
            let off = f64::from(k % 7) * 6.0 - 18.0;
            let ray = Ray {
                from: out * 400.0 + aside * off + DVec3::Z * z,
                way: -out,
            };
            let Some(met) = meet(&surface, &piece.stack, true, &ray) else {
                past += 1;
                continue;
            };
            assert!(met.normal.dot(ray.way) < 1e-9, "{k}");
            let under = met.p - met.normal * SKIN;
            assert!(piece.stack.wood_at(under).is_some(), "{k} at {}", met.p);
            let before = 400.0 - out.dot(met.p);
            let free = (0..2000).all(|i| {
                let p = ray.from + ray.way * (before - 0.5) * f64::from(i) / 2000.0;
                piece
                    .stack
                    .turned_wood_at(piece.form.outline(), p)
                    .is_none()
            });
            assert!(free, "{k}: through wood before {}", met.p);
            if met.within {
                within += 1;
            } else {
                on += 1;
            }
        }
        assert!(on > 300 && within > 20 && past > 20, "{on} {within} {past}");
    }
}
