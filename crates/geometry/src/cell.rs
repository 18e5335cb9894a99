//! Convex cells: what is left of a segment after any number of saw cuts.

use crate::Portable;
use glam::{DVec2, DVec3};

use crate::plane::{Motion, Plane};

/// A convex solid, as its corners and the faces between them.
///
/// Each face lists its corners anticlockwise seen from outside.
#[derive(Debug, Clone, Default)]
pub struct ConvexCell {
    corners: Vec<DVec3>,
    faces: Vec<Vec<u16>>,
}

impl ConvexCell {
    /// An upright prism over a convex polygon given anticlockwise, from
    /// height `low` to `high`. Fewer than 3 corners or `high <= low` gives an empty cell.
    pub fn prism(base: &[DVec2], low: f64, high: f64) -> Self {
        let n = base.len();
        if n < 3 || high <= low || n > 1000 {
            return Self::default();
        }
        let mut corners = Vec::with_capacity(2 * n);
        corners.extend(base.iter().map(|p| p.extend(low)));
        corners.extend(base.iter().map(|p| p.extend(high)));
        let n16 = n as u16;
        let mut faces = vec![(0..n16).rev().collect::<Vec<_>>(), (n16..2 * n16).collect()];
        for i in 0..n16 {
            let j = (i + 1) % n16;
            faces.push(vec![i, j, j + n16, i + n16]);
        }
        Self { corners, faces }
    }

    /// Nothing left?
    pub fn is_empty(&self) -> bool {
        self.faces.len() < 4
    }

    /// Its corners.
    pub fn corners(&self) -> &[DVec3] {
        &self.corners
    }

    /// Each face's corners, anticlockwise seen from outside.
    pub fn faces(&self) -> impl Iterator<Item = impl Iterator<Item = DVec3> + '_> + '_ {
        self.faces
            .iter()
            .map(move |f| f.iter().map(move |&i| self.corners[i as usize]))
    }

    pub(crate) fn face_indices(&self) -> &[Vec<u16>] {
        &self.faces
    }

    /// Lowest and highest corner, mm; (0, 0) when empty.
    pub fn heights(&self) -> (f64, f64) {
        let (lo, hi) = self
            .corners
            .iter()
            .fold((f64::MAX, f64::MIN), |(lo, hi), p| {
                (lo.min(p.z), hi.max(p.z))
            });
        if lo > hi { (0.0, 0.0) } else { (lo, hi) }
    }

    /// Volume, mm³, by tetrahedra from the first corner (divergence theorem).
    pub fn volume(&self) -> f64 {
        let Some(&apex) = self.corners.first() else {
            return 0.0;
        };
        let mut six = 0.0;
        for face in &self.faces {
            let at = |k: usize| self.corners[face[k] as usize] - apex;
            for k in 1..face.len().saturating_sub(1) {
                six += at(0).dot(at(k).cross(at(k + 1)));
            }
        }
        six / 6.0
    }

    /// Centre of volume; the origin when empty.
    pub fn centroid(&self) -> DVec3 {
        let Some(&apex) = self.corners.first() else {
            return DVec3::ZERO;
        };
        let (mut six, mut sum) = (0.0, DVec3::ZERO);
        for face in &self.faces {
            let at = |k: usize| self.corners[face[k] as usize] - apex;
            for k in 1..face.len().saturating_sub(1) {
                let v = at(0).dot(at(k).cross(at(k + 1)));
                six += v;
                sum += v * (at(0) + at(k) + at(k + 1)) / 4.0;
            }
        }
        if six.abs() < f64::MIN_POSITIVE {
            apex
        } else {
            apex + sum / six
        }
    }

    /// Is a point inside, at least `margin` mm from every face?
    pub fn contains(&self, p: DVec3, margin: f64) -> bool {
        !self.is_empty()
            && self.faces.iter().all(|face| {
                let normal = self.face_normal(face);
                normal.dot(p - self.corners[face[0] as usize]) <= -margin
            })
    }

