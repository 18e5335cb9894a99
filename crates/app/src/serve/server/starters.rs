//! What a new project is asked, and what it is when nothing is said.

use files::units::{Unit, parse_length};
use geometry::Length;

use crate::serve::view::{page_unit, unit};
use crate::serve::wire::{NewRequest, Problem, Starter};
use crate::starter::{Kind, Wish};

/// A kind of piece to start from, with its usual height and diameter in both units.
struct Usual {
    kind: Kind,
    word: &'static str,
    label: &'static str,
    mm: [f64; 2],
    inch: [&'static str; 2],
}

const fn usual(
    kind: Kind,
    word: &'static str,
    label: &'static str,
    mm: [f64; 2],
    inch: [&'static str; 2],
) -> Usual {
    Usual {
        kind,
        word,
        label,
        mm,
        inch,
    }
}

/// The kinds with their usual measures.
const KINDS: [Usual; 4] = [
    usual(
        Kind::Bowl,
        "bowl",
        "Bowl",
        [110.0, 220.0],
        ["4 1/2 in", "9 in"],
    ),
    usual(
        Kind::Vase,
        "vase",
        "Vase",
        [250.0, 160.0],
        ["10 in", "6 1/2 in"],
    ),
    usual(
        Kind::Platter,
        "platter",
        "Platter",
        [54.0, 320.0],
        ["2 1/8 in", "12 1/2 in"],
    ),
    usual(
        Kind::Box,
        "box",
        "Box",
        [100.0, 120.0],
        ["4 in", "4 3/4 in"],
    ),
];

/// The kinds that a new project can be, with their usual measures in the page's unit.
pub fn starters(page: Unit) -> Vec<Starter> {
    KINDS
        .iter()
        .map(|usual| {
            let shown = |i: usize| match page {
                Unit::Mm => format!("{} mm", usual.mm[i]),
                Unit::Inch => usual.inch[i].to_string(),
            };
            Starter {
                kind: usual.word.into(),
                label: usual.label.into(),
                height: shown(0),
                diameter: shown(1),
                loops: 4,
                segments: 12,
                unit: page_unit(page),
            }
        })
        .collect()
}

/// A problem at one of the answers.
pub fn problem(path: &str, what: String, remedy: String) -> Problem {
    Problem {
        path: Some(path.into()),
        what,
        remedy,
        ..Problem::default()
    }
}

/// What the maker asks for; every answer that cannot be used.
pub fn wish(asked: &NewRequest) -> Result<Wish, Vec<Problem>> {
    let mut problems = Vec::new();
    let unit = unit(asked.unit.unwrap_or_default());
    let found = KINDS.iter().find(|k| k.word == asked.kind);
    if found.is_none() {
        problems.push(problem(
            "kind",
            "there is no such kind".into(),
            "choose bowl, vase, platter or box".into(),
        ));
    }
    let known = found.unwrap_or(&KINDS[0]);
    let mut length = |path: &str, words: &Option<String>, usual: usize| {
        let usual_words = match unit {
            Unit::Mm => format!("{} mm", known.mm[usual]),
            Unit::Inch => known.inch[usual].to_string(),
        };
        let words = words.as_deref().map(str::trim).filter(|w| !w.is_empty());
        match parse_length(words.unwrap_or(&usual_words), unit) {
            Ok(length) => length,
            Err(e) => {
                problems.push(problem(
                    path,
                    format!("\"{}\" {}", words.unwrap_or(""), e.what),
                    e.remedy,
                ));
                Length::mm(100.0)
            }
        }
    };
    let (height, diameter) = (
        length("height", &asked.height, 0),
        length("diameter", &asked.diameter, 1),
    );
    let loops = asked.loops.unwrap_or(4);
    if loops == 1 || loops > 16 {
        problems.push(problem(
            "loops",
            format!("{loops} loops make no knot"),
            "2 to 16, or 0 for none".into(),
        ));
    }
    let segments = asked.segments.unwrap_or(12);
    if !(3..=144).contains(&segments) {
        problems.push(problem(
            "segments",
            format!("{segments} segments close no ring"),
            "3 to 144".into(),
        ));
    }
    let title = asked
        .title
        .as_deref()
        .map(str::trim)
        .filter(|t| !t.is_empty());
    let title: String = title
        .unwrap_or(known.label)
        .chars()
        .filter(|c| !c.is_control())
        .take(120)
        .collect();
    if problems.is_empty() {
        Ok(Wish {
            kind: known.kind,
            title,
            height,
            diameter,
            loops: loops as usize,
            segments: segments as usize,
            unit,
        })
    } else {
        Err(problems)
    }
}
