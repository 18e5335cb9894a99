//! The form as the maker gives it.

use geometry::Length;

/// Wall thickness where the maker gives none.
pub const DEFAULT_WALL: Length = Length::mm(6.0);

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

/// The inner side as the maker gives it.
#[derive(Debug, Clone)]
pub enum InnerSpec {
    /// Wall thickness, square to the outer wall, at heights from the bottom up
    /// (one entry: the same everywhere; between entries: in proportion).
    Wall(Vec<(Length, Length)>),
    /// The inner side's own points.
    Points(Vec<FormPoint>),
}

impl Default for InnerSpec {
    fn default() -> Self {
        InnerSpec::Wall(Vec::new())
    }
}

/// The form as the maker gives it.
#[derive(Debug, Clone, Default)]
pub struct FormSpec {
    /// Outer curve from the bottom up.
    pub outer: Vec<FormPoint>,
    /// Straight lines between points instead of a smooth curve.
    pub straight: bool,
    /// The inner side.
    pub inner: InnerSpec,
    /// Floor thickness above the foot's recess.
    pub floor: Option<Length>,
    /// Depth of the recess under the foot.
    pub foot_recess: Option<Length>,
    /// Width of the foot's ring around the recess.
    pub foot_width: Option<Length>,
    /// Radius that the rim's two edges are eased to.
    pub rim_easing: Option<Length>,
}
