//! What holds where a key is left out.

use geometry::{Angle, Length};

/// What holds where a key is left out.
#[derive(Debug, Clone, Copy)]
pub enum Usual {
    /// It must not be: why, and what to do.
    Must(&'static str, &'static str),
    /// It or its rival must be there. Meanwhile, as in a new band on the page, the figure
    /// stands in.
    OneOf(&'static str, Fixed),
    /// It must not be left out; meanwhile the figure stands in.
    Meanwhile(&'static str, &'static str, Fixed),
    /// Common practice.
    Is(Fixed),
    /// Nothing: so in words.
    Nothing(&'static str),
    /// What a key of the workshop's file says: `defaults.wood`.
    Workshop(&'static str),
    /// What the table above says: `the section's`.
    Above(&'static str),
    /// What follows from the rest: so in words.
    Follows(&'static str),
}

/// A value that stands in the table.
#[derive(Debug, Clone, Copy)]
pub enum Fixed {
    /// None.
    Nothing,
    /// A length.
    Length(Length),
    /// Lengths.
    Lengths(&'static [Length]),
    /// An angle.
    Angle(Angle),
    /// A count.
    Count(usize),
    /// A number; what has a unit of its own in each system is metric.
    Number(f64),
    /// Yes or no.
    Flag(bool),
    /// A word.
    Word(&'static str),
}

impl Fixed {
    /// The length that it is.
    pub const fn length(self) -> Option<Length> {
        match self {
            Fixed::Length(length) => Some(length),
            _ => None,
        }
    }

    /// The angle that it is.
    pub const fn angle(self) -> Option<Angle> {
        match self {
            Fixed::Angle(angle) => Some(angle),
            _ => None,
        }
    }

    /// The count that it is.
    pub const fn count(self) -> Option<usize> {
        match self {
            Fixed::Count(count) => Some(count),
            _ => None,
        }
    }

    /// The word that it is.
    pub const fn word(self) -> Option<&'static str> {
        match self {
            Fixed::Word(word) => Some(word),
            _ => None,
        }
    }
}

impl Usual {
    /// The value that stands in the table, if one does.
    pub const fn fixed(self) -> Fixed {
        match self {
            Usual::Is(fixed) | Usual::OneOf(_, fixed) | Usual::Meanwhile(_, _, fixed) => fixed,
            _ => Fixed::Nothing,
        }
    }
}

/// A length in mm that is common practice.
pub(crate) const fn mm(value: f64) -> Usual {
    Usual::Is(Fixed::Length(Length::mm(value)))
}

/// An angle in degrees that is common practice.
pub(crate) const fn degrees(value: f64) -> Usual {
    Usual::Is(Fixed::Angle(Angle::deg(value)))
}

/// A number that is common practice.
pub(crate) const fn number(value: f64) -> Usual {
    Usual::Is(Fixed::Number(value))
}

/// A count that is common practice.
pub(crate) const fn count(value: usize) -> Usual {
    Usual::Is(Fixed::Count(value))
}

/// A word that is common practice.
pub(crate) const fn word(value: &'static str) -> Usual {
    Usual::Is(Fixed::Word(value))
}

/// Yes or no by common practice.
pub(crate) const fn flag(value: bool) -> Usual {
    Usual::Is(Fixed::Flag(value))
}
