//! How hard a joint is pressed, and how long glue takes in the cold.

use files::wood::Wood;
use geometry::Portable;

/// Epoxy wants the joint closed and no more, N/mm²: about 10 psi (from memory).
pub const EPOXY_PRESSURE: (f64, f64) = (0.03, 0.1);

/// N/mm² in a pound a square inch.
const PSI: f64 = 0.006_894_757;

/// Temperature that a cure is stated for, °C.
const STATED: f64 = 20.0;

/// Pressure on a joint of wood, from and to, N/mm²: 100 to 150 psi for softwoods, 150 to
/// 200 for medium woods, 200 to 300 for dense hardwoods (a glue maker's guide). By
/// density: under 450 kg/m³ and from 650 on (common practice).
///
/// ```
/// let maple = files::wood::find("hard maple").expect("in the list");
/// let (low, high) = plan::glue::pressure_for(&maple);
/// assert!((low - 1.379).abs() < 1e-3 && (high - 2.068).abs() < 1e-3);
/// ```
pub fn pressure_for(wood: &Wood) -> (f64, f64) {
    let (low, high) = match wood.density {
        Some(d) if d < 450.0 => (100.0, 150.0),
        Some(d) if d >= 650.0 => (200.0, 300.0),
        _ => (150.0, 200.0),
    };
    (low * PSI, high * PSI)
}

/// Hours of a cure at a temperature: twice as long for each 10 °C below 20 °C, and never
/// shorter than stated (common practice).
///
/// ```
/// assert_eq!(plan::glue::cure_at(24.0, 10.0), 48.0);
/// assert_eq!(plan::glue::cure_at(24.0, 25.0), 24.0);
/// ```
pub fn cure_at(hours: f64, temperature: f64) -> f64 {
    let colder = ((STATED - temperature) / 10.0).clamp(0.0, 5.0);
    hours.max(0.0) * 2.0_f64.power(colder)
}
