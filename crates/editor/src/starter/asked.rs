//! What a new project is asked, and what it is when nothing is said.

use files::units::{Unit, parse_length};
use geometry::Length;

use super::{NewPiece, PieceKind, Refusal, entered, out_of_range};
use crate::view::{page_unit, unit};
use crate::wire::{NewRequest, Problem, Starter};

/// Loops and segments where the maker does not say.
const LOOPS: u32 = 4;
const SEGMENTS: u32 = 12;
/// Longest title, characters.
const LONGEST_TITLE: usize = 120;

/// The kinds that a new project can be, with their usual measures in the page's unit.
pub fn starters(page: Unit) -> Vec<Starter> {
    let starter = |kind: PieceKind| {
        let (height, diameter) = kind.usual_size(page);
        Starter {
            kind: kind.word().into(),
            label: kind.label().into(),
            height: entered(height, page),
            diameter: entered(diameter, page),
            loops: LOOPS,
            segments: SEGMENTS,
            unit: page_unit(page),
        }
    };
    PieceKind::ALL.map(starter).into()
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

/// A refusal as the page shows it.
pub fn refused(refusal: &Refusal, unit: Unit) -> Problem {
    let remedy = refusal.remedy.words(|answers| {
        let words: Vec<String> = answers.iter().map(|a| a.words(unit)).collect();
        words.join(" and ")
    });
    Problem {
        path: refusal.about.map(|answer| answer.question().into()),
        what: refusal.what.clone(),
        remedy,
        ..Problem::default()
    }
}

/// What the maker asks for; every answer that cannot be used.
pub fn new_piece(asked: &NewRequest) -> Result<NewPiece, Vec<Problem>> {
    let mut problems = Vec::new();
    let unit = unit(asked.unit.unwrap_or_default());
    let found = PieceKind::ALL.into_iter().find(|k| k.word() == asked.kind);
    if found.is_none() {
        problems.push(problem(
            "kind",
            "there is no such kind".into(),
            "choose bowl, vase, platter or box".into(),
        ));
    }
    let kind = found.unwrap_or(PieceKind::Bowl);
    let usual = kind.usual_size(unit);
    let mut length = |path: &str, words: &Option<String>, usual: Length| {
        let words = words.as_deref().map(str::trim).filter(|w| !w.is_empty());
        let Some(words) = words else {
            return usual;
        };
        parse_length(words, unit).unwrap_or_else(|e| {
            problems.push(problem(path, e.what, e.remedy));
            usual
        })
    };
    let title = asked.title.as_deref().map(str::trim);
    let title: String = title
        .filter(|title| !title.is_empty())
        .unwrap_or(kind.label())
        .chars()
        .filter(|c| !c.is_control())
        .take(LONGEST_TITLE)
        .collect();
    let new = NewPiece {
        kind,
        title,
        height: length("height", &asked.height, usual.0),
        diameter: length("diameter", &asked.diameter, usual.1),
        loops: asked.loops.unwrap_or(LOOPS.into()),
        segments: asked.segments.unwrap_or(SEGMENTS.into()),
        unit,
    };
    problems.extend(out_of_range(&new).iter().map(|r| refused(r, unit)));
    if problems.is_empty() {
        Ok(new)
    } else {
        Err(problems)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_read_is_quoted_once_and_every_answer_is_told() {
        let asked: NewRequest = serde_json::from_value(serde_json::json!({
            "kind": "bowl", "height": "banana", "diameter": "-5 mm", "loops": -5, "segments": -5
        }))
        .unwrap();
        let problems = new_piece(&asked).unwrap_err();
        let paths: Vec<&str> = problems.iter().filter_map(|p| p.path.as_deref()).collect();
        assert_eq!(paths, ["height", "diameter", "loops", "segments"]);
        assert_eq!(problems[0].what.matches("banana").count(), 1);
        for p in &problems {
            assert!(!p.remedy.contains("fewer loops"), "{}", p.remedy);
        }
        assert_eq!(problems[1].remedy, "30 mm to 2000 mm");
        assert_eq!(problems[2].remedy, "2 to 16, or 0 for none");
    }
}
