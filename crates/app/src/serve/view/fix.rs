//! The value that makes a finding go away: read from its remedy, and tried.

use ::plan::finding::{Finding, Severity};
use files::message::Said;
use files::units::Unit;

use super::paths;
use crate::serve::desk::{Desk, Made};
use crate::serve::wire::{Edit, Fix, Words};
use files::key::KeyPath;
use files::keys::{File, Quantity, find};

/// Most trials for one view.
pub const TRIALS: usize = 12;
/// Most figures of one remedy that are tried.
const EACH: usize = 3;

/// The first value of the remedy with which the finding is gone and nothing new stops.
pub fn fix(made: &Made, finding: &Finding<Said>, unit: Unit, trials: &mut usize) -> Option<Fix> {
    let path = paths::real(&made.design, finding.path.as_str());
    let stops = |found: &[Finding<Said>]| {
        found
            .iter()
            .filter(|f| f.severity == Severity::Stops)
            .count()
    };
    let before = stops(made.shown(unit).findings());
    for (value, shown) in offered(&path, &finding.remedy, unit).into_iter().take(EACH) {
        if *trials == 0 {
            return None;
        }
        *trials -= 1;
        let setting = key_path(&path)?;
        let edit = Edit::Set {
            path: setting,
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
            return Some(Fix { path, value, shown });
        }
    }
    None
}

/// A finding's key as a path of the file.
fn key_path(text: &str) -> Option<KeyPath> {
    serde_json::from_value(text.into()).ok()
}

/// The values that a remedy names for a key, and how the page says them.
fn offered(path: &str, remedy: &str, unit: Unit) -> Vec<(String, String)> {
    let Some(found) = key_path(path).and_then(|p| find(File::Project, &p)) else {
        return Vec::new();
    };
    let figures = |suffix: &str| -> Vec<(String, String)> {
        figures(remedy, suffix)
            .into_iter()
            .map(|words| (words.trim_end_matches('°').to_string(), words))
            .collect()
    };
    match found.quantity {
        Quantity::Length(_) | Quantity::Wall(_) => figures(unit.suffix()),
        Quantity::Angle(_) => figures("°"),
        Quantity::Count(_) => figures(""),
        Quantity::Flag
        | Quantity::Text(_)
        | Quantity::Saw
        | Quantity::Choice(_)
        | Quantity::Block => {
            let key = path.rsplit('.').next().unwrap_or(path);
            assigned(remedy, key)
                .into_iter()
                .map(|value| {
                    // "make it solid" is solid = true, "make it hard maple" block = "hard maple".
                    let said = if value == "true" { key } else { &value };
                    let shown = said.replace('_', " ");
                    (value, shown)
                })
                .collect()
        }
        _ => Vec::new(),
    }
}

/// What a remedy writes as the file has it: `solid = true`, `make = "solid"`.
fn assigned(remedy: &str, key: &str) -> Vec<String> {
    let mut out = Vec::new();
    for (at, _) in remedy.match_indices(&format!("{key} = ")) {
        let whole = !remedy[..at].ends_with(|c: char| c.is_ascii_alphanumeric() || c == '_');
        let rest = &remedy[at + key.len() + 3..];
        let value = match rest.strip_prefix('"') {
            Some(quoted) => quoted.split('"').next(),
            None => rest.split([' ', ',', ';', ':', ')']).next(),
        };
        if let Some(value) = value.filter(|v| whole && !v.is_empty()) {
            out.push(value.to_string());
        }
    }
    out.dedup();
    out
}

/// Figures with a unit in a sentence, with their unit; whole numbers for no unit.
fn figures(text: &str, suffix: &str) -> Vec<String> {
    let plain = |t: &str| t.trim_end_matches([',', ';', ':', '.', ')']).to_string();
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
    fn what_a_remedy_writes_as_the_file_has_it_is_found() {
        let remedy = "solid = true for a disc, or floor = { wood = \"...\" }; or make = \"solid\"";
        let of = |key: &str| assigned(remedy, key);
        assert_eq!(of("solid"), ["true"]);
        assert_eq!(of("make"), ["solid"]);
        assert!(of("olid").is_empty());
        let words = |path: &str| offered(path, remedy, Unit::Mm);
        let solid = |value: &str| vec![(value.to_string(), "solid".to_string())];
        assert_eq!(words("section[0].ring[0].solid"), solid("true"));
        assert_eq!(words("section[0].band[0].make"), solid("solid"));
    }

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