    fn face_normal(&self, face: &[u16]) -> DVec3 {
        // Newell's sum: right for any convex face, whichever corners are nearly in line.
        let mut n = DVec3::ZERO;
        for k in 0..face.len() {
            let a = self.corners[face[k] as usize];
            let b = self.corners[face[(k + 1) % face.len()] as usize];
            n += a.cross(b);
        }
        n.normalize_or_zero()
    }

    /// The cell after it has moved.
    pub fn moved(mut self, motion: &Motion) -> Self {
        if !motion.is_still() {
            for p in &mut self.corners {
                *p = motion.apply(*p);
            }
        }
        self
    }

    /// Sawn along a plane: what is below it and what is above it. Either may be empty.
    pub fn split(self, plane: &Plane) -> (Self, Self) {
        let size = self
            .corners
            .iter()
            .fold(0.0_f64, |m, p| m.max(p.abs().max_element()));
        // Corners come out of several sums, so they are as rough as a thousand roundings.
        let noise = 1000.0 * crate::NOISE * size;
        let (mut above, mut below) = (false, false);
        for &p in &self.corners {
            let s = plane.above(p);
            above |= s > noise;
            below |= s < -noise;
        }
        if !above {
            return (self, Self::default());
        }
        if !below {
            return (Self::default(), self);
        }
        let sides: Vec<f64> = self
            .corners
            .iter()
            .map(|&p| {
                let s = plane.above(p);
                if s.abs() <= noise { 0.0 } else { s }
            })
            .collect();
        (
            self.half(&sides, plane, -1.0),
            self.half(&sides, plane, 1.0),
        )
    }

    /// The half on the side of `sign`, capped by the plane.
    fn half(&self, sides: &[f64], plane: &Plane, sign: f64) -> Self {
        let mut out = Self {
            corners: Vec::with_capacity(self.corners.len() + 4),
            faces: Vec::with_capacity(self.faces.len() + 1),
        };
        // Old corners that stay, by their new number.
        let mut kept = vec![u16::MAX; self.corners.len()];
        let mut cap = Vec::new();
        for (i, &p) in self.corners.iter().enumerate() {
            if sides[i] * sign >= 0.0 {
                kept[i] = out.corners.len() as u16;
                if sides[i] == 0.0 {
                    cap.push(kept[i]);
                }
                out.corners.push(p);
            }
        }
        // New corners, one for each sawn edge, shared by its two faces.
        let mut sawn: Vec<((u16, u16), u16)> = Vec::new();
        for face in &self.faces {
            let mut loop_ = Vec::with_capacity(face.len() + 1);
            for k in 0..face.len() {
                let (a, b) = (face[k], face[(k + 1) % face.len()]);
                let (sa, sb) = (sides[a as usize] * sign, sides[b as usize] * sign);
                if sa >= 0.0 {
                    loop_.push(kept[a as usize]);
                }
                if (sa > 0.0 && sb < 0.0) || (sa < 0.0 && sb > 0.0) {
                    let key = (a.min(b), a.max(b));
                    let at = match sawn.iter().find(|(k, _)| *k == key) {
                        Some((_, at)) => *at,
                        None => {
                            let (p, q) =
                                (self.corners[key.0 as usize], self.corners[key.1 as usize]);
                            let (sp, sq) = (sides[key.0 as usize], sides[key.1 as usize]);
                            let at = out.corners.len() as u16;
                            out.corners.push(p + (q - p) * (sp / (sp - sq)));
                            sawn.push((key, at));
                            cap.push(at);
                            at
                        }
                    };
                    loop_.push(at);
                }
            }
            // A face that only touches the plane leaves an edge or a point: no face.
            if loop_.len() >= 3
                && loop_.iter().any(|&i| {
                    (plane.above(out.corners[i as usize])).abs() > 0.0 && !cap.contains(&i)
                })
            {
                out.faces.push(loop_);
            }
        }
        if cap.len() >= 3 {
            out.sort_round(&mut cap, plane.normal * -sign);
            out.faces.push(cap);
        }
        out
    }

