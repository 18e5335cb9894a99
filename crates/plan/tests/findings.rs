//! Every check has a fixture that passes and one that is reported, and both behave;
//! what a remedy names has been tried.
//!
//! A fixture in `tests/findings/` is a project file. Behind it, as comments:
//!
//! ```text
//! # workshop: key = value        lines of the workshop's file
//! # do: old -> new               what the remedy says, as a change of the text above
//! # do: old -> new | figure       a change whose figure stands not last in it
//! # do: old -> new & old -> new  more than one change at once
//! # finds:                       every finding, worst first; written by
//! # ...                          RENEW_FIXTURES=1 cargo test -p plan --test findings
//! ```

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use files::message::{Language, Said, Spelling};
use files::read::{read_design, read_workshop};
use files::units::Unit;
use piece::settle::{Settled, settle};
use plan::finding::{Finding, Severity};
use plan::findings::{LIMITS, registry};

const HEAD: &str = "# finds:";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/findings")
}

/// Fixtures by name, sorted.
fn fixtures() -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> = fs::read_dir(folder())
        .expect("the folder of fixtures")
        .map(|entry| {
            let path = entry.expect("an entry").path();
            let name = path.file_name().and_then(|n| n.to_str()).expect("a name");
            (name.to_string(), fs::read_to_string(&path).expect("text"))
        })
        .collect();
    all.sort();
    all
}

/// The fixture's check: its name up to `.pass` or `.fail`.
fn key_of(name: &str) -> &str {
    name.split('.').next().unwrap_or("")
}

fn settled(name: &str, text: &str, unit: Option<Unit>) -> (Settled, Unit) {
    let (design, _, problems) = read_design(name, text);
    assert!(problems.is_empty(), "{name}: {problems:?}");
    let design = design.expect("a design where there is no problem");
    let written_in = design.unit.word();
    let shop: String = text
        .lines()
        .filter_map(|l| l.strip_prefix("# workshop:"))
        .map(|l| format!("{}\n", l.trim()))
        .collect();
    let head = format!("ringwright = 1\nunit = \"{written_in}\"\n");
    let (workshop, _, problems) = read_workshop(&format!("{head}{shop}"));
    assert!(problems.is_empty(), "{name}: {problems:?}");
    let settled = settle(
        &design,
        &workshop.expect("a workshop where there is no problem"),
    );
    // Only what is said changes with the unit.
    (settled, unit.unwrap_or(design.unit))
}

/// Everything that is found, in a unit.
fn find((settled, unit): &(Settled, Unit)) -> Vec<Finding<Said>> {
    let language = Language::new(*unit, Spelling::British);
    let found = plan::findings::find(settled);
    found.iter().map(|f| f.said(language)).collect()
}

fn severity(f: &Finding<Said>) -> &'static str {
    match f.severity {
        Severity::Stops => "stops",
        Severity::Risky => "risky",
        Severity::WorthKnowing => "worth knowing",
    }
}

fn written(found: &[Finding<Said>]) -> String {
    let mut out = format!("{HEAD}\n");
    if found.is_empty() {
        out.push_str("# nothing\n");
    }
    for f in found {
        let _ = writeln!(out, "# {}: {} at {}", severity(f), f.key, f.path);
        let _ = writeln!(out, "#   {}", f.what);
        let _ = writeln!(out, "#   remedy: {}", f.remedy.words);
    }
    out
}

