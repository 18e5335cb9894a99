//! The plan of a piece.

use files::key::KeyPath;
use files::message::{Language, Message, Said, Spelling};
use files::units::Unit;
use piece::piece::{Chosen, ChosenValue, Origin};
use piece::settle::Settled;
use serde::{Serialize, Serializer};

use crate::figure::{Amount, Figure};
use crate::finding::Finding;
use crate::holding;
use crate::operation::Operation;
use crate::overview::Overview;
use crate::route::route;
use crate::studies::{self, Study};
use crate::tables::SectionTable;
use crate::weight::Weight;
use crate::words;

/// What numbers mean in a plan written for machines.
const NUMBERS: &str = "lengths in mm, angles in degrees, areas in mm², volumes in mm³, \
                       weights in g, speeds in turns a minute, times in minutes or hours, forces in \
                       N, moments in N·mm, pressures in N/mm², temperatures in °C";

/// The plan of a piece.
#[derive(Debug, Clone, Serialize)]
pub struct Plan {
    /// What the maker calls it.
    pub title: String,
    /// The maker's notes.
    pub notes: Option<String>,
    /// The unit that it is shown in.
    #[serde(serialize_with = "unit_word")]
    pub unit: Unit,
    /// How its words are spelled.
    #[serde(skip)]
    pub spelling: Spelling,
    /// What bare numbers mean, whatever the unit.
    pub numbers: &'static str,
    /// The finished form; `None` when the design gives none.
    pub overview: Option<Overview<Said>>,
    /// What the project's file left open and how it was filled in.
    pub chosen: Vec<ChosenFigure>,
    /// What may go wrong.
    pub findings: Vec<Finding<Said>>,
    /// Rings and knots by section, from the bottom up.
    pub sections: Vec<SectionTable<Said>>,
    /// The route.
    pub operations: Vec<Operation<Said>>,
    /// Holding, glue and days, movement, use.
    pub studies: Vec<Study<Said>>,
    /// Minutes of work in all.
    pub minutes: f64,
    /// Hours of waiting in all, one after another.
    pub wait_hours: f64,
}

/// A figure that was chosen for the maker.
#[derive(Debug, Clone, Serialize)]
pub struct ChosenFigure {
    /// Its key in the project's file, counted from 0.
    pub path: KeyPath,
    /// What it is and its value.
    pub figure: Figure<Said>,
    /// Who chose it.
    pub by: Origin,
}

fn unit_word<S: Serializer>(unit: &Unit, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(unit.word())
}

/// Plans a settled piece for one reader.
///
/// Nothing is left out because of a finding: a maker sees what would be done, and
/// what is wrong with it. Without a piece there are only the findings.
pub fn plan(settled: &Settled, language: impl Into<Language>) -> Plan {
    let language = language.into();
    let surveyed = crate::findings::surveyed(settled);
    let mut plan = Plan {
        title: String::new(),
        notes: None,
        unit: language.unit,
        spelling: language.spelling,
        numbers: NUMBERS,
        overview: None,
        chosen: Vec::new(),
        findings: {
            let all = surveyed.findings.iter();
            all.map(|f| f.said(language)).collect()
        },
        sections: Vec::new(),
        operations: Vec::new(),
        studies: Vec::new(),
        minutes: 0.0,
        wait_hours: 0.0,
    };
    let Some(piece) = &settled.piece else {
        return plan;
    };
    plan.title = words::plain(&piece.title);
    plan.notes = piece.notes.clone();
    let weight = surveyed.weight.unwrap_or_else(|| Weight::of(piece));
    plan.overview = Some(Overview::of(piece, &weight).said(language));
    plan.chosen = piece.chosen.iter().map(|c| chosen(c, language)).collect();
    plan.sections = (0..piece.sections.len())
        .filter_map(|number| SectionTable::of(piece, number))
        .map(|table| table.said(language))
        .collect();
    let mut operations = route(piece, language.unit);
    let held = surveyed.held.unwrap_or_else(|| holding::study(piece));
    for operation in &mut operations {
        let of = |h: &&holding::Held| {
            let section = h.stage.section;
            h.stage.kind == operation.kind
                && (section.is_none() || section == operation.subject.section)
        };
        if let Some(held) = held.iter().find(of) {
            operation.figures.extend(holding::figures(piece, held));
        }
    }
    let studies = studies::studies(piece, &weight, &held, &operations);
    plan.studies = studies.iter().map(|s| s.said(language)).collect();
    plan.operations = operations.iter().map(|o| o.said(language)).collect();
    plan.minutes = plan.operations.iter().map(|o| o.minutes).sum();
    plan.wait_hours = plan.operations.iter().map(|o| o.wait_hours).sum();
    plan
}

impl Plan {
    /// Whom it is written for.
    pub const fn language(&self) -> Language {
        Language::new(self.unit, self.spelling)
    }
}

fn chosen(c: &Chosen, language: Language) -> ChosenFigure {
    let amount = match &c.value {
        ChosenValue::Length(l) => Amount::Fine(*l),
        ChosenValue::Angle(a) => Amount::Angle(*a),
        ChosenValue::Count(n) => Amount::Count(*n),
        ChosenValue::Word(w) => Amount::Text(Message::name(words::plain(w))),
    };
    let label = Message::plain(c.name);
    ChosenFigure {
        path: c.path.clone(),
        figure: Figure::note(c.path.name(), label, amount).said(language),
        by: c.origin,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn the_plan_adds_up_its_operations() {
        let plan = plan(&trial::settled(trial::bowl_design()), Unit::Mm);
        let minutes: f64 = plan.operations.iter().map(|o| o.minutes).sum();
        assert!(minutes > 0.0 && (plan.minutes - minutes).abs() < 1e-9);
        assert!(plan.wait_hours >= 4.0 * 24.0, "four layers cure a day each");
    }

    #[test]
    fn without_a_piece_there_is_a_plan_that_only_says_why() {
        let plan = plan(&trial::settled(files::design::Design::default()), Unit::Mm);
        assert!(plan.overview.is_none() && plan.operations.is_empty());
        assert!(!plan.findings.is_empty());
    }
}
