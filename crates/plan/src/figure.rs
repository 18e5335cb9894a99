//! A figure that a maker cuts to, with how it was worked out.

use std::borrow::Cow;

pub use files::message::Amount;
use files::units::Unit;
use serde::Serialize;

/// How a figure was worked out.
#[derive(Debug, Clone, Serialize)]
pub struct Working {
    /// The formula in words: `spacer = (layer + 2 glue lines − kerf) / cos(tilt)`.
    pub formula: Cow<'static, str>,
    /// What was put in.
    pub inputs: Vec<Input>,
    /// Where the formula comes from: a closed form, a handbook, common practice.
    pub source: Cow<'static, str>,
}

/// One value put into a formula.
#[derive(Debug, Clone, Serialize)]
pub struct Input {
    /// Its name in the formula.
    pub name: Cow<'static, str>,
    /// Its value.
    pub amount: Amount,
    /// The value in the plan's unit; empty outside a plan and its findings.
    pub shown: String,
}

impl Working {
    /// A formula and its source; add inputs with [`Working::with`].
    pub fn new(
        formula: impl Into<Cow<'static, str>>,
        source: impl Into<Cow<'static, str>>,
    ) -> Self {
        Self {
            formula: formula.into(),
            inputs: Vec::with_capacity(4),
            source: source.into(),
        }
    }

    /// Adds an input.
    pub fn with(mut self, name: impl Into<Cow<'static, str>>, amount: Amount) -> Self {
        self.inputs.push(Input {
            name: name.into(),
            amount,
            shown: String::new(),
        });
        self
    }

    /// Writes out every input in a unit.
    pub(crate) fn show_in(&mut self, unit: Unit) {
        for input in &mut self.inputs {
            input.shown = input.amount.show(unit);
        }
    }
}

/// A figure on a plan.
#[derive(Debug, Clone, Serialize)]
pub struct Figure {
    /// A name for machines, unique within its operation: `spacer`. Figures of one
    /// sort are numbered, `inside_3`.
    pub key: Cow<'static, str>,
    /// What it is, in the trade's words.
    pub label: Cow<'static, str>,
    /// Its value.
    pub amount: Amount,
    /// The value in the plan's unit; empty outside a plan.
    pub shown: String,
    /// How it was worked out; `None` for what needs no working.
    pub working: Option<Working>,
    /// A saw, stop, gauge or rule is set to it.
    pub cut_to: bool,
}

impl Figure {
    /// A figure that a machine, stop or rule is set to. It shows its working.
    pub fn setting(
        key: impl Into<Cow<'static, str>>,
        label: impl Into<Cow<'static, str>>,
        amount: Amount,
        working: Working,
    ) -> Self {
        Self {
            cut_to: true,
            ..Self::note(key, label, amount).worked(working)
        }
    }

    /// A figure for information.
    pub fn note(
        key: impl Into<Cow<'static, str>>,
        label: impl Into<Cow<'static, str>>,
        amount: Amount,
    ) -> Self {
        Self {
            key: key.into(),
            label: label.into(),
            amount,
            shown: String::new(),
            working: None,
            cut_to: false,
        }
    }

    /// The same with its working.
    pub fn worked(mut self, working: Working) -> Self {
        self.working = Some(working);
        self
    }

    /// What sort of figure it is: the key without a number at its end.
    ///
    /// ```
    /// use plan::figure::{Amount, Figure};
    /// assert_eq!(Figure::note("inside_12", "", Amount::Count(1)).sort(), "inside");
    /// assert_eq!(Figure::note("first_cut", "", Amount::Count(1)).sort(), "first_cut");
    /// ```
    pub fn sort(&self) -> &str {
        match self.key.rsplit_once('_') {
            Some((sort, number)) if number.parse::<usize>().is_ok() => sort,
            _ => &self.key,
        }
    }

    /// Writes out the value and what it was worked out from in a unit.
    pub(crate) fn show_in(&mut self, unit: Unit) {
        self.shown = self.amount.show(unit);
        if let Some(working) = &mut self.working {
            working.show_in(unit);
        }
    }
}

/// Writes out every figure of a list in a unit.
pub(crate) fn show_all(figures: &mut [Figure], unit: Unit) {
    for figure in figures {
        figure.show_in(unit);
    }
}
