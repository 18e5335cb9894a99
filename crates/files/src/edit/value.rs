//! The maker's words as a value of the file.

use crate::units::{Unit, parse_length};
use geometry::Length;
use toml_edit::{Array, Formatted, Value};

use super::asked::Words;
use crate::keys::{Quantity, Scale};

/// Which unit bare numbers are in, where they come from and where they go.
#[derive(Debug, Clone, Copy)]
pub struct Units {
    /// The page's.
    pub page: Unit,
    /// The file's.
    pub file: Unit,
}

/// Most entries of a list that the page may give.
const MOST: usize = 600;
/// Longest text that the page may give, bytes.
const LONGEST: usize = 20_000;

/// The value that words give a key; why not, if they give none. What the file's own
/// reader will refuse with a reason is let through to it.
pub fn value(quantity: Quantity, words: &Words, units: Units) -> Result<Value, String> {
    use Quantity as Q;
    match (quantity, words) {
        (_, Words::None(())) => Err("there is no value".into()),
        (Q::Length(_), Words::Number(mm)) => drag_length(*mm, units),
        (Q::Length(_), Words::Text(text)) => Ok(length(text, units)),
        (Q::Angle(_) | Q::Turn(_), Words::Number(deg)) => drag_degrees(*deg),
        (Q::Turn(_), Words::Text(text)) if text.trim() == "half" => Ok("half".into()),
        (Q::Angle(_) | Q::Turn(_), Words::Text(text)) => angle(text),
        (Q::Rings(_), Words::Text(text)) if text.trim() == "auto" => Ok("auto".into()),
        (Q::Format | Q::Count(_) | Q::Number(_) | Q::Rings(_), Words::Number(n)) => number(*n),
        (Q::Format | Q::Count(_) | Q::Number(_) | Q::Rings(_), Words::Text(text)) => plain(text),
        // A drag or an arrow step counts in the page's unit, as the blank shows it.
        (Q::Scaled(what, ..), Words::Number(n)) => measured(what, *n, units),
        (Q::Scaled(what, ..), Words::Text(text)) => {
            let bare = text.trim().trim_end_matches(what.suffix(units.page));
            match bare.trim().parse::<f64>() {
                Ok(n) => measured(what, n, units),
                Err(_) => self::text(text.trim()),
            }
        }
        (
            Q::Text(_) | Q::Saw | Q::Colour | Q::Choice(_) | Q::ListedWood | Q::Block,
            Words::Text(text),
        ) => self::text(text),
        (Q::Flag, Words::Flag(yes)) => Ok((*yes).into()),
        (Q::Flag, Words::Text(text)) => match text.trim() {
            "true" | "yes" => Ok(true.into()),
            "false" | "no" => Ok(false.into()),
            other => self::text(other),
        },
        (Q::Wood | Q::Woods(_), Words::Text(text)) => self::text(text.trim()),
        (Q::Wood | Q::Woods(_), Words::List(list)) => woods(list),
        (Q::Point(_), Words::List(list)) => point(list, units),
        (Q::Wall(points), Words::Number(_) | Words::Text(_)) => {
            value(Q::Length(points.across), words, units)
        }
        (Q::Corner, _) => Err("a corner is set with its point".into()),
        (_, Words::Text(text)) => listed(text, each_of(quantity)?, units),
        (_, Words::List(list)) => array(list, each_of(quantity)?, units),
        _ => Err("that is no value for this setting".into()),
    }
}

/// What each value of a list is.
fn each_of(list: Quantity) -> Result<Quantity, String> {
    match list {
        Quantity::Lengths(range, _) => Ok(Quantity::Length(range)),
        Quantity::Angles(_, range) => Ok(Quantity::Angle(range)),
        Quantity::Counts(range, _) => Ok(Quantity::Count(range)),
        Quantity::Points(points) | Quantity::Wall(points) => Ok(Quantity::Point(points)),
        _ => Err("that is no value for this setting".into()),
    }
}

