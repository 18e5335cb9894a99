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

/// What turns, and how it is held: some work has a ceiling of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// Turning on a waste block.
    Turning,
    /// Sanding.
    Sanding,
    /// Held by its rim alone, in wide jaws or on a soft-faced disc.
    RimHeld,
}

impl Work {
    /// Its own ceiling in a shop, turns a minute, and what that is called.
    fn ceiling(self, lathe: &Lathe) -> Option<(&'static str, f64)> {
        match self {
            Work::Turning => None,
            Work::Sanding => Some(("sanding's fastest", *lathe.sanding_fastest)),
            Work::RimHeld => Some(("fastest while held by the rim", *lathe.rim_held_fastest)),
        }
    }
}

/// The speed never to go above, turns a minute: the band's upper end, the lathe's fastest,
/// what the jaws or faceplate allow, and the work's own ceiling, whichever is least.
pub fn limit(diameter: Length, lathe: &Lathe, work: Work) -> f64 {
    let most = lathe.jaws_fastest.unwrap_or(f64::INFINITY);
    let own = work.ceiling(lathe).map_or(f64::INFINITY, |c| c.1);
    let least = band(diameter).1.min(*lathe.fastest).min(most).min(own);
    least.max(0.0)
}

/// The two speeds as figures, neither above what the lathe and the work allow.
pub(crate) fn figures(diameter: Length, lathe: &Lathe, work: Work) -> [Figure; 2] {
    let (low, high) = band(diameter);
    let ceiling = work.ceiling(lathe);
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
        let formula = match work {
            Work::Turning => say!(
                "speed = {over}, at most the lathe's fastest; never above what the faceplate and \
                 jaws allow",
                over = over,
            ),
            Work::Sanding => say!(
                "speed = {over}, at most the lathe's fastest and sanding's own; never above what \
                 the faceplate and jaws allow",
                over = over,
            ),
            Work::RimHeld => say!(
                "speed = {over}, at most the lathe's fastest and that of work held by its rim; \
                 what is marked on the jaws wins",
                over = over,
            ),
        };
        let working = Working::new(formula, "common practice; a ceiling, never a target");
        let working = match ceiling {
            Some((name, most)) => working.with(name, Amount::Speed(most)),
            None => working,
        };
        working
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
    let most = limit(diameter, lathe, work);
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

    /// Wide or jam chucks are run at 300 to 500 rpm: common practice, as the makers of such
    /// jaws mark them.
    #[test]
    fn work_held_by_its_rim_and_sanding_have_ceilings_of_their_own() {
        let mut lathe = files::workshop::Workshop::default().lathe;
        let six_inches = Length::inches(6.0);
        let most = |lathe: &Lathe, work| {
            let all = figures(six_inches, lathe, work);
            assert!(all[0].amount.number() <= all[1].amount.number());
            all[1].amount.number().unwrap()
        };
        assert!((most(&lathe, Work::Turning) - 1500.0).abs() < 1e-9);
        let held = most(&lathe, Work::RimHeld);
        assert!((300.0..=500.0).contains(&held), "{held}");
        assert!(most(&lathe, Work::Sanding) < 1000.0);
        // What is marked on the chuck wins.
        lathe.jaws_fastest.value = Some(250.0);
        for work in [Work::Turning, Work::Sanding, Work::RimHeld] {
            assert_eq!(most(&lathe, work), 250.0);
        }
    }

    #[test]
    fn a_thin_piece_is_held_to_the_lathe() {
        let lathe = files::workshop::Workshop::default().lathe;
        for figure in figures(Length::ZERO, &lathe, Work::Turning) {
            assert_eq!(figure.amount.number(), Some(*lathe.fastest));
        }
    }
}
