//! One side of a turned wall: a radius for each height.

use kurbo::Point;

use crate::chain::{HeightIndex, Keep, Stretch, drawn, stretches};

/// The outer or the inner side of a turned wall as radius against height, millimetres.
///
/// Where the curve it was made from passes a height more than once, or steps there,
/// the *outside* keeps the largest radius (what a gauge closed on the piece feels) and
/// the *inside* the smallest (what a gauge opened in the hollow feels). A level edge at
/// either end, such as a floor, is no part of the side.
///
/// ```
/// use geometry::{Profile, kurbo::Point};
/// let cone = Profile::outside(&[Point::new(20.0, 0.0), Point::new(50.0, 60.0)]);
/// assert_eq!(cone.radius(30.0), Some(35.0));
/// assert_eq!(cone.radius(60.1), None);
/// assert_eq!(cone.slope(30.0), Some(0.5));
/// ```
#[derive(Debug, Clone)]
pub struct Profile {
    keep: Keep,
    stretches: Vec<Stretch>,
    index: HeightIndex,
}

impl Profile {
    /// The outer side through `points`, from the bottom up.
    pub fn outside(points: &[Point]) -> Self {
        Self::new(points, Keep::Outermost)
    }

    /// The side of the hollow through `points`, from the bottom up.
    pub fn inside(points: &[Point]) -> Self {
        Self::new(points, Keep::Innermost)
    }

    fn new(points: &[Point], keep: Keep) -> Self {
        let finite: Vec<Point> = points.iter().copied().filter(|p| p.is_finite()).collect();
        let stretches = stretches(&finite, keep);
        let starts: Vec<f64> = stretches.iter().map(|s| s.z0).collect();
        let index = HeightIndex::new(&starts, stretches.last().map_or(0.0, |s| s.z1));
        Self {
            keep,
            stretches,
            index,
        }
    }

    /// Radius at height `z`; nothing below the lowest or above the highest point.
    pub fn radius(&self, z: f64) -> Option<f64> {
        let i = self.find(z)?;
        let s = &self.stretches[i];
        let r = s.at(z);
        // At a step both stretches have a say.
        Some(match self.stretches.get(i.wrapping_sub(1)) {
            Some(below) if z <= s.z0 => self.kept(r, below.r1),
            _ => r,
        })
    }

    /// Slope dr/dz at height `z`, above a corner if `z` is one.
    pub fn slope(&self, z: f64) -> Option<f64> {
        self.find(z).map(|i| self.stretches[i].slope())
    }

    /// Radius and slope at height `z` at once, above a corner or step if `z` is one.
    pub fn radius_and_slope(&self, z: f64) -> Option<(f64, f64)> {
        let s = &self.stretches[self.find(z)?];
        Some((s.at(z), s.slope()))
    }

    /// Largest radius from `z0` to `z1`, both included, over the part where the side
    /// exists; nothing if it does not there. Cost grows with the points between.
    pub fn max_between(&self, z0: f64, z1: f64) -> Option<f64> {
        self.between(z0, z1).reduce(f64::max)
    }

    /// Smallest radius from `z0` to `z1`; as [`Profile::max_between`].
    pub fn min_between(&self, z0: f64, z1: f64) -> Option<f64> {
        self.between(z0, z1).reduce(f64::min)
    }

    /// Lowest height; 0 for a side without points.
    pub fn lowest(&self) -> f64 {
        self.stretches.first().map_or(0.0, |s| s.z0)
    }

    /// Highest height; 0 for a side without points.
    pub fn highest(&self) -> f64 {
        self.stretches.last().map_or(0.0, |s| s.z1)
    }

    /// The side as a line from the bottom up, level at its steps.
    pub fn points(&self) -> Vec<Point> {
        drawn(&self.stretches)
    }

    fn kept(&self, a: f64, b: f64) -> f64 {
        match self.keep {
            Keep::Innermost => a.min(b),
            Keep::Outermost => a.max(b),
        }
    }

    fn find(&self, z: f64) -> Option<usize> {
        if !(z >= self.lowest() && z <= self.highest()) {
            return None;
        }
        self.index.find(&self.stretches, |s| s.z0, z)
    }

    /// Radii at both ends of every stretch that reaches into a range of heights.
    fn between(&self, z0: f64, z1: f64) -> impl Iterator<Item = f64> + '_ {
        let (z0, z1) = if z0 <= z1 { (z0, z1) } else { (z1, z0) };
        let (lo, hi) = (z0.max(self.lowest()), z1.min(self.highest()));
        let from = self.find(lo).filter(|_| lo <= hi);
        // A step at the range's lower end belongs to it.
        let from = from.map(|i| {
            if i > 0 && self.stretches[i].z0 >= lo {
                i - 1
            } else {
                i
            }
        });
        from.into_iter()
            .flat_map(move |i| &self.stretches[i..])
            .take_while(move |s| s.z0 <= hi)
            .flat_map(move |s| [s.at(lo.max(s.z0)), s.at(hi.min(s.z1))])
    }
}
