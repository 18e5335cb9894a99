//! How far wood moves.

use files::wood::Wood;
use geometry::Portable;
use geometry::{Angle, Length};

/// Moisture at which most woods begin to shrink, percent.
pub const FULL: f64 = 30.0;

/// Shrinkage along the grain, green to dry, percent: 0.1 to 0.2 (Wood Handbook chapter 4).
const ALONG: f64 = 0.15;

/// Which way through the wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grain {
    /// Along it.
    Along,
    /// Across it, from the pith outward: the thickness of a flat-sawn board.
    Radial,
    /// Across it, round the rings: the width of a flat-sawn board.
    Tangential,
}

/// A wood's total shrinkage that way, percent of the green size; `None` if it is not known.
pub fn shrinkage(wood: &Wood, grain: Grain) -> Option<f64> {
    match grain {
        Grain::Along => Some(ALONG),
        Grain::Radial => wood.shrinkage.radial,
        Grain::Tangential => wood.shrinkage.tangential,
    }
}

/// Moisture at which a wood begins to shrink, percent: 30, but 22 for redwood and the
/// cedars (Wood Handbook chapter 13).
pub fn fibre_saturation(wood: &Wood) -> f64 {
    let name = wood.name.to_lowercase();
    if name.starts_with("redwood") || name.starts_with("cedar") {
        22.0
    } else {
        FULL
    }
}

/// Change of a size between two moistures (percent) as a share of the size:
/// (M_F − M_I) / (100·M_0/S − M_0 + M_I) with the total shrinkage S in percent and M_0
/// the moisture at which the wood begins to shrink (Wood Handbook eq. 13-2).
///
/// ```
/// use plan::movement::{change, FULL};
/// // Hard maple, flat sawn, 9.9 %: a board at 10 % moves by 0.353 % a point.
/// let share = change(9.9, FULL, 10.0, 11.0);
/// assert!((share - 0.00353).abs() < 0.00001);
/// ```
pub fn change(shrinkage: f64, full: f64, from: f64, to: f64) -> f64 {
    if shrinkage <= 0.0 || !shrinkage.is_finite() {
        return 0.0;
    }
    // Above the moisture where shrinking begins nothing moves.
    let (from, to) = (from.clamp(0.0, full), to.clamp(0.0, full));
    (to - from) / (100.0 * full / shrinkage - full + from)
}

/// The coefficient of Table 13-5 that a total shrinkage makes: 1/(3000/S − 20), the share
/// that a size at 10 % moves by for each point of moisture.
pub fn coefficient(shrinkage: f64) -> f64 {
    change(shrinkage, FULL, 10.0, 11.0)
}

/// How far a mitred joint opens at one end, or presses at the other, when a segment's
/// width changes by `share` and its length does not: 2 · width · share · sin(180°/n), both
/// sides of the joint together (trigonometry of the mitre).
pub fn wedge(width: Length, share: f64, mitre: Angle) -> Length {
    // Each mitre turns by share · sin · cos, two of them meet, and the face that they meet
    // on is width / cos long.
    width * (2.0 * share * mitre.as_rad().sine()).abs()
}

