//! Broken files and what is said about each: `tests/broken/NAME.toml` beside
//! `NAME.expected`. With `RINGWRIGHT_BLESS=1` the expected reports are written anew;
//! read each one as the maker who gets it before keeping it.

use std::fs;
use std::path::{Path, PathBuf};

use files::read::{read_design, read_workshop};
use files::reader::text_of;
use files::report::render;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/broken")
}

/// Files whose name begins with `workshop` are workshop files, all others projects.
fn report(name: &str, bytes: &[u8]) -> String {
    let text = match text_of(bytes) {
        Ok(text) => text,
        Err(problem) => return render(name, &String::from_utf8_lossy(bytes), &[problem]),
    };
    let (read, problems) = if name.starts_with("workshop") {
        let (shop, _, problems) = read_workshop(text);
        (shop.is_some(), problems)
    } else {
        let (design, _, problems) = read_design("untitled", text);
        (design.is_some(), problems)
    };
    assert_eq!(read, problems.is_empty(), "{name}");
    render(name, text, &problems)
}

#[test]
fn every_broken_file_gets_its_report() {
    let bless = std::env::var_os("RINGWRIGHT_BLESS").is_some_and(|v| v == "1");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder())
        .expect("the folder is part of the repository")
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .collect();
    paths.sort();
    assert!(paths.len() >= 30, "only {} files", paths.len());
    let mut wrong = Vec::new();
    for path in paths {
        let name = path
            .file_name()
            .expect("a file")
            .to_string_lossy()
            .into_owned();
        let bytes = fs::read(&path).expect("readable");
        let said = report(&name, &bytes);
        assert!(
            said.contains("remedy: "),
            "{name} was taken for a good file"
        );
        let beside = path.with_extension("expected");
        if bless {
            fs::write(&beside, &said).expect("writable");
        }
        let expected = fs::read_to_string(&beside).unwrap_or_default();
        if expected != said {
            wrong.push(format!("--- {name}, expected\n{expected}--- got\n{said}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for entry in fs::read_dir(folder()).expect("readable").flatten() {
        let path = entry.path();
        let stray = path.extension().is_some_and(|e| e == "expected")
            && !path.with_extension("toml").exists();
        assert!(!stray, "{} belongs to no file", path.display());
    }
}
