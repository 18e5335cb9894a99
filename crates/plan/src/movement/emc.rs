//! The moisture that wood comes to in an air.

use files::workshop::Air;
use geometry::Length;

/// Equilibrium moisture content, percent of the dry weight (Wood Handbook eq. 4-5, the
/// coefficients in °C).
///
/// A later fit of the same data (2014) differs by about half a point indoors: that much
/// is uncertain. Humidity is held between 0 and 100 %, temperature between -20 and 100 °C.
///
/// ```
/// use files::workshop::Air;
/// // Table 4-2 at 70 °F and 50 %: 9.2.
/// let air = Air { humidity: 50.0, temperature: (70.0 - 32.0) / 1.8 };
/// assert!((plan::movement::emc(air) - 9.2).abs() < 0.1);
/// ```
pub fn emc(air: Air) -> f64 {
    let t = held(air.temperature, -20.0, 100.0);
    let h = held(air.humidity, 0.0, 100.0) / 100.0;
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 0.000_736 * t - 0.000_002_73 * t * t;
    let k1 = 6.27 - 0.009_38 * t - 0.000_303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000_293 * t * t;
    let kh = k * h;
    let second = k1 * kh + 2.0 * k1 * k2 * kh * kh;
    1800.0 / w * (kh / (1.0 - kh) + second / (1.0 + k1 * kh + k1 * k2 * kh * kh))
}

fn held(value: f64, least: f64, most: f64) -> f64 {
    if value.is_nan() {
        (least + most) / 2.0
    } else {
        value.clamp(least, most)
    }
}

/// Days that boards should stand in the shop before they are cut: two weeks for each
/// 25 mm of thickness, one week at least (common practice, from memory). Two weighings a
/// week apart that agree to half a percent say it better.
pub fn standing_days(thickness: Length) -> f64 {
    (14.0 * thickness.as_mm() / 25.0).ceil().max(7.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_handbooks_values_at_seventy_degrees_fahrenheit() {
        // Table 4-2; 50 % and 90 % as quoted, the others from memory.
        for (humidity, wanted) in [
            (30.0, 6.2),
            (50.0, 9.2),
            (65.0, 12.0),
            (80.0, 16.0),
            (90.0, 20.5),
        ] {
            let found = emc(Air {
                humidity,
                temperature: (70.0 - 32.0) / 1.8,
            });
            assert!((found - wanted).abs() < 0.1, "{humidity} %: {found}");
        }
    }

    /// The same equation with the handbook's other set of coefficients, in °F.
    #[test]
    fn both_sets_of_coefficients_agree() {
        for f in [40.0, 70.0, 100.0] {
            for humidity in [10.0, 30.0, 60.0, 90.0_f64] {
                let h = humidity / 100.0;
                let w = 330.0 + 0.452 * f + 0.00415 * f * f;
                let k = 0.791 + 0.000463 * f - 0.000000844 * f * f;
                let k1 = 6.34 + 0.000775 * f - 0.0000935 * f * f;
                let k2 = 1.09 + 0.0284 * f - 0.0000904 * f * f;
                let kh = k * h;
                let other = 1800.0 / w
                    * (kh / (1.0 - kh)
                        + (k1 * kh + 2.0 * k1 * k2 * kh * kh)
                            / (1.0 + k1 * kh + k1 * k2 * kh * kh));
                let found = emc(Air {
                    humidity,
                    temperature: (f - 32.0) / 1.8,
                });
                assert!(
                    (found - other).abs() < 0.013,
                    "{f} °F {humidity} %: {found} {other}"
                );
            }
        }
    }

    #[test]
    fn damper_air_makes_damper_wood_and_nothing_makes_no_number() {
        let at = |humidity| {
            emc(Air {
                humidity,
                temperature: 20.0,
            })
        };
        for h in 0..100 {
            assert!(at(f64::from(h) + 1.0) > at(f64::from(h)));
        }
        assert_eq!(at(0.0), 0.0);
        assert!(at(f64::NAN).is_finite() && at(f64::INFINITY).is_finite());
    }
}
