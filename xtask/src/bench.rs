//! `cargo xtask bench`: the program's benches, then the same volumes by meshes.

use std::path;
use std::thread;

use crate::machine::PEER;
use crate::shell::{cargo, command, root, run as run_shown};

/// Runs both, whatever the first gave, and prints the number of cores that they had.
///
/// # Errors
/// The step that did not succeed.
pub fn run(pieces: &[&str]) -> Result<(), String> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    println!("cores: {cores}");
    let benches = run_shown(cargo(&["bench", "--workspace", "--bench", "*"]));
    let folder = root().join("benches").join("peer");
    let python = PEER.ready(&folder.join("requirements.txt"))?;
    for facets in [&[][..], &["--true-area"][..]] {
        let mut peer = command(&python, &[]);
        peer.arg(folder.join("volumes.py")).args(facets);
        peer.arg(root().join("reference").join("geometry_cases.json"));
        for piece in pieces {
            peer.arg(path::absolute(piece).map_err(|e| format!("{piece}: {e}"))?);
        }
        println!("volumes by mesh booleans {}", facets.join(" "));
        run_shown(peer)?;
    }
    println!("cores: {cores}");
    benches
}
