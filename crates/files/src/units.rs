//! How a maker reads and writes lengths, weights and the rest.
//!
//! Everything is held in millimetres; a [`Unit`] says only how it is shown and
//! what a bare number in a file means. A text in one unit never holds another.

mod read;

use std::fmt;

use geometry::{Angle, Length};

use crate::keys::{Word, Words};

pub use read::{Unreadable, parse_length};

/// Cubic millimetres in a cubic inch (25.4 mm to the inch, 1959).
const MM3_PER_IN3: f64 = 25.4 * 25.4 * 25.4;
/// Cubic millimetres in a US fluid ounce: 1/128 of a gallon of 231 in³.
pub const MM3_PER_FL_OZ: f64 = MM3_PER_IN3 * 231.0 / 128.0;
/// Newtons in a pound of force: 0.45359237 kg x 9.80665 m/s², by definition of both.
pub const NEWTONS_PER_LBF: f64 = 4.448_221_615_260_5;
/// Grams in an avoirdupois ounce (international pound of 0.45359237 kg, 1959).
const G_PER_OZ: f64 = 28.349_523_125;
/// Above this a figure is no shop quantity any more and is written with an exponent.
const HUGE: f64 = 1e9;

/// The unit a maker reads and writes in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches, with fractions to 1/64.
    Inch,
}

impl Words for Unit {
    const ALL: &'static [Unit] = &[Unit::Mm, Unit::Inch];
    const WORDS: &'static [Word] = &[
        Word {
            word: "mm",
            label: Unit::Mm.label(),
        },
        Word {
            word: "inch",
            label: Unit::Inch.label(),
        },
    ];
}

impl Unit {
    /// The words for it in a file.
    pub const WORDS: &'static [Word] = <Unit as Words>::WORDS;

