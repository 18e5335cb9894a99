//! `Length` and `Angle`: a bare number is never a measure.

use std::f64::consts::PI;
use std::fmt;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

use serde::{Deserialize, Serialize};

/// A length, held in millimetres.
///
/// There is deliberately no `==`: two lengths that come by two roads differ in
/// the last bit. Ask [`Length::within`] instead.
///
/// ```
/// use geometry::Length;
/// let ring = Length::inches(0.75);
/// assert!(ring.within(Length::mm(19.05), Length::mm(1e-9)));
/// ```
#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Length(f64);

impl Length {
    /// No length at all.
    pub const ZERO: Length = Length(0.0);

    /// A length given in millimetres.
    pub const fn mm(value: f64) -> Self {
        Self(value)
    }

    /// A length given in inches; an inch is 25.4 mm exactly (international inch, 1959).
    pub const fn inches(value: f64) -> Self {
        Self(value * 25.4)
    }

    /// The length in millimetres.
    pub const fn as_mm(self) -> f64 {
        self.0
    }

    /// The length in inches.
    pub const fn as_inches(self) -> f64 {
        self.0 / 25.4
    }

    /// Do two lengths agree to within a tolerance?
    pub fn within(self, other: Length, tolerance: Length) -> bool {
        (self.0 - other.0).abs() <= tolerance.0
    }

    /// Is this length larger than the other?
    pub fn exceeds(self, other: Length) -> bool {
        self.0 > other.0
    }

    /// The larger of two lengths.
    pub fn max(self, other: Length) -> Length {
        Length(self.0.max(other.0))
    }

    /// The smaller of two lengths.
    pub fn min(self, other: Length) -> Length {
        Length(self.0.min(other.0))
    }

    /// The length without its sign.
    pub fn abs(self) -> Length {
        Length(self.0.abs())
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

/// An angle, held in radians.
///
/// ```
/// use geometry::Angle;
/// assert!(Angle::full().divided_by(12).within(Angle::deg(30.0), Angle::deg(1e-9)));
/// ```
#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Angle(f64);

impl Angle {
    /// No angle at all.
    pub const ZERO: Angle = Angle(0.0);

    /// An angle given in degrees.
    pub const fn deg(value: f64) -> Self {
        Self(value * PI / 180.0)
    }

    /// An angle given in radians.
    pub const fn rad(value: f64) -> Self {
        Self(value)
    }

    /// Once round.
    pub const fn full() -> Self {
        Self(2.0 * PI)
    }

    /// The angle in degrees.
    pub const fn as_deg(self) -> f64 {
        self.0 * 180.0 / PI
    }

    /// The angle in radians.
    pub const fn as_rad(self) -> f64 {
        self.0
    }

    /// One of `parts` equal parts of this angle; `parts` of 0 is taken as 1.
    pub fn divided_by(self, parts: usize) -> Angle {
        Angle(self.0 / parts.max(1) as f64)
    }

    /// Do two angles agree to within a tolerance? Turns are counted: 0° and 360° differ.
    pub fn within(self, other: Angle, tolerance: Angle) -> bool {
        (self.0 - other.0).abs() <= tolerance.0
    }

    /// Is this angle larger than the other?
    pub fn exceeds(self, other: Angle) -> bool {
        self.0 > other.0
    }

    /// The same direction, from 0 up to but not including once round.
    pub fn wrapped(self) -> Angle {
        let turn = 2.0 * PI;
        let a = self.0.rem_euclid(turn);
        // rem_euclid of a tiny negative rounds up to the modulus itself.
        Angle(if a >= turn { 0.0 } else { a })
    }
}

impl fmt::Debug for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", self.as_deg())
    }
}

macro_rules! linear {
    ($name:ident) => {
        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: $name) {
                self.0 += other.0;
            }
        }
        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }
        impl Neg for $name {
            type Output = $name;
            fn neg(self) -> $name {
                $name(-self.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = $name;
            fn mul(self, by: f64) -> $name {
                $name(self.0 * by)
            }
        }
        impl Div<f64> for $name {
            type Output = $name;
            fn div(self, by: f64) -> $name {
                $name(self.0 / by)
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = $name>>(iter: I) -> $name {
                $name(iter.map(|q| q.0).sum())
            }
        }
    };
}

linear!(Length);
linear!(Angle);
