//! The turned surface, for rays: a ring of cones and flats, met exactly.

use geometry::Outline;
use glam::{DVec2, DVec3};

/// A ray from a point, its way of length 1.
#[derive(Debug, Clone, Copy)]
pub struct Ray {
    pub from: DVec3,
    pub way: DVec3,
}

/// Where a ray meets the surface.
#[derive(Debug, Clone, Copy)]
pub struct Hit {
    /// How far along the ray, mm.
    pub far: f64,
    /// Which edge of the outline.
    pub edge: usize,
    /// How far along that edge, 0 to 1.
    pub along: f64,
}

#[derive(Debug, Clone, Copy)]
struct Edge {
    from: DVec2,
    to: DVec2,
    /// Change of radius with height; unused for a level edge.
    slope: f64,
    level: bool,
    /// Normals out of the wood at both ends, (radius, height).
    normals: (DVec2, DVec2),
    /// Length of the outline before it.
    before: f64,
}

/// A run of neighbouring edges and the block round the axis that holds them.
#[derive(Debug, Clone, Copy)]
struct Node {
    radii: (f64, f64),
    heights: (f64, f64),
    first: u32,
    /// Edges in it if it is a leaf, else 0.
    count: u32,
    /// Where its second half is, if it has halves; the first follows it.
    second: u32,
}

/// The surface that an outline sweeps round the axis.
#[derive(Debug, Clone)]
pub struct Surface {
    edges: Vec<Edge>,
    nodes: Vec<Node>,
    length: f64,
}

/// Edges in a leaf.
const LEAF: usize = 3;
/// Neighbours that turn by more than this (its cosine) meet in a sharp corner.
const SHARP: f64 = 0.93;

impl Surface {
    /// The surface of an outline.
    pub fn new(outline: &Outline) -> Self {
        let mut points: Vec<DVec2> = Vec::new();
        for p in outline.points() {
            let p = DVec2::new(p.x.max(0.0), p.y);
            if p.is_finite() && points.last().is_none_or(|l| (*l - p).length() > 1e-7) {
                points.push(p);
            }
        }
        let n = points.len();
        let area: f64 = (0..n)
            .map(|i| points[i].perp_dot(points[(i + 1) % n]))
            .sum();
        if area < 0.0 {
            // Anticlockwise, so that the wood is on the left.
            points.reverse();
        }
        let mut edges = Vec::with_capacity(n);
        let mut before = 0.0;
        for i in 0..n {
            let (from, to) = (points[i], points[(i + 1) % n]);
            // The axis itself is no surface.
            if from.x <= 1e-9 && to.x <= 1e-9 {
                continue;
            }
            let way = to - from;
            let level = way.y.abs() <= 1e-9 * way.length();
            let normal = DVec2::new(way.y, -way.x).normalize_or_zero();
            edges.push(Edge {
                from,
                to,
                slope: if level { 0.0 } else { way.x / way.y },
                level,
                normals: (normal, normal),
                before,
            });
            before += way.length();
        }
        for i in 1..edges.len() {
            let (a, b) = (edges[i - 1].normals.1, edges[i].normals.0);
            let joined = (edges[i - 1].to - edges[i].from).length() < 1e-9;
            if joined && a.dot(b) > SHARP {
                let mean = (a + b).normalize_or_zero();
                edges[i - 1].normals.1 = mean;
                edges[i].normals.0 = mean;
            }
        }
        let mut out = Surface {
            edges,
            nodes: Vec::new(),
            length: before,
        };
        if !out.edges.is_empty() {
            out.grow(0, out.edges.len());
        }
        out
    }

    fn grow(&mut self, first: usize, count: usize) -> u32 {
        let number = self.nodes.len();
        let mut node = Node {
            radii: (f64::MAX, f64::MIN),
            heights: (f64::MAX, f64::MIN),
            first: first as u32,
            count: 0,
            second: 0,
        };
        for e in &self.edges[first..first + count] {
            for p in [e.from, e.to] {
                node.radii = (node.radii.0.min(p.x), node.radii.1.max(p.x));
                node.heights = (node.heights.0.min(p.y), node.heights.1.max(p.y));
            }
        }
        self.nodes.push(node);
        if count <= LEAF {
            self.nodes[number].count = count as u32;
        } else {
            let half = count / 2;
            self.grow(first, half);
            let second = self.grow(first + half, count - half);
            self.nodes[number].second = second;
        }
        number as u32
    }

    /// Radius and height of all corners.
    pub fn circles(&self) -> Vec<(f64, f64)> {
        self.edges.iter().map(|e| (e.from.x, e.from.y)).collect()
    }

    /// Radius of what stands on the table: the widest place within a hair of the lowest.
    pub fn foot(&self) -> f64 {
        let low = self.edges.iter().fold(f64::MAX, |m, e| m.min(e.from.y));
        self.edges
            .iter()
            .filter(|e| e.from.y < low + 0.05)
            .fold(0.0, |r, e| r.max(e.from.x))
    }

