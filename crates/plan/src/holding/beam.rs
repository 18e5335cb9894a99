//! The piece as a beam that grows out of the waste block.

use geometry::Portable;

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

impl Support {
    /// Where it props a beam so long, mm; 0 where nothing does.
    fn at(self, top: f64) -> f64 {
        match self {
            Support::None => 0.0,
            Support::Tailstock => top,
            Support::Steady(at) => at.min(top),
        }
    }
}

/// What a section across the piece has to bear.
#[derive(Debug, Clone, Copy, Default)]
pub struct Root {
    /// Bending moment, N·mm.
    pub moment: f64,
    /// Shear force, N.
    pub shear: f64,
    /// Torque round the axis, N·mm.
    pub torque: f64,
    /// Pull along the axis, N.
    pub pull: f64,
}

/// Where a tool presses: height above the joint on the block and distance from the axis, mm.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Place {
    /// Height.
    pub height: f64,
    /// Distance from the axis.
    pub radius: f64,
}

/// A weight, N, and the height of its middle above the joint, mm.
pub type Weight = (f64, f64);

/// How a tool presses at a place. Of all directions one of these two asks the most of what
/// holds, since bending, torsion and pull each grow with one part of the force.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// Across the axis along the rim: it bends and turns.
    Around,
    /// In the plane of the axis, slanted so that force across and force along bend together.
    Slanted,
}

/// What a force across (N·mm each N) and a couple (of 1 N·mm) at a height do to the root of
/// a beam that is held at one end: bending for each.
fn to_root(height: f64, top: f64, support: Support) -> (f64, f64) {
    let prop = support.at(top);
    if prop <= 0.0 {
        return (height, 1.0);
    }
    if height >= prop {
        return ((height - prop) / 2.0, 0.5);
    }
    let b = prop - height;
    let across = height * b * (prop + b) / (2.0 * prop * prop);
    (across, (3.0 * b * b / (prop * prop) - 1.0).abs() / 2.0)
}

/// What the root of a beam `top` mm long has to bear from a tool's force (N) at a place,
/// both ways that it may press, with the piece's own weight, which turns round with it.
///
/// Free, a force across bends with F·z, one along the axis at radius R with F·R. Propped at
/// s, a force at a below it bends the root with F·a·b·(s + b)/(2s²), b = s - a, and a couple
/// C there with C·|3b²/s² - 1|/2; beyond the prop both come to it by half (beam tables).
/// Slanted is √(across² + along²). A force round the rim turns with F·R, whatever props it.
pub fn root(
    force: f64,
    place: Place,
    top: f64,
    weight: Weight,
    support: Support,
) -> [(Press, Root); 2] {
    let top = top.max(0.0);
    let height = place.height.clamp(0.0, top);
    let (own, own_shear) = own_weight(weight, top, support);
    let (by_force, by_couple) = to_root(height, top, support);
    let (across, along) = (force * by_force, force * place.radius * by_couple);
    let sheared = match support {
        Support::Steady(at) if height > at && at > 0.0 => {
            force.max(1.5 * force * (height - at) / at)
        }
        _ => force,
    };
    let bent = across.hypotenuse(along);
    let share = |part: f64| if bent > 0.0 { part / bent } else { 0.0 };
    [
        (
            Press::Around,
            Root {
                moment: across + own,
                shear: sheared + own_shear,
                torque: force * place.radius,
                pull: 0.0,
            },
        ),
        (
            Press::Slanted,
            Root {
                moment: bent + own,
                shear: sheared * share(across) + own_shear,
                torque: 0.0,
                pull: force * share(along),
            },
        ),
    ]
}

/// Bending and shear at the root of the weight alone.
fn own_weight((weight, middle): Weight, top: f64, support: Support) -> (f64, f64) {
    let prop = support.at(top);
    let (bending, _) = to_root(middle, top, support);
    let shear = if prop > 0.0 && middle > prop {
        weight.max(1.5 * weight * (middle - prop) / prop)
    } else {
        weight
    };
    (weight * bending, shear)
}

