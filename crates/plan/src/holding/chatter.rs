//! How readily a thin wall sings.

use geometry::Portable;
use std::f64::consts::PI;

use piece::piece::Piece;

/// First bending frequency of a cup's wall, Hz: the rim going oval, its foot held still.
///
/// f = h/(2π R²) · √(3E/(5ρ) · (1 + 4/3 · (R/H)⁴)) (A. P. French, American Journal of
/// Physics 51, 1983, on wine glasses, from memory; without its last term it is
/// Rayleigh's ring of two waves). Wall `h`, radius `r`, height `tall` in mm, stiffness in
/// N/mm², density in kg/m³. `None` where one of them is not above nothing.
pub fn wall_frequency(h: f64, r: f64, tall: f64, stiffness: f64, density: f64) -> Option<f64> {
    let all = [h, r, tall, stiffness, density];
    if !all.iter().all(|v| v.is_finite() && *v > 0.0) {
        return None;
    }
    // N/mm² and kg/m³ to m/s: √(1e6 · E/ρ); mm to m by 1e-3.
    let wave = (0.6 * stiffness * 1e6 / density * (1.0 + 4.0 / 3.0 * (r / tall).to_the(4))).sqrt();
    Some(h * 1e-3 / (2.0 * PI * r * r * 1e-6) * wave)
}

/// The wall near the rim: its thickness, middle radius, and the height above the floor.
pub(crate) fn near_rim(piece: &Piece) -> Option<(f64, f64, f64)> {
    let form = &piece.form;
    let (floor, top) = (form.floor_top().as_mm(), form.height().as_mm());
    let z = floor + 0.8 * (top - floor);
    let outside = form.outside().radius(z)?;
    let inside = form.inside().radius(z)?;
    let wall = form.wall_at(geometry::Length::mm(z))?.as_mm();
    Some((wall, (outside + inside) / 2.0, top - floor))
}

/// Stiffness round the ring near the rim, N/mm², and density, kg/m³.
pub(crate) fn rim_wood(piece: &Piece) -> (f64, f64) {
    let ring = piece.sections.last().and_then(|s| s.rings.last());
    let wood = ring.and_then(|r| r.woods.first()).map(|id| piece.wood(*id));
    (
        wood.and_then(|w| w.strength.stiffness).unwrap_or(10_000.0),
        wood.and_then(|w| w.density).unwrap_or(700.0),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rayleigh's ring (Theory of Sound): ω² = n²(n² − 1)²/(n² + 1) · E I/(ρ A R⁴), n = 2.
    #[test]
    fn a_very_tall_cup_rings_like_a_loose_ring() {
        let (h, r, e, rho): (f64, f64, f64, f64) = (0.003, 0.06, 1.2e10, 650.0);
        let omega2 = 4.0 * 9.0 / 5.0 * e * h * h / 12.0 / (rho * r.to_the(4));
        let ring = omega2.sqrt() / (2.0 * PI);
        let found = wall_frequency(3.0, 60.0, 6e4, 12_000.0, 650.0).unwrap();
        assert!((found / ring - 1.0).abs() < 1e-9, "{found} {ring}");
        // Low walls are stiffer.
        assert!(wall_frequency(3.0, 60.0, 60.0, 12_000.0, 650.0).unwrap() > 1.4 * ring);
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert!(wall_frequency(0.0, 60.0, 60.0, 1e4, 700.0).is_none());
        assert!(wall_frequency(3.0, f64::NAN, 60.0, 1e4, 700.0).is_none());
    }
}