    /// The first meeting further than `least` and nearer than `most`.
    pub fn hit(&self, ray: &Ray, least: f64, most: f64) -> Option<Hit> {
        self.search(ray, least, most, false)
    }

    /// Is there any meeting between?
    pub fn blocked(&self, ray: &Ray, least: f64, most: f64) -> bool {
        self.search(ray, least, most, true).is_some()
    }

    fn search(&self, ray: &Ray, least: f64, most: f64, any: bool) -> Option<Hit> {
        if self.nodes.is_empty() {
            return None;
        }
        let (o, d) = (ray.from, ray.way);
        // Distance from the axis, squared: a t² + 2 b t + c.
        let a = d.x * d.x + d.y * d.y;
        let b = o.x * d.x + o.y * d.y;
        let c = o.x * o.x + o.y * o.y;
        let mut best: Option<Hit> = None;
        let mut most = most;
        let mut stack = [0u32; 64];
        let mut depth = 1;
        while depth > 0 {
            depth -= 1;
            let number = stack[depth];
            let node = &self.nodes[number as usize];
            let (mut t0, mut t1) = (least, most);
            if d.z.abs() > 1e-12 {
                let p = (node.heights.0 - 1e-9 - o.z) / d.z;
                let q = (node.heights.1 + 1e-9 - o.z) / d.z;
                t0 = t0.max(p.min(q));
                t1 = t1.min(p.max(q));
            } else if o.z < node.heights.0 - 1e-9 || o.z > node.heights.1 + 1e-9 {
                continue;
            }
            if t0 > t1 {
                continue;
            }
            let square = |t: f64| (a * t + 2.0 * b) * t + c;
            let nearest = if a > 1e-15 {
                (-b / a).clamp(t0, t1)
            } else {
                t0
            };
            let outer = node.radii.1 + 1e-9;
            let inner = node.radii.0 - 1e-9;
            if square(nearest) > outer * outer
                || (inner > 0.0 && square(t0).max(square(t1)) < inner * inner)
            {
                continue;
            }
            if node.count == 0 {
                stack[depth] = number + 1;
                stack[depth + 1] = node.second;
                depth += 2;
                continue;
            }
            let first = node.first as usize;
            for k in first..first + node.count as usize {
                if let Some((far, along)) = self.edges[k].meet(ray, (a, b, c), least, most) {
                    most = far;
                    best = Some(Hit {
                        far,
                        edge: k,
                        along,
                    });
                    if any {
                        return best;
                    }
                }
            }
        }
        best
    }

    /// The normal out of the wood at a hit, at the point `p`.
    pub fn normal(&self, hit: &Hit, p: DVec3) -> DVec3 {
        let e = &self.edges[hit.edge];
        let n = (e.normals.0 + (e.normals.1 - e.normals.0) * hit.along).normalize_or_zero();
        let flat = DVec2::new(p.x, p.y).normalize_or_zero() * n.x;
        flat.extend(n.y)
    }

    /// The way along the outline at a hit, upright to the normal, at the point `p`.
    pub fn along(&self, hit: &Hit, p: DVec3) -> DVec3 {
        let e = &self.edges[hit.edge];
        let way = (e.to - e.from).normalize_or_zero();
        (DVec2::new(p.x, p.y).normalize_or_zero() * way.x).extend(way.y)
    }

    /// Where a hit lies along the outline, 0 to 1.
    pub fn share(&self, hit: &Hit) -> f64 {
        let e = &self.edges[hit.edge];
        (e.before + (e.to - e.from).length() * hit.along) / self.length.max(1e-9)
    }

    /// The point (radius, height) and normal a share of the way along the outline.
    pub fn station(&self, share: f64) -> (DVec2, DVec2) {
        let at = share.clamp(0.0, 1.0) * self.length;
        let k = self
            .edges
            .partition_point(|e| e.before <= at)
            .saturating_sub(1);
        match self.edges.get(k) {
            Some(e) => {
                let long = (e.to - e.from).length().max(1e-12);
                let t = ((at - e.before) / long).clamp(0.0, 1.0);
                let n = e.normals.0 + (e.normals.1 - e.normals.0) * t;
                (e.from + (e.to - e.from) * t, n.normalize_or_zero())
            }
            None => (DVec2::ZERO, DVec2::Y),
        }
    }
}

