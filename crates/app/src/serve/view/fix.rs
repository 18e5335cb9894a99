//! The value that makes a finding go away: read from its remedy, and tried.

use ::plan::finding::{Finding, Severity};
use piece::units::Unit;

use super::paths;
use crate::serve::desk::{Desk, Made};
use crate::serve::file::{Path, kind_of};
use crate::serve::wire::{Edit, Fix, Words};

/// Most trials for one view.
pub const TRIALS: usize = 12;
/// Most figures of one remedy that are tried.
const EACH: usize = 3;

/// The first figure of the remedy with which the finding is gone and nothing new stops.
pub fn fix(made: &Made, finding: &Finding, unit: Unit, trials: &mut usize) -> Option<Fix> {
    if *trials == 0 || finding.severity == Severity::WorthKnowing {
        return None;
    }
    let path = paths::real(&made.design, &finding.path);
    let suffix = match kind_of(&Path::parse(&path)?)? {
        crate::serve::file::Kind::Length => unit.suffix(),
        crate::serve::file::Kind::Wall => unit.suffix(),
        crate::serve::file::Kind::Angle => "°",
        crate::serve::file::Kind::Whole => "",
        _ => return None,
    };
    let stops = |found: &[Finding]| {
        found
            .iter()
            .filter(|f| f.severity == Severity::Stops)
            .count()
    };
    let before = stops(made.shown(unit).findings());
    for words in figures(&finding.remedy, suffix).into_iter().take(EACH) {
        if *trials == 0 {
            return None;
        }
        *trials -= 1;
        let value = if suffix == "°" {
            words.trim_end_matches('°').to_string()
        } else {
            words.clone()
        };
        let edit = Edit::Set {
            path: path.clone(),
            value: Words::Text(value.clone()),
        };
        let Ok(text) = Desk::edited(made, &[edit], unit) else {
            continue;
        };
        let Ok(after) = Made::new("trial", &text, &made.shop) else {
            continue;
        };
        let found = after.shown(unit).findings();
        let still = found
            .iter()
            .any(|f| f.key == finding.key && f.subject == finding.subject);
        if !still && stops(found) <= before {
            return Some(Fix {
                path,
                value,
                shown: words,
            });
        }
    }
    None
}

/// Figures with a unit in a sentence, with their unit; whole numbers for no unit.
fn figures(text: &str, suffix: &str) -> Vec<String> {
    let plain = |t: &str| t.trim_end_matches([',', ';', '.', ')']).to_string();
    let tokens: Vec<String> = text.split_whitespace().map(plain).collect();
    let number = |t: &str| {
        t.starts_with(|c: char| c.is_ascii_digit())
            && t.chars()
                .all(|c| c.is_ascii_digit() || c == '.' || c == '/')
    };
    let mut out = Vec::new();
    for (i, token) in tokens.iter().enumerate() {
        match suffix {
            "" if token.bytes().all(|b| b.is_ascii_digit()) && !token.is_empty() => {
                out.push(token.clone());
            }
            "°" if token.strip_suffix('°').is_some_and(number) => out.push(token.clone()),
            "mm" | "in" if token == suffix => {
                let first = tokens[..i]
                    .iter()
                    .rposition(|t| !number(t))
                    .map_or(0, |p| p + 1);
                let first = first.max(i.saturating_sub(2));
                if first < i {
                    out.push(format!("{} {suffix}", tokens[first..i].join(" ")));
                }
            }
            _ => {}
        }
    }
    out.dedup();
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_found_in_a_remedy() {
        assert_eq!(
            figures(
                "a reach of at most 38.2 mm; or a section 70.0 mm high",
                "mm"
            ),
            ["38.2 mm", "70.0 mm"]
        );
        assert_eq!(
            figures("move it to 2 15/16 in, or 1/2 in.", "in"),
            ["2 15/16 in", "1/2 in"]
        );
        assert_eq!(
            figures("at a tilt of 21.3°, or 12 segments", "°"),
            ["21.3°"]
        );
        assert_eq!(figures("use 12 or 15 segments", ""), ["12", "15"]);
    }
}
