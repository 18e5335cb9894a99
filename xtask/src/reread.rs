//! Templates of the examples, read by libraries that are not ours.

use std::fs;

use crate::machine::READER;
use crate::shell::{command, ringwright, root, run, watch};
use crate::start::examples;
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