fn finite(number: f64) -> Result<f64, String> {
    if number.is_finite() && number.abs() < 1e12 {
        Ok(number)
    } else {
        Err("that is no usable number".into())
    }
}

/// A number as people write it: `36`, `36.5`.
fn number(n: f64) -> Result<Value, String> {
    let n = finite(n)?;
    Ok(if n.fract() == 0.0 {
        // Below 1e12, so that it is an integer without loss.
        Value::from(n as i64)
    } else {
        Value::from(n)
    })
}

fn measured(what: Scale, n: f64, units: Units) -> Result<Value, String> {
    number(what.in_file(finite(n)?, units.page, units.file))
}

fn plain(text: &str) -> Result<Value, String> {
    match text.trim().parse::<f64>() {
        Ok(n) => number(n),
        Err(_) => self::text(text.trim()),
    }
}

fn text(text: &str) -> Result<Value, String> {
    if text.len() > LONGEST {
        return Err("this text is too long".into());
    }
    Ok(text.into())
}

/// A drag's degrees, to a hundredth.
pub(super) fn drag_degrees(degrees: f64) -> Result<Value, String> {
    number((finite(degrees)? * 100.0).round() / 100.0)
}

/// A drag's millimetres, rounded to what the page's unit shows and written in it.
pub(super) fn drag_length(mm: f64, units: Units) -> Result<Value, String> {
    let length = Length::mm(finite(mm)?);
    if units.page == Unit::Mm {
        let shown = (length.as_mm() * 10.0).round() / 10.0;
        return match units.file {
            Unit::Mm => number(shown),
            Unit::Inch => self::text(&format!("{shown} mm")),
        };
    }
    let bare = Unit::Inch.length_bare(length);
    Ok(self::length(&bare, units))
}

/// A length in the maker's words: a plain number where the file's unit is meant.
fn length(words: &str, units: Units) -> Value {
    let words = words.trim();
    let bare = words
        .parse::<f64>()
        .ok()
        .filter(|n| n.is_finite() && n.abs() < 1e12);
    if let Some(n) = bare {
        return if units.page == units.file {
            number(n).unwrap_or_else(|_| words.into())
        } else {
            format!("{words} {}", units.page.suffix()).into()
        };
    }
    // "79.4 mm" in a file of millimetres is plainly 79.4.
    let suffix = units.file.suffix();
    if let Some(n) = words
        .strip_suffix(suffix)
        .and_then(|n| n.trim().parse::<f64>().ok())
        && let Ok(n) = number(n)
    {
        return n;
    }
    // A fraction without a unit is the page's unit, if that is inches.
    let means = |unit| parse_length(words, unit).ok().map(Length::as_mm);
    if units.page == Unit::Inch && units.file == Unit::Mm && means(Unit::Mm).is_none() {
        return format!("{words} in").into();
    }
    words.into()
}

fn angle(words: &str) -> Result<Value, String> {
    plain(words.trim().trim_end_matches(['°', ' ']))
}

