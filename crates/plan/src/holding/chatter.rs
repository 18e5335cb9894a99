//! How readily a thin wall sings.

use geometry::Portable;
use std::f64::consts::PI;

use piece::piece::Piece;

use crate::weight::UNKNOWN_DENSITY;

/// Stiffness of a wood that it is not known of, N/mm².
const UNKNOWN_STIFFNESS: f64 = 10_000.0;

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

/// λ² of the first bending note of a ring-shaped plate that is clamped at its inner edge and
/// free outside, by inner over outer radius (Leissa, Vibration of Plates, NASA SP-160, from
/// memory).
const PLATE: [(f64, f64); 4] = [(0.1, 4.24), (0.3, 6.66), (0.5, 13.0), (0.7, 37.0)];

/// First bending frequency of a flat, wide rim, Hz: a ring-shaped plate clamped where it
/// stands and free at its edge.
///
/// f = λ² · h/(2π R²) · √(E/(12ρ(1 − ν²))), ν = 0.3, λ² between the table's rows in
/// proportion. Thickness `h`, radii in mm, stiffness in N/mm², density in kg/m³. `None`
/// where one of them is not above nothing.
pub fn plate_frequency(h: f64, radii: (f64, f64), stiffness: f64, density: f64) -> Option<f64> {
    let (inner, outer) = radii;
    let all = [h, outer, stiffness, density];
    if !all.iter().all(|v| v.is_finite() && *v > 0.0) {
        return None;
    }
    let ratio = (inner / outer).clamp(PLATE[0].0, PLATE[3].0);
    let rows = PLATE.windows(2).find(|w| ratio <= w[1].0)?;
    let t = (ratio - rows[0].0) / (rows[1].0 - rows[0].0);
    let lambda = rows[0].1 + (rows[1].1 - rows[0].1) * t;
    let wave = (stiffness * 1e6 / (12.0 * density * (1.0 - 0.09))).sqrt();
    Some(lambda * h * 1e-3 / (2.0 * PI * outer * outer * 1e-6) * wave)
}

/// What a rim is when it sings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rim {
    /// A wall that rises: the rim goes oval.
    Cup {
        /// Height above the floor, mm.
        tall: f64,
    },
    /// A wall that lies flatter than 45° from the foot to the rim: it flaps.
    Plate {
        /// Radius that it stands on, mm.
        stands: f64,
    },
}

impl Rim {
    /// A piece's rim. The cup's formula was found for walls that stand; from the foot out
    /// flatter than 45° the plate's is taken.
    pub(crate) fn of(piece: &Piece, tall: f64) -> Rim {
        let (foot, form) = (piece.form.foot_radius().as_mm(), &piece.form);
        let height = form.height().as_mm();
        let rim = form.outside().radius(height).unwrap_or(0.0);
        if rim - foot > height {
            Rim::Plate { stands: foot }
        } else {
            Rim::Cup { tall }
        }
    }

    /// Its first note, Hz.
    pub(crate) fn note(
        self,
        wall: f64,
        radius: f64,
        (stiffness, density): (f64, f64),
    ) -> Option<f64> {
        match self {
            Rim::Cup { tall } => wall_frequency(wall, radius, tall, stiffness, density),
            Rim::Plate { stands } => plate_frequency(wall, (stands, radius), stiffness, density),
        }
    }
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
    let woods = ring.map_or(&[][..], |r| &r.woods);
    // The wood that makes the lowest note counts.
    let all = woods.iter().map(|id| {
        let wood = piece.wood(*id);
        let stiffness = wood.strength.stiffness.unwrap_or(UNKNOWN_STIFFNESS);
        (stiffness, wood.density.unwrap_or(UNKNOWN_DENSITY))
    });
    all.min_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1)))
        .unwrap_or((UNKNOWN_STIFFNESS, UNKNOWN_DENSITY))
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

    /// A disc clamped at a small hub: λ² = 4.24 for a tenth of the radius (Leissa's table,
    /// from memory); by hand for 8 mm of maple, 193 mm wide.
    #[test]
    fn a_platters_rim_flaps_at_some_hundred_hertz_and_not_at_thousands() {
        let (h, outer, e, rho): (f64, f64, f64, f64) = (8.0, 193.0, 1.26e4, 700.0);
        let found = plate_frequency(h, (19.3, outer), e, rho).unwrap();
        let rigid = (e * 1e6 / (12.0 * rho * 0.91)).sqrt();
        let by_hand = 4.24 * 0.008 / (2.0 * PI * 0.193 * 0.193) * rigid;
        assert!((found / by_hand - 1.0).abs() < 1e-9, "{found} {by_hand}");
        assert!((100.0..400.0).contains(&found), "{found}");
        // The cup's formula is far off its range there.
        assert!(wall_frequency(h, outer, 16.0, e, rho).unwrap() > 10_000.0);
        assert!(plate_frequency(h, (90.0, outer), e, rho).unwrap() > found);
    }

    #[test]
    fn nothing_comes_of_nothing() {
        assert!(wall_frequency(0.0, 60.0, 60.0, 1e4, 700.0).is_none());
        assert!(wall_frequency(3.0, f64::NAN, 60.0, 1e4, 700.0).is_none());
    }
}
