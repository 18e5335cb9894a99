//! What a project asks of a workshop by name.

use crate::design::Design;
use crate::key::{self, KeyPath};
use crate::report::{Places, Problem};
use crate::workshop::Workshop;

/// Saws that the project names and the workshop has not. `places` are the project's.
pub fn check_against_workshop(
    design: &Design,
    workshop: &Workshop,
    places: &Places,
) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (s, section) in design.sections.iter().enumerate() {
        let path = key::section(s);
        let bands = section.bands.iter().enumerate();
        let bands = bands.map(|(at, b)| (path.band(at).saw(), &b.saw));
        let splits = section.splits.iter().enumerate();
        let splits = splits.map(|(at, b)| (path.split(at).saw(), &b.saw));
        for (path, saw) in bands.chain(splits) {
            let Some(name) = saw else { continue };
            if workshop.saws.iter().any(|saw| saw.name == *name) {
                continue;
            }
            problems.push(unknown_saw(name, workshop, path, places));
        }
    }
    problems.sort();
    problems
}

fn unknown_saw(name: &str, workshop: &Workshop, path: KeyPath, places: &Places) -> Problem {
    let short: String = name.chars().take(40).collect();
    let near = workshop
        .saws
        .iter()
        .map(|saw| (strsim::jaro_winkler(&short, &saw.name), &saw.name))
        .filter(|(score, _)| *score > 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let names: Vec<&str> = workshop.saws.iter().map(|s| s.name.as_str()).collect();
    Problem {
        place: places.at(&path),
        key_path: path,
        what: format!("saw = \"{short}\": the workshop has no saw of that name"),
        remedy: match near {
            Some((_, near)) => format!("did you mean \"{near}\"?"),
            None if names.is_empty() => "add the saw to the workshop file".into(),
            None => format!("the workshop's saws are: {}", names.join(", ")),
        },
    }
}
