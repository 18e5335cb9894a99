//! The section that is left to hold.

use geometry::Portable;
use std::f64::consts::PI;

use geometry::Length;

/// A circle with a round hole in its middle: what is left of a joint when a recess or
/// an inset has been cut into it.
#[derive(Debug, Clone, Copy)]
pub struct Annulus {
    /// Diameter outside, mm.
    pub outside: f64,
    /// Diameter of the hole, mm.
    pub inside: f64,
}

impl Annulus {
    /// From two diameters; a hole that is no smaller leaves nothing.
    pub fn new(outside: Length, inside: Length) -> Self {
        Self {
            outside: outside.as_mm().max(0.0),
            inside: inside.as_mm().clamp(0.0, outside.as_mm().max(0.0)),
        }
    }

    /// Its area, mm².
    pub fn area(&self) -> f64 {
        PI / 4.0 * (self.outside.to_the(2) - self.inside.to_the(2))
    }

    /// Section modulus π/32 · (D⁴ − d⁴)/D, mm³ (strength of materials).
    ///
    /// ```
    /// use geometry::Length;
    /// use plan::holding::Annulus;
    /// let whole = Annulus::new(Length::mm(100.0), Length::ZERO);
    /// let cut = Annulus::new(Length::mm(100.0), Length::mm(70.0));
    /// // A hole of 70 % of the diameter takes 0.7⁴ = 24 % of what bends.
    /// assert!((cut.modulus() / whole.modulus() - 0.7599).abs() < 1e-9);
    /// ```
    pub fn modulus(&self) -> f64 {
        if self.outside <= 0.0 {
            return 0.0;
        }
        PI / 32.0 * (self.outside.to_the(4) - self.inside.to_the(4)) / self.outside
    }

    /// Largest stress of a bending moment (N·mm), N/mm²; nothing where nothing is left.
    pub fn bending(&self, moment: f64) -> Option<f64> {
        let modulus = self.modulus();
        (modulus > 0.0).then(|| moment / modulus)
    }

    /// Largest stress of a shear force (N), N/mm²: 4/3 · V/A · (D² + D d + d²)/(D² + d²)
    /// (strength of materials; 4/3 of the mean for a full circle, 2 for a thin ring).
    pub fn shear(&self, force: f64) -> Option<f64> {
        let (a, b) = (self.outside, self.inside);
        let area = self.area();
        (area > 0.0).then(|| 4.0 / 3.0 * force / area * (a * a + a * b + b * b) / (a * a + b * b))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shear_is_four_thirds_in_a_circle_and_twice_in_a_thin_ring() {
        let mm = Length::mm;
        let whole = Annulus::new(mm(80.0), Length::ZERO);
        assert!((whole.shear(100.0).unwrap() * whole.area() / 100.0 - 4.0 / 3.0).abs() < 1e-12);
        let thin = Annulus::new(mm(80.0), mm(79.99));
        assert!((thin.shear(100.0).unwrap() * thin.area() / 100.0 - 2.0).abs() < 1e-3);
    }

    #[test]
    fn nothing_left_bears_nothing() {
        let none = Annulus::new(Length::mm(60.0), Length::mm(90.0));
        assert!(none.bending(1.0).is_none() && none.shear(1.0).is_none());
        assert_eq!(Annulus::new(Length::ZERO, Length::ZERO).modulus(), 0.0);
    }
}
