//! The finished form.

use serde::Serialize;

use super::{Figure, Pair};

/// The finished form.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct FormView {
    /// Height.
    pub height: f64,
    /// Largest radius.
    pub radius: f64,
    /// The outer side, from the bottom up.
    pub outer: Vec<Pair>,
    /// The inner side, from the bottom up.
    pub inner: Vec<Pair>,
    /// The half-section of the wood, closed.
    pub outline: Vec<Pair>,
    /// Points of the outer curve.
    pub points: Vec<FormPoint>,
    /// Points of the inner curve, where it has its own.
    pub inner_points: Vec<FormPoint>,
    /// Wall thicknesses by height.
    pub walls: Vec<Wall>,
    /// Where the wall is thin.
    pub thin: Vec<Thin>,
    /// What it holds, weighs and so on.
    pub figures: Vec<Figure>,
    /// The surface in parts, for the picture in three dimensions.
    pub parts: Vec<SurfacePart>,
}

/// A point of a curve.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct FormPoint {
    /// `form.outer[2]`; its height is `[0]` of that, its radius `[1]`, its corner `[2]`.
    pub path: String,
    /// Height.
    pub height: f64,
    /// Radius.
    pub radius: f64,
    /// The curve turns sharply here.
    pub corner: bool,
}

/// A wall thickness.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Wall {
    /// `form.wall`, or `form.wall[1]` with height `[0]` and thickness `[1]` of that.
    pub path: String,
    /// Height.
    pub height: f64,
    /// Thickness.
    pub thickness: f64,
}

/// A place where the wall is thin.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Thin {
    /// From this height.
    pub z0: f64,
    /// To this height.
    pub z1: f64,
    /// What is so.
    pub what: String,
}

/// A part of the surface: a line turned round the axis, and the picture on it.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SurfacePart {
    /// Which part.
    pub name: PartName,
    /// How the picture lies on it.
    pub map: PartMap,
    /// Its line, as (radius, height), going so that the wood is on its left.
    pub line: Vec<Pair>,
    /// Address of its picture; add `&w=`.
    pub picture: String,
}

/// Parts of the surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PartName {
    /// The outer wall.
    Outside,
    /// The top.
    Rim,
    /// The inner wall.
    Inside,
    /// The bottom of the hollow.
    Floor,
    /// The underside.
    Foot,
}

/// How a picture lies on a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PartMap {
    /// Left to right the azimuth from 0 to 360°, bottom to top the length along the line
    /// from its first to its last point.
    Skin,
    /// Seen from above, x to the right and y up, from minus to plus the largest radius.
    Disc,
}
