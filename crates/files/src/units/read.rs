//! Lengths as a maker writes them: `6 3/8 in`, `6-3/8"`, `16.2cm`, `1 ft 2 in`.

use geometry::Length;

use super::Unit;

/// Why a text is not a length, and what to write instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unreadable {
    /// What is wrong with it.
    pub what: String,
    /// What to do about it.
    pub remedy: String,
}

/// Reads a length. A number without a unit is in `bare`.
///
/// Understands mm, cm, m, in, ft (and the words and marks for them), decimals
/// with a point, fractions (`3/8`, `6 3/8`, `6-3/8`, `6⅜`) and feet with inches.
/// A fraction without a unit is refused where `bare` is millimetres: whoever
/// writes 3/4 means inches, and a guess would be wrong by 25 times.
///
/// ```
/// use geometry::Length;
/// use files::units::{Unit, parse_length};
/// let edge = parse_length("6-3/8\"", Unit::Mm);
/// assert!(edge.is_ok_and(|e| e.within(Length::mm(161.925), Length::mm(1e-9))));
/// assert!(parse_length("6,5 mm", Unit::Mm).is_err());
/// ```
pub fn parse_length(text: &str, bare: Unit) -> Result<Length, Unreadable> {
    let mut cursor = Cursor::new(text);
    let negative = cursor.sign();
    let mut terms = vec![cursor.term(bare)?];
    while !cursor.at_end() {
        // `1 ft - 2 in` is how some write feet and inches; the dash is no sign there.
        cursor.take_if(|c| matches!(c, '-' | '–'));
        terms.push(cursor.term(bare)?);
    }
    let total = match terms.as_slice() {
        [one] => one.mm(bare),
        [feet, inches] if feet.scale == Some(FOOT) && inches.is_inches_under_12() => {
            feet.mm(bare) + inches.mm(bare)
        }
        [feet, inches] if feet.scale == Some(FOOT) && inches.scale == Some(INCH) => {
            return Err(cursor.trouble(
                "has 12 inches or more after the feet",
                "carry them over to the feet, or write it all in inches",
            ));
        }
        _ => {
            return Err(cursor.trouble(
                "is more than one length",
                "write one length, as in \"162 mm\", \"6 3/8 in\" or \"1 ft 2 in\"",
            ));
        }
    };
    if !total.is_finite() {
        return Err(cursor.trouble("is too large", "write a length that fits a shop"));
    }
    Ok(Length::mm(if negative { -total } else { total }))
}

const INCH: f64 = 25.4;
const FOOT: f64 = 304.8;

/// Unit words and marks with their millimetres, longest first where one begins another.
const WORDS: [(&str, f64); 18] = [
    ("millimetres", 1.0),
    ("millimeters", 1.0),
    ("millimetre", 1.0),
    ("millimeter", 1.0),
    ("mm", 1.0),
    ("cm", 10.0),
    ("m", 1000.0),
    ("inches", INCH),
    ("inch", INCH),
    ("in.", INCH),
    ("in", INCH),
    ("feet", FOOT),
    ("foot", FOOT),
    ("ft.", FOOT),
    ("ft", FOOT),
    ("''", INCH),
    ("″", INCH),
    ("′", FOOT),
];

struct Term {
    number: f64,
    /// Millimetres to one; `None` where no unit was written.
    scale: Option<f64>,
}

impl Term {
    fn mm(&self, bare: Unit) -> f64 {
        match self.scale {
            Some(scale) => self.number * scale,
            None => bare.of(self.number).as_mm(),
        }
    }

    fn is_inches_under_12(&self) -> bool {
        self.scale == Some(INCH) && self.number < 12.0
    }
}

struct Cursor<'a> {
    whole: &'a str,
    rest: &'a str,
}

impl<'a> Cursor<'a> {
    fn new(text: &'a str) -> Self {
        Cursor {
            whole: text.trim(),
            rest: text.trim(),
        }
    }

    fn at_end(&mut self) -> bool {
        self.skip_space();
        self.rest.is_empty()
    }

