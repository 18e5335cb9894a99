//! A value read as a length or an angle.

use geometry::{Angle, Length};
use toml::de::DeValue;

use super::item::{Item, Number, plain};
use crate::keys::{Angles, Lengths};
use crate::units::{Unit, parse_length};

/// A figure at the end of its range stays in it when it is written in inches and read
/// again, mm.
const ROUNDING: f64 = 1e-9;

impl Item<'_> {
    /// A length within a range.
    pub fn length(&self, range: &Lengths) -> Option<Length> {
        let unit = self.log.unit();
        let length = match self.number() {
            Number::Is(number) => unit.of(number),
            Number::IsNot(what) => {
                self.trouble(what, "write a length that a rule can measure");
                return None;
            }
            Number::Other => match self.value {
                DeValue::String(text) => match parse_length(text, unit) {
                    Ok(length) => length,
                    Err(trouble) => {
                        self.trouble(&strip_quoted(&trouble.what), &trouble.remedy);
                        return None;
                    }
                },
                _ => {
                    let example = match unit {
                        Unit::Mm => "write millimetres as a number, or text such as \"3/4 in\"",
                        Unit::Inch => "write inches as a number, or text such as \"6 3/8 in\"",
                    };
                    self.trouble(&format!("this is {}, not a length", self.kind()), example);
                    return None;
                }
            },
        };
        let mm = length.as_mm();
        if mm >= range.least - ROUNDING && mm <= range.most + ROUNDING {
            return Some(length);
        }
        let bare = !matches!(self.value, DeValue::String(_));
        // Until the file has said its unit, a bare number is neither in nor out of range.
        if !bare || self.log.unit_is_known() {
            self.refuse_length(range, length, bare);
        }
        None
    }

    fn refuse_length(&self, range: &Lengths, length: Length, bare: bool) {
        let unit = self.log.unit();
        let reader = self.log.told_in();
        let show = |mm: f64| {
            if range.most <= 25.0 {
                reader.fine(Length::mm(mm))
            } else {
                reader.length(Length::mm(mm))
            }
        };
        let (least, most) = (show(range.least), show(range.most));
        let what = format!("{} is {least} to {most}", range.of);
        let (other, number) = match unit {
            Unit::Mm => (Unit::Inch, length.as_mm()),
            Unit::Inch => (Unit::Mm, length.as_inches()),
        };
        let meant = other.of(number).as_mm();
        let fits = bare && meant >= range.least && meant <= range.most;
        let remedy = if fits {
            let suffix = other.suffix();
            format!(
                "write a length in that range; if {number} {suffix} is meant, write \"{number} {suffix}\""
            )
        } else {
            "write a length in that range".into()
        };
        self.trouble(&what, &remedy);
    }

    /// An angle within a range, in degrees: a number, or text such as `"15°"`.
    pub fn angle(&self, range: &Angles) -> Option<Angle> {
        let Some(degrees) = self.degrees() else {
            self.trouble(
                &format!("this is {}, not an angle", self.kind()),
                "write degrees as a number, as in 22.5",
            );
            return None;
        };
        if degrees < range.least || degrees > range.most {
            self.trouble(
                &format!(
                    "{} is {}° to {}°",
                    range.of,
                    plain(range.least),
                    plain(range.most)
                ),
                "write degrees in that range",
            );
            return None;
        }
        Some(Angle::deg(degrees))
    }

    /// An angle in degrees, without a trouble if it is none.
    pub fn degrees(&self) -> Option<f64> {
        let degrees = match (self.number(), self.value) {
            (Number::Is(degrees), _) => Some(degrees),
            (Number::Other, DeValue::String(text)) => degrees_of(text),
            _ => None,
        };
        degrees.filter(|d| d.is_finite())
    }
}

/// What `parse_length` says begins with the text itself, which a report already shows.
fn strip_quoted(what: &str) -> String {
    match what.rsplit_once("\" ") {
        Some((_, rest)) if !rest.is_empty() && !rest.ends_with('"') => format!("this {rest}"),
        _ => what.into(),
    }
}

fn degrees_of(text: &str) -> Option<f64> {
    let text = text.trim();
    let number = ["degrees", "deg", "°"]
        .iter()
        .find_map(|unit| text.strip_suffix(unit))
        .unwrap_or(text);
    number.trim().parse().ok()
}
