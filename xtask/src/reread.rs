//! What the program writes, read by libraries that are not ours.

use std::fs;
use std::path::PathBuf;

use crate::machine::{READER, SCHEMAS};
use crate::shell::{command, ringwright, root, run, watch};
use crate::tally::Tally;

/// One check for each example: its templates as `ringwright templates` writes them, DXF
/// and SVG read by other libraries and compared length by length.
pub fn reread() -> Tally {
    let mut tally = Tally::default();
    let checked = each(&mut tally);
    if let Err(problem) = checked {
        println!("{problem}");
        tally += Tally::one(false);
    }
    tally
}

/// One check: both schemas against the examples, new projects and every broken file.
pub fn schemas() -> Tally {
    let folder = root().join("crates/files/tests/schema");
    let checked = SCHEMAS
        .ready(&folder.join("requirements.txt"))
        .map(|python| {
            let mut check = command(&python, &[]);
            check.arg(folder.join("check.py"));
            check.arg(ringwright("debug")).arg(root());
            watch(check).code == Some(0)
        });
    Tally::one(checked.unwrap_or_else(|problem| {
        println!("{problem}");
        false
    }))
}

fn each(tally: &mut Tally) -> Result<(), String> {
    let folder = root().join("crates/sheets/tests/reread");
    let python = READER.ready(&folder.join("requirements.txt"))?;
    for example in examples()? {
        let name = example.file_stem().unwrap_or_default();
        let out = root().join("out").join("templates").join(name);
        if out.exists() {
            fs::remove_dir_all(&out).map_err(|e| format!("{}: {e}", out.display()))?;
        }
        let mut write = command(ringwright("debug"), &["templates"]);
        write.arg(&example).arg("--out").arg(&out);
        write.stdout(std::process::Stdio::null());
        run(write)?;
        let mut read = command(&python, &[]);
        read.arg(folder.join("reread.py")).arg(&out);
        *tally += Tally::one(watch(read).code == Some(0));
    }
    Ok(())
}

/// The example projects: those that declare a form.
pub fn examples() -> Result<Vec<PathBuf>, String> {
    let folder = root().join("examples");
    let said = |e: std::io::Error| format!("{}: {e}", folder.display());
    let mut examples = Vec::new();
    for entry in fs::read_dir(&folder).map_err(said)? {
        let path = entry.map_err(said)?.path();
        let toml = path.extension().is_some_and(|e| e == "toml");
        if toml && fs::read_to_string(&path).is_ok_and(|text| text.contains("\n[form]")) {
            examples.push(path);
        }
    }
    examples.sort();
    if examples.is_empty() {
        return Err(format!("no project in {}", folder.display()));
    }
    Ok(examples)
}
