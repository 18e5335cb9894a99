//! What waste blocks, joints and screws bear.

use files::message::Message;
use files::say;
use files::units::Unit;
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

/// The weakest of several woods, each way by itself: what a joint between them bears.
/// Nothing where there is none.
pub fn weakest_of<'a>(woods: impl IntoIterator<Item = &'a Wood>) -> Option<Strengths> {
    woods
        .into_iter()
        .map(strengths_of_wood)
        .reduce(Strengths::weaker)
}

impl Strengths {
    /// The weaker of two, each way by itself; named after that which is weaker in tension.
    pub fn weaker(self, other: Strengths) -> Strengths {
        let (least, most) = if other.tension < self.tension {
            (other, self)
        } else {
            (self, other)
        };
        Strengths {
            shear: least.shear.min(most.shear),
            ..least
        }
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

/// What one screw holds in a block's face, N.
#[derive(Debug, Clone)]
pub struct ScrewHold {
    /// What draws it out.
    pub ultimate: f64,
    /// What a design may count on while a tool presses, if that is known.
    pub design: Option<f64>,
    /// Where the figures come from.
    pub source: Message,
}

/// A design value's factor for loads of some minutes: 1.6 (from memory).
const SHORT_LOAD: f64 = 1.6;

/// What one screw bears in the block's face.
///
/// Wood: drawn out by 108.25 · G² · D · L, in side grain (Wood Handbook chapter 8, wood
/// screws, formula from memory); a design counts on 2850 · G² · D pounds for each inch of
/// bite, times 1.6 for a short load (design values for wood screws, from memory). Panels:
/// about 40 N for each mm of bite of a 4.8 mm screw, in proportion to its diameter (panel
/// standards' screw tests, from memory); no design value is known.
pub fn screw_holds(block: &Block, diameter: Length, bite: Length) -> ScrewHold {
    let (diameter, bite) = (diameter.max(Length::ZERO), bite.max(Length::ZERO));
    let of_gravity = |g: f64| ScrewHold {
        ultimate: 108.25 * g * g * diameter.as_mm() * bite.as_mm(),
        design: Some(
            Unit::Inch
                .newtons(2850.0 * g * g * diameter.as_inches() * bite.as_inches() * SHORT_LOAD),
        ),
        source: "Wood Handbook chapter 8 for what draws a screw out; design values of wood \
                 screws for a short load; both from memory"
            .into(),
    };
    match block {
        Block::Particleboard | Block::Mdf => ScrewHold {
            ultimate: 40.0 * diameter.as_mm() / 4.8 * bite.as_mm(),
            design: None,
            source: "screw tests of panel standards, from memory".into(),
        },
        Block::Plywood => of_gravity(UNKNOWN_GRAVITY),
        Block::Wood(name) => {
            of_gravity(wood::find(name).map_or(UNKNOWN_GRAVITY, |wood| gravity(&wood)))
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
        assert!((held.ultimate - 5155.7).abs() < 1.0, "{held:?}");
        let panel = screw_holds(&Block::Particleboard, mm(4.8), mm(25.0));
        assert!(panel.ultimate < 0.25 * held.ultimate && panel.design.is_none());
        assert_eq!(screw_holds(&maple, mm(4.8), mm(-3.0)).ultimate, 0.0);
        // 2850 · 0.63² · 0.18898 in = 213.77 lb/in; 0.98425 in of bite and 1.6 give
        // 336.6 lb, 1,498 N: less than a third of what draws it out.
        let design = held.design.unwrap();
        assert!((design - 1498.0).abs() < 1.0, "{design}");
        assert!(design < held.ultimate / 3.0);
    }
}
