//! The page in `web`: its packages, its build and its checks.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::machine::{chromium, node};
use crate::shell::{cargo, ringwright, root, run, watch};
use crate::tally::Tally;

fn folder() -> PathBuf {
    root().join("web")
}

fn npm(arguments: &[&str]) -> Command {
    let mut npm = Command::new("npm");
    npm.args(arguments).current_dir(folder());
    npm
}

/// Whether the packages are those of the lock file: npm writes its own copy last.
fn have_packages(folder: &Path) -> bool {
    let written = |file: &str| folder.join(file).metadata().and_then(|m| m.modified()).ok();
    let (lock, installed) = (
        written("package-lock.json"),
        written("node_modules/.package-lock.json"),
    );
    installed.is_some() && installed >= lock
}

/// Builds the page into `web/dist`, fetching its packages first if they are not there.
///
/// # Errors
/// What is missing, or the step that did not succeed.
pub fn build() -> Result<(), String> {
    node()?;
    if !have_packages(&folder()) {
        println!("fetching the page's packages");
        run(npm(&["ci"]))?;
    }
    println!("building the page");
    run(npm(&["run", "build"]))
}

/// Type check and unit tests of the page; its tests in a real browser.
pub fn checks() -> Tally {
    if let Err(problem) = build() {
        println!("{problem}");
        return Tally::one(false);
    }
    let mut tally = Tally::one(watch(npm(&["run", "check"])).code == Some(0));
    tally += counted(npm(&["test"]));
    tally += in_a_browser();
    tally
}

/// The page's tests in a real browser, against the program as built.
fn in_a_browser() -> Tally {
    let chromium = match chromium() {
        Ok(chromium) => chromium,
        Err(problem) => {
            println!("{problem}");
            return Tally::one(false);
        }
    };
    // The page is part of the program: it is built with the page that is tested.
    if watch(cargo(&["build", "--quiet", "--bin", "ringwright"])).code != Some(0) {
        return Tally::one(false);
    }
    let mut browser = npm(&["run", "browser"]);
    browser
        .env("RINGWRIGHT", ringwright("debug"))
        .env("CHROMIUM", chromium);
    counted(browser)
}

fn counted(tests: Command) -> Tally {
    let ran = watch(tests);
    Tally::read(&ran.lines, ran.code == Some(0))
}
