//! `cargo xtask dist`: the program to hand out.

use std::fs;

use crate::shell::{cargo, ringwright, root};

/// Texts that go with every copy of the program.
const LICENCES: [&str; 3] = ["LICENSE-MIT", "LICENSE-APACHE", "licences/typst-assets.txt"];

/// Builds the page and the program for speed, and copies the program into `out/`, with the
/// licences that must go with it.
///
/// # Errors
/// The step that did not succeed.
pub fn run() -> Result<(), String> {
    crate::page::build()?;
    crate::shell::run(cargo(&[
        "build",
        "--profile",
        "dist",
        "--locked",
        "--bin",
        "ringwright",
    ]))?;
    let built = ringwright("dist");
    let folder = root().join("out");
    fs::create_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let out = folder.join(built.file_name().unwrap_or_default());
    let bytes = fs::copy(&built, &out).map_err(|e| format!("{}: {e}", built.display()))?;
    println!("{} ({:.1} MB)", out.display(), bytes as f64 / 1e6);
    for name in LICENCES {
        let from = root().join(name);
        let to = folder.join(from.file_name().unwrap_or_default());
        fs::copy(&from, &to).map_err(|e| format!("{}: {e}", from.display()))?;
        println!("{}", to.display());
    }
    Ok(())
}
