//! All that the page shows of one piece.

use std::collections::BTreeMap;

use serde::Serialize;

use super::{
    Counts, Figure, Finding, FormView, Operation, PageSpelling, PageUnit, Problem, Step, Study,
};

/// A point as (radius, height) or (azimuth, height): mm, degrees.
pub type Pair = (f64, f64);

/// One piece.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct View {
    /// The project's name.
    pub name: String,
    /// What the maker calls it.
    pub title: String,
    /// The maker's notes.
    pub notes: String,
    /// The unit asked for.
    pub unit: PageUnit,
    /// The file's own unit.
    pub file_unit: PageUnit,
    /// How its words are spelled.
    pub spelling: PageSpelling,
    /// Version of text and workshop.
    pub version: String,
    /// When it was saved, milliseconds since 1970 UTC; null for a preview.
    pub saved: Option<f64>,
    /// How many steps can be undone.
    pub undo: u32,
    /// How many steps can be redone.
    pub redo: u32,
    /// Not empty when the file on disk is broken: the rest is the last good piece, or
    /// empty where there never was one.
    pub problems: Vec<Problem>,
    /// Every setting.
    pub blanks: BTreeMap<String, Blank>,
    /// The form; null where there is no piece.
    pub form: Option<FormView>,
    /// Sections from the bottom up.
    pub sections: Vec<Section>,
    /// Woods that can be chosen.
    pub woods: Vec<Wood>,
    /// What may go wrong, worst first.
    pub findings: Vec<Finding>,
    /// Findings counted.
    pub counts: Counts,
    /// The route; null in a preview.
    pub route: Option<Route>,
    /// Pictures; null where there is no piece.
    pub pictures: Option<Pictures>,
}

/// The route.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Route {
    /// Operations in order.
    pub operations: Vec<Operation>,
    /// Stages of the making.
    pub steps: Vec<Step>,
    /// Time of work.
    pub work: String,
    /// Time of waiting.
    pub waiting: String,
    /// Holding, glue and days, movement, use.
    pub studies: Vec<Study>,
}

/// A setting that the maker can change where it stands.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Blank {
    /// Its value as it stands in the blank, without the unit.
    pub shown: String,
    /// `mm`, `in`, `°` or nothing.
    pub unit: String,
    /// mm, degrees or a count.
    pub raw: Option<f64>,
    /// What it is, for those who do not see where it stands.
    pub label: String,
    /// Who chose it.
    pub origin: Origin,
    /// What it takes.
    pub kind: BlankKind,
    /// Least that the file takes; mm, degrees or a count.
    pub least: Option<f64>,
    /// Most that the file takes.
    pub most: Option<f64>,
    /// What an arrow key changes it by; mm, degrees or a count.
    pub step: f64,
    /// What there is to choose from.
    pub choices: Vec<Choice>,
}

/// Who chose a setting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// The maker, in this file.
    Maker,
    /// The workshop's file.
    Workshop,
    /// Common practice.
    Default,
    /// It follows from the rest.
    Form,
}

/// What a blank takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum BlankKind {
    /// A length.
    Length,
    /// An angle in degrees.
    Angle,
    /// A whole number.
    Whole,
    /// A number.
    Number,
    /// Words.
    Text,
    /// One of the choices.
    Choice,
    /// One wood.
    Wood,
    /// Woods repeated round.
    Woods,
    /// Yes or no.
    Flag,
    /// A list of whole numbers or angles, parted by commas.
    List,
}

/// One of a blank's choices.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Choice {
    /// What to set.
    pub value: String,
    /// What to show.
    pub label: String,
}

/// A section.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Section {
    /// `section[1]`.
    pub path: String,
    /// The maker's name for it.
    pub name: String,
    /// Its underside.
    pub z0: f64,
    /// Its top.
    pub z1: f64,
    /// Rings, from the bottom up.
    pub rings: Vec<Ring>,
    /// Loop bands.
    pub bands: Vec<Band>,
    /// Splits.
    pub splits: Vec<Split>,
}

/// A ring.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ring {
    /// `section[1].ring#2`.
    pub path: String,
    /// Its number in the piece, from 1.
    pub number: u32,
    /// Its underside.
    pub z0: f64,
    /// Its top.
    pub z1: f64,
    /// One disc.
    pub solid: bool,
    /// A floor panel is let into it.
    pub panel: bool,
    /// Segments.
    pub segments: u32,
    /// Azimuth in the piece where segment 0 begins, degrees.
    pub start: f64,
    /// Wood of each segment, as the file calls it.
    pub woods: Vec<String>,
    /// Axis to an inner corner; 0 for a disc.
    pub inside: f64,
    /// Axis to an outer flat.
    pub outside: f64,
    /// The form wants more of it than it has: where and how much.
    pub narrow: Option<String>,
    /// Its sizes.
    pub figures: Vec<Figure>,
}