fn listed(words: &str, each: Quantity, units: Units) -> Result<Value, String> {
    let list: Vec<Words> = words
        .trim_matches(['[', ']', ' '])
        .split([',', ';'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .map(|part| Words::Text(part.into()))
        .collect();
    array(&list, each, units)
}

fn array(list: &[Words], each: Quantity, units: Units) -> Result<Value, String> {
    if list.len() > MOST {
        return Err(format!("{} entries are more than {MOST}", list.len()));
    }
    let mut out = Array::new();
    for words in list {
        out.push(value(each, words, units)?);
    }
    Ok(Value::Array(out))
}

fn length_of(words: &Words, units: Units) -> Result<Value, String> {
    match words {
        Words::Number(mm) => drag_length(*mm, units),
        Words::Text(text) => Ok(length(text, units)),
        _ => Err("that is no value for this setting".into()),
    }
}

/// A point: height, radius and perhaps `corner`.
fn point(list: &[Words], units: Units) -> Result<Value, String> {
    let (Some(height), Some(radius), true) = (list.first(), list.get(1), list.len() <= 3) else {
        return Err("a point is a height and a radius".into());
    };
    let mut out = Array::new();
    out.push(length_of(height, units)?);
    out.push(length_of(radius, units)?);
    match list.get(2) {
        Some(Words::Text(word)) if word == "corner" => out.push("corner"),
        Some(Words::Flag(true)) => out.push("corner"),
        _ => {}
    }
    Ok(Value::Array(out))
}

/// Woods round a ring, shortened to the pattern that repeats.
fn woods(list: &[Words]) -> Result<Value, String> {
    let names: Option<Vec<&str>> = list
        .iter()
        .map(|w| match w {
            Words::Text(name) => Some(name.trim()),
            _ => None,
        })
        .collect();
    let Some(names) = names.filter(|n| !n.is_empty() && n.len() <= MOST) else {
        return Err("name one wood at least".into());
    };
    let n = names.len();
    let period = (1..=n)
        .filter(|p| n.is_multiple_of(*p))
        .find(|p| (0..n).all(|i| names[i] == names[(i + p) % n]))
        .unwrap_or(n);
    if period == 1 {
        return text(names[0]);
    }
    let mut out = Array::new();
    for name in &names[..period] {
        out.push_formatted(Value::String(Formatted::new((*name).into())));
    }
    out.fmt();
    Ok(Value::Array(out))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::keys::Lengths;

    const LENGTH: Quantity = Quantity::Length(Lengths::new("a length", 0.0, 1.0));

    fn written(kind: Quantity, words: &str, page: Unit, file: Unit) -> String {
        let words = Words::Text(words.into());
        value(kind, &words, Units { page, file }).map_or_else(|e| e, |v| v.to_string())
    }

    #[test]
    fn lengths_keep_the_makers_words_and_their_unit() {
        use Unit::{Inch, Mm};
        let cases = [
            ("79.4", Mm, Mm, "79.4"),
            ("80", Mm, Mm, "80"),
            ("79.4 mm", Mm, Mm, "79.4"),
            ("3 1/8 in", Mm, Mm, "\"3 1/8 in\""),
            ("3 1/8", Inch, Mm, "\"3 1/8 in\""),
            ("3.5", Inch, Mm, "\"3.5 in\""),
            ("3 1/8", Inch, Inch, "\"3 1/8\""),
            ("79.4", Mm, Inch, "\"79.4 mm\""),
            ("3 1/8\"", Inch, Mm, "'3 1/8\"'"),
            ("wide", Mm, Mm, "\"wide\""),
        ];
        for (words, page, file, expected) in cases {
            assert_eq!(written(LENGTH, words, page, file), expected, "{words}");
        }
    }

    #[test]
    fn a_drag_is_rounded_to_what_the_page_shows() {
        let drag = |mm, page, file| {
            value(LENGTH, &Words::Number(mm), Units { page, file })
                .map_or_else(|e| e, |v| v.to_string())
        };
        assert_eq!(drag(79.4321, Unit::Mm, Unit::Mm), "79.4");
        // 3 1/8 in is 79.375 mm.
        assert_eq!(drag(79.4321, Unit::Inch, Unit::Mm), "\"3 1/8 in\"");
        assert_eq!(drag(79.4321, Unit::Inch, Unit::Inch), "\"3 1/8\"");
        assert!(drag(f64::NAN, Unit::Mm, Unit::Mm).contains("no usable"));
    }

    #[test]
    fn woods_are_shortened_to_what_repeats() {
        let words =
            |names: &[&str]| Words::List(names.iter().map(|n| Words::Text((*n).into())).collect());
        let units = Units {
            page: Unit::Mm,
            file: Unit::Mm,
        };
        let written = |names: &[&str]| {
            value(Quantity::Woods(9), &words(names), units).map_or_else(|e| e, |v| v.to_string())
        };
        assert_eq!(written(&["ash", "ash", "ash"]), "\"ash\"");
        assert_eq!(written(&["ash", "oak", "ash", "oak"]), "[\"ash\", \"oak\"]");
        assert_eq!(written(&[]), "name one wood at least");
    }
}
