//! What may go wrong, how badly, and what to change.

use files::key::KeyPath;
use files::message::{Language, Said, Unsaid, Wording};
use files::remedy::Remedy;
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

/// One finding, as messages or said in one reader's language.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Finding<W: Wording = Unsaid> {
    /// A name for machines: `ring-too-narrow`.
    pub key: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// What it is about.
    pub subject: Subject,
    /// The key of the project's file to change, counted from 0: `section[1].ring[2].width`.
    pub path: KeyPath,
    /// What is found, as a sentence with its figures.
    pub what: W::Text,
    /// What would do, in a sentence and as changes that can be made.
    #[serde(flatten)]
    pub remedy: Remedy<W>,
    /// The figure found, and the limit it is held against.
    pub against: Option<Against<W>>,
    /// The rings of its section that it is about, from 0, where they are more than the
    /// subject's one.
    #[serde(rename = "rings", skip_serializing_if = "Vec::is_empty")]
    pub of_rings: Vec<usize>,
    /// What was found one by one, where one cause was found in many places.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cases: Vec<Case<W>>,
}

/// One of several places in which one cause was found.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Case<W: Wording = Unsaid> {
    /// What it is about.
    pub subject: Subject,
    /// What is found there.
    pub what: W::Text,
    /// The figure found, and the limit it is held against.
    pub against: Option<Against<W>>,
}

impl Finding {
    /// The same about several rings of its section.
    pub(crate) fn about(mut self, rings: &[usize]) -> Finding {
        self.of_rings = if rings.len() > 1 {
            rings.to_vec()
        } else {
            Vec::new()
        };
        self
    }

    /// The finding in one reader's language.
    pub fn said(&self, language: impl Into<Language>) -> Finding<Said> {
        let language = language.into();
        let against = |against: &Option<Against>| against.as_ref().map(|a| a.said(language));
        let cases = self.cases.iter().map(|case| Case {
            subject: case.subject,
            what: case.what.said(language),
            against: against(&case.against),
        });
        Finding {
            key: self.key,
            severity: self.severity,
            subject: self.subject,
            path: self.path.clone(),
            what: self.what.said(language),
            remedy: self.remedy.said(language),
            against: against(&self.against),
            of_rings: self.of_rings.clone(),
            cases: cases.collect(),
        }
    }
}

impl<W: Wording> Finding<W> {
    /// Every ring of its section that it is about, from 0.
    pub fn rings(&self) -> Vec<usize> {
        match self.of_rings.as_slice() {
            [] => self.subject.ring.into_iter().collect(),
            many => many.to_vec(),
        }
    }

    /// Is it the same finding, of the same ring, band or loop, in another state of a piece?
    pub fn is_still(&self, other: &Finding<W>) -> bool {
        let place = |f: &Finding<W>| Subject {
            ring: None,
            ..f.subject
        };
        let of = |f: &Finding<W>| (f.key, place(f), f.path.name());
        let (rings, others) = (self.rings(), other.rings());
        let shared = rings.iter().any(|ring| others.contains(ring));
        of(self) == of(other) && (shared || rings == others)
    }

    /// Has a change done away with it? It is gone, and nothing as bad has come in its place.
    ///
    /// `before` is all that was found, with this among it; `after` what is found with the
    /// change made.
    pub fn is_done_by(&self, before: &[Finding<W>], after: &[Finding<W>]) -> bool {
        let count = |all: &[Finding<W>], key: &str| {
            let as_bad = |f: &&Finding<W>| f.key == key && f.severity <= self.severity;
            all.iter().filter(as_bad).count()
        };
        let worse = |f: &Finding<W>| count(after, f.key) > count(before, f.key);
        let fewer = count(after, self.key) < count(before, self.key);
        fewer && !after.iter().any(|f| self.is_still(f) || worse(f))
    }
}

/// A figure against its limit.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Against<W: Wording = Unsaid> {
    /// The figure.
    pub figure: Amount,
    /// Its limit.
    pub limit: Amount,
    /// How both came about.
    pub working: Working<W>,
}

impl Against {
    fn said(&self, language: Language) -> Against<Said> {
        Against {
            figure: self.figure.said(language),
            limit: self.limit.said(language),
            working: self.working.said(language),
        }
    }
}
