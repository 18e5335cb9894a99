//! A design or workshop written and read again is the same, to 1e-9 mm. The files are
//! drawn from the table of keys, so that a key that is added later is tried too.

mod draw;

use std::collections::BTreeSet;

use files::design::SplitSpec;
use files::keys::{File, KeyTable};
use files::read::{read_design, read_workshop};
use files::report::render;
use files::write::{design_text, workshop_text};
use geometry::{Angle, Length};
use proptest::prelude::*;

/// Every field of two values by their debug text: words equal, numbers within 1e-9.
/// A field that is added later is compared without a change here.
fn assert_same(a: &impl std::fmt::Debug, b: &impl std::fmt::Debug) -> Result<f64, String> {
    let (a, b) = (format!("{a:?}"), format!("{b:?}"));
    let token = |c: char| c.is_whitespace() || "(),[]{}:\"°".contains(c);
    let (ta, tb): (Vec<&str>, Vec<&str>) = (a.split(token).collect(), b.split(token).collect());
    if ta.len() != tb.len() {
        return Err(format!("{a}\n{b}"));
    }
    let mut worst: f64 = 0.0;
    for (x, y) in ta.into_iter().zip(tb) {
        if x == y {
            continue;
        }
        match (x.parse::<f64>(), y.parse::<f64>()) {
            (Ok(p), Ok(q)) if (p - q).abs() <= 1e-9 => worst = worst.max((p - q).abs()),
            _ => return Err(format!("{x} became {y}\n{a}\n{b}")),
        }
    }
    Ok(worst)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_design_comes_back(seed in any::<u64>()) {
        let (file, _) = draw::file(File::Project, seed);
        let design = read_design("a name", &file).0.expect("no problems");
        let text = design_text(&design);
        let (again, _, problems) = read_design("another name", &text);
        prop_assert!(problems.is_empty(), "{}\n{text}", render("written", &text, &problems));
        let again = again.expect("no problems");
        let same = assert_same(&design, &again);
        prop_assert!(same.is_ok(), "{}\n{text}", same.unwrap_err());
        // Saved ten times it is still the same: nothing creeps.
        let saved = (0..10).try_fold(again, |d, _| read_design("x", &design_text(&d)).0);
        let same = assert_same(&design, &saved.expect("no problems"));
        prop_assert!(same.is_ok(), "{}\n{text}", same.unwrap_err());
    }

    #[test]
    fn a_workshop_comes_back(seed in any::<u64>()) {
        let (file, _) = draw::file(File::Workshop, seed);
        let shop = read_workshop(&file).0.expect("no problems");
        let text = workshop_text(&shop);
        let (again, _, problems) = read_workshop(&text);
        prop_assert!(problems.is_empty(), "{}\n{text}", render("written", &text, &problems));
        let same = assert_same(&shop, &again.expect("no problems"));
        prop_assert!(same.is_ok(), "{}\n{text}", same.unwrap_err());
    }
}

/// Every key of a file, each with its heading.
fn all_keys(table: &KeyTable, file: File, out: &mut BTreeSet<String>) {
    for key in table.keys_of(file) {
        out.insert(format!("{} {}", table.heading, key.name));
        if let Some(below) = key.quantity.table() {
            all_keys(below, file, out);
        }
    }
}

#[test]
fn files_by_chance_have_every_key() {
    for file in [File::Project, File::Workshop] {
        let mut all = BTreeSet::new();
        all_keys(file.table(), file, &mut all);
        assert!(all.len() > 50, "{} keys", all.len());
        let drawn: BTreeSet<String> = (0..100).flat_map(|seed| draw::file(file, seed).1).collect();
        let missed: Vec<_> = all.difference(&drawn).collect();
        assert!(missed.is_empty(), "never drawn: {missed:?}");
    }
}

#[test]
fn the_comparison_sees_a_difference() {
    let one = SplitSpec {
        id: None,
        height: Length::mm(10.0),
        turn: Angle::deg(15.0),
        saw: None,
    };
    let nudged = SplitSpec {
        height: Length::mm(10.0 + 2e-9),
        ..one.clone()
    };
    let other = SplitSpec {
        saw: Some("band saw".into()),
        ..one.clone()
    };
    assert_eq!(assert_same(&one, &one), Ok(0.0));
    assert!(assert_same(&one, &nudged).is_err());
    assert!(assert_same(&one, &other).is_err());
}
