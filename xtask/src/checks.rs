//! `cargo xtask test`: every check, group by group, and one total.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use crate::commands::commands;
use crate::machine::{has_nextest, poppler, rust_tool};
use crate::reread::{reread, schemas};
use crate::shell::{Watched, cargo, command, ringwright, root, target, watch};
use crate::tally::{Tally, failures, keep};
use crate::tree::files;

/// Documented commands that are not run: they would run these checks again, or
/// build everything a second time for speed.
const NOT_RUN: [&str; 4] = [
    "cargo xtask test",
    "cargo xtask bench",
    "cargo xtask dist",
    "cargo install",
];

/// Checks that belong together.
type Group = fn() -> Tally;

/// Runs all groups, whatever the others gave, and prints the total last.
///
/// # Errors
/// Nothing more to say, when a check failed.
pub fn run() -> Result<(), String> {
    let groups: [(&str, Group); 10] = [
        ("format", format),
        ("clippy", clippy),
        ("tests", tests),
        ("examples in the docs of the code", doc_tests),
        ("what runs in the browser", crate::wasm::checks),
        ("the same bytes on every machine", crate::alike::checks),
        ("page", crate::page::checks),
        ("commands in the texts", documented),
        ("templates read by other libraries", reread),
        ("files held against their schemas", schemas),
    ];
    let mut total = Tally::default();
    let mut summary = Vec::new();
    for (name, group) in groups {
        println!("── {name}");
        let tally = group();
        summary.push(format!("{name}: {tally}"));
        total += tally;
    }
    let failures = failures();
    if !failures.is_empty() {
        println!("── what failed, once more\n{}", failures.join("\n"));
    }
    println!("──\n{}\n{total}", summary.join("\n"));
    if total.failed == 0 {
        Ok(())
    } else {
        Err(String::new())
    }
}

fn format() -> Tally {
    tool("fmt", "rustfmt", &["fmt", "--all", "--check"])
}

fn clippy() -> Tally {
    let arguments = [
        "clippy",
        "--workspace",
        "--all-targets",
        "--",
        "-D",
        "warnings",
    ];
    tool("clippy", "clippy", &arguments)
}

/// One check made by a part of the Rust tool set.
fn tool(name: &str, component: &str, arguments: &[&str]) -> Tally {
    if let Err(advice) = rust_tool(name, component) {
        println!("{advice}");
        return Tally::one(false);
    }
    Tally::one(watch(cargo(arguments)).code == Some(0))
}

fn tests() -> Tally {
    if let Err(advice) = poppler() {
        // The tests that need it fail by themselves.
        println!("{advice}");
    }
    let ran = if has_nextest() {
        watch(cargo(&[
            "nextest",
            "run",
            "--workspace",
            "--no-fail-fast",
            "--no-tests=pass",
        ]))
    } else {
        watch(cargo(&["test", "--workspace", "--no-fail-fast", "--tests"]))
    };
    counted(&ran)
}

fn doc_tests() -> Tally {
    counted(&watch(cargo(&[
        "test",
        "--workspace",
        "--doc",
        "--no-fail-fast",
    ])))
}

fn counted(ran: &Watched) -> Tally {
    Tally::read(&ran.lines, ran.code == Some(0))
}

/// Every command of every text, once, in a folder of its own with the examples.
fn documented() -> Tally {
    if watch(cargo(&["build", "--quiet", "--workspace", "--bins"])).code != Some(0) {
        return Tally::one(false);
    }
    let bench = match workbench() {
        Ok(folder) => folder,
        Err(problem) => {
            println!("{problem}");
            return Tally::one(false);
        }
    };
    let path = search_path();
    let mut tally = Tally::default();
    let mut done: Vec<(String, i32)> = Vec::new();
    for file in files(&root())
        .iter()
        .filter(|file| file.path.ends_with(".md"))
    {
        for line in commands(&file.path, &file.text) {
            let key = (line.command.clone(), line.exit);
            if done.contains(&key) {
                continue;
            }
            done.push(key);
            if NOT_RUN.iter().any(|start| line.command.starts_with(start)) {
                println!("{}: left out: {}", line.place, line.command);
                tally.skipped += 1;
                continue;
            }
            println!("{}: {}", line.place, line.command);
            let mut shell = command("sh", &["-c", &line.command]);
            shell
                .current_dir(&bench)
                .env("PATH", &path)
                .env("CARGO_TERM_COLOR", "never")
                // It would otherwise serve its page until someone ends it.
                .env(crate::start::ASK_AND_END, "1");
            // A relative folder would mean another one from there.
            shell.env("CARGO_TARGET_DIR", target());
            let code = watch(shell).code;
            if code != Some(line.exit) {
                let (place, exit) = (&line.place, line.exit);
                let said = format!("{place}: ended with {code:?}, should be {exit}");
                println!("{said}");
                keep(said);
            }
            tally += Tally::one(code == Some(line.exit));
        }
    }
    tally
}

/// An empty folder inside the checkout, so that Cargo finds the workspace, with
/// the examples and the test files that texts name.
fn workbench() -> Result<PathBuf, String> {
    let folder = root().join("out").join("commands");
    if folder.exists() {
        fs::remove_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    }
    fs::create_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    for name in ["examples", "tests", "reference"] {
        let from = root().join(name);
        if from.is_dir() {
            copy(&from, &folder.join(name)).map_err(|e| format!("{}: {e}", from.display()))?;
        }
    }
    Ok(folder)
}

fn copy(from: &Path, to: &Path) -> std::io::Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}

/// The search path with the built program first.
fn search_path() -> std::ffi::OsString {
    let built = ringwright("debug")
        .parent()
        .map(Path::to_path_buf)
        .unwrap_or_default();
    let old = env::var_os("PATH").unwrap_or_default();
    let folders = std::iter::once(built).chain(env::split_paths(&old));
    env::join_paths(folders).unwrap_or(old)
}
