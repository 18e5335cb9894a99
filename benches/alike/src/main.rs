//! Prints what must be the same bytes on every machine: a project's plan as JSON and in
//! words and its drawings, in millimetres and in inches. The
//! project comes by standard input. `cargo xtask test` runs it natively and as WebAssembly
//! and compares.

use std::io::{Read, Write, stdin, stdout};
use std::process::ExitCode;

use files::read::read_design;
use files::units::Unit;
use files::workshop::Workshop;
use piece::settle::settle;

/// Pictures are per machine; they are only made because drawings come with them.
const PIXELS: u32 = 64;

fn main() -> ExitCode {
    match printed() {
        Ok(()) => ExitCode::SUCCESS,
        Err(problem) => {
            // Standard error may be closed too; nothing is left to say then.
            let _ = writeln!(std::io::stderr(), "{problem}");
            ExitCode::FAILURE
        }
    }
}

fn printed() -> Result<(), String> {
    let mut text = String::new();
    let read = stdin().read_to_string(&mut text);
    read.map_err(|e| format!("standard input: {e}"))?;
    let (design, _, problems) = read_design("piece", &text);
    let design = design.filter(|_| problems.is_empty());
    let design = design.ok_or_else(|| format!("{} problems", problems.len()))?;
    let settled = settle(&design, &Workshop::default());
    let piece = settled.piece.as_ref().ok_or("no piece")?;
    let mut out = Vec::new();
    for unit in [Unit::Mm, Unit::Inch] {
        let plan = plan::plan(&settled, unit);
        let json = serde_json::to_vec_pretty(&plan).map_err(|e| e.to_string())?;
        out.extend(json);
        out.extend(plan::render_text(&plan, 80, true).into_bytes());
        for (name, bytes) in drawings::draw_all(piece, unit.into(), PIXELS) {
            if !name.ends_with(".png") {
                out.extend(format!("\n── {name}\n").into_bytes());
                out.extend(bytes);
            }
        }
    }
    stdout()
        .write_all(&out)
        .map_err(|e| format!("standard output: {e}"))
}
