//! `cargo xtask start`: from a fresh checkout to pictures and papers of the examples.

use std::fs;
use std::path::{Path, PathBuf};

use crate::shell::{self, cargo, command, output, ringwright, root};

/// Builds the program, plans, draws and prints every example into `out/examples`, says where.
///
/// # Errors
/// The step that did not succeed.
pub fn run() -> Result<(), String> {
    let folder = root().join("out").join("examples");
    println!("building ringwright (the first time takes some minutes)");
    // The profile that the tests use, so that one build serves both.
    shell::run(cargo(&["build", "--quiet", "--bin", "ringwright"]))?;
    let program = ringwright("debug");
    let examples = examples()?;
    for example in &examples {
        let name = example.file_stem().map(PathBuf::from).unwrap_or_default();
        let pictures = folder.join(&name);
        fs::create_dir_all(&pictures).map_err(|e| format!("{}: {e}", pictures.display()))?;
        let mut plan = command(&program, &["plan"]);
        plan.arg(example);
        let text = output(plan)?;
        let paper = pictures.join("plan.txt");
        fs::write(&paper, text).map_err(|e| format!("{}: {e}", paper.display()))?;
        let mut draw = command(&program, &["draw"]);
        draw.arg(example).arg("--out").arg(&pictures);
        output(draw)?;
        let mut print = command(&program, &["sheets"]);
        print
            .arg(example)
            .arg("--out")
            .arg(pictures.join("plan.pdf"));
        output(print)?;
        println!("{}:", shown(example));
        let made = files(&pictures)?;
        for file in &made {
            println!("  {}", shown(file));
        }
        if !made.iter().any(|file| is_picture(file)) {
            return Err(format!("no pictures in {}", shown(&pictures)));
        }
    }
    println!("the program: {}", shown(&program));
    println!(
        "`cargo ringwright plan FILE` plans a project file, `cargo ringwright --help` says more"
    );
    Ok(())
}

/// The example projects that ship with the program: those that declare a form.
pub fn examples() -> Result<Vec<PathBuf>, String> {
    let folder = root().join("examples");
    let examples: Vec<PathBuf> = files(&folder)?
        .into_iter()
        .filter(|file| file.extension().is_some_and(|e| e == "toml"))
        .filter(|file| fs::read_to_string(file).is_ok_and(|text| is_project(&text)))
        .collect();
    if examples.is_empty() {
        return Err(format!("no project in {}", folder.display()));
    }
    Ok(examples)
}

/// A workshop file has no form; a project always has.
fn is_project(text: &str) -> bool {
    text.lines()
        .any(|line| line.trim_start().starts_with("[form"))
}

fn is_picture(file: &Path) -> bool {
    file.extension().is_some_and(|e| e == "svg" || e == "png")
}

fn files(folder: &Path) -> Result<Vec<PathBuf>, String> {
    let entries = fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut files: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    files.sort();
    Ok(files)
}

/// A path as it is typed in the checkout.
fn shown(path: &Path) -> String {
    path.strip_prefix(root())
        .unwrap_or(path)
        .display()
        .to_string()
}