impl Edge {
    /// The nearest meeting with the ray between two distances, and how far along the edge.
    fn meet(
        &self,
        ray: &Ray,
        (a, b, c): (f64, f64, f64),
        least: f64,
        most: f64,
    ) -> Option<(f64, f64)> {
        let (o, d) = (ray.from, ray.way);
        if self.level {
            if d.z.abs() < 1e-15 {
                return None;
            }
            let t = (self.from.y - o.z) / d.z;
            let r = ((a * t + 2.0 * b) * t + c).max(0.0).sqrt();
            let along = (r - self.from.x) / (self.to.x - self.from.x);
            return (t > least && t < most && (0.0..=1.0).contains(&along)).then_some((t, along));
        }
        // (x, y) at t lies on the cone of radius q + k dz t.
        let k = self.slope;
        let q = self.from.x + k * (o.z - self.from.y);
        let a2 = a - k * k * d.z * d.z;
        let b2 = b - k * d.z * q;
        let c2 = c - q * q;
        let accept = |t: f64| {
            let along = (o.z + d.z * t - self.from.y) / (self.to.y - self.from.y);
            (t > least
                && t < most
                && (-1e-9..=1.0 + 1e-9).contains(&along)
                && q + k * d.z * t >= -1e-9)
                .then_some((t, along.clamp(0.0, 1.0)))
        };
        if a2.abs() < 1e-14 {
            return if b2.abs() < 1e-14 {
                None
            } else {
                accept(-c2 / (2.0 * b2))
            };
        }
        let root = b2 * b2 - a2 * c2;
        if root < 0.0 {
            return None;
        }
        // The stable pair of roots.
        let s = -(b2 + b2.signum() * root.sqrt());
        let (t0, t1) = if s.abs() < 1e-300 {
            (0.0, 0.0)
        } else {
            (s / a2, c2 / s)
        };
        let (near, far) = if t0 < t1 { (t0, t1) } else { (t1, t0) };
        accept(near).or_else(|| accept(far))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use geometry::Portable;
    use geometry::kurbo::Point;

    fn tube() -> Surface {
        let outline = Outline::new(
            &[
                Point::new(40.0, 0.0),
                Point::new(50.0, 0.0),
                Point::new(60.0, 100.0),
                Point::new(48.0, 100.0),
            ],
            &[],
        )
        .expect("a plain outline");
        Surface::new(&outline)
    }

    #[test]
    fn rays_meet_a_cone_where_its_equation_says() {
        let s = tube();
        // Level, through the axis at height 30: the outside is 53 there, the inside 42.4.
        let ray = Ray {
            from: DVec3::new(200.0, 0.0, 30.0),
            way: DVec3::NEG_X,
        };
        let hit = s.hit(&ray, 0.0, 1e9).expect("it is hit");
        assert!((hit.far - 147.0).abs() < 1e-9);
        let n = s.normal(&hit, ray.from + ray.way * hit.far);
        // The slope 0.1 outwards leans the normal down.
        assert!((n.z / n.x + 0.1).abs() < 1e-9 && n.x > 0.0);
        let next = s.hit(&ray, hit.far + 1e-6, 1e9).expect("the inside");
        assert!((next.far - (200.0 - 42.4)).abs() < 1e-9);
        // Through the hollow from above nothing is in the way.
        let down = Ray {
            from: DVec3::new(0.0, 10.0, 200.0),
            way: DVec3::NEG_Z,
        };
        assert!(!s.blocked(&down, 0.0, 1e9));
        // On the rim it meets the level edge.
        let rim = Ray {
            from: DVec3::new(0.0, 50.0, 200.0),
            way: DVec3::NEG_Z,
        };
        assert!((s.hit(&rim, 0.0, 1e9).expect("the rim").far - 100.0).abs() < 1e-12);
    }

    #[test]
    fn halving_finds_what_asking_every_edge_finds() {
        let points: Vec<Point> = (0..200)
            .map(|i| {
                let a = f64::from(i) * std::f64::consts::TAU / 200.0;
                Point::new(60.0 + 30.0 * a.cosine(), 50.0 + 45.0 * a.sine())
            })
            .collect();
        let s = Surface::new(&Outline::new(&points, &[]).expect("a torus"));
        let mut met = 0;
        for i in 0..400 {
            let f = f64::from(i);
            let from = DVec3::new(
                300.0 * (f * 0.7).cosine(),
                300.0 * (f * 0.7).sine(),
                f - 150.0,
            );
            let to = DVec3::new(70.0 * (f * 1.3).sine(), 80.0 * (f * 0.9).cosine(), f * 0.25);
            let ray = Ray {
                from,
                way: (to - from).normalize(),
            };
            let (o, d) = (ray.from, ray.way);
            let abc = (
                d.x * d.x + d.y * d.y,
                o.x * d.x + o.y * d.y,
                o.x * o.x + o.y * o.y,
            );
            let plain = s
                .edges
                .iter()
                .filter_map(|e| e.meet(&ray, abc, 0.0, 1e9))
                .map(|m| m.0)
                .reduce(f64::min);
            let got = s.hit(&ray, 0.0, 1e9).map(|h| h.far);
            assert_eq!(got, plain);
            met += i32::from(got.is_some());
        }
        assert!(met > 100);
    }
}