/// What a section at height `z` has to bear from a tool at a place above it, where the root
/// bears `at_root`: free, what is above it; below a support in proportion up to the root's.
pub fn along(
    force: f64,
    place: Place,
    top: f64,
    support: Support,
    (press, at_root): (Press, Root),
    z: f64,
) -> Root {
    // What a free end of a length brings.
    let free = |length: f64| {
        let length = length.max(0.0);
        match press {
            Press::Around => force * length,
            Press::Slanted => force * length.hypotenuse(place.radius),
        }
    };
    let above = place.height >= z;
    let moment = match support {
        Support::Tailstock => at_root.moment,
        Support::None => {
            let own = at_root.moment - free(place.height);
            let share = ((top - z) / top.max(1e-9)).clamp(0.0, 1.0);
            own.max(0.0) * share + if above { free(place.height - z) } else { 0.0 }
        }
        Support::Steady(at) if z >= at => {
            if above {
                free(place.height - z)
            } else {
                0.0
            }
        }
        Support::Steady(at) => {
            let at_steady = if place.height > at {
                free(place.height - at)
            } else {
                0.0
            };
            let share = (z / at.max(1e-9)).clamp(0.0, 1.0);
            at_root.moment + (at_steady - at_root.moment) * share
        }
    };
    Root {
        moment,
        shear: at_root.shear,
        torque: if above { at_root.torque } else { 0.0 },
        pull: if above { at_root.pull } else { 0.0 },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const AXIS: f64 = 0.0;

    fn moment(force: f64, height: f64, top: f64, weight: Weight, support: Support) -> f64 {
        let place = Place {
            height,
            radius: AXIS,
        };
        root(force, place, top, weight, support)[0].1.moment
    }

    /// Greatest fixed-end moment of a force on a propped cantilever: F·L/(3√3), with the
    /// force at L·(1 − 1/√3) from the held end (beam tables).
    #[test]
    fn the_worst_place_of_a_force_between_block_and_tailstock_is_that_of_the_tables() {
        let length = 320.0;
        let worst = (0..=10_000)
            .map(|i| length * f64::from(i) / 10_000.0)
            .map(|a| moment(1.0, a, length, (0.0, 0.0), Support::Tailstock))
            .fold(0.0, f64::max);
        let table = length / (3.0 * 3.0_f64.sqrt());
        assert!((worst / table - 1.0).abs() < 1e-6, "{worst} {table}");
    }

    /// A couple at the propped end comes to the held one by half, one beside it whole
    /// (beam tables: carry-over of a far fixed end).
    #[test]
    fn a_force_along_the_axis_at_a_radius_is_a_couple() {
        let load = |height: f64, support| {
            let place = Place {
                height,
                radius: 193.0,
            };
            root(100.0, place, 320.0, (0.0, 0.0), support)
        };
        let free = load(26.0, Support::None);
        // F·√(z² + R²), and F·R of torque where it presses round the rim.
        assert!(
            (free[1].1.moment - 100.0 * (26.0_f64.powi(2) + 193.0_f64.powi(2)).sqrt()).abs() < 1e-9
        );
        assert_eq!((free[0].1.torque, free[0].1.moment), (19_300.0, 2_600.0));
        let propped = |height| load(height, Support::Tailstock)[1].1.moment;
        assert!((propped(320.0) - 9_650.0).abs() < 1e-9);
        assert!((propped(0.0) - 19_300.0).abs() < 1e-9);
        // All of a force is pulled where it presses along the axis alone.
        assert!((load(0.0, Support::None)[1].1.pull - 100.0).abs() < 1e-12);
    }

    #[test]
    fn a_support_takes_most_of_the_bending() {
        let load = |support| moment(100.0, 320.0, 320.0, (20.0, 150.0), support);
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
        let place = Place {
            height: 300.0,
            radius: AXIS,
        };
        for support in [Support::None, Support::Steady(200.0)] {
            let at_root = root(50.0, place, 300.0, (0.0, 0.0), support)[0];
            let at = |z| along(50.0, place, 300.0, support, at_root, z).moment;
            assert!((at(0.0) - at_root.1.moment).abs() < 1e-9);
            assert!(at(300.0).abs() < 1e-9);
        }
    }
}
