//! The command as a test runs it.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Every example project, by name.
pub fn examples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|x| x == "toml"))
        .filter(|p| std::fs::read_to_string(p).unwrap().contains("[form]"))
        .collect();
    files.sort();
    assert!(files.len() >= 3);
    files
}

/// The example of a name.
pub fn example(name: &str) -> PathBuf {
    examples().into_iter().find(|f| f.ends_with(name)).unwrap()
}

/// The program, about to be run.
pub fn command<S: AsRef<OsStr>>(args: &[S]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_ringwright"));
    command.args(args);
    command
}

/// What the program says to a call.
pub fn ringwright<S: AsRef<OsStr>>(args: &[S]) -> Output {
    command(args).output().unwrap()
}

/// What was written, which is UTF-8.
pub fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// Stops a test where the exit code is another.
#[track_caller]
pub fn code(output: &Output, wanted: i32) {
    assert_eq!(
        output.status.code(),
        Some(wanted),
        "{}{}",
        text(&output.stdout),
        text(&output.stderr)
    );
}
