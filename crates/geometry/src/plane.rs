//! Planes and the rigid motions that move what has been sawn off.

use crate::Portable;
use glam::{DMat3, DVec3};

/// A plane with a direction: points at `normal · p > offset` are above it.
#[derive(Debug, Clone, Copy)]
pub struct Plane {
    /// Unit normal, pointing up.
    pub normal: DVec3,
    /// Distance of the plane from the origin along the normal, mm.
    pub offset: f64,
}

impl Plane {
    /// The plane `z = height + tan(tilt)·(x cos azimuth + y sin azimuth)`.
    ///
    /// `tilt` is the angle from straight across, in radians, less than a right
    /// angle; `azimuth` is the direction in which the plane climbs most.
    pub fn tilted(height: f64, tilt: f64, azimuth: f64) -> Self {
        let (st, ct) = tilt.sine_cosine();
        let (sa, ca) = azimuth.sine_cosine();
        Self {
            normal: DVec3::new(-st * ca, -st * sa, ct),
            offset: height * ct,
        }
    }

    /// How far a point stands above the plane, square to it, mm.
    #[inline]
    pub fn above(&self, p: DVec3) -> f64 {
        self.normal.dot(p) - self.offset
    }

    /// The parallel plane `by` mm further up along the normal.
    pub fn shifted(&self, by: f64) -> Self {
        Self {
            normal: self.normal,
            offset: self.offset + by,
        }
    }

    /// The plane after everything has moved.
    pub fn moved(&self, motion: &Motion) -> Self {
        let normal = motion.turn * self.normal;
        Self {
            normal,
            offset: self.offset + normal.dot(motion.shift),
        }
    }

    /// The height at which the plane passes the axis, or `None` if it runs along the axis.
    pub fn height_on_axis(&self) -> Option<f64> {
        (self.normal.z.abs() > crate::NOISE).then(|| self.offset / self.normal.z)
    }
}

/// A rigid motion: turn, then shift.
#[derive(Debug, Clone, Copy)]
pub struct Motion {
    /// The turn, an orthonormal matrix.
    pub turn: DMat3,
    /// The shift after the turn, mm.
    pub shift: DVec3,
    /// No turn: undoing it is one subtraction.
    pure_shift: bool,
}

impl Motion {
    /// Nothing moves.
    pub const STAY: Motion = Motion {
        turn: DMat3::IDENTITY,
        shift: DVec3::ZERO,
        pure_shift: true,
    };

    /// A shift alone.
    pub fn shift(by: DVec3) -> Self {
        Self {
            shift: by,
            ..Self::STAY
        }
    }

    /// A turn round the axis by `angle` radians (anticlockwise from above), then a shift.
    pub fn round_axis(angle: f64, then: DVec3) -> Self {
        Self::rigid(DMat3::from_rotation_z(angle), then)
    }

    /// Any turn, then a shift. `turn` must be a rotation.
    pub fn rigid(turn: DMat3, shift: DVec3) -> Self {
        Self {
            turn,
            shift,
            pure_shift: turn == DMat3::IDENTITY,
        }
    }

    /// Where a point goes.
    #[inline]
    pub fn apply(&self, p: DVec3) -> DVec3 {
        if self.pure_shift {
            p + self.shift
        } else {
            self.turn * p + self.shift
        }
    }

    /// Where a point came from.
    #[inline]
    pub fn undo(&self, p: DVec3) -> DVec3 {
        if self.pure_shift {
            p - self.shift
        } else {
            self.turn.transpose() * (p - self.shift)
        }
    }

    /// The one motion that does `first`, then this.
    pub fn after(&self, first: &Motion) -> Motion {
        if self.pure_shift && first.pure_shift {
            return Motion::shift(first.shift + self.shift);
        }
        Motion::rigid(self.turn * first.turn, self.apply(first.shift))
    }

    /// Does it leave everything where it is?
    pub fn is_still(&self) -> bool {
        self.pure_shift && self.shift == DVec3::ZERO
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tilted_plane_climbs_most_at_its_azimuth() {
        // The plane's own equation, z = h + tan(t)(x cos a + y sin a).
        let (h, t, a) = (80.0, 0.5_f64, 1.1_f64);
        let plane = Plane::tilted(h, t, a);
        for (x, y) in [(0.0, 0.0), (30.0, -12.0), (-55.0, 7.0)] {
            let z = h + t.tangent() * (x * a.cosine() + y * a.sine());
            assert!(plane.above(DVec3::new(x, y, z)).abs() < 1e-12);
            assert!((plane.above(DVec3::new(x, y, z + 2.0)) - 2.0 * t.cosine()).abs() < 1e-12);
        }
    }

    #[test]
    fn undo_is_the_way_back_and_planes_move_along() {
        let m = Motion::round_axis(0.7, DVec3::new(1.0, -2.0, 3.0));
        let p = DVec3::new(10.0, 20.0, 30.0);
        assert!((m.undo(m.apply(p)) - p).length() < 1e-12);
        let n = Motion::rigid(DMat3::from_rotation_x(0.4), DVec3::new(-4.0, 0.5, 1.5));
        assert!((n.after(&m).apply(p) - n.apply(m.apply(p))).length() < 1e-12);
        let plane = Plane::tilted(20.0, 0.3, 0.2);
        assert!((plane.moved(&m).above(m.apply(p)) - plane.above(p)).abs() < 1e-12);
    }
}
