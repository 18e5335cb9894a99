//! Counting checks: what test programs print at their end, and the one total.

use std::fmt;
use std::ops::AddAssign;
use std::sync::{Mutex, PoisonError};

/// What failed so far: a run prints thousands of lines, and of a long log often only the
/// end is kept, so that the end has to say it again.
static FAILED: Mutex<Vec<String>> = Mutex::new(Vec::new());
/// How nextest's closing line begins.
const SUMMARY: &str = "Summary [";
/// Lines kept of what one failing test said.
const SAID: usize = 40;

/// Keeps a line to be printed once more at the end.
pub fn keep(line: String) {
    let mut kept = FAILED.lock().unwrap_or_else(PoisonError::into_inner);
    if !kept.contains(&line) {
        kept.push(line);
    }
}

/// What was kept, in the order it came.
pub fn failures() -> Vec<String> {
    FAILED
        .lock()
        .unwrap_or_else(PoisonError::into_inner)
        .clone()
}

/// The tests that failed, each with what it said: from its name to the next test's.
fn failed(lines: &[String]) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let mut room = 0;
    for line in lines {
        let trimmed = line.trim_start();
        let fails = ["FAIL [", "TIMEOUT [", "SIG", "not ok ", "✖ "]
            .iter()
            .any(|start| trimmed.starts_with(start))
            || trimmed.starts_with("test ") && trimmed.ends_with("FAILED");
        let next = ["PASS [", "SLOW [", SUMMARY, "ok ", "✔ ", "# Subtest"]
            .iter()
            .any(|start| trimmed.starts_with(start));
        if fails {
            room = SAID;
        } else if next {
            room = 0;
        }
        if room > 0 {
            room -= 1;
            if !line.is_empty() {
                found.push(line.clone());
            }
        }
    }
    found
}

/// How many checks went which way.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Checks that held.
    pub passed: usize,
    /// Checks that did not.
    pub failed: usize,
    /// Checks that were left out.
    pub skipped: usize,
}

impl Tally {
    /// One check.
    pub fn one(held: bool) -> Tally {
        Tally {
            passed: usize::from(held),
            failed: usize::from(!held),
            skipped: 0,
        }
    }

    /// The closing lines of `cargo nextest` or `cargo test`, summed; a program
    /// that failed without a failing test (it did not build) is one failed check.
    pub fn read(lines: &[String], succeeded: bool) -> Tally {
        // A failing test's own output, shown by nextest, closes like a program of its own.
        let summary = lines.iter().any(|l| l.trim().starts_with(SUMMARY));
        let mut sum = Tally::default();
        for line in lines.iter().map(|l| l.trim()) {
            if (!summary || line.starts_with(SUMMARY))
                && let Some(tally) = closing_line(line)
            {
                sum += tally;
            }
        }
        for line in failed(lines) {
            keep(line);
        }
        if !succeeded && sum.failed == 0 {
            sum.failed = 1;
        }
        sum
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Tally) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.skipped += other.skipped;
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} passed, {} failed", self.passed, self.failed)?;
        if self.skipped > 0 {
            write!(f, ", {} skipped", self.skipped)?;
        }
        Ok(())
    }
}

/// `Summary [0.1s] 3 tests run: 2 passed (1 slow), 1 failed, 0 skipped` or
/// `test result: ok. 2 passed; 0 failed; 1 ignored; 0 measured; ...`.
fn closing_line(line: &str) -> Option<Tally> {
    if let Some(tally) = node_line(line) {
        return Some(tally);
    }
    let counts = if line.starts_with(SUMMARY) {
        line.split_once(" run: ")?.1
    } else {
        line.strip_prefix("test result: ")?.split_once(". ")?.1
    };
    let mut tally = Tally::default();
    for part in counts.split([',', ';']) {
        let mut words = part.split_whitespace();
        let (Some(count), Some(what)) = (words.next(), words.next()) else {
            continue;
        };
        let Ok(count) = count.parse::<usize>() else {
            continue;
        };
        match what {
            "passed" => tally.passed += count,
            "failed" | "timed" | "exec" => tally.failed += count,
            "skipped" | "ignored" => tally.skipped += count,
            _ => {}
        }
    }
    Some(tally)
}

/// `# pass 9`, `ℹ fail 0`, `# cancelled 1`, `# skipped 2`: one line each, by `node --test`.
fn node_line(line: &str) -> Option<Tally> {
    let counted = line.strip_prefix("# ").or(line.strip_prefix("ℹ "))?;
    let (what, count) = counted.split_once(' ')?;
    let count = count.parse().ok()?;
    let mut tally = Tally::default();
    match what {
        "pass" => tally.passed = count,
        "fail" | "cancelled" => tally.failed = count,
        "skipped" | "todo" => tally.skipped = count,
        _ => return None,
    }
    Some(tally)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<String> {
        text.lines().map(str::to_owned).collect()
    }

    #[test]
    fn both_test_programs_closing_lines_are_read() {
        let nextest = "     Summary [   2.012s] 7 tests run: 4 passed (1 slow), 2 failed, 1 timed out, 3 skipped";
        assert_eq!(
            Tally::read(&lines(nextest), false),
            Tally {
                passed: 4,
                failed: 3,
                skipped: 3
            }
        );
        // The output of the one that failed stands between.
        let shown = "test result: FAILED. 0 passed; 1 failed; 0 ignored; 0 measured; 3 filtered out\n\
             Summary [   2.012s] 4 tests run: 3 passed, 1 failed, 0 skipped";
        assert_eq!(
            Tally::read(&lines(shown), false).to_string(),
            "3 passed, 1 failed"
        );
        let cargo = "running 3 tests\n\
            test result: ok. 2 passed; 0 failed; 1 ignored; 0 measured; 9 filtered out; finished in 0.1s\n\
            test result: FAILED. 5 passed; 1 failed; 0 ignored; 0 measured; 0 filtered out";
        assert_eq!(
            Tally::read(&lines(cargo), false),
            Tally {
                passed: 7,
                failed: 1,
                skipped: 1
            }
        );
    }

    #[test]
    fn nodes_closing_lines_are_read() {
        let node = "# Subtest: a limit is felt\nok 1 - a limit is felt\n1..9\n# tests 9\n\
            # pass 5\n# fail 2\n# cancelled 1\n# skipped 1\n# todo 0\n# duration_ms 12.5";
        assert_eq!(
            Tally::read(&lines(node), false).to_string(),
            "5 passed, 3 failed, 1 skipped"
        );
    }

    #[test]
    fn what_failed_is_found_with_what_it_said() {
        let log = lines(
            "PASS [ 0.1s] a\n FAIL [ 0.2s] (2/9) piece::files broken\n  left: 1\n\n PASS [ 0.1s] b\n other\n\
             not ok 3 - a page\n  why\nok 4 - next\n  fine",
        );
        let expected = [
            " FAIL [ 0.2s] (2/9) piece::files broken",
            "  left: 1",
            "not ok 3 - a page",
            "  why",
        ];
        assert_eq!(failed(&log), expected);
    }

    #[test]
    fn a_build_that_breaks_is_one_failure() {
        let broken = lines("error: could not compile `piece` (lib)");
        assert_eq!(
            Tally::read(&broken, false).to_string(),
            "0 passed, 1 failed"
        );
        assert_eq!(Tally::read(&[], true), Tally::default());
    }
}