    /// Sort corners of a convex face anticlockwise round `outward`.
    fn sort_round(&self, face: &mut [u16], outward: DVec3) {
        let centre = face
            .iter()
            .map(|&i| self.corners[i as usize])
            .sum::<DVec3>()
            / face.len() as f64;
        let u = outward.any_orthonormal_vector();
        let v = outward.cross(u);
        let angle = |i: u16| {
            let d = self.corners[i as usize] - centre;
            d.dot(v).arctangent2(d.dot(u))
        };
        face.sort_by(|&a, &b| angle(a).total_cmp(&angle(b)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn square(half: f64) -> Vec<DVec2> {
        [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
            .iter()
            .map(|&(x, y)| DVec2::new(x, y) * half)
            .collect()
    }

    #[test]
    fn a_prism_has_base_times_height() {
        // Closed form: regular n-gon of apothem a has area n a² tan(180°/n).
        for n in [3usize, 7, 48, 144] {
            let step = std::f64::consts::TAU / n as f64;
            let (apothem, height) = (50.0, 12.0);
            let corner = apothem / (step / 2.0).cosine();
            let base: Vec<_> = (0..n)
                .map(|i| DVec2::from_angle(step * (i as f64 + 0.5)) * corner)
                .collect();
            let want = n as f64 * apothem * apothem * (step / 2.0).tangent() * height;
            let cell = ConvexCell::prism(&base, 3.0, 3.0 + height);
            assert!((cell.volume() / want - 1.0).abs() < 1e-12);
            assert!((cell.centroid() - DVec3::new(0.0, 0.0, 9.0)).length() < 1e-9);
        }
    }

    #[test]
    fn a_corner_sawn_off_a_cube_is_a_tetrahedron() {
        // Closed form: plane x+y+z = 3a-c from the far corner of a cube cuts c³/6.
        let cube = ConvexCell::prism(&square(10.0), -10.0, 10.0);
        let normal = DVec3::ONE.normalize();
        let plane = Plane {
            normal,
            offset: 24.0 / 3.0_f64.sqrt(),
        };
        let (below, above) = cube.split(&plane);
        assert!((above.volume() - 6.0_f64.to_the(3) / 6.0).abs() < 1e-9);
        assert!((below.volume() - (8000.0 - 36.0)).abs() < 1e-9);
        assert_eq!(above.face_indices().len(), 4);
    }

    #[test]
    fn a_plane_along_a_face_or_an_edge_leaves_the_cell_whole() {
        let cube = ConvexCell::prism(&square(10.0), 0.0, 20.0);
        let (below, above) = cube.clone().split(&Plane::tilted(20.0, 0.0, 0.0));
        assert!(above.is_empty() && (below.volume() - 8000.0).abs() < 1e-9);
        // Touching one top edge only.
        let (below, above) = cube.split(&Plane::tilted(
            30.0,
            45_f64.to_radians(),
            std::f64::consts::PI,
        ));
        assert!(above.is_empty() && (below.volume() - 8000.0).abs() < 1e-9);
    }

    proptest! {
        #[test]
        fn sawing_neither_makes_nor_loses_wood(
            cuts in prop::collection::vec((-15.0..35.0_f64, 0.0..1.4_f64, 0.0..6.3_f64), 1..8)
        ) {
            let whole = ConvexCell::prism(&square(10.0), 0.0, 20.0);
            let mut parts = vec![whole];
            for (h, t, a) in cuts {
                let plane = Plane::tilted(h, t, a);
                parts = parts.into_iter().flat_map(|c| {
                    let (b, a) = c.split(&plane);
                    [b, a]
                }).filter(|c| !c.is_empty()).collect();
            }
            let sum: f64 = parts.iter().map(ConvexCell::volume).sum();
            prop_assert!((sum - 8000.0).abs() < 1e-6, "{sum}");
            prop_assert!(parts.iter().all(|c| c.volume() >= -1e-9));
        }
    }
}
