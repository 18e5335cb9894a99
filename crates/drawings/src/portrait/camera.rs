//! Where the picture is taken from.

use geometry::Angle;
use geometry::Portable;
use glam::{DVec2, DVec3};

/// A camera that looks at the piece and stands as near as its picture has room for.
#[derive(Debug, Clone, Copy)]
pub struct Camera {
    /// Azimuth that it stands at.
    pub azimuth: Angle,
    /// How far over the piece's middle it stands, seen from there.
    pub elevation: Angle,
    /// Angle of view from the picture's top to its bottom.
    pub field: Angle,
}

impl Default for Camera {
    /// From a little above, with a long lens: the rim's inside shows, nothing leans.
    fn default() -> Self {
        Camera {
            azimuth: Angle::deg(-68.0),
            elevation: Angle::deg(19.0),
            field: Angle::deg(20.0),
        }
    }
}

/// A camera in its place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Placed {
    /// Its eye.
    pub eye: DVec3,
    /// Into the picture, to its right, up.
    pub ahead: DVec3,
    pub right: DVec3,
    pub up: DVec3,
    /// Half the picture's height at distance 1, and width over height.
    half: f64,
    aspect: f64,
    /// Shift of the picture, so that the piece stands in its middle.
    shift: DVec2,
}

/// Share of the picture that the piece fills at most, across and down.
const FILLS: DVec2 = DVec2::new(0.80, 0.84);

impl Placed {
    /// Stands so far off that the circles (radius, height) fit.
    pub fn before(camera: &Camera, circles: &[(f64, f64)], aspect: f64) -> Self {
        let elevation = camera.elevation.as_rad().clamp(-1.5, 1.5);
        let azimuth = camera.azimuth.as_rad();
        let size = circles
            .iter()
            .fold(1.0_f64, |s, c| s.max(c.0).max(c.1.abs()));
        let top = circles.iter().fold(f64::MIN, |t, c| t.max(c.1));
        let low = circles.iter().fold(f64::MAX, |t, c| t.min(c.1));
        let middle = DVec3::new(0.0, 0.0, 0.5 * (top.max(low) + low));
        let (se, ce) = elevation.sine_cosine();
        let (sa, ca) = azimuth.sine_cosine();
        let out = DVec3::new(ce * ca, ce * sa, se);
        let ahead = -out;
        let right = DVec3::new(-sa, ca, 0.0);
        let up = right.cross(ahead);
        let half = (camera.field.as_rad().clamp(0.02, 2.5) / 2.0).tangent();
        let at = |distance: f64| Placed {
            eye: middle + out * distance,
            ahead,
            right,
            up,
            half,
            aspect,
            shift: DVec2::ZERO,
        };
        let (mut near, mut far) = (size * 0.8, size * 400.0);
        for _ in 0..60 {
            let mid = (near * far).sqrt();
            match at(mid).spread(circles) {
                Some((lo, hi)) if (hi - lo).x <= 2.0 * FILLS.x && (hi - lo).y <= 2.0 * FILLS.y => {
                    far = mid;
                }
                _ => near = mid,
            }
        }
        let mut placed = at(far);
        if let Some((lo, hi)) = placed.spread(circles) {
            placed.shift = 0.5 * (lo + hi);
        }
        placed
    }

    /// Where circles about the axis appear: lowest and highest place, the picture's edges at ±1.
    fn spread(&self, circles: &[(f64, f64)]) -> Option<(DVec2, DVec2)> {
        let mut low = DVec2::splat(f64::MAX);
        let mut high = DVec2::splat(f64::MIN);
        for (r, z) in circles {
            for k in 0..48 {
                let flat = DVec2::from_angle(std::f64::consts::TAU * f64::from(k) / 48.0) * *r;
                let seen = flat.extend(*z) - self.eye;
                let deep = seen.dot(self.ahead);
                if deep <= 1e-6 {
                    return None;
                }
                let at = DVec2::new(
                    seen.dot(self.right) / (deep * self.half * self.aspect),
                    seen.dot(self.up) / (deep * self.half),
                );
                low = low.min(at);
                high = high.max(at);
            }
        }
        Some((low, high))
    }

    /// The way to a place in the picture, its edges at ±1, y up.
    pub fn way(&self, at: DVec2) -> DVec3 {
        let at = at + self.shift;
        (self.ahead + self.right * (at.x * self.half * self.aspect) + self.up * (at.y * self.half))
            .normalize()
    }

    /// Size of a pixel at a distance of 1, for a picture so many pixels high.
    pub fn pixel(&self, height: u32) -> f64 {
        2.0 * self.half / f64::from(height.max(1))
    }
}
