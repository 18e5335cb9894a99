//! `docs/figures.md` names every figure that is cut to, and its test.

use std::collections::BTreeSet;

use plan::operations::OperationKind;

use crate::examples::examples;

const TABLE: &str = include_str!("../../../../docs/figures.md");
const TESTS: [&str; 3] = [
    include_str!("rings.rs"),
    include_str!("knots.rs"),
    include_str!("turning.rs"),
];

/// Cells of the table's rows: operation, figure, formula, source, test.
fn rows() -> Vec<Vec<String>> {
    TABLE
        .lines()
        .filter(|line| line.starts_with("| ") && line.contains('`'))
        .map(|line| {
            let cells = line.trim_matches('|').split(" | ");
            cells
                .map(|c| c.trim_matches(['|', ' ']).trim_matches('`').to_string())
                .collect()
        })
        .collect()
}

/// The operation's name and the figure's sort of everything that is cut to.
fn cut_to() -> BTreeSet<(String, String)> {
    let mut all = BTreeSet::new();
    for example in &examples() {
        for operation in &example.plan.operations {
            for figure in operation.figures.iter().filter(|f| f.cut_to) {
                let name = operation.kind.name().to_string();
                all.insert((name, figure.sort().to_string()));
            }
        }
    }
    all
}

#[test]
fn the_table_names_every_figure_that_is_cut_to_and_no_other() {
    let named: BTreeSet<(String, String)> = rows()
        .into_iter()
        .map(|row| (row[0].clone(), row[1].clone()))
        .collect();
    let cut = cut_to();
    let missing: Vec<_> = cut.difference(&named).collect();
    let extra: Vec<_> = named.difference(&cut).collect();
    assert!(missing.is_empty(), "not in docs/figures.md: {missing:?}");
    assert!(extra.is_empty(), "in docs/figures.md only: {extra:?}");
}

#[test]
fn every_test_that_the_table_names_is_there() {
    for row in rows() {
        assert_eq!(row.len(), 5, "{row:?}");
        assert!(!row[2].is_empty() && !row[3].is_empty(), "{row:?}");
        let is_test = format!("#[test]\nfn {}() {{", row[4]);
        assert!(
            TESTS.iter().any(|t| t.contains(&is_test)),
            "no test {}",
            row[4]
        );
        // The test looks at that figure and not only at others.
        let sort = format!("\"{}\"", row[1]);
        assert!(TESTS.iter().any(|t| t.contains(&sort)), "no test of {sort}");
    }
}

#[test]
fn every_kind_of_operation_is_in_an_example_and_says_something() {
    let all = examples();
    for kind in OperationKind::ALL {
        let mut of_kind = all
            .iter()
            .flat_map(|e| &e.plan.operations)
            .filter(|o| o.kind == kind)
            .peekable();
        assert!(of_kind.peek().is_some(), "no example has {kind:?}");
        for o in of_kind {
            assert!(!o.title.is_empty() && !o.figures.is_empty(), "{}", o.title);
            assert!(!o.doing.is_empty() && !o.measure.is_empty(), "{}", o.title);
            assert!(!o.cautions.is_empty() && o.minutes > 0.0, "{}", o.title);
            for f in &o.figures {
                assert!(!f.shown.is_empty(), "{}: {}", o.title, f.key);
                assert!(!f.cut_to || f.working.is_some(), "{}: {}", o.title, f.key);
            }
            let mut keys: Vec<_> = o.figures.iter().map(|f| &f.key).collect();
            keys.sort_unstable();
            keys.dedup();
            assert_eq!(keys.len(), o.figures.len(), "{}: a key twice", o.title);
        }
    }
}