    fn skip_space(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn peek(&self) -> Option<char> {
        self.rest.chars().next()
    }

    fn take_if(&mut self, wanted: impl Fn(char) -> bool) -> bool {
        self.skip_space();
        match self.peek() {
            Some(c) if wanted(c) => {
                self.rest = &self.rest[c.len_utf8()..];
                true
            }
            _ => false,
        }
    }

    fn sign(&mut self) -> bool {
        // U+2212 is the typographic minus.
        if self.take_if(|c| c == '-' || c == '−') {
            return true;
        }
        self.take_if(|c| c == '+');
        false
    }

    fn digits(&mut self) -> &'a str {
        let end = self
            .rest
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.rest.len());
        let (digits, rest) = self.rest.split_at(end);
        self.rest = rest;
        digits
    }

    fn trouble(&self, what: &str, remedy: &str) -> Unreadable {
        // A file may hold a megabyte between two quotes; a report need not.
        let shown: String = self.whole.chars().take(40).collect();
        let dots = if shown.len() < self.whole.len() {
            "…"
        } else {
            ""
        };
        Unreadable {
            what: format!("\"{shown}{dots}\" {what}"),
            remedy: remedy.into(),
        }
    }

    fn term(&mut self, bare: Unit) -> Result<Term, Unreadable> {
        let (number, fraction) = self.number()?;
        let scale = self.unit()?;
        if fraction && scale.is_none() && bare == Unit::Mm {
            return Err(self.trouble(
                "is a fraction without a unit, and this file is in millimetres",
                "write the unit, as in \"3/4 in\", or millimetres with a decimal point",
            ));
        }
        Ok(Term { number, scale })
    }

    /// A decimal, a fraction, or a whole number with a fraction; was there a fraction?
    fn number(&mut self) -> Result<(f64, bool), Unreadable> {
        self.skip_space();
        let start = self.rest;
        let first = self.digits();
        if let Some(',') = self.peek() {
            return Err(self.trouble(
                "has a comma",
                "write decimals with a point, as in 6.5, and thousands without a mark",
            ));
        }
        if self.peek() == Some('.') {
            self.rest = &self.rest[1..];
            let decimals = self.digits();
            if first.is_empty() && decimals.is_empty() {
                return Err(self.not_a_length());
            }
            if matches!(self.peek(), Some('.' | ',')) {
                return Err(self.trouble(
                    "has more than one decimal mark",
                    "write decimals with one point, and thousands without a mark",
                ));
            }
            let text = &start[..start.len() - self.rest.len()];
            let value = text.parse().map_err(|_| self.not_a_length())?;
            if fraction_character(self.peek()).is_some() || self.peek() == Some('/') {
                return Err(self.trouble(
                    "mixes a decimal with a fraction",
                    "write one or the other, as in 6.375 or 6 3/8",
                ));
            }
            return Ok((value, false));
        }
        if first.is_empty() {
            return match self.character()? {
                Some(part) => Ok((part, true)),
                None => Err(self.not_a_length()),
            };
        }
        let value: f64 = first.parse().map_err(|_| self.not_a_length())?;
        if matches!(self.peek(), Some('/' | '⁄')) {
            return Ok((self.over(value)?, true));
        }
        if let Some(part) = self.character()? {
            return Ok((value + part, true));
        }
        let before = self.rest;
        if let Some(part) = self.second_part()? {
            return Ok((value + part, true));
        }
        self.rest = before;
        Ok((value, false))
    }

    /// `3/8` after a whole number and a space or a dash; anything else is left alone.
    fn second_part(&mut self) -> Result<Option<f64>, Unreadable> {
        self.take_if(|c| matches!(c, '-' | '–'));
        self.skip_space();
        if let Some(part) = self.character()? {
            return Ok(Some(part));
        }
        let top = self.digits();
        if top.is_empty() || !matches!(self.peek(), Some('/' | '⁄')) {
            return Ok(None);
        }
        let top: f64 = top.parse().map_err(|_| self.not_a_length())?;
        let part = self.over(top)?;
        if part >= 1.0 {
            return Err(self.trouble(
                "has a fraction of one or more after a whole number",
                "carry it over: 6 9/8 is 7 1/8",
            ));
        }
        Ok(Some(part))
    }

    /// The rest of a fraction whose top is `top`.
    fn over(&mut self, top: f64) -> Result<f64, Unreadable> {
        // Both slashes were seen by the caller.
        self.take_if(|c| matches!(c, '/' | '⁄'));
        let bottom: f64 = self.digits().parse().map_err(|_| {
            self.trouble(
                "is a fraction without its lower half",
                "write it in full, as in 3/8",
            )
        })?;
        if bottom == 0.0 {
            return Err(self.trouble("divides by nothing", "write a fraction such as 3/8"));
        }
        if matches!(self.peek(), Some('/' | '.' | ',')) {
            return Err(self.not_a_length());
        }
        Ok(top / bottom)
    }

    fn character(&mut self) -> Result<Option<f64>, Unreadable> {
        let Some(part) = fraction_character(self.peek()) else {
            return Ok(None);
        };
        self.take_if(|_| true);
        Ok(Some(part))
    }

    fn unit(&mut self) -> Result<Option<f64>, Unreadable> {
        self.skip_space();
        for (word, scale) in WORDS {
            let Some(head) = self.rest.get(..word.len()) else {
                continue;
            };
            if !head.eq_ignore_ascii_case(word) {
                continue;
            }
            let rest = &self.rest[word.len()..];
            if word.ends_with(char::is_alphabetic)
                && rest.chars().next().is_some_and(char::is_alphabetic)
            {
                continue;
            }
            self.rest = rest;
            return Ok(Some(scale));
        }
        match self.peek() {
            Some('"' | '”' | '“' | '„') => {
                self.take_if(|_| true);
                Ok(Some(INCH))
            }
            Some('\'' | '’' | '‘') => {
                self.take_if(|_| true);
                // Two typographic single quotes stand for one double quote.
                if self.peek().is_some_and(|c| matches!(c, '’' | '‘' | '\'')) {
                    self.take_if(|_| true);
                    return Ok(Some(INCH));
                }
                Ok(Some(FOOT))
            }
            Some(c) if c.is_alphabetic() => {
                let word: String = self
                    .rest
                    .chars()
                    .take_while(|c| c.is_alphabetic())
                    .take(20)
                    .collect();
                Err(self.trouble(
                    &format!("has an unknown unit \"{word}\""),
                    "use mm, cm, m, in or ft",
                ))
            }
            Some(',') => Err(self.trouble(
                "has a comma",
                "write decimals with a point, as in 6.5, and one length only",
            )),
            _ => Ok(None),
        }
    }

    fn not_a_length(&self) -> Unreadable {
        self.trouble(
            "is not a length",
            "write a number with a unit, as in \"162 mm\" or \"6 3/8 in\"",
        )
    }
}

fn fraction_character(c: Option<char>) -> Option<f64> {
    let (top, bottom) = match c? {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        _ => return None,
    };
    Some(top / bottom)
}
