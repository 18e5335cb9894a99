//! What waste blocks, joints and screws bear.

use files::message::Message;
use files::say;
use files::wood::{self, Wood};
use files::workshop::Block;
use geometry::Length;
use geometry::Portable;

/// Strength square to the faces of a board and along them, N/mm².
#[derive(Debug, Clone)]
pub struct Strengths {
    /// What it is.
    pub of: Message,
    /// In tension square to the face: a panel's internal bond, wood across the grain.
    pub tension: f64,
    /// In shear along the face: across the grain, the weaker way.
    pub shear: f64,
    /// Where the figures come from, with how far they were confirmed.
    pub source: Message,
}

/// Tension across the grain where none is printed: fitted to the 75 woods of the table
/// that have it, 1673 psi · SG^1.69, less their scatter of 23 %.
fn fitted_tension(gravity: f64) -> f64 {
    0.77 * 11.53 * gravity.power(1.69)
}

/// Shear along the grain where none is printed: fitted to 97 woods of the table,
/// 3117 psi · SG^1.12, less their scatter of 12 %.
fn fitted_shear(gravity: f64) -> f64 {
    0.88 * 21.49 * gravity.power(1.12)
}

/// Shear across the grain (rolling shear) as a share of shear along it: 18 to 28 %
/// (Wood Handbook chapter 5, from memory).
const ROLLING: f64 = 0.2;

/// Specific gravity that is taken where nothing is known.
const UNKNOWN_GRAVITY: f64 = 0.5;

/// Specific gravity at 12 %, or a light wood's where it is not known.
fn gravity(wood: &Wood) -> f64 {
    wood.density.map_or(UNKNOWN_GRAVITY, |d| d / 1120.0)
}

/// A wood's strength across its grain.
pub fn strengths_of_wood(wood: &Wood) -> Strengths {
    let (tension, how) = match wood.strength.tension_across {
        Some(printed) => (printed, "Wood Handbook Table 5-3b"),
        None => (
            fitted_tension(gravity(wood)),
            "fitted to the handbook's woods by weight, less their scatter; estimate",
        ),
    };
    let along = wood
        .strength
        .shear
        .unwrap_or_else(|| fitted_shear(gravity(wood)));
    Strengths {
        of: Message::name(wood.plain.as_str()),
        tension,
        shear: along * ROLLING,
        source: say!(
            "{how}; shear across the grain 20 % of that along it, from memory",
            how = how,
        ),
    }
}

/// A waste block's strength.
pub fn strengths_of_block(block: &Block, thickness: Length) -> Strengths {
    let (tension, shear, source) = match block {
        Block::Particleboard => {
            let bond = match thickness.as_mm() {
                t if t <= 13.0 => 0.40,
                t if t <= 20.0 => 0.35,
                t if t <= 25.4 => 0.30,
                _ => 0.25,
            };
            (
                bond,
                1.0,
                "internal bond, EN 312 type P2 by thickness (as quoted); shear from memory",
            )
        }
        Block::Mdf => (
            0.55,
            1.5,
            "internal bond, EN 622-5 dry MDF of 12 to 30 mm, from memory; boards often test lower",
        ),
        Block::Plywood => (
            1.0,
            1.0,
            "rolling shear about 1 N/mm² taken for both ways, from memory",
        ),
        Block::Wood(name) => {
            // The reader lets only woods of the list through.
            return wood::find(name).map_or_else(
                |_| strengths_of_block(&Block::Particleboard, thickness),
                |wood| strengths_of_wood(&wood),
            );
        }
    };
    Strengths {
        of: Message::name(block.word()),
        tension,
        shear,
        source: source.into(),
    }
}

/// What one screw bears before it is drawn out of the block's face, N.
///
/// Wood: 108.25 · G² · D · L, in side grain (Wood Handbook chapter 8, wood screws, formula
/// from memory). Panels: about 40 N for each mm of bite of a 4.8 mm screw, in
/// proportion to its diameter (panel standards' screw tests, from memory).
pub fn screw_holds(block: &Block, diameter: Length, bite: Length) -> f64 {
    let (d, bite) = (diameter.as_mm().max(0.0), bite.as_mm().max(0.0));
    let by_gravity = |g: f64| 108.25 * g * g * d * bite;
    match block {
        Block::Particleboard | Block::Mdf => 40.0 * d / 4.8 * bite,
        Block::Plywood => by_gravity(UNKNOWN_GRAVITY),
        Block::Wood(name) => {
            by_gravity(wood::find(name).map_or(UNKNOWN_GRAVITY, |wood| gravity(&wood)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fit_keeps_to_the_safe_side_of_most_printed_woods() {
        let mut printed = 0;
        let mut above = 0;
        for wood in wood::all() {
            let (Some(tension), Some(density)) = (wood.strength.tension_across, wood.density)
            else {
                continue;
            };
            printed += 1;
            above += usize::from(fitted_tension(density / 1120.0) > tension);
        }
        assert!(printed >= 70);
        // One standard deviation leaves about one in six below.
        assert!(above * 4 < printed, "{above} of {printed}");
    }

    #[test]
    fn panels_are_the_weak_layer_and_thick_ones_weaker() {
        let mm = Length::mm;
        let board = |t| strengths_of_block(&Block::Particleboard, mm(t)).tension;
        // EN 312 P2 as quoted: 0.40 (9-12 mm), 0.35 (15-18 mm), 0.30 (25 mm), 0.25 (30 mm).
        assert_eq!(
            [board(12.0), board(18.0), board(25.0), board(30.0)],
            [0.40, 0.35, 0.30, 0.25]
        );
        let walnut = strengths_of_block(&Block::Wood("walnut".into()), mm(19.0));
        // 690 psi (Table 5-3b) is 4.757 N/mm².
        assert!((walnut.tension - 4.757).abs() < 0.001);
        assert!(walnut.tension > 10.0 * board(19.0));
    }

    #[test]
    fn screws_hold_by_weight_and_bite() {
        let mm = Length::mm;
        let maple = Block::Wood("hard maple".into());
        // G = 0.63: 108.25 · 0.3969 · 4.8 · 25.
        let held = screw_holds(&maple, mm(4.8), mm(25.0));
        assert!((held - 5155.7).abs() < 1.0, "{held}");
        assert!(screw_holds(&Block::Particleboard, mm(4.8), mm(25.0)) < 0.25 * held);
        assert_eq!(screw_holds(&maple, mm(4.8), mm(-3.0)), 0.0);
    }
}
