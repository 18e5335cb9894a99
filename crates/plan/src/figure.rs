//! A figure that a maker cuts to, with how it was worked out.

use geometry::{Angle, Length};
use piece::units::{Unit, degrees, fixed};
use serde::Serialize;

/// A value with its kind, so that it is written in the reader's unit.
#[derive(Debug, Clone, Serialize)]
#[serde(tag = "kind", content = "value", rename_all = "snake_case")]
pub enum Amount {
    /// A length read off a rule: 0.1 mm or 1/64 in.
    Length(Length),
    /// A length read off a calliper: 0.01 mm or 0.001 in.
    Fine(Length),
    /// An angle, shown to 0.01°.
    Angle(Angle),
    /// How many.
    Count(usize),
    /// An area, mm².
    Area(f64),
    /// A volume of wood or glue, mm³.
    Volume(f64),
    /// A volume that the piece holds, mm³.
    Capacity(f64),
    /// A weight, g.
    Weight(f64),
    /// Turns a minute.
    Speed(f64),
    /// Minutes of work.
    Minutes(f64),
    /// Hours of waiting.
    Hours(f64),
    /// Words.
    Text(String),
}

impl Amount {
    /// The value in words of one unit system.
    pub fn show(&self, unit: Unit) -> String {
        match self {
            Amount::Length(l) => unit.length(*l),
            Amount::Fine(l) => unit.fine(*l),
            Amount::Angle(a) => degrees(*a, 2),
            Amount::Count(n) => n.to_string(),
            Amount::Area(a) => unit.area(*a),
            Amount::Volume(v) => unit.volume(*v),
            Amount::Capacity(v) => unit.capacity(*v),
            Amount::Weight(g) => unit.weight(*g),
            Amount::Speed(s) => format!("{} rpm", fixed(*s, 0)),
            Amount::Minutes(m) => format!("{} min", fixed(*m, 0)),
            Amount::Hours(h) => format!("{} h", fixed(*h, 0)),
            Amount::Text(t) => t.clone(),
        }
    }
}

/// How a figure was worked out.
#[derive(Debug, Clone, Serialize)]
pub struct Working {
    /// The formula in words: `spacer = (layer + 2 glue lines − kerf) / cos(tilt)`.
    pub formula: String,
    /// What was put in.
    pub inputs: Vec<Input>,
    /// Where the formula comes from: a closed form, a handbook, common practice.
    pub source: String,
}

/// One value put into a formula.
#[derive(Debug, Clone, Serialize)]
pub struct Input {
    /// Its name in the formula.
    pub name: String,
    /// Its value.
    pub amount: Amount,
}

impl Working {
    /// A formula and its source; add inputs with [`Working::with`].
    pub fn new(formula: impl Into<String>, source: impl Into<String>) -> Self {
        Self {
            formula: formula.into(),
            inputs: Vec::new(),
            source: source.into(),
        }
    }

    /// Adds an input.
    pub fn with(mut self, name: impl Into<String>, amount: Amount) -> Self {
        self.inputs.push(Input {
            name: name.into(),
            amount,
        });
        self
    }
}

/// A figure on a plan.
#[derive(Debug, Clone, Serialize)]
pub struct Figure {
    /// A name for machines, unique within its operation: `spacer`.
    pub key: String,
    /// What it is, in the trade's words.
    pub label: String,
    /// Its value.
    pub amount: Amount,
    /// How it was worked out; `None` for what the maker gave as it stands.
    pub working: Option<Working>,
    /// A saw, stop, gauge or rule is set to it.
    pub cut_to: bool,
}

impl Figure {
    /// A figure that a machine, stop or rule is set to. It shows its working.
    pub fn setting(key: &str, label: &str, amount: Amount, working: Working) -> Self {
        Self {
            key: key.into(),
            label: label.into(),
            amount,
            working: Some(working),
            cut_to: true,
        }
    }

    /// A figure for information.
    pub fn note(key: &str, label: &str, amount: Amount) -> Self {
        Self {
            key: key.into(),
            label: label.into(),
            amount,
            working: None,
            cut_to: false,
        }
    }

    /// The same with its working.
    pub fn worked(mut self, working: Working) -> Self {
        self.working = Some(working);
        self
    }
}
