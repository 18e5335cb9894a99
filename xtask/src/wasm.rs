//! What runs in the browser type-checks there: no files, clock, threads or random numbers
//! of a system may have crept in.

use std::path::PathBuf;

use crate::machine::debian;
use crate::shell::{cargo, command, output, run, target, watch};
use crate::tally::Tally;

/// The crate that the browser runs; what it uses comes with it.
const CRATE: &str = "editor";
/// A machine without a system.
const TARGET: &str = "wasm32-unknown-unknown";
/// Where Debian's compiler for its browsers lies, and the sources of its library.
const DEBIAN_RUSTC: &str = "/usr/bin/rustc";
const DEBIAN_LIBRARY: &str = "/usr/lib/rustlib/src/rust/library";

/// Which compiler can do it.
enum Compiler {
    /// The one in use, which has the target's library.
    Own,
    /// Debian's, which builds the library from its sources first.
    Debian,
}

/// The check.
pub fn checks() -> Tally {
    let compiler = match compiler() {
        Ok(compiler) => compiler,
        Err(advice) => {
            println!("{advice}");
            return Tally::one(false);
        }
    };
    let arguments = [
        "check",
        "--package",
        CRATE,
        "--no-default-features",
        "--target",
        TARGET,
    ];
    let mut check = cargo(&arguments);
    if let Compiler::Debian = compiler {
        check
            .arg("-Zbuild-std=std,panic_abort")
            .env("RUSTC", DEBIAN_RUSTC)
            // Building the library is not yet for every release of the compiler.
            .env("RUSTC_BOOTSTRAP", "1")
            .env("CARGO_TARGET_DIR", target().join("wasm"));
    }
    Tally::one(watch(check).code == Some(0))
}

/// A compiler with the target's library: from rustup, or else from Debian.
fn compiler() -> Result<Compiler, String> {
    if has_library(TARGET) {
        return Ok(Compiler::Own);
    }
    println!("the library for {TARGET} is missing; installing it");
    // Only whether it is there afterwards counts.
    let _ = run(command("rustup", &["target", "add", TARGET]));
    if has_library(TARGET) {
        return Ok(Compiler::Own);
    }
    let there = |path: &str| PathBuf::from(path).exists();
    let purpose = "checking what runs in the browser";
    debian("rustc-web", purpose, || there(DEBIAN_RUSTC))
        .and_then(|()| debian("rust-web-src", purpose, || there(DEBIAN_LIBRARY)))
        .map_err(|advice| format!("`rustup target add {TARGET}`, or else: {advice}"))?;
    Ok(Compiler::Debian)
}

/// Does the compiler in use have a target's library?
pub fn has_library(target: &str) -> bool {
    let root = output(command("rustc", &["--print", "sysroot"])).unwrap_or_default();
    let library = PathBuf::from(root.trim())
        .join("lib/rustlib")
        .join(target)
        .join("lib");
    library.is_dir()
}
