//! `docs/limits.md` is the table of limits and of what estimates rest on, as built.
//! Written anew by `RENEW_FIXTURES=1 cargo test -p plan --test limits`.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test may stop where its own files are not there"
)]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use files::units::Unit;
use files::workshop::Workshop;
use plan::assumed::assumed;
use plan::findings::{LIMITS, Mark, registry};

const HEAD: &str = "# Limits

Every threshold that a finding holds a figure against, and every figure that an estimate
rests on, with its value in a shop whose file says nothing. They are estimates: the
machine's manual and the maker's own judgement stand above them.

*Geometry*: beyond it the work is not whole. *Workshop*: the maker's own figure.
*Common practice*: the trade does so, no publication is claimed. *Published*: the Wood
Handbook. *Measured*: what the program was seen to take on two cores. A source that is remembered and was not looked up says so. A key in the last
column stands in the workshop file, those of `holding` and `woods` in the project file too.

";

fn table() -> String {
    let shop = Workshop::default();
    let mut out = String::from(HEAD);
    out.push_str("## Limits of the findings\n\n");
    out.push_str(
        "| limit | value | mark | source | findings | changed by |\n|---|---|---|---|---|---|\n",
    );
    for limit in LIMITS {
        let mark = match limit.mark {
            Mark::Geometry => "geometry",
            Mark::Workshop => "workshop",
            Mark::CommonPractice => "common practice",
            Mark::Published => "published",
            Mark::Measured => "measured",
        };
        let of: Vec<String> = registry()
            .iter()
            .filter(|c| c.limits().iter().any(|l| l.key == limit.key))
            .map(|c| format!("`{}`", c.key()))
            .collect();
        let change = limit.change.map_or("not".into(), |c| format!("`{c}`"));
        let value = (limit.value)(&shop).show(Unit::Mm);
        writeln!(
            out,
            "| {} | {value} | {mark} | {} | {} | {change} |",
            limit.words,
            limit.source,
            of.join(", ")
        )
        .expect("text");
    }
    out.push_str("\n## What estimates rest on\n\n");
    out.push_str("| figure | value | source | changed by |\n|---|---|---|---|\n");
    for a in assumed(&shop) {
        let change = a
            .change
            .map_or("not".into(), |c| format!("`{}`", c.replace(", ", "`, `")));
        writeln!(
            out,
            "| {} | {} | {} | {change} |",
            a.what, a.value, a.source
        )
        .expect("text");
    }
    out
}

#[test]
fn the_document_is_the_table_as_built() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/limits.md");
    let now = table();
    if std::env::var_os("RENEW_FIXTURES").is_some() {
        fs::write(&path, &now).expect("written");
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(kept, now, "docs/limits.md is not the table; renew it");
}

/// A key that changes a limit is one that the workshop's file takes.
#[test]
fn every_key_that_changes_a_limit_is_read() {
    let shop = Workshop::default();
    let of_limits = LIMITS.iter().filter_map(|l| l.change);
    let rest = assumed(&shop);
    let of_rest = rest.iter().filter_map(|a| a.change);
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/files.md");
    let docs = fs::read_to_string(docs).expect("the files' document");
    for key in of_limits.chain(of_rest).flat_map(|k| k.split(", ")) {
        let last = key.rsplit('.').next().unwrap();
        assert!(
            docs.contains(&format!("`{last}`")) || docs.contains(&format!("[{last}")),
            "{key}"
        );
    }
}

#[test]
fn memory_is_marked_and_no_source_is_empty() {
    for a in assumed(&Workshop::default()) {
        assert!(
            !a.source.is_empty() && !a.value.contains("NaN"),
            "{}",
            a.what
        );
    }
    for l in LIMITS {
        let words = l.source;
        let known = [
            "memory",
            "handbook",
            "manual",
            "file",
            "must",
            "curves",
            "sums",
            "common practice",
            "label",
            "estimate",
            "Handbook",
            "measured",
        ];
        let geometry = l.mark == Mark::Geometry;
        assert!(
            geometry || known.iter().any(|k| words.contains(k)),
            "{}: {words}",
            l.key
        );
    }
}
