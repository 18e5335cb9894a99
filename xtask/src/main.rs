//! Set-up and checks of the checkout.
//!
//! ```text
//!   start ──► machine (what is missing) ──► page, program ──► open the examples in a browser
//!   test  ──► format, clippy, tests, doc tests, the browser's crate, page, documented commands,
//!             templates read again ──► one total
//!   bench ──► criterion benches, then the mesh-boolean peer
//!   dist  ──► out/ringwright
//! ```
//!
//! The rules of the house (`house`), the arrows between crates (`layering`) and
//! the links of the Markdown texts (`links`) are ordinary tests of this crate.

mod alike;
mod bench;
mod checks;
#[cfg(test)]
mod circles;
mod commands;
mod dist;
#[cfg(test)]
mod house;
#[cfg(test)]
mod layering;
#[cfg(test)]
mod links;
mod machine;
mod page;
mod reread;
mod shell;
mod start;
mod tally;
mod tree;
mod wasm;

use std::process::ExitCode;

const USAGE: &str = "\
usage: cargo xtask COMMAND

  start   build the page and the program, open copies of the examples in the browser
  test    every check that a change has to pass; ends with `N passed, N failed`
  bench   the benches, then volumes by mesh booleans: the reference cases and any
          pieces given as files (benches/peer/volumes.py says what is in them)
  dist    the program, built for speed, into out/";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["start"] => start::run(),
        ["test"] => checks::run(),
        ["bench", ref pieces @ ..] => bench::run(pieces),
        ["dist"] => dist::run(),
        _ => Err(USAGE.to_owned()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            // Checks have said all already; their total stays the last line.
            if !message.is_empty() {
                eprintln!("{message}");
            }
            ExitCode::from(1)
        }
    }
}
