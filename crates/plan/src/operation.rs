//! One operation of the route.

use serde::Serialize;

use crate::caution::Caution;
use crate::figure::Figure;

/// What an operation is about. Numbers count from 0.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Subject {
    /// Section, from the bottom.
    pub section: Option<usize>,
    /// Ring in its section.
    pub ring: Option<usize>,
    /// Loop band in its section.
    pub band: Option<usize>,
    /// Loop in its band.
    #[serde(rename = "loop")]
    pub loop_number: Option<usize>,
}

/// One operation of the route.
#[derive(Debug, Clone, Serialize)]
pub struct Operation {
    /// Its number in the route, from 1.
    pub number: usize,
    /// Which operation it is.
    pub kind: crate::operations::Kind,
    /// What is done, to what: `Cut the segments of ring 4`.
    pub title: String,
    /// What it is about.
    pub subject: Subject,
    /// Figures, those to set first.
    pub figures: Vec<Figure>,
    /// What is done, in order.
    pub doing: Vec<String>,
    /// What to measure before going on.
    pub measure: Vec<String>,
    /// Cautions that travel with it.
    pub cautions: Vec<Caution>,
    /// Minutes of work; an estimate from common practice.
    pub minutes: f64,
    /// Hours of waiting after it (glue); 0 for none.
    pub wait_hours: f64,
}
