//! The rules of the house that no lint of the compiler knows.

use std::path::Path;

use crate::tree::File;

/// Crates that do no I/O and take no clock.
const PURE: [&str; 7] = [
    "geometry", "files", "piece", "plan", "drawings", "sheets", "editor",
];
/// What a pure crate may not name, without white space.
const IMPURE: [&str; 6] = [
    "std::fs",
    "std::net",
    "std::env",
    "SystemTime",
    "Instant",
    "println!",
];
/// The same modules in a grouped `use std::{...}`.
const IMPURE_MODULES: [&str; 3] = ["fs", "net", "env"];
/// Longest source file, in lines, its tests not counted.
const LONGEST: usize = 500;
/// Half-done work. Put together here so that this file does not name it.
const UNFINISHED: [&str; 3] = [
    concat!("todo", "!("),
    concat!("unimplemented", "!("),
    concat!("#[", "ignore"),
];
/// Folders that are on somebody's machine.
const HOMES: [&str; 4] = [
    concat!("/ho", "me/"),
    concat!("/ro", "ot/"),
    concat!("/Us", "ers/"),
    concat!("\\Us", "ers\\"),
];
/// Parents of a checkout that say nothing about a machine's owner.
const COMMON: [&str; 5] = ["", "/", "/tmp", "/var/tmp", "/src"];

/// A sentence for each rule that a file breaks, with its line where it has one.
pub fn broken(file: &File, checkout: &Path) -> Vec<String> {
    let mut broken = machine_paths(file, checkout);
    if file.path.ends_with(".rs") {
        broken.extend(source_rules(file));
    }
    broken
}

fn source_rules(file: &File) -> Vec<String> {
    let mut broken = Vec::new();
    let own = before_tests(&file.text);
    let lines = own.lines().count();
    if !is_test(&file.path) && lines > LONGEST {
        broken.push(format!(
            "{}: {lines} lines, at most {LONGEST}: one noun to a file",
            file.path
        ));
    }
    for (number, line) in file.text.lines().enumerate() {
        let place = format!("{}:{}", file.path, number + 1);
        if line.contains('\t') {
            broken.push(format!("{place}: a tab"));
        }
        for word in UNFINISHED.iter().filter(|word| line.contains(**word)) {
            broken.push(format!("{place}: unfinished: {word}"));
        }
    }
    let pure = PURE
        .iter()
        .any(|name| file.path.starts_with(&format!("crates/{name}/src/")));
    if pure && !is_test(&file.path) {
        for name in impure(own) {
            broken.push(format!(
                "{}: {name} in a crate that does no I/O and takes no clock",
                file.path
            ));
        }
    }
    broken
}

/// The file up to its test module.
fn before_tests(text: &str) -> &str {
    let marks = ["\n#[cfg(test)]\nmod ", "\n#[cfg(test)]\npub(crate) mod "];
    let end = marks.iter().filter_map(|mark| text.find(mark)).min();
    end.map_or(text, |end| &text[..end])
}

fn is_test(path: &str) -> bool {
    path.split('/')
        .any(|part| matches!(part, "tests" | "benches" | "tests.rs"))
}

/// Names in the code (not in comments) that a pure crate may not have.
fn impure(text: &str) -> Vec<String> {
    let code: String = text
        .lines()
        .map(|line| line.split_once("//").map_or(line, |(code, _)| code))
        .flat_map(str::chars)
        .filter(|c| !c.is_whitespace())
        .collect();
    let mut found: Vec<String> = IMPURE
        .iter()
        .filter(|name| has_name(&code, name))
        .map(|name| (*name).to_owned())
        .collect();
    for group in code.split("std::{").skip(1) {
        let group = group.split(';').next().unwrap_or(group);
        let named = |module: &&&str| {
            group
                .split([',', '{', '}'])
                .any(|entry| entry.split("::").next() == Some(**module))
        };
        found.extend(
            IMPURE_MODULES
                .iter()
                .filter(named)
                .map(|module| format!("std::{module}")),
        );
    }
    found
}

/// `name` in `code`, not as a part of a longer name.
fn has_name(code: &str, name: &str) -> bool {
    let in_name = |c: char| c.is_alphanumeric() || c == '_';
    code.match_indices(name).any(|(at, _)| {
        // White space is gone, so that a keyword before the name may touch it.
        let before = code[..at].ends_with("use") || !code[..at].ends_with(in_name);
        before && !code[at + name.len()..].starts_with(in_name)
    })
}

