//! Functions of a number that give the same last bit on every machine.
//!
//! The standard library's sines and their kin are the system's own and differ in their last
//! digits between systems and browsers; these are [`libm`]'s everywhere, within one unit in
//! the last place of the true value. Square roots, rounding and the four rules are exact
//! everywhere and stay the standard library's.

/// Sines and their kin, the same on every machine; angles in radians.
///
/// ```
/// use geometry::Portable;
/// assert!((30.0_f64.to_radians().sine() - 0.5).abs() < 1e-15);
/// assert_eq!(3.0.hypotenuse(4.0), 5.0);
/// assert_eq!(1.5.to_the(3), 3.375);
/// ```
pub trait Portable: Copy {
    /// Its sine.
    fn sine(self) -> Self;
    /// Its cosine.
    fn cosine(self) -> Self;
    /// Both.
    fn sine_cosine(self) -> (Self, Self);
    /// Its tangent.
    fn tangent(self) -> Self;
    /// The angle whose sine it is, from -π/2 to π/2; no number beyond -1 to 1.
    fn arcsine(self) -> Self;
    /// The angle whose cosine it is, from 0 to π; no number beyond -1 to 1.
    fn arccosine(self) -> Self;
    /// The angle whose tangent it is, from -π/2 to π/2.
    fn arctangent(self) -> Self;
    /// The angle of the point (`x`, it) from +x, from -π to π.
    fn arctangent2(self, x: Self) -> Self;
    /// The long side over two at a right angle.
    fn hypotenuse(self, other: Self) -> Self;
    /// e to its power.
    fn exponential(self) -> Self;
    /// Its logarithm to the base e.
    fn natural_log(self) -> Self;
    /// It to a power.
    fn power(self, exponent: Self) -> Self;
    /// It to a whole power, by multiplying.
    fn to_the(self, exponent: u32) -> Self;
}

impl Portable for f64 {
    fn sine(self) -> Self {
        libm::sin(self)
    }

    fn cosine(self) -> Self {
        libm::cos(self)
    }

    fn sine_cosine(self) -> (Self, Self) {
        libm::sincos(self)
    }

    fn tangent(self) -> Self {
        libm::tan(self)
    }

    fn arcsine(self) -> Self {
        libm::asin(self)
    }

    fn arccosine(self) -> Self {
        libm::acos(self)
    }

    fn arctangent(self) -> Self {
        libm::atan(self)
    }

    fn arctangent2(self, x: Self) -> Self {
        libm::atan2(self, x)
    }

    fn hypotenuse(self, other: Self) -> Self {
        libm::hypot(self, other)
    }

    fn exponential(self) -> Self {
        libm::exp(self)
    }

    fn natural_log(self) -> Self {
        libm::log(self)
    }

    fn power(self, exponent: Self) -> Self {
        libm::pow(self, exponent)
    }

    fn to_the(self, exponent: u32) -> Self {
        let (mut product, mut square, mut left) = (1.0, self, exponent);
        while left > 0 {
            if left & 1 == 1 {
                product *= square;
            }
            square *= square;
            left >>= 1;
        }
        product
    }
}
