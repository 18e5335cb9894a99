//! The plan's parts for the page.

use ::plan::figure::{Amount, Figure as PlanFigure};
use ::plan::finding::{Finding as PlanFinding, Severity as PlanSeverity};
use ::plan::operation::{Operation as PlanOperation, Subject};
use ::plan::operations::OperationKind;
use ::plan::studies::Study as PlanStudy;
use files::message::{Language, Said};
use files::units::{Unit, fixed};
use piece::piece::Piece;
use serde::Serialize;

use super::fix;
use crate::open_projects::Revision;
use crate::pictures::shows;
use crate::wire::{
    About, Counts, Figure, Finding, Input, Operation, Severity, Step, StepKind, Study, Working,
};

/// An amount without its unit, and the unit.
pub fn parted(amount: &Amount, unit: Unit) -> (String, String) {
    match amount {
        Amount::Length(l) => (unit.length_bare(*l), unit.suffix().into()),
        Amount::Fine(l) => (unit.fine_bare(*l), unit.suffix().into()),
        Amount::Count(_) | Amount::Text(_) => (amount.show(unit), String::new()),
        Amount::Angle(_) => {
            let text = amount.show(unit);
            (text.trim_end_matches('°').into(), "°".into())
        }
        _ => {
            let text = amount.show(unit);
            match text.split_once(' ') {
                // Pounds and ounces are one value with two units.
                Some((value, rest)) if !rest.contains(|c: char| c.is_ascii_digit()) => {
                    (value.into(), rest.into())
                }
                _ => (text, String::new()),
            }
        }
    }
}

/// What is worked out about the whole of the work.
pub fn study(study: &PlanStudy<Said>, unit: Unit) -> Study {
    Study {
        key: study.key.into(),
        title: study.title.clone(),
        figures: study.figures.iter().map(|f| figure(f, unit)).collect(),
        text: study.text.clone(),
    }
}

/// A figure.
pub fn figure(figure: &PlanFigure<Said>, unit: Unit) -> Figure {
    let (value, suffix) = parted(&figure.amount, unit);
    Figure {
        key: figure.key.to_string(),
        label: figure.label.clone(),
        value,
        unit: suffix,
        cut_to: figure.cut_to,
        working: figure.working.as_ref().map(working),
    }
}

fn working(working: &::plan::figure::Working<Said>) -> Working {
    Working {
        formula: working.formula.clone(),
        inputs: working
            .inputs
            .iter()
            .map(|i| Input {
                name: i.name.clone(),
                shown: i.shown.clone(),
            })
            .collect(),
        source: working.source.clone(),
    }
}

/// A machine's name of an enum without contents, as serde writes it.
fn word<T: Serialize>(value: &T) -> String {
    match serde_json::to_value(value) {
        Ok(serde_json::Value::String(word)) => word,
        _ => String::new(),
    }
}

fn about(subject: &Subject) -> About {
    let n = |v: Option<usize>| v.map(|v| v as u32);
    About {
        section: n(subject.section),
        ring: n(subject.ring),
        band: n(subject.band),
        loop_number: n(subject.loop_number),
    }
}

/// Minutes in words.
pub fn minutes(minutes: f64) -> String {
    if minutes < 90.0 {
        return format!("{} min", fixed(minutes, 0));
    }
    let whole = minutes.round();
    let (h, m) = ((whole / 60.0).floor(), (whole % 60.0).round());
    if m == 0.0 {
        format!("{} h", fixed(h, 0))
    } else {
        format!("{} h {} min", fixed(h, 0), fixed(m, 0))
    }
}

/// Hours in words; nothing for none.
pub fn hours(hours: f64) -> String {
    if hours <= 0.0 {
        String::new()
    } else if hours.fract().abs() < 0.05 {
        format!("{} h", fixed(hours, 0))
    } else {
        format!("{} h", fixed(hours, 1))
    }
}

/// An operation of a piece with an address and a version.
pub fn operation(
    operation: &PlanOperation<Said>,
    unit: Unit,
    (address, version): (&str, &str),
) -> Operation {
    let drawing = || {
        let number = operation.number;
        format!("{address}/operation/{number}/drawing.svg?v={version}")
    };
    Operation {
        number: operation.number as u32,
        kind: word(&operation.kind),
        title: operation.title.clone(),
        about: about(&operation.subject),
        figures: operation.figures.iter().map(|f| figure(f, unit)).collect(),
        doing: operation.doing.clone(),
        measure: operation.measure.clone(),
        cautions: operation
            .cautions
            .iter()
            .map(|c| c.words().into())
            .collect(),
        drawing: shows(operation).then(drawing),
        time: minutes(operation.minutes),
        wait: hours(operation.wait_hours),
    }
}

