//! The rows of keys in `docs/files.md` are what the table of keys says.
//! `RINGWRIGHT_WRITE_DOCS=1 cargo test -p files --test docs` writes them anew.

use std::fs;
use std::path::{Path, PathBuf};

use files::keys::{File, KeyTable};

fn document() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/files.md")
}

/// The table of a heading, wherever in the file it stands.
fn table_of(table: &'static KeyTable, heading: &str) -> Option<&'static KeyTable> {
    if table.heading == heading {
        return Some(table);
    }
    let below = table.keys.iter().filter_map(|key| key.quantity.table());
    below.into_iter().find_map(|t| table_of(t, heading))
}

/// Every heading of a file's tables.
fn headings(table: &'static KeyTable, out: &mut Vec<&'static str>) {
    out.push(table.heading);
    let below = table.keys.iter().filter_map(|key| key.quantity.table());
    below.for_each(|t| headings(t, out));
}

/// `<!-- keys project [form] -->` as the file and the heading.
fn marked(line: &str) -> Option<(File, &str)> {
    let rest = line.strip_prefix("<!-- keys ")?.strip_suffix("-->")?.trim();
    let (file, heading) = rest.split_once(' ').unwrap_or((rest, ""));
    match file {
        "project" => Some((File::Project, heading)),
        "workshop" => Some((File::Workshop, heading)),
        _ => None,
    }
}

/// The text with every marked table as the keys say it, and what was marked.
fn renewed(text: &str) -> (String, Vec<(File, String)>) {
    let (mut out, mut seen, mut within) = (String::new(), Vec::new(), false);
    for line in text.lines() {
        if line == "<!-- end -->" {
            within = false;
        }
        if !within {
            out.push_str(line);
            out.push('\n');
        }
        if let Some((file, heading)) = marked(line) {
            let table = table_of(file.table(), heading);
            let table = table.unwrap_or_else(|| panic!("{line}: no such table"));
            // A blank line parts a comment from a table.
            out.push_str(&format!("\n{}\n", table.rows(file)));
            seen.push((file, heading.to_string()));
            within = true;
        }
    }
    (out, seen)
}

#[test]
fn the_rows_are_the_table_of_keys() {
    let text = fs::read_to_string(document()).expect("the document");
    let (now, _) = renewed(&text);
    if std::env::var_os("RINGWRIGHT_WRITE_DOCS").is_some() {
        fs::write(document(), &now).expect("can be written");
        return;
    }
    assert_eq!(
        text, now,
        "docs/files.md is not the table of keys; renew it with RINGWRIGHT_WRITE_DOCS=1"
    );
}

#[test]
fn every_table_of_both_files_has_its_place() {
    let text = fs::read_to_string(document()).expect("the document");
    let (_, seen) = renewed(&text);
    for file in [File::Project, File::Workshop] {
        let mut all = Vec::new();
        headings(file.table(), &mut all);
        for heading in all {
            // What both files have is told once, with the project's file.
            let told = seen
                .iter()
                .any(|(f, h)| h == heading && (*f == file || heading == "[holding]"));
            assert!(told, "{heading} is not in docs/files.md");
        }
    }
}
