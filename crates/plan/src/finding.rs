//! What may go wrong, how badly, and what to change.

use serde::Serialize;

use crate::figure::{Amount, Working};
use crate::operation::Subject;

/// How bad a finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// The work cannot be done so.
    Stops,
    /// It may fail, or hurt.
    Risky,
    /// Worth knowing.
    WorthKnowing,
}

/// One finding.
#[derive(Debug, Clone, Serialize)]
pub struct Finding {
    /// A name for machines: `ring-too-narrow`.
    pub key: String,
    /// How bad it is.
    pub severity: Severity,
    /// What it is about.
    pub subject: Subject,
    /// The key of the project's file to change, counted from 0: `section[1].ring[2].width`.
    pub path: String,
    /// What is found, as a sentence with its figures.
    pub what: String,
    /// What would do, with its figure.
    pub remedy: String,
    /// The figure found, and the limit it is held against.
    pub against: Option<Against>,
}

/// A figure against its limit.
#[derive(Debug, Clone, Serialize)]
pub struct Against {
    /// The figure.
    pub figure: Amount,
    /// Its limit.
    pub limit: Amount,
    /// How both came about.
    pub working: Working,
}
