//! The piece as a beam that grows out of the waste block.

/// What supports it besides the block; heights above the joint, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Support {
    /// Nothing: it stands free.
    None,
    /// The tailstock at its end.
    Tailstock,
    /// A steady rest at that height.
    Steady(f64),
}

/// What the joint at the block has to bear.
#[derive(Debug, Clone, Copy, Default)]
pub struct Root {
    /// Bending moment, N·mm.
    pub moment: f64,
    /// Shear force, N.
    pub shear: f64,
}

/// Greatest fixed-end moment of a force F anywhere on a beam of length L that is held
/// at one end and propped at the other: F·L/(3√3), with the force at L·(1 − 1/√3) from
/// the held end (beam tables).
const PROPPED: f64 = 0.192_450_089_729_875_25;

/// A weight, N, and the height of its middle above the joint, mm.
pub type Weight = (f64, f64);

/// The moment and shear at the root of a beam `top` mm long, with a tool's force (N)
/// wherever on it that is worst, and its own weight, which turns round with it.
///
/// Free: F·top + W·z. Propped at its end: F·L/(3√3), the weight as F·a·b·(L + b)/(2L²).
/// Propped at s by a steady rest, with an end of c = top − s beyond it: the greater of
/// F·s/(3√3) and F·c/2 (beam tables).
pub fn root(force: f64, top: f64, weight: Weight, support: Support) -> Root {
    let (weight, middle) = weight;
    let top = top.max(0.0);
    let prop = match support {
        Support::None => 0.0,
        Support::Tailstock => top,
        Support::Steady(height) => height.min(top),
    };
    if prop <= 0.0 {
        return Root {
            moment: force * top + weight * middle,
            shear: force + weight,
        };
    }
    let beyond = top - prop;
    let tool = (PROPPED * force * prop).max(force * beyond / 2.0);
    let shear = force.max(1.5 * force * beyond / prop);
    let (own, own_shear) = if middle <= prop {
        let b = prop - middle;
        (
            weight * middle * b * (prop + b) / (2.0 * prop * prop),
            weight,
        )
    } else {
        let out = middle - prop;
        (weight * out / 2.0, weight.max(1.5 * weight * out / prop))
    };
    Root {
        moment: tool + own,
        shear: shear + own_shear,
    }
}

/// The greatest moment at a height `z` between the joint and the top, N·mm: above the
/// support that of a force at the free end, below it in proportion up to the root's.
pub fn along(force: f64, top: f64, support: Support, at_root: f64, z: f64) -> f64 {
    match support {
        Support::Tailstock => at_root,
        Support::None => {
            let share = ((top - z) / top.max(1e-9)).clamp(0.0, 1.0);
            at_root * share
        }
        Support::Steady(height) => {
            let at_steady = force * (top - height).max(0.0);
            if z >= height {
                force * (top - z).max(0.0)
            } else {
                at_root + (at_steady - at_root) * (z / height.max(1e-9)).clamp(0.0, 1.0)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The propped cantilever by stepping the force along it (beam tables: fixed-end
    /// moment F a b (L + b) / (2 L²)).
    #[test]
    fn the_worst_place_of_the_force_is_found() {
        let length = 320.0;
        let worst = (0..=10_000)
            .map(|i| {
                let a = length * f64::from(i) / 10_000.0;
                let b = length - a;
                a * b * (length + b) / (2.0 * length * length)
            })
            .fold(0.0, f64::max);
        let found = root(1.0, length, (0.0, 0.0), Support::Tailstock).moment;
        assert!((found / worst - 1.0).abs() < 1e-7);
    }

    #[test]
    fn a_support_takes_most_of_the_bending() {
        let load = |support| root(100.0, 320.0, (20.0, 150.0), support).moment;
        let free = load(Support::None);
        assert!((free - 35_000.0).abs() < 1e-9);
        assert!(load(Support::Tailstock) < 0.25 * free);
        assert!(load(Support::Steady(240.0)) < load(Support::Steady(120.0)));
        // A steady at the very end is a tailstock, one at the joint is none.
        assert!((load(Support::Steady(320.0)) - load(Support::Tailstock)).abs() < 1e-9);
        assert!((load(Support::Steady(0.0)) - free).abs() < 1e-9);
    }

    #[test]
    fn along_the_piece_it_falls_to_nothing_at_the_end() {
        for support in [Support::None, Support::Steady(200.0)] {
            let at_root = root(50.0, 300.0, (0.0, 0.0), support).moment;
            assert!((along(50.0, 300.0, support, at_root, 0.0) - at_root).abs() < 1e-9);
            assert!(along(50.0, 300.0, support, at_root, 300.0).abs() < 1e-9);
        }
    }
}
