//! Figures in the project's unit, rounded to the side on which they do.

use files::units::{Unit, degrees};
use geometry::{Angle, Length};
use piece::piece::Piece;

/// Writes one project's figures.
#[derive(Clone, Copy)]
pub(super) struct Say {
    unit: Unit,
}

impl Say {
    pub fn of(piece: &Piece) -> Self {
        Self { unit: piece.unit }
    }

    /// To the step of a rule.
    pub fn length(self, length: Length) -> String {
        self.unit.length(length)
    }

    /// To the step of a calliper.
    pub fn fine(self, length: Length) -> String {
        self.unit.fine(length)
    }

    /// A difference: small ones to the step of a calliper.
    pub fn by(self, length: Length) -> String {
        if length.exceeds(self.unit.step() * 10.0) {
            self.length(length)
        } else {
            self.fine(length)
        }
    }

    /// The smallest figure on a rule that is not below `length`.
    pub fn at_least(self, length: Length) -> Length {
        up(length, self.unit.step())
    }

    /// The largest figure on a rule that is not above `length`.
    pub fn at_most(self, length: Length) -> Length {
        -up(-length, self.unit.step())
    }

    /// The figure on a rule that is nearest to `length`.
    pub fn nearest(self, length: Length) -> Length {
        let step = self.unit.step();
        step * (length.as_mm() / step.as_mm()).round()
    }

    /// As [`Say::at_least`] on a calliper.
    pub fn at_least_fine(self, length: Length) -> Length {
        up(length, self.fine_step())
    }

    /// As [`Say::at_most`] on a calliper.
    pub fn at_most_fine(self, length: Length) -> Length {
        -up(-length, self.fine_step())
    }

    fn fine_step(self) -> Length {
        match self.unit {
            Unit::Mm => Length::mm(0.01),
            Unit::Inch => Length::inches(0.001),
        }
    }

    /// To a tenth of a degree.
    pub fn angle(self, angle: Angle) -> String {
        degrees(angle, 1)
    }
}

/// `length` rounded up to whole steps; what rounding has added to it is not one more.
fn up(length: Length, step: Length) -> Length {
    step * (length.as_mm() / step.as_mm() - 1e-6).ceil()
}

/// A tilt rounded down to a tenth of a degree.
pub(super) fn tenth_below(angle: Angle) -> Angle {
    Angle::deg((angle.as_deg() * 10.0 + 1e-6).floor() / 10.0)
}

/// A ring's key in the project's file.
pub(super) fn ring_path(piece: &Piece, section: usize, ring: usize, key: &str) -> String {
    let settled = piece.sections.get(section).and_then(|s| s.rings.get(ring));
    match settled {
        Some(ring) => format!("{}.{key}", ring.path),
        None => format!("section[{section}].{key}"),
    }
}

/// `ring 4 (belly)`, counted through the whole piece from 1 as the plan does.
pub(super) fn ring_name(piece: &Piece, section: usize, ring: usize) -> String {
    let name = piece.sections.get(section).map_or("", |s| s.name.as_str());
    format!("ring {} ({name})", piece.ring_number(section, ring))
}

/// `ring 4` or `rings 4 to 6` of numbers that follow each other, from the first and last.
pub(super) fn rings_name(piece: &Piece, section: usize, first: usize, last: usize) -> String {
    if first == last {
        return ring_name(piece, section, first);
    }
    let name = piece.sections.get(section).map_or("", |s| s.name.as_str());
    let number = piece.ring_number(section, first);
    format!("rings {number} to {} ({name})", number + last - first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_rounded_to_the_side_that_does() {
        let mm = Say { unit: Unit::Mm };
        assert_eq!(mm.length(mm.at_least(Length::mm(31.21))), "31.3 mm");
        assert_eq!(mm.length(mm.at_most(Length::mm(31.29))), "31.2 mm");
        assert_eq!(mm.length(mm.at_least(Length::mm(31.3))), "31.3 mm");
        let inch = Say { unit: Unit::Inch };
        assert_eq!(
            inch.length(inch.at_least(Length::inches(1.001))),
            "1 1/64 in"
        );
        assert_eq!(inch.length(inch.at_most(Length::inches(0.999))), "63/64 in");
        assert_eq!(mm.by(Length::mm(0.123)), "0.12 mm");
        assert!(tenth_below(Angle::deg(23.49)).within(Angle::deg(23.4), Angle::deg(1e-9)));
        assert!(tenth_below(Angle::deg(23.4)).within(Angle::deg(23.4), Angle::deg(1e-9)));
    }
}
