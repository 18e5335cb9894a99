//! The plan of a piece.

use files::key::KeyPath;
use files::message::{Language, Said, Spelling};
use files::units::Unit;
use piece::piece::{Chosen, ChosenValue, Origin};
use piece::settle::Settled;
use serde::{Serialize, Serializer};

use crate::figure::{Amount, Figure, show_all};
use crate::finding::Finding;
use crate::holding;
use crate::operation::Operation;
use crate::overview::Overview;
use crate::route::route;
use crate::studies::{self, Study};
use crate::tables::SectionTable;
use crate::words;

/// What numbers mean in a plan written for machines.
const NUMBERS: &str = "lengths in mm, angles in degrees, areas in mm², volumes in mm³, \
                       weights in g, speeds in turns a minute, times in minutes or hours, forces in \
                       N, pressures in N/mm², temperatures in °C";

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
    /// What bare numbers mean, whatever the unit.
    pub numbers: &'static str,
    /// The finished form; `None` when the design gives none.
    pub overview: Option<Overview>,
    /// What the project's file left open and how it was filled in.
    pub chosen: Vec<ChosenFigure>,
    /// What may go wrong.
    pub findings: Vec<Finding<Said>>,
    /// Rings and knots by section, from the bottom up.
    pub sections: Vec<SectionTable>,
    /// The route.
    pub operations: Vec<Operation>,
    /// Holding, glue and days, movement, use.
    pub studies: Vec<Study>,
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
    pub figure: Figure,
    /// Who chose it.
    pub by: Origin,
}

fn unit_word<S: Serializer>(unit: &Unit, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(unit.word())
}

/// Plans a settled piece, in the unit of its design.
///
/// Nothing is left out because of a finding: a maker sees what would be done, and
/// what is wrong with it. Without a piece there are only the findings.
pub fn plan(settled: &Settled) -> Plan {
    planned(settled, true)
}

/// As [`plan`] but without weights by wood, which take most of its time: for an
/// answer while the design is still being changed.
pub fn plan_unweighed(settled: &Settled) -> Plan {
    planned(settled, false)
}

fn planned(settled: &Settled, with_weights: bool) -> Plan {
    let mut plan = Plan {
        title: String::new(),
        notes: None,
        unit: Unit::default(),
        numbers: NUMBERS,
        overview: None,
        chosen: Vec::new(),
        findings: Vec::new(),
        sections: Vec::new(),
        operations: Vec::new(),
        studies: Vec::new(),
        minutes: 0.0,
        wait_hours: 0.0,
    };
    plan.unit = settled.piece.as_ref().map_or(plan.unit, |p| p.unit);
    let language = Language::new(plan.unit, Spelling::British);
    let found = crate::findings::find(settled);
    plan.findings = found.iter().map(|f| f.said(language)).collect();
    let Some(piece) = &settled.piece else {
        return plan;
    };
    plan.title = words::plain(&piece.title);
    plan.notes = piece.notes.clone();
    plan.overview = Some(Overview::of(piece, with_weights));
    plan.chosen = piece.chosen.iter().map(chosen).collect();
    plan.sections = (0..piece.sections.len())
        .filter_map(|number| SectionTable::of(piece, number))
        .collect();
    plan.operations = route(piece);
    let held = holding::study(piece);
    for operation in &mut plan.operations {
        let of = |h: &&holding::Held| {
            let section = h.stage.section;
            h.stage.kind == operation.kind
                && (section.is_none() || section == operation.subject.section)
        };
        if let Some(held) = held.iter().find(of) {
            operation.figures.extend(holding::figures(piece, held));
        }
    }
    plan.studies = studies::studies(piece, &held, &plan.operations);
    plan.minutes = plan.operations.iter().map(|o| o.minutes).sum();
    plan.wait_hours = plan.operations.iter().map(|o| o.wait_hours).sum();
    plan.write_out();
    plan
}

impl Plan {
    /// Writes out every figure in the plan's unit.
    fn write_out(&mut self) {
        let unit = self.unit;
        if let Some(overview) = &mut self.overview {
            show_all(&mut overview.figures, unit);
            for wood in &mut overview.woods {
                wood.volume.show_in(unit);
                wood.weight.show_in(unit);
            }
        }
        for chosen in &mut self.chosen {
            chosen.figure.show_in(unit);
        }
        for table in &mut self.sections {
            table.figures_mut().for_each(|f| f.show_in(unit));
        }
        for operation in &mut self.operations {
            show_all(&mut operation.figures, unit);
        }
        for study in &mut self.studies {
            show_all(&mut study.figures, unit);
        }
    }
}

fn chosen(c: &Chosen) -> ChosenFigure {
    let amount = match &c.value {
        ChosenValue::Length(l) => Amount::Fine(*l),
        ChosenValue::Angle(a) => Amount::Angle(*a),
        ChosenValue::Count(n) => Amount::Count(*n),
        ChosenValue::Word(w) => Amount::Text(words::plain(w)),
    };
    ChosenFigure {
        path: c.path.clone(),
        figure: Figure::note(c.path.name(), c.name.clone(), amount),
        by: c.origin,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn the_plan_adds_up_its_operations() {
        let plan = plan(&trial::settled(trial::bowl_design()));
        let minutes: f64 = plan.operations.iter().map(|o| o.minutes).sum();
        assert!(minutes > 0.0 && (plan.minutes - minutes).abs() < 1e-9);
        assert!(plan.wait_hours >= 4.0 * 24.0, "four layers cure a day each");
    }

    #[test]
    fn without_a_piece_there_is_a_plan_that_only_says_why() {
        let plan = plan(&trial::settled(files::design::Design::default()));
        assert!(plan.overview.is_none() && plan.operations.is_empty());
        assert!(!plan.findings.is_empty());
    }
}