/// How far a round ring's outside stands out or in at the middle of its segments against
/// its joints: share · (R sin²α − v (1 − cos α)), v the middle of its width.
pub fn ring_lobe(outside: Length, width: Length, share: f64, mitre: Angle) -> Length {
    let (sin, cos) = mitre.as_rad().sine_cosine();
    let middle = (outside - width / 2.0).as_mm() * cos;
    Length::mm((share * (outside.as_mm() * sin * sin - middle * (1.0 - cos))).abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::movement::emc;
    use files::wood::find;
    use files::workshop::Air;

    /// Hard maple, black walnut and padauk from 30 to 60 % at 70 °F: eq. 13-2 against the
    /// printed coefficients of Table 13-5.
    #[test]
    fn three_woods_move_as_equation_and_table_say() {
        let air = |humidity| {
            emc(Air {
                humidity,
                temperature: (70.0 - 32.0) / 1.8,
            })
        };
        let (dry, damp) = (air(30.0), air(60.0));
        // Table 4-2 at 70 °F: 6.2 and 11.0 (from memory).
        assert!(
            (dry - 6.2).abs() < 0.1 && (damp - 11.0).abs() < 0.1,
            "{dry} {damp}"
        );
        let mut seen = 0;
        for name in ["hard maple", "black walnut", "padauk"] {
            let wood = find(name).unwrap();
            let ways = [
                (Grain::Radial, wood.change.radial),
                (Grain::Tangential, wood.change.tangential),
            ];
            for (grain, printed) in ways {
                let Some(total) = shrinkage(&wood, grain) else {
                    continue;
                };
                let by_equation = change(total, FULL, dry, damp);
                // By hand from the same figures.
                let hand = (damp - dry) / (3000.0 / total - 30.0 + dry);
                assert!((by_equation - hand).abs() < 1e-12);
                let Some(printed) = printed else {
                    println!(
                        "{name} {grain:?}: {:.3} %, no printed coefficient",
                        by_equation * 100.0
                    );
                    continue;
                };
                let by_table = printed * (damp - dry);
                let off = by_equation / by_table - 1.0;
                println!(
                    "{name} {grain:?}: S {total} %, equation {:.3} %, table {:.3} %, {:+.1} %",
                    by_equation * 100.0,
                    by_table * 100.0,
                    off * 100.0
                );
                assert!(off.abs() < 0.03, "{name} {grain:?} {off}");
                seen += 1;
            }
        }
        assert!(seen >= 5);
    }

    #[test]
    fn the_published_examples_come_out() {
        let all: serde_json::Value =
            serde_json::from_str(include_str!("../../../../reference/trade_cases.json")).unwrap();
        let cases = all["cases"].as_array().unwrap();
        let case = cases.iter().find(|c| c["id"] == "wood-movement").unwrap();
        for (input, expected) in case["inputs"]
            .as_array()
            .unwrap()
            .iter()
            .zip(case["expected"].as_array().unwrap())
        {
            let number = |key: &str| input[key].as_f64().unwrap();
            // The shrinkage that gives the coefficient, and eq. 13-2 from 10 % on.
            let total = 3000.0 / (1.0 / number("coefficient") + 20.0);
            let share = change(total, FULL, 10.0, 10.0 + number("moisture_points"));
            let found = share * number("width");
            assert!((found - expected.as_f64().unwrap()).abs() < 5e-5, "{found}");
        }
    }

    #[test]
    fn there_and_back_is_where_it_was_and_cedar_stops_sooner() {
        let there = change(8.0, FULL, 6.0, 12.0);
        let back = change(8.0, FULL, 12.0, 6.0);
        assert!(((1.0 + there) * (1.0 + back) - 1.0).abs() < 1e-12);
        let cedar = find("western red cedar").unwrap();
        assert_eq!(fibre_saturation(&cedar), 22.0);
        assert_eq!(change(5.0, 22.0, 22.0, 28.0), 0.0);
        assert_eq!(change(f64::NAN, FULL, 6.0, 12.0), 0.0);
    }

    /// A mitred segment drawn, its width changed, and the angle of its ends measured.
    #[test]
    fn a_joint_opens_by_what_the_drawn_segment_shows() {
        for n in [3_usize, 6, 12, 24] {
            let mitre = Angle::full().divided_by(2 * n);
            let (width, share) = (20.0, 0.004);
            let run = width * mitre.as_rad().tangent();
            let after = (run / (width * (1.0 + share))).arctangent();
            let face = width / mitre.as_rad().cosine();
            let opened = 2.0 * (mitre.as_rad() - after) * face;
            let found = wedge(Length::mm(width), share, mitre).as_mm();
            assert!((found / opened - 1.0).abs() < 0.01, "{n}: {found} {opened}");
        }
    }
}
