//! How a wood is drawn: a colour, a hatch for black and white, a letter.

use geometry::Portable;
use std::fmt;

use serde::{Serialize, Serializer};

/// An sRGB colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

impl Colour {
    /// The brown of a wood that nothing is known of.
    pub const UNDYED: Colour = Colour {
        red: 0xb8,
        green: 0x90,
        blue: 0x66,
    };

    /// Reads `#rrggbb`, as in a project's file.
    ///
    /// ```
    /// use files::wood::Colour;
    /// assert_eq!(Colour::parse("#5b4032").map(|c| c.red), Some(0x5b));
    /// assert_eq!(Colour::parse("brown"), None);
    /// ```
    pub fn parse(text: &str) -> Option<Colour> {
        let digits = text.strip_prefix('#')?;
        if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
            return None;
        }
        let part = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).ok();
        Some(Colour {
            red: part(0)?,
            green: part(2)?,
            blue: part(4)?,
        })
    }

    /// How light it looks, 0 (black) to 1 (white): relative luminance of sRGB
    /// (IEC 61966-2-1, weights of ITU-R BT.709; from memory).
    pub fn luminance(self) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.040_45 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).power(2.4)
            }
        };
        0.2126 * linear(self.red) + 0.7152 * linear(self.green) + 0.0722 * linear(self.blue)
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

impl Serialize for Colour {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// A pattern that stands for a wood where there is no colour; darker woods get denser ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hatch {
    /// Nothing.
    Blank,
    /// Sparse dots.
    Dots,
    /// Lines one way.
    Lines,
    /// Lines both ways.
    Crossed,
    /// Filled.
    Filled,
}

impl Hatch {
    /// The pattern as dark as the colour.
    pub fn for_colour(colour: Colour) -> Hatch {
        // Steps chosen so that maple, ash, cherry, walnut and ebony all differ.
        match colour.luminance() {
            l if l > 0.62 => Hatch::Blank,
            l if l > 0.35 => Hatch::Dots,
            l if l > 0.12 => Hatch::Lines,
            l if l > 0.03 => Hatch::Crossed,
            _ => Hatch::Filled,
        }
    }
}

/// A letter for each name, all different: its own first free letter, else the next
/// free one of the alphabet. Past 36 names they are numbered `#`.
///
/// ```
/// assert_eq!(files::wood::letters(&["walnut", "wenge", "ash"]), ['W', 'E', 'A']);
/// ```
pub fn letters<S: AsRef<str>>(names: &[S]) -> Vec<char> {
    let mut taken: Vec<char> = Vec::with_capacity(names.len());
    for name in names {
        let own = name
            .as_ref()
            .chars()
            .filter(char::is_ascii_alphabetic)
            .map(|c| c.to_ascii_uppercase());
        let letter = own
            .chain('A'..='Z')
            .chain('0'..='9')
            .find(|c| !taken.contains(c))
            .unwrap_or('#');
        taken.push(letter);
    }
    taken
}
