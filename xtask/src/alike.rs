//! The same bytes on every machine: what a program prints natively and as WebAssembly.

use std::fs::{self, File};
use std::path::Path;
use std::process::Stdio;

use crate::machine::node;
use crate::reread::examples;
use crate::shell::{cargo, command, output, root, run, target};
use crate::tally::{Tally, keep};
use crate::wasm::has_library;

/// A machine with nothing but files and standard streams, which Node runs.
const TARGET: &str = "wasm32-wasip1";

/// One check for each example: plan as JSON and in words, and drawings.
pub fn checks() -> Tally {
    if !has_library(TARGET) {
        println!("the library for {TARGET} is missing; installing it");
        // Only whether it is there afterwards counts.
        let _ = run(command("rustup", &["target", "add", TARGET]));
    }
    if !has_library(TARGET) {
        println!("not compared: `rustup target add {TARGET}` gives what it takes");
        return Tally {
            skipped: 1,
            ..Tally::default()
        };
    }
    let mut tally = Tally::default();
    if let Err(problem) = compared(&mut tally) {
        println!("{problem}");
        tally += Tally::one(false);
    }
    tally
}

fn compared(tally: &mut Tally) -> Result<(), String> {
    node()?;
    run(cargo(&["build", "--quiet", "--bin", "alike"]))?;
    run(cargo(&[
        "build",
        "--quiet",
        "--package",
        "alike",
        "--target",
        TARGET,
    ]))?;
    let out = root().join("out").join("alike");
    fs::create_dir_all(&out).map_err(|e| format!("{}: {e}", out.display()))?;
    let node = output(command("node", &["--print", "process.execPath"]))?;
    for example in examples()? {
        let name = example.file_stem().unwrap_or_default().to_string_lossy();
        let here = out.join(format!("{name}.native"));
        let there = out.join(format!("{name}.wasm"));
        printed(command(target().join("debug/alike"), &[]), &example, &here)?;
        let mut browser = command(node.trim(), &["--no-warnings"]);
        browser.arg(root().join("benches/alike/run.mjs"));
        browser.arg(target().join(TARGET).join("debug/alike.wasm"));
        printed(browser, &example, &there)?;
        let read = |path: &Path| fs::read(path).map_err(|e| format!("{}: {e}", path.display()));
        let (here, there) = (read(&here)?, read(&there)?);
        let same = !here.is_empty() && here == there;
        println!(
            "{name}: {} bytes, {}",
            here.len(),
            if same { "alike" } else { "NOT ALIKE" }
        );
        if !same {
            keep(format!(
                "{name} is not the same bytes natively and as WebAssembly"
            ));
        }
        *tally += Tally::one(same);
    }
    Ok(())
}

/// Runs a program with a project as its input and keeps what it prints.
fn printed(mut program: std::process::Command, project: &Path, into: &Path) -> Result<(), String> {
    let said = |path: &Path, e: std::io::Error| format!("{}: {e}", path.display());
    program.stdin(Stdio::from(
        File::open(project).map_err(|e| said(project, e))?,
    ));
    program.stdout(Stdio::from(File::create(into).map_err(|e| said(into, e))?));
    run(program)
}
