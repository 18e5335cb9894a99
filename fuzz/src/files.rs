//! Any bytes as a project file and as a workshop file: no panic, no number that is
//! none, a value only without problems, every problem with a place inside the text
//! and a remedy; and what was read is read again from what is written of it.

#![no_main]

use libfuzzer_sys::fuzz_target;
use files::read::{read_design, read_workshop};
use files::reader::text_of;
use files::report::{Lines, Problem, render};
use files::write::{design_text, workshop_text};

fuzz_target!(|bytes: &[u8]| {
    let text = match text_of(bytes) {
        Ok(text) => text,
        Err(problem) => {
            let lossy = String::from_utf8_lossy(bytes);
            told_well(&lossy, &[problem]);
            return;
        }
    };
    let (design, _, problems) = read_design("untitled", text);
    assert_eq!(design.is_some(), problems.is_empty());
    told_well(text, &problems);
    if let Some(design) = design {
        let written = design_text(&design);
        let (again, _, problems) = read_design("untitled", &written);
        assert!(
            problems.is_empty(),
            "{}",
            render("written", &written, &problems)
        );
        all_finite(&format!("{again:?}"));
    }
    let (shop, _, problems) = read_workshop(text);
    assert_eq!(shop.is_some(), problems.is_empty());
    told_well(text, &problems);
    if let Some(shop) = shop {
        let written = workshop_text(&shop);
        let (again, _, problems) = read_workshop(&written);
        assert!(
            problems.is_empty(),
            "{}",
            render("written", &written, &problems)
        );
        all_finite(&format!("{again:?}"));
    }
});

fn told_well(text: &str, problems: &[Problem]) {
    let lines = Lines::new(text);
    for problem in problems {
        assert!(!problem.what.is_empty() && !problem.remedy.is_empty());
        assert!(
            problem.what.len() < 1000 && problem.remedy.len() < 1000,
            "{problem:?}"
        );
        if let Some(place) = problem.place {
            let width = lines.line(place.line).chars().count();
            assert!(
                place.column >= 1 && place.column <= width + 1,
                "{problem:?}"
            );
        }
    }
    let report = render("file", text, problems);
    assert!(report.lines().all(|line| !line.contains('\u{1b}')));
}

fn all_finite(debug: &str) {
    for length in ["NaN mm", "inf mm", "NaN°", "inf°"] {
        assert!(!debug.contains(length), "{debug}");
    }
}
