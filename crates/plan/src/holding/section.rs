//! The section that is left to hold.

use geometry::Portable;
use std::f64::consts::PI;

use geometry::Length;

use super::beam::Root;

/// A circle with a round hole in its middle: what is left of a joint when a recess or
/// an inset has been cut into it.
#[derive(Debug, Clone, Copy)]
pub struct Annulus {
    /// Diameter outside, mm.
    pub outside: f64,
    /// Diameter of the hole, mm.
    pub inside: f64,
    /// Share of it that is glued; 1 where nothing stands open.
    pub glued: f64,
}

impl Annulus {
    /// From two diameters; a hole that is no smaller leaves nothing.
    pub fn new(outside: Length, inside: Length) -> Self {
        Self {
            outside: outside.as_mm().max(0.0),
            inside: inside.as_mm().clamp(0.0, outside.as_mm().max(0.0)),
            glued: 1.0,
        }
    }

    /// The same of which a share is glued, in three or more parts alike and evenly round it:
    /// area and section modulus are that share of the whole's, for such parts bend alike in
    /// every direction (second moments of figures with threefold or higher symmetry).
    #[must_use]
    pub fn with_gaps(self, glued: f64) -> Self {
        Self { glued, ..self }
    }

    /// Its area, mm².
    pub fn area(&self) -> f64 {
        PI / 4.0 * (self.outside.to_the(2) - self.inside.to_the(2)) * self.glued
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
        PI / 32.0 * (self.outside.to_the(4) - self.inside.to_the(4)) / self.outside * self.glued
    }

    /// How much more than its mean the largest stress of a shear force is:
    /// 4/3 · (D² + D d + d²)/(D² + d²) (strength of materials; 4/3 for a full circle, 2 for a
    /// thin ring).
    pub fn shear_peak(&self) -> f64 {
        let (a, b) = (self.outside, self.inside);
        4.0 / 3.0 * (a * a + a * b + b * b) / (a * a + b * b).max(1e-12)
    }

    /// The largest stresses, N/mm², of all that a section has to bear, taken as if they met
    /// at one point; nothing where nothing is left.
    ///
    /// Pull: M/W + N/A. Shear: T/(2W) + V/A times [`Annulus::shear_peak`]; a circle's section
    /// modulus in torsion is twice that in bending (strength of materials).
    pub fn stress(&self, root: &Root) -> Option<Stress> {
        let (modulus, area) = (self.modulus(), self.area());
        (modulus > 0.0 && area > 0.0).then(|| Stress {
            pull: root.moment / modulus + root.pull / area,
            shear: root.torque / (2.0 * modulus) + self.shear_peak() * root.shear / area,
        })
    }
}

/// Stresses at a joint, N/mm².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stress {
    /// Square to the joint.
    pub pull: f64,
    /// Along it.
    pub shear: f64,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twelve sectors of 5.4° summed in small areas: the second moment about any line through
    /// the middle is the sectors' share of the ring's.
    #[test]
    fn parts_evenly_round_a_ring_bend_as_their_share_of_it() {
        let (outer, inner, filled) = (78.0_f64, 62.0_f64, 5.4 / 30.0);
        let ring = Annulus::new(Length::mm(2.0 * outer), Length::mm(2.0 * inner));
        let parts = ring.with_gaps(filled);
        for about in [0.0_f64, 0.1, 0.7] {
            let (steps, mut second) = (200, 0.0);
            for k in 0..12 {
                for i in 0..steps {
                    let a = (f64::from(k) * 30.0 + 5.4 * (f64::from(i) + 0.5) / f64::from(steps)
                        - 2.7)
                        .to_radians();
                    let da = 5.4_f64.to_radians() / f64::from(steps);
                    // r² sin² over r dr, from the inner to the outer radius.
                    let radial = (outer.powi(4) - inner.powi(4)) / 4.0;
                    second += radial * (a - about).sin().powi(2) * da;
                }
            }
            assert!(
                (second / outer / parts.modulus() - 1.0).abs() < 1e-6,
                "{about}"
            );
        }
        assert!((parts.area() / ring.area() - filled).abs() < 1e-12);
    }

    fn sheared(of: &Annulus, shear: f64) -> f64 {
        let root = Root {
            shear,
            ..Root::default()
        };
        of.stress(&root).unwrap().shear
    }

    #[test]
    fn a_full_circle_is_bent_and_turned_as_in_the_handbooks() {
        let whole = Annulus::new(Length::mm(75.0), Length::ZERO);
        let root = Root {
            moment: 1e4,
            torque: 1e4,
            ..Root::default()
        };
        let stress = whole.stress(&root).unwrap();
        // 32 M/(π d³) and 16 T/(π d³).
        let cubed = PI * 75.0_f64.powi(3);
        assert!((stress.pull - 32e4 / cubed).abs() < 1e-12);
        assert!((stress.shear - 16e4 / cubed).abs() < 1e-12);
    }

    #[test]
    fn shear_is_four_thirds_in_a_circle_and_twice_in_a_thin_ring() {
        let mm = Length::mm;
        let whole = Annulus::new(mm(80.0), Length::ZERO);
        assert!((sheared(&whole, 100.0) * whole.area() / 100.0 - 4.0 / 3.0).abs() < 1e-12);
        let thin = Annulus::new(mm(80.0), mm(79.99));
        assert!((sheared(&thin, 100.0) * thin.area() / 100.0 - 2.0).abs() < 1e-3);
    }

    #[test]
    fn nothing_left_bears_nothing() {
        let none = Annulus::new(Length::mm(60.0), Length::mm(90.0));
        assert!(none.stress(&Root::default()).is_none());
        assert_eq!(Annulus::new(Length::ZERO, Length::ZERO).modulus(), 0.0);
    }
}
