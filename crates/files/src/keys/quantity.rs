//! What a key takes: a length, a count, one of a few words, a table of further keys.

use super::{KeyTable, Scale};

/// A length from `least` to `most`, both in mm.
#[derive(Debug, Clone, Copy)]
pub struct Lengths {
    /// What is measured, as a refusal begins: `a board's thickness`.
    pub of: &'static str,
    /// Least, mm.
    pub least: f64,
    /// Most, mm.
    pub most: f64,
    /// Read off a calliper, not a rule.
    pub fine: bool,
}

impl Lengths {
    /// A length that is read off a rule.
    pub const fn new(of: &'static str, least: f64, most: f64) -> Self {
        Lengths {
            of,
            least,
            most,
            fine: false,
        }
    }

    /// A length that is read off a calliper.
    pub const fn fine(of: &'static str, least: f64, most: f64) -> Self {
        Lengths {
            fine: true,
            ..Lengths::new(of, least, most)
        }
    }
}

/// An angle from `least` to `most`, both in degrees.
#[derive(Debug, Clone, Copy)]
pub struct Angles {
    /// What is measured.
    pub of: &'static str,
    /// Least, degrees.
    pub least: f64,
    /// Most, degrees.
    pub most: f64,
}

impl Angles {
    /// An angle within a range.
    pub const fn new(of: &'static str, least: f64, most: f64) -> Self {
        Angles { of, least, most }
    }
}

/// A count from `least` to `most`.
#[derive(Debug, Clone, Copy)]
pub struct Counts {
    /// The whole sentence: `a ring needs 3 to 144 segments`.
    pub rule: &'static str,
    /// Fewest.
    pub least: usize,
    /// Most.
    pub most: usize,
}

impl Counts {
    /// A count within a range.
    pub const fn new(rule: &'static str, least: usize, most: usize) -> Self {
        Counts { rule, least, most }
    }
}

/// A bare number from `least` to `most`.
#[derive(Debug, Clone, Copy)]
pub struct Numbers {
    /// What it is: `a cure`.
    pub of: &'static str,
    /// What it counts, in words: `hours`.
    pub in_what: &'static str,
    /// The same beside a figure: `h`.
    pub sign: &'static str,
    /// Least.
    pub least: f64,
    /// Most.
    pub most: f64,
}

impl Numbers {
    /// A number within a range.
    pub const fn new(
        of: &'static str,
        (in_what, sign): (&'static str, &'static str),
        least: f64,
        most: f64,
    ) -> Self {
        Numbers {
            of,
            in_what,
            sign,
            least,
            most,
        }
    }
}

/// One of a few words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word {
    /// As the file has it.
    pub word: &'static str,
    /// As the page says it.
    pub label: &'static str,
}

/// What a key takes.
#[derive(Debug, Clone, Copy)]
pub enum Quantity {
    /// The number of the file's format.
    Format,
    /// A length.
    Length(Lengths),
    /// An angle.
    Angle(Angles),
    /// An angle, or `half` a segment.
    Turn(Angles),
    /// A count.
    Count(Counts),
    /// A count, or `auto`.
    Rings(Counts),
    /// A number.
    Number(Numbers),
    /// What has a unit of its own in each system: its range in metric, and in an inch file.
    Scaled(Scale, Numbers, Numbers),
    /// Yes or no.
    Flag,
    /// Words, so many characters at most.
    Text(usize),
    /// The name of a saw of the workshop.
    Saw,
    /// What a part of the piece is told by, whatever its name and place.
    Id,
    /// `#rrggbb`.
    Colour,
    /// One of a few words.
    Choice(&'static [Word]),
    /// A wood of the list.
    ListedWood,
    /// A wood of the list or the project's own.
    Wood,
    /// Woods repeated round, so many at most.
    Woods(usize),
    /// A panel or a wood of the list.
    Block,
    /// A list of lengths, so many at most.
    Lengths(Lengths, usize),
    /// A list of angles: how many, and each.
    Angles(Counts, Angles),
    /// A list of counts, so many at most.
    Counts(Counts, usize),
    /// A point's `corner`, or nothing.
    Corner,
    /// A point: height, radius and perhaps `corner`; or a height and a wall's thickness.
    Point(&'static Points),
    /// A list of points.
    Points(&'static Points),
    /// A wall: one length, or a list of heights and thicknesses.
    Wall(&'static Points),
    /// A table of keys under its own heading, or in braces.
    Table(&'static KeyTable),
    /// Tables of keys, each under its own heading; so many at most.
    Tables(&'static KeyTable, usize),
    /// Tables of keys, each under a name of the maker's.
    Named(&'static KeyTable),
}

/// What the entries of a curve are.
#[derive(Debug)]
pub struct Points {
    /// The curve in words: `the outside`.
    pub of: &'static str,
    /// First figure.
    pub height: Lengths,
    /// Second figure: a radius, or a thickness.
    pub across: Lengths,
    /// What the second figure is called.
    pub across_label: &'static str,
    /// May an entry be a corner?
    pub corners: bool,
    /// Fewest entries.
    pub least: usize,
    /// Most entries.
    pub most: usize,
}

impl Quantity {
    /// What an entry of a list takes; nothing where this is no list.
    pub fn entry(self, at: usize) -> Option<Quantity> {
        Some(match self {
            Quantity::Points(points) | Quantity::Wall(points) => Quantity::Point(points),
            Quantity::Point(points) => match at {
                0 => Quantity::Length(points.height),
                1 => Quantity::Length(points.across),
                2 if points.corners => Quantity::Corner,
                _ => return None,
            },
            Quantity::Tables(table, _) => Quantity::Table(table),
            _ => return None,
        })
    }

    /// Its keys, where it is a table of keys or a list of such.
    pub fn table(self) -> Option<&'static KeyTable> {
        match self {
            Quantity::Table(table) | Quantity::Tables(table, _) | Quantity::Named(table) => {
                Some(table)
            }
            _ => None,
        }
    }
}