/// A split.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Split {
    /// `section[2].split[0]`.
    pub path: String,
    /// Height in the piece.
    pub z: f64,
    /// How far the upper part is turned, degrees.
    pub turn: f64,
}

/// A loop band.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Band {
    /// `section[1].band[0]`.
    pub path: String,
    /// Its section, from 0.
    pub section: u32,
    /// Its number in the section, from 0.
    pub number: u32,
    /// Height of the loops' middle.
    pub centre: f64,
    /// Tilt, degrees.
    pub tilt: f64,
    /// Highest visible edge outside; null off the wall.
    pub top: Option<f64>,
    /// Lowest visible edge outside.
    pub bottom: Option<f64>,
    /// The section's underside.
    pub z0: f64,
    /// The section's top.
    pub z1: f64,
    /// Loops, in the order of their numbers.
    pub loops: Vec<Loop>,
    /// Crossings on both walls.
    pub crossings: Vec<Crossing>,
    /// Heights of the rows of crossings.
    pub rows: Vec<Row>,
    /// How far its handles go.
    pub limits: Limits,
    /// How often the finished pattern repeats, in words.
    pub symmetry: String,
    /// Its figures.
    pub figures: Vec<Figure>,
}

/// A loop.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Loop {
    /// Its number, from 1.
    pub number: u32,
    /// Wood of its layer.
    pub wood: String,
    /// Azimuth of its climb in the piece, degrees.
    pub azimuth: f64,
    /// Its place in the cutting order, from 1.
    pub cut: u32,
    /// Edges outside.
    pub outside: Edges,
    /// Edges inside.
    pub inside: Edges,
}

/// A loop's two edges on a wall as (azimuth, height), azimuth rising from 0 to 360;
/// where the loop runs off the wall the line has a gap, a new list.
#[derive(Debug, Clone, Default, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Edges {
    /// The upper edge.
    pub upper: Vec<Vec<Pair>>,
    /// The lower edge.
    pub lower: Vec<Vec<Pair>>,
}

/// One of the two walls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WallSide {
    /// The outer wall.
    Outside,
    /// The inner wall.
    Inside,
}

/// A crossing.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Crossing {
    /// On which wall.
    pub wall: WallSide,
    /// Azimuth in the piece, degrees.
    pub azimuth: f64,
    /// Height.
    pub z: f64,
    /// The loop that runs through, from 1.
    pub over: u32,
    /// The loop that is interrupted, from 1.
    pub under: u32,
}

/// A row of crossings.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Row {
    /// On which wall.
    pub wall: WallSide,
    /// Height.
    pub z: f64,
    /// The height in words.
    pub shown: String,
}

/// How far a band's handles go.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Limits {
    /// Of the reach.
    pub reach: Limit,
    /// Of the height of the loops' middle above the section's underside.
    pub height: Limit,
    /// Of the layer.
    pub layer: Limit,
}

/// How far one handle goes, mm of the blank's own value.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Limit {
    /// Least.
    pub least: f64,
    /// Most.
    pub most: f64,
    /// What stops it at the least, with its figure.
    pub why_least: String,
    /// What stops it at the most, with its figure.
    pub why_most: String,
}

/// A wood that can be chosen.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Wood {
    /// As the file names it.
    pub name: String,
    /// As people name it.
    pub label: String,
    /// `#rrggbb`, for looks only.
    pub colour: String,
    /// A letter, each used wood another; empty for unused ones.
    pub letter: String,
    /// Pattern without colour: 0 blank, 1 dots, 2 lines, 3 crossed, 4 filled.
    pub hatch: u32,
    /// It is in the piece.
    pub used: bool,
}

/// Addresses of pictures; add `&w=` for the width.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Pictures {
    /// Outer wall unrolled: azimuth to the right, height up, top row the rim.
    pub outside: String,
    /// Inner wall, the same way.
    pub inside: String,
    /// The half-section's face from the axis to the right; add `&az=`.
    pub section: String,
    /// A level cut seen from above; add `&z=`.
    pub level: String,
    /// The whole piece seen from the side.
    pub portrait: String,
}

/// What is at a point.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Spot {
    /// `Loop 3 of 4 · padauk`.
    pub title: String,
    /// Its history in a few short lines.
    pub lines: Vec<String>,
    /// Its wood, as the file names it.
    pub wood: String,
    /// Section, from 0.
    pub section: u32,
    /// Ring in the section, from 0.
    pub ring: Option<u32>,
    /// Segment in the ring, from 0.
    pub segment: Option<u32>,
    /// Band in the section, from 0.
    pub band: Option<u32>,
    /// Loop in the band, from 0.
    #[serde(rename = "loop")]
    pub loop_number: Option<u32>,
    /// The operation that put it there.
    pub operation: Option<u32>,
    /// Its blank or entry.
    pub path: Option<String>,
}