    /// What a person calls it: `millimetres`, `inches`.
    pub const fn label(self) -> &'static str {
        match self {
            Unit::Mm => "millimetres",
            Unit::Inch => "inches",
        }
    }

    /// The word for it in a file: `mm` or `inch`.
    pub const fn word(self) -> &'static str {
        match self {
            Unit::Mm => "mm",
            Unit::Inch => "inch",
        }
    }

    /// What stands behind a figure: `mm` or `in`.
    pub const fn suffix(self) -> &'static str {
        match self {
            Unit::Mm => "mm",
            Unit::Inch => "in",
        }
    }

    /// A bare number in this unit as a length.
    pub const fn of(self, number: f64) -> Length {
        match self {
            Unit::Mm => Length::mm(number),
            Unit::Inch => Length::inches(number),
        }
    }

    /// A length as a bare number in this unit.
    pub const fn number(self, length: Length) -> f64 {
        match self {
            Unit::Mm => length.as_mm(),
            Unit::Inch => length.as_inches(),
        }
    }

    /// A length for the bench: to 0.1 mm, or as a fraction to 1/64 in.
    ///
    /// ```
    /// use geometry::Length;
    /// use files::units::Unit;
    /// assert_eq!(Unit::Mm.length(Length::mm(162.04)), "162.0 mm");
    /// assert_eq!(Unit::Inch.length(Length::inches(6.375)), "6 3/8 in");
    /// assert_eq!(Unit::Inch.length(Length::inches(0.999)), "1 in");
    /// ```
    pub fn length(self, length: Length) -> String {
        format!("{} {}", self.length_bare(length), self.suffix())
    }

    /// As [`Unit::length`] but without the unit, for a table whose head names it.
    pub fn length_bare(self, length: Length) -> String {
        match self {
            Unit::Mm => fixed(length.as_mm(), 1),
            Unit::Inch => sixty_fourths(length.as_inches()),
        }
    }

    /// A length for a machine's scale, a kerf or a glue line: to 0.01 mm or 0.001 in.
    ///
    /// ```
    /// use geometry::Length;
    /// use files::units::Unit;
    /// assert_eq!(Unit::Mm.fine(Length::mm(1.254)), "1.25 mm");
    /// assert_eq!(Unit::Inch.fine(Length::mm(1.2)), "0.047 in");
    /// ```
    pub fn fine(self, length: Length) -> String {
        format!("{} {}", self.fine_bare(length), self.suffix())
    }

    /// As [`Unit::fine`] but without the unit.
    pub fn fine_bare(self, length: Length) -> String {
        match self {
            Unit::Mm => fixed(length.as_mm(), 2),
            Unit::Inch => fixed(length.as_inches(), 3),
        }
    }

    /// The smallest step that [`Unit::length`] shows: 0.1 mm or 1/64 in.
    pub const fn step(self) -> Length {
        match self {
            Unit::Mm => Length::mm(0.1),
            Unit::Inch => Length::inches(1.0 / 64.0),
        }
    }

    /// The smallest step that [`Unit::fine`] shows: 0.01 mm or 0.001 in.
    pub const fn fine_step(self) -> Length {
        match self {
            Unit::Mm => Length::mm(0.01),
            Unit::Inch => Length::inches(0.001),
        }
    }

    /// An area given in mm²: cm² or in².
    pub fn area(self, mm2: f64) -> String {
        match self {
            Unit::Mm => format!("{} cm²", fixed(mm2 / 100.0, 1)),
            Unit::Inch => format!("{} in²", fixed(mm2 / (25.4 * 25.4), 1)),
        }
    }

    /// A volume of wood given in mm³: cm³ or in³.
    pub fn volume(self, mm3: f64) -> String {
        match self {
            Unit::Mm => format!("{} cm³", fixed(mm3 / 1000.0, 1)),
            Unit::Inch => format!("{} in³", fixed(mm3 / MM3_PER_IN3, 1)),
        }
    }

    /// A force given in newtons: N, or pounds of force.
    ///
    /// ```
    /// use files::units::Unit;
    /// assert_eq!(Unit::Mm.force(100.0), 100.0);
    /// assert_eq!(Unit::Inch.force(4.4482216152605), 1.0);
    /// ```
    pub fn force(self, newtons: f64) -> f64 {
        match self {
            Unit::Mm => newtons,
            Unit::Inch => newtons / NEWTONS_PER_LBF,
        }
    }

    /// Newtons, from N or pounds of force.
    pub fn newtons(self, force: f64) -> f64 {
        match self {
            Unit::Mm => force,
            Unit::Inch => force * NEWTONS_PER_LBF,
        }
    }

    /// A temperature given in °C: °C, or °F.
    ///
    /// ```
    /// use files::units::Unit;
    /// assert_eq!(Unit::Inch.temperature(100.0), 212.0);
    /// assert_eq!(Unit::Inch.celsius(-40.0), -40.0);
    /// ```
    pub fn temperature(self, celsius: f64) -> f64 {
        match self {
            Unit::Mm => celsius,
            Unit::Inch => celsius * 1.8 + 32.0,
        }
    }

    /// °C, from °C or °F.
    pub fn celsius(self, temperature: f64) -> f64 {
        match self {
            Unit::Mm => temperature,
            Unit::Inch => (temperature - 32.0) / 1.8,
        }
    }

    /// What a vessel holds, given in mm³: ml, or US fluid ounces.
    ///
    /// ```
    /// use files::units::Unit;
    /// assert_eq!(Unit::Mm.capacity(450_000.0), "450 ml");
    /// assert_eq!(Unit::Inch.capacity(16.387064e3 * 231.0), "128.0 US fl oz");
    /// assert_eq!(Unit::Inch.capacity(300.0), "0.01 US fl oz");
    /// ```
    pub fn capacity(self, mm3: f64) -> String {
        match self {
            Unit::Mm => {
                let ml = mm3 / 1000.0;
                format!("{} ml", fixed(ml, usize::from(ml.abs() < 99.95)))
            }
            Unit::Inch => {
                let oz = mm3 / MM3_PER_FL_OZ;
                format!("{} US fl oz", fixed(oz, 1 + usize::from(oz.abs() < 0.995)))
            }
        }
    }

    /// A weight given in grams: g and kg, or oz and lb.
    ///
    /// ```
    /// use files::units::Unit;
    /// assert_eq!(Unit::Mm.weight(1250.0), "1.25 kg");
    /// assert_eq!(Unit::Inch.weight(453.59237), "1 lb 0.0 oz");
    /// ```
    pub fn weight(self, grams: f64) -> String {
        if !grams.is_finite() {
            return UNKNOWN.into();
        }
        match self {
            Unit::Mm if grams.abs() < 999.5 => {
                format!("{} g", fixed(grams, usize::from(grams.abs() < 99.95)))
            }
            Unit::Mm => format!("{} kg", fixed(grams / 1000.0, 2)),
            Unit::Inch => {
                let tenths = (grams / G_PER_OZ * 10.0).round();
                if tenths.abs() < 160.0 {
                    return format!("{} oz", fixed(tenths / 10.0, 1));
                }
                if tenths.abs() > HUGE {
                    return format!("{:.2e} lb", grams / G_PER_OZ / 16.0);
                }
                let sign = if tenths < 0.0 { "-" } else { "" };
                let pounds = (tenths.abs() / 160.0).floor();
                let ounces = (tenths.abs() - pounds * 160.0) / 10.0;
                format!("{sign}{pounds:.0} lb {ounces:.1} oz")
            }
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// An angle in degrees with `places` decimals: 1 for a protractor, 2 for a set-up block.
///
/// ```
/// use geometry::Angle;
/// use files::units::degrees;
/// assert_eq!(degrees(Angle::deg(14.999), 2), "15.00°");
/// ```
pub fn degrees(angle: Angle, places: usize) -> String {
    format!("{}°", fixed(angle.as_deg(), places))
}

/// Written in place of a figure that could not be worked out.
const UNKNOWN: &str = "unknown";

/// A number with fixed decimals; never `-0.0`, never a 300-digit figure.
pub fn fixed(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return UNKNOWN.into();
    }
    if value.abs() >= HUGE {
        return format!("{value:.3e}");
    }
    let text = format!("{value:.places$}");
    let nothing_left = text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
    match text.strip_prefix('-') {
        Some(rest) if nothing_left => rest.into(),
        _ => text,
    }
}

/// Inches as a whole number and a reduced fraction to 1/64.
fn sixty_fourths(inches: f64) -> String {
    if !inches.is_finite() {
        return UNKNOWN.into();
    }
    if inches.abs() >= HUGE {
        return format!("{inches:.3e}");
    }
    // Below HUGE the count of 64ths fits a u64 exactly.
    let count = (inches.abs() * 64.0).round() as u64;
    let sign = if inches < 0.0 && count > 0 { "-" } else { "" };
    let (whole, part) = (count / 64, count % 64);
    if part == 0 {
        return format!("{sign}{whole}");
    }
    // `part` is 1..=63, so at most five halvings are needed.
    let halvings = part.trailing_zeros();
    let (top, bottom) = (part >> halvings, 64 >> halvings);
    if whole == 0 {
        format!("{sign}{top}/{bottom}")
    } else {
        format!("{sign}{whole} {top}/{bottom}")
    }
}
