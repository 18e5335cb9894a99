//! Volumes and surfaces of things turned round the axis.

use std::f64::consts::PI;

use geometry::kurbo::Point;

/// A volume, held in cubic millimetres.
///
/// ```
/// use piece::form::Volume;
/// // A US gallon is 231 in³ by definition, and 128 fluid ounces.
/// let gallon = Volume::mm3(231.0 * 25.4 * 25.4 * 25.4);
/// assert!((gallon.as_us_fl_oz() - 128.0).abs() < 1e-12);
/// assert!((gallon.as_ml() / 128.0 - 29.5735295625).abs() < 1e-12);
/// ```
#[derive(Debug, Clone, Copy, Default)]
pub struct Volume(f64);

impl Volume {
    /// A volume given in mm³.
    pub const fn mm3(value: f64) -> Self {
        Self(value)
    }

    /// In mm³.
    pub const fn as_mm3(self) -> f64 {
        self.0
    }

    /// In millilitres; 1 ml is 1000 mm³.
    pub const fn as_ml(self) -> f64 {
        self.0 / 1000.0
    }

    /// In cubic inches of 25.4 mm a side.
    pub const fn as_cubic_inches(self) -> f64 {
        self.0 / (25.4 * 25.4 * 25.4)
    }

    /// In US fluid ounces, 128 to a gallon of 231 in³: 29.5735295625 ml each.
    pub const fn as_us_fl_oz(self) -> f64 {
        self.as_cubic_inches() * 128.0 / 231.0
    }
}

/// Surfaces of a form, mm².
#[derive(Debug, Clone, Copy, Default)]
pub struct SurfaceAreas {
    /// The outer side, foot to rim, with the easing.
    pub outside: f64,
    /// The inner side and the floor, with the easing.
    pub inside: f64,
    /// The level part of the rim.
    pub rim: f64,
    /// Underside of the foot, and the recess.
    pub underside: f64,
}

impl SurfaceAreas {
    /// Everything that finish goes on, mm².
    pub fn total(&self) -> f64 {
        self.outside + self.inside + self.rim + self.underside
    }
}

/// Volume between a rising line and the axis, mm³: cone frusta.
pub(super) fn under(line: &[Point]) -> f64 {
    let frustum = |w: &[Point]| {
        let (a, b) = (w[0], w[1]);
        PI / 3.0 * (b.y - a.y) * (a.x * a.x + a.x * b.x + b.x * b.x)
    };
    line.windows(2).map(frustum).sum()
}

/// Area that a line sweeps when it turns round the axis, mm²: length times the way of
/// its middle (Pappus' first theorem), edge by edge.
pub(super) fn swept(line: &[Point]) -> f64 {
    line.windows(2)
        .map(|w| PI * (w[0].x + w[1].x) * (w[1] - w[0]).hypot())
        .sum()
}
