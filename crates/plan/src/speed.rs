//! The lathe's speed: a band to stay under.

use files::message::Value;
use files::say;
use files::units::Unit;
use files::workshop::Lathe;
use geometry::Length;

use crate::figure::{Amount, Figure, Working};

/// Turns a minute times inches of diameter, from where to where.
const BAND: (f64, f64) = (6000.0, 9000.0);
/// Nothing turned is thinner than this; keeps the speed finite.
const THINNEST: Length = Length::mm(1.0);

/// Speeds (start below the first, never above the second) for a diameter, turns a
/// minute: 6000 and 9000 over the diameter in inches. Common practice.
///
/// ```
/// use geometry::Length;
/// let (low, high) = plan::speed::band(Length::inches(10.0));
/// assert!((low - 600.0).abs() < 1e-9 && (high - 900.0).abs() < 1e-9);
/// ```
pub fn band(diameter: Length) -> (f64, f64) {
    let inches = diameter.max(THINNEST).as_inches();
    (BAND.0 / inches, BAND.1 / inches)
}

/// The speed never to go above, turns a minute: the band's upper end, the lathe's
/// fastest and what the jaws or faceplate allow, whichever is least.
pub fn limit(diameter: Length, lathe: &Lathe) -> f64 {
    let most = lathe.jaws_fastest.unwrap_or(f64::INFINITY);
    band(diameter).1.min(*lathe.fastest).min(most).max(0.0)
}

/// The two speeds as figures, neither above what the lathe does.
pub(crate) fn figures(diameter: Length, lathe: &Lathe) -> [Figure; 2] {
    let (low, high) = band(diameter);
    let working = |share: f64, diameter: Amount| {
        let over = Value::per_unit(|unit| match unit {
            Unit::Mm => say!(
                "{share} / diameter in millimetres",
                share = Value::Number(share * 25.4, 0),
            ),
            Unit::Inch => say!(
                "{share} / diameter in inches",
                share = Value::Number(share, 0),
            ),
        });
        Working::new(
            say!(
                "speed = {over}, at most the lathe's fastest; never above what the faceplate and \
                 jaws allow",
                over = over,
            ),
            "common practice; a ceiling, never a target",
        )
        .with("largest diameter", diameter)
        .with("lathe's fastest", Amount::Speed(*lathe.fastest))
        .with(
            "jaws' or faceplate's fastest",
            match lathe.jaws_fastest.value {
                Some(most) => Amount::Speed(most),
                None => Amount::Text("not known: see its marking".into()),
            },
        )
    };
    let most = limit(diameter, lathe);
    let cap = |speed: f64| Amount::Speed(speed.min(most));
    [
        Figure::setting(
            "speed_start",
            "start below",
            cap(low),
            working(BAND.0, Amount::Length(diameter)),
        ),
        Figure::setting(
            "speed_limit",
            "never above",
            cap(high),
            working(BAND.1, Amount::Length(diameter)),
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_band_is_that_of_the_published_cases() {
        let all: serde_json::Value =
            serde_json::from_str(include_str!("../../../reference/trade_cases.json")).unwrap();
        let case = all["cases"]
            .as_array()
            .unwrap()
            .iter()
            .find(|c| c["id"] == "lathe-speed-band")
            .unwrap();
        for i in 0..3 {
            let number = |key: &str, name: &str| case[key][name][i].as_f64().unwrap();
            let (low, high) = band(Length::inches(number("inputs", "diameter_in")));
            assert!((low - number("expected", "rpm_low")).abs() < 1e-9);
            assert!((high - number("expected", "rpm_high")).abs() < 1e-9);
        }
    }

    #[test]
    fn a_thin_piece_is_held_to_the_lathe() {
        let lathe = files::workshop::Workshop::default().lathe;
        for figure in figures(Length::ZERO, &lathe) {
            assert_eq!(figure.amount.number(), Some(*lathe.fastest));
        }
    }
}
