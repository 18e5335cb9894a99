//! The plan's parts as the page shows them.

use serde::Serialize;

use super::Edit;

/// A figure.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Figure {
    /// A name for machines.
    pub key: String,
    /// What it is.
    pub label: String,
    /// Its value, without the unit.
    pub value: String,
    /// Its unit; empty for counts and words.
    pub unit: String,
    /// A machine, stop or rule is set to it.
    pub cut_to: bool,
    /// How it was worked out.
    pub working: Option<Working>,
}

/// How a figure was worked out.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Working {
    /// The formula in words.
    pub formula: String,
    /// What was put in.
    pub inputs: Vec<Input>,
    /// Where the formula comes from.
    pub source: String,
}

/// What was put into a formula.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Input {
    /// Its name in the formula.
    pub name: String,
    /// Its value with the unit.
    pub shown: String,
}

/// What an operation or finding is about; numbers count from 0, null is none.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct About {
    /// Section, from the bottom.
    pub section: Option<u32>,
    /// Ring in its section.
    pub ring: Option<u32>,
    /// Loop band in its section.
    pub band: Option<u32>,
    /// Loop in its band.
    #[serde(rename = "loop")]
    pub loop_number: Option<u32>,
}

/// One operation of the route.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Operation {
    /// Its number in the route, from 1.
    pub number: u32,
    /// Which operation it is, for machines.
    pub kind: String,
    /// What is done, to what.
    pub title: String,
    /// What it is about.
    #[serde(flatten)]
    pub about: About,
    /// Its figures, those to set first.
    pub figures: Vec<Figure>,
    /// What is done, in order.
    pub doing: Vec<String>,
    /// What to measure before going on.
    pub measure: Vec<String>,
    /// Cautions in words.
    pub cautions: Vec<String>,
    /// Address of the drawing that shows it; add `&unit=`. Null where there is none.
    pub drawing: Option<String>,
    /// Time of work, `25 min`.
    pub time: String,
    /// Waiting after it, `12 h`; empty for none.
    pub wait: String,
}

/// How bad a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// The work cannot be done so.
    Stops,
    /// It may fail, or hurt.
    Risky,
    /// Worth knowing.
    Knowing,
}

/// What may go wrong.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Finding {
    /// A name for machines.
    pub key: String,
    /// How bad it is.
    pub severity: Severity,
    /// What is found.
    pub what: String,
    /// What would do.
    pub remedy: String,
    /// The blank to change.
    pub path: String,
    /// Changes that do it, each tried.
    pub ways: Vec<Way>,
    /// What was found one by one, where one cause was found in many places.
    pub cases: Vec<String>,
    /// What it is about.
    #[serde(flatten)]
    pub about: About,
    /// The figure found and its limit.
    pub figures: Vec<Figure>,
}

/// A change of the file that makes a finding go away; it has been tried.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Way {
    /// What it does: `make the section 203.3 mm high`.
    pub what: String,
    /// It as edits.
    pub edits: Vec<Edit>,
}

/// Findings counted.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Counts {
    /// That stop the work.
    pub stops: u32,
    /// That are risky.
    pub risky: u32,
    /// That are worth knowing.
    pub knowing: u32,
}

/// A stage of the making, for the ruled line under the piece.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Step {
    /// One or two words.
    pub label: String,
    /// The last operation of the stage.
    pub operation: u32,
    /// What sort of stage it is.
    pub kind: StepKind,
    /// Section.
    pub section: Option<u32>,
    /// Band.
    pub band: Option<u32>,
    /// Loop.
    #[serde(rename = "loop")]
    pub loop_number: Option<u32>,
}

/// Sorts of stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// Wood is milled and rings are glued.
    Rings,
    /// Rings become sections.
    Stack,
    /// One loop is sawn and filled.
    Loop,
    /// A section is split, turned and glued again.
    Split,
    /// Sections are joined.
    Join,
    /// The piece is turned.
    Turn,
    /// Sanded, finished, parted off.
    Finish,
}

/// What is worked out about the whole of the work: holding, glue, movement, use.
#[derive(Debug, Clone, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Study {
    /// A name for machines: `holding`.
    pub key: String,
    /// Its heading.
    pub title: String,
    /// Its figures.
    pub figures: Vec<Figure>,
    /// What is said beside them.
    pub text: Vec<String>,
}