fn severity(severity: PlanSeverity) -> Severity {
    match severity {
        PlanSeverity::Stops => Severity::Stops,
        PlanSeverity::Risky => Severity::Risky,
        PlanSeverity::WorthKnowing => Severity::Knowing,
    }
}

/// Findings counted.
pub fn counts(findings: &[PlanFinding<Said>]) -> Counts {
    let mut counts = Counts::default();
    for finding in findings {
        match finding.severity {
            PlanSeverity::Stops => counts.stops += 1,
            PlanSeverity::Risky => counts.risky += 1,
            PlanSeverity::WorthKnowing => counts.knowing += 1,
        }
    }
    counts
}

/// The findings of a piece; with ways out where there is time to try them.
pub fn findings(revision: &Revision, language: Language, try_ways: bool) -> Vec<Finding> {
    let unit = language.unit;
    let all = revision.shown(language).findings();
    let mut trials = if try_ways { fix::TRIALS } else { 0 };
    all.iter()
        .map(|f| {
            let against = f.against.as_ref();
            let figures = against.map(|a| {
                let one = |key: &str, label: &str, amount: &Amount| {
                    let (value, suffix) = parted(amount, unit);
                    Figure {
                        key: key.into(),
                        label: label.into(),
                        value,
                        unit: suffix,
                        cut_to: false,
                        working: Some(working(&a.working)),
                    }
                };
                vec![
                    one("found", "found", &a.figure),
                    one("limit", "limit", &a.limit),
                ]
            });
            let ways = fix::ways(revision, f, language, &mut trials);
            Finding {
                key: f.key.into(),
                severity: severity(f.severity),
                what: f.what.clone(),
                remedy: f.remedy.words.clone(),
                path: crate::open_projects::paths::real(&revision.design, f.path.as_str()),
                ways,
                cases: f.cases.iter().map(|case| case.what.clone()).collect(),
                about: about(&f.subject),
                figures: figures.unwrap_or_default(),
            }
        })
        .collect()
}

/// Stages of the making.
pub fn steps(piece: &Piece, operations: &[PlanOperation<Said>]) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    for operation in operations {
        let subject = &operation.subject;
        let name = subject
            .section
            .and_then(|s| piece.sections.get(s))
            .map(|s| s.name.clone());
        let kind = stage(operation.kind, subject);
        let label = match kind {
            StepKind::Rings => "rings".into(),
            StepKind::Stack => format!("{} stacked", name.unwrap_or_default()),
            StepKind::Loop => format!("loop {}", subject.loop_number.unwrap_or(0) + 1),
            StepKind::Split => format!("{} turned", name.unwrap_or_default()),
            StepKind::Join => "joined".into(),
            StepKind::Turn => "turned".into(),
            StepKind::Finish => "finished".into(),
        };
        let of = about(subject);
        let keep = |wanted: bool, n: Option<u32>| n.filter(|_| wanted);
        let (in_section, in_loop) = (
            matches!(kind, StepKind::Stack | StepKind::Loop | StepKind::Split),
            kind == StepKind::Loop,
        );
        let step = Step {
            label,
            operation: operation.number as u32,
            kind,
            section: keep(in_section, of.section),
            band: keep(in_loop, of.band),
            loop_number: keep(in_loop, of.loop_number),
        };
        let same = |a: &Step| {
            (a.kind, a.section, a.band, a.loop_number)
                == (step.kind, step.section, step.band, step.loop_number)
        };
        match steps.last_mut() {
            Some(last) if same(last) => last.operation = step.operation,
            _ => steps.push(step),
        }
    }
    steps
}

fn stage(kind: OperationKind, subject: &Subject) -> StepKind {
    if subject.loop_number.is_some() {
        return StepKind::Loop;
    }
    if OperationKind::OF_RINGS.contains(&kind) {
        return StepKind::Rings;
    }
    match word(&kind).as_str() {
        "mill" | "make_layers" => StepKind::Rings,
        "split_turn_glue" => StepKind::Split,
        "join_sections" => StepKind::Join,
        "turn_outside" | "hollow" => StepKind::Turn,
        "sand" | "finish" | "part_off" => StepKind::Finish,
        _ => StepKind::Stack,
    }
}
