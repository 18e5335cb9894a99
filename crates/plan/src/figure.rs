//! A figure that a maker cuts to, with how it was worked out.

use std::borrow::Cow;

pub use files::message::Amount;
use files::message::{Language, Message, Said, Unsaid, Wording};
use serde::Serialize;

/// How a figure was worked out.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Working<W: Wording = Unsaid> {
    /// The formula in words: `spacer = (layer + 2 glue lines − kerf) / cos(tilt)`.
    pub formula: W::Text,
    /// What was put in.
    pub inputs: Vec<Input<W>>,
    /// Where the formula comes from: a closed form, a handbook, common practice.
    pub source: W::Text,
}

/// One value put into a formula.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Input<W: Wording = Unsaid> {
    /// Its name in the formula.
    pub name: W::Text,
    /// Its value.
    pub amount: Amount,
    /// The value as it is read.
    pub shown: W::Shown,
}

impl Working {
    /// A formula and its source; add inputs with [`Working::with`].
    pub fn new(formula: impl Into<Message>, source: impl Into<Message>) -> Self {
        Self {
            formula: formula.into(),
            inputs: Vec::with_capacity(4),
            source: source.into(),
        }
    }

    /// Adds an input.
    pub fn with(mut self, name: impl Into<Message>, amount: Amount) -> Self {
        self.inputs.push(Input {
            name: name.into(),
            amount,
            shown: (),
        });
        self
    }

    /// The working in one reader's language.
    pub fn said(&self, language: Language) -> Working<Said> {
        let said = |input: &Input| Input {
            name: input.name.said(language),
            amount: input.amount.said(language),
            shown: input.amount.show(language),
        };
        Working {
            formula: self.formula.said(language),
            inputs: self.inputs.iter().map(said).collect(),
            source: self.source.said(language),
        }
    }
}

/// A figure on a plan.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Figure<W: Wording = Unsaid> {
    /// A name for machines, unique within its operation: `spacer`. Figures of one
    /// sort are numbered, `inside_3`.
    pub key: Cow<'static, str>,
    /// What it is, in the trade's words.
    pub label: W::Text,
    /// Its value.
    pub amount: Amount,
    /// The value as it is read.
    pub shown: W::Shown,
    /// How it was worked out; `None` for what needs no working.
    pub working: Option<Working<W>>,
    /// A saw, stop, gauge or rule is set to it.
    pub cut_to: bool,
}

impl Figure {
    /// A figure that a machine, stop or rule is set to. It shows its working.
    pub fn setting(
        key: impl Into<Cow<'static, str>>,
        label: impl Into<Message>,
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
        label: impl Into<Message>,
        amount: Amount,
    ) -> Self {
        Self {
            key: key.into(),
            label: label.into(),
            amount,
            shown: (),
            working: None,
            cut_to: false,
        }
    }

    /// The same with its working.
    pub fn worked(mut self, working: Working) -> Self {
        self.working = Some(working);
        self
    }

    /// The figure in one reader's language.
    pub fn said(&self, language: Language) -> Figure<Said> {
        Figure {
            key: self.key.clone(),
            label: self.label.said(language),
            amount: self.amount.said(language),
            shown: self.amount.show(language),
            working: self.working.as_ref().map(|w| w.said(language)),
            cut_to: self.cut_to,
        }
    }
}

impl<W: Wording> Figure<W> {
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
}

/// Every figure of a list in one reader's language.
pub(crate) fn figures_said(figures: &[Figure], language: Language) -> Vec<Figure<Said>> {
    figures.iter().map(|f| f.said(language)).collect()
}
