//! `[form]`: the finished outside and inside.

use geometry::Length;

use crate::keys::{Fixed, Lengths, Points, Quantity, Rivals, Rules, Usual, flag, keys, mm};

/// Most points on one side of a form.
const MOST_POINTS: usize = 500;

const HEIGHT: Lengths = Lengths::new("a height", 0.0, 3000.0);
const RADIUS: Lengths = Lengths::new("a radius", 0.0, 1500.0);
const WALL: Lengths = Lengths::new("a wall", 0.2, 100.0);
const FLOOR: Lengths = Lengths::new("a floor", 0.2, 200.0);
const RECESS: Lengths = Lengths::new("a foot's recess", 0.0, 100.0);
const FOOT: Lengths = Lengths::new("the width of a foot's ring", 0.5, 500.0);
const EASING: Lengths = Lengths::new("an eased rim", 0.0, 50.0);

const fn side(of: &'static str) -> Points {
    Points {
        of,
        height: HEIGHT,
        across: RADIUS,
        across_label: "radius",
        corners: true,
        least: 2,
        most: MOST_POINTS,
    }
}

const OUTSIDE: Points = side("the outside");
const INSIDE: Points = side("the inside");
const WALLS: Points = Points {
    of: "wall thickness",
    height: HEIGHT,
    across: WALL,
    across_label: "",
    corners: false,
    least: 1,
    most: MOST_POINTS,
};

/// A point that the maker gives on a profile.
#[derive(Debug, Clone, Copy, Default)]
pub struct FormPoint {
    /// Height above the foot's underside.
    pub height: Length,
    /// Radius there.
    pub radius: Length,
    /// The curve turns sharply here.
    pub corner: bool,
}

/// The wall's thickness at a height, square to the outer wall.
#[derive(Debug, Clone, Copy, Default)]
pub struct WallPoint {
    /// Height above the foot's underside.
    pub height: Length,
    /// Thickness there.
    pub thickness: Length,
}

impl WallPoint {
    /// A wall of one thickness everywhere.
    pub fn everywhere(thickness: Length) -> Vec<WallPoint> {
        vec![WallPoint {
            height: Length::ZERO,
            thickness,
        }]
    }
}

keys! {
    /// The form as the maker gives it.
    pub struct FormSpec, FormPath, "[form]" {
        /// finished outside from the bottom up, a list of `[height, radius]`; a third entry
        /// `"corner"` makes the curve turn sharply there
        outer: Vec<FormPoint> = "outside", Quantity::Points(&OUTSIDE), Usual::Must(
            "it is the finished outside from the foot up",
            "write outer = [[height, radius], [height, radius], ...]",
        );
        /// straight lines between points instead of a smooth curve
        straight: bool = "straight lines between points", Quantity::Flag, flag(false);
        /// thickness, measured square to the outside: one length, or `[[height, thickness],
        /// ...]`, in proportion between entries
        wall: Vec<WallPoint> = "wall thickness", Quantity::Wall(&WALLS),
            Usual::OneOf("this or `inner`", Fixed::Length(Length::mm(6.0)));
        /// the finished inside by its own points, as `outer`
        inner: Vec<FormPoint> = "inside", Quantity::Points(&INSIDE),
            Usual::OneOf("this or `wall`", Fixed::Nothing);
        /// thickness above the foot's recess
        floor: Option<Length> = "floor thickness", Quantity::Length(FLOOR),
            Usual::Follows("as the wall");
        /// depth of the recess under the foot
        foot_recess: Option<Length> = "depth of the foot's recess", Quantity::Length(RECESS),
            mm(0.0);
        /// width of the foot's ring round the recess
        foot_width: Option<Length> = "width of the foot's ring", Quantity::Length(FOOT),
            Usual::Follows("as the wall");
        /// radius that the rim's edges are eased to
        rim_easing: Option<Length> = "radius of the eased rim", Quantity::Length(EASING), mm(0.0);
    }
}

/// The inner side as the maker gives it.
#[derive(Debug, Clone, Copy)]
pub enum InnerSide<'a> {
    /// Wall thickness at heights from the bottom up; one entry is the same everywhere,
    /// none is [`FormSpec::usual_wall`].
    Wall(&'a [WallPoint]),
    /// The inner side's own points.
    Points(&'a [FormPoint]),
}

impl FormSpec {
    /// How the inner side is given.
    pub fn inner_side(&self) -> InnerSide<'_> {
        if self.inner.is_empty() {
            InnerSide::Wall(&self.wall)
        } else {
            InnerSide::Points(&self.inner)
        }
    }

    /// Wall thickness where the maker gives none.
    pub fn usual_wall() -> Length {
        // The table holds one, which its test sees to.
        Self::KEYS.usual("wall").length().unwrap_or_default()
    }
}

impl Rules for FormSpec {
    const RIVALS: &'static [Rivals] = &[Rivals {
        one: "wall",
        other: "inner",
        why: "each alone gives the inside",
        neither: Some((
            "wall is missing: nothing says how thick the wall is",
            "write wall = thickness, or the inside as inner = [[height, radius], ...]",
        )),
    }];
}
