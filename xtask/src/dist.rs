//! `cargo xtask dist`: the program to hand out.

use std::fs;

use crate::shell::{cargo, ringwright, root};

/// Builds the page and the program for speed, and copies the program into `out/`.
///
/// # Errors
/// The step that did not succeed.
pub fn run() -> Result<(), String> {
    crate::page::build()?;
    crate::shell::run(cargo(&[
        "build",
        "--release",
        "--locked",
        "--bin",
        "ringwright",
    ]))?;
    let built = ringwright("release");
    let folder = root().join("out");
    fs::create_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let out = folder.join(built.file_name().unwrap_or_default());
    let bytes = fs::copy(&built, &out).map_err(|e| format!("{}: {e}", built.display()))?;
    println!("{} ({:.1} MB)", out.display(), bytes as f64 / 1e6);
    Ok(())
}