/// Lines that name a folder of somebody's machine.
fn machine_paths(file: &File, checkout: &Path) -> Vec<String> {
    let mut folders: Vec<String> = HOMES.iter().map(|home| (*home).to_owned()).collect();
    let parent = checkout
        .parent()
        .map_or(String::new(), |p| p.display().to_string());
    if COMMON.contains(&parent.as_str()) {
        folders.push(format!("{}/", checkout.display()));
    } else {
        folders.push(format!("{parent}/"));
    }
    let mut broken = Vec::new();
    for (number, line) in file.text.lines().enumerate() {
        for folder in folders.iter().filter(|folder| starts_a_path(line, folder)) {
            broken.push(format!(
                "{}:{}: a path of one machine: {folder}",
                file.path,
                number + 1
            ));
        }
    }
    broken
}

/// `folder` in `line`, not inside a longer path or an address.
fn starts_a_path(line: &str, folder: &str) -> bool {
    line.match_indices(folder).any(|(at, _)| {
        !line[..at]
            .ends_with(|c: char| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '/' | '}'))
            || folder.starts_with('\\')
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shell::root;
    use crate::tree::files;

    #[test]
    fn the_checkout_keeps_the_rules() {
        let root = root().canonicalize().unwrap();
        let files = files(&root);
        for path in [
            "Cargo.toml",
            "xtask/src/house.rs",
            "crates/geometry/src/lib.rs",
            ".ci/run",
        ] {
            assert!(
                files.iter().any(|file| file.path == path),
                "{path} was not read"
            );
        }
        let broken: Vec<String> = files.iter().flat_map(|file| broken(file, &root)).collect();
        assert!(broken.is_empty(), "\n{}", broken.join("\n"));
    }

    fn count(path: &str, text: &str) -> usize {
        let file = File {
            path: path.to_owned(),
            text: text.to_owned(),
        };
        broken(&file, Path::new("/shed/wheelwright")).len()
    }

    #[test]
    fn a_long_file_is_reported_and_its_tests_are_not_counted() {
        let long = "// a line\n".repeat(LONGEST + 1);
        assert_eq!(count("crates/plan/src/route.rs", &long), 1);
        assert_eq!(count("crates/plan/tests/route.rs", &long), 0);
        let tested = format!("//! Route.\n\n#[cfg(test)]\nmod tests {{\n{long}}}\n");
        assert_eq!(count("crates/plan/src/route.rs", &tested), 0);
    }

    #[test]
    fn unfinished_work_and_tabs_are_reported() {
        for word in UNFINISHED {
            assert_eq!(
                count("crates/app/src/main.rs", &format!("fn main() {{ {word} }}")),
                1
            );
        }
        assert_eq!(
            count("crates/app/src/main.rs", "fn main() {\n\tlet a = 1;\n}"),
            1
        );
    }

    #[test]
    fn a_pure_crate_that_reads_files_or_the_clock_is_reported() {
        let inside = "crates/piece/src/piece.rs";
        for text in [
            "use std::fs;",
            "use std :: fs::File;",
            "use std::{\n    collections::BTreeMap,\n    fs::File,\n};",
            "use std::{collections::{BTreeMap, BTreeSet}, net};",
            "let now = std::time::Instant::now();",
            "use std::time::SystemTime;",
            "println!(\"ring\");",
            "std::env::var(\"KERF\");",
        ] {
            assert_eq!(count(inside, text), 1, "{text}");
            assert_eq!(count("crates/app/src/main.rs", text), 0, "{text}");
        }
        for text in [
            "// Instant results; see std::fs.",
            "let instants = Instantly::new();",
            "use std::{fmt, collections::BTreeMap};",
            "writeln!(page, \"ring\")",
        ] {
            assert_eq!(count(inside, text), 0, "{text}");
        }
    }

    #[test]
    fn a_path_of_one_machine_is_reported() {
        for folder in HOMES {
            assert_eq!(
                count("docs/files.md", &format!("see {folder}maker/bowl.toml")),
                1
            );
        }
        assert_eq!(count("docs/files.md", "see /shed/notes.md"), 1);
        assert_eq!(
            count(
                "docs/files.md",
                "see docs/shed/notes.md, example.org/shed/x"
            ),
            0
        );
    }
}