#[test]
fn every_fixture_finds_what_it_says() {
    let renew = std::env::var_os("RENEW_FIXTURES").is_some();
    let mut wrong = String::new();
    for (name, text) in fixtures() {
        let found = find(&settled(&name, &text, None));
        let at = text.find(HEAD).unwrap_or(text.len());
        let now = written(&found);
        if renew {
            fs::write(folder().join(&name), format!("{}{now}", &text[..at])).expect("written");
        } else if text[at..] != now {
            let _ = writeln!(wrong, "{name}:\nexpected {}\nfound {now}", &text[at..]);
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_check_has_a_passing_and_a_failing_fixture_and_both_behave() {
    let fixtures = fixtures();
    let mut keys = BTreeSet::new();
    for check in registry() {
        let key = check.key();
        assert!(keys.insert(key), "two checks are called {key}");
        for (kind, reported) in [("pass", false), ("fail", true)] {
            let of_kind = |n: &str| key_of(n) == key && n.contains(&format!(".{kind}"));
            let mine: Vec<_> = fixtures.iter().filter(|(n, _)| of_kind(n)).collect();
            assert!(!mine.is_empty(), "{key} has no fixture that should {kind}");
            for (name, text) in mine {
                let found = find(&settled(name, text, None));
                let hit = found.iter().any(|f| f.key == key);
                assert_eq!(hit, reported, "{name}: {found:#?}");
            }
        }
    }
    for (name, _) in &fixtures {
        assert!(keys.contains(key_of(name)), "{name} belongs to no check");
    }
}

#[test]
fn passing_fixtures_have_nothing_that_is_risky() {
    for (name, text) in fixtures().iter().filter(|(n, _)| n.contains(".pass")) {
        let found = find(&settled(name, text, None));
        let bad = found.iter().find(|f| f.severity != Severity::WorthKnowing);
        assert!(bad.is_none(), "{name}: {bad:#?}");
    }
}

/// What a remedy must name of a change: `width = "1 9/64"`, or what stands behind a bar.
fn figures(new: &str) -> Vec<String> {
    let value = match new.split_once(" | ") {
        Some((_, named)) => named,
        None => new.rsplit('=').next().unwrap_or(new),
    };
    let bare = |c: char| c.is_whitespace() || "[]{}\"".contains(c);
    value
        .split(',')
        .map(|v| v.trim_matches(bare).to_string())
        .filter(|v| !v.is_empty())
        .collect()
}

#[test]
fn what_a_remedy_names_does() {
    let mut tried = 0;
    let mut without = Vec::new();
    let all = fixtures();
    for (name, text) in all.iter().filter(|(n, _)| n.contains(".fail")) {
        let key = key_of(name);
        let before = find(&settled(name, text, None));
        let remedies: Vec<&str> = text
            .lines()
            .filter_map(|l| l.strip_prefix("# do:"))
            .collect();
        if remedies.is_empty() {
            without.push(key);
        }
        let about = before.iter().find(|f| f.key == key).expect("it fails");
        for remedy in remedies {
            let mut changed = text.clone();
            let mut named = false;
            for change in remedy.split(" & ") {
                let (old, new) = change.split_once("->").expect("# do: old -> new");
                let (old, new) = (old.trim(), new.trim());
                let body = &changed[..changed.find("# do:").expect("the line we are on")];
                assert_eq!(body.matches(old).count(), 1, "{name}: {old}");
                let written = new.split(" | ").next().unwrap_or(new);
                changed = changed.replacen(old, written, 1);
                let all = figures(new);
                named |= all.iter().all(|f| about.remedy.words.contains(f.as_str()));
            }
            assert!(
                named,
                "{name}: \"{remedy}\" is not what is said: {}",
                about.remedy.words
            );
            let after = find(&settled(name, &changed, None));
            let count =
                |all: &[Finding<Said>], key: &str| all.iter().filter(|f| f.key == key).count();
            assert!(
                count(&after, key) < count(&before, key),
                "{name}: {remedy} does not do: {after:#?}"
            );
            // Of a piece that was too much to be looked at, everything is found only now.
            let looked_at = settled(name, text, None).0.overload.is_none();
            for f in after
                .iter()
                .filter(|f| looked_at && f.severity != Severity::WorthKnowing)
            {
                let was = before.iter().any(|b| b.key == f.key);
                assert!(was, "{name}: {remedy} brings {f:#?}");
            }
            tried += 1;
        }
    }
    // Every check but the one that hands on what other tests have tried, see form.
    assert!(tried + without.len() >= registry().len());
    assert!(without.is_empty(), "nothing tried for {without:?}");
}

#[test]
fn every_limit_is_held_against_something_and_the_table_names_all() {
    let mut used = BTreeSet::new();
    for check in registry() {
        assert!(!check.limits().is_empty(), "{} has no limit", check.key());
        assert!(check.asks().ends_with('?'), "{}", check.key());
        used.extend(check.limits().iter().map(|l| l.key));
    }
    let table: BTreeSet<&str> = LIMITS.iter().map(|l| l.key).collect();
    assert_eq!(table.len(), LIMITS.len(), "two limits of one key");
    assert_eq!(used, table);
    for limit in LIMITS {
        assert!(!limit.source.is_empty() && !limit.words.is_empty());
        // A workshop's own figure says where it is changed.
        let own = limit.mark == plan::findings::Mark::Workshop;
        assert!(!own || limit.change.is_some(), "{}", limit.key);
    }
}

#[test]
fn findings_are_sentences_with_figures_in_one_unit() {
    for (name, text) in fixtures() {
        for (unit, other) in [(Unit::Mm, "in"), (Unit::Inch, "mm")] {
            for f in find(&settled(&name, &text, Some(unit))) {
                let mut all = format!("{} | {}", f.what, f.remedy.words);
                if let Some(a) = &f.against {
                    let _ = write!(all, " | {} {}", a.figure.show(unit), a.limit.show(unit));
                    assert!(!a.working.source.is_empty() && !a.working.formula.is_empty());
                } else {
                    assert!(["form", "cannot-be-made"].contains(&f.key));
                }
                let first = f.what.chars().next().expect("words");
                assert!(!first.is_uppercase(), "{name}: {all}");
                assert!(
                    !f.what.ends_with('.') && !f.remedy.words.ends_with('.'),
                    "{name}: {all}"
                );
                assert!(!f.path.is_root());
                for bad in ["NaN", "unknown", "inf ", "-0 "] {
                    assert!(!all.contains(bad), "{name}: {all}");
                }
                let words: Vec<&str> = all.split_whitespace().collect();
                let measured = |w: &[&str]| {
                    w[0].ends_with(|c: char| c.is_ascii_digit())
                        && w[1].trim_matches(|c: char| !c.is_alphabetic()) == other
                };
                assert!(!words.windows(2).any(measured), "{name} in {unit}: {all}");
            }
        }
    }
}

#[test]
fn findings_come_worst_first_and_always_alike() {
    let rank = |f: &Finding<Said>| (f.severity, f.subject.section, f.subject.ring);
    for (name, text) in fixtures() {
        let piece = settled(&name, &text, None);
        let (once, again) = (find(&piece), find(&piece));
        assert!(
            once.windows(2).all(|w| rank(&w[0]) <= rank(&w[1])),
            "{name}"
        );
        assert_eq!(format!("{once:?}"), format!("{again:?}"), "{name}");
    }
}

/// The examples are sound: nothing stops their work.
#[test]
fn nothing_stops_the_examples() {
    let examples = folder().join("../../examples");
    let mut seen = 0;
    for entry in fs::read_dir(examples).expect("the examples") {
        let path = entry.expect("an entry").path();
        if path.extension().and_then(|e| e.to_str()) != Some("toml") {
            continue;
        }
        let text = fs::read_to_string(&path).expect("text");
        if !text.contains("[form]") {
            continue;
        }
        let name = path.display().to_string();
        let found = find(&settled(&name, &text, None));
        println!("{name}\n{}", written(&found));
        let bad = found.iter().find(|f| f.severity == Severity::Stops);
        assert!(bad.is_none(), "{name}: {bad:#?}");
        seen += 1;
    }
    assert!(seen >= 3);
}
