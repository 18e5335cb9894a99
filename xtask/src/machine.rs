//! What a fresh machine lacks, found or installed.

use std::path::{Path, PathBuf};

use crate::shell::{answers, cargo, command, run, target};

/// A part of the Rust tool set (`fmt`, `clippy`), installed by rustup if missing.
///
/// # Errors
/// How to install it, when that could not be done here.
pub fn rust_tool(name: &str, component: &str) -> Result<(), String> {
    if answers(cargo(&[name, "--version"])) {
        return Ok(());
    }
    println!("cargo {name} is missing; installing {component}");
    // Only whether it answers afterwards counts.
    let _ = run(command("rustup", &["component", "add", component]));
    if answers(cargo(&[name, "--version"])) {
        Ok(())
    } else {
        Err(format!(
            "cargo {name} is missing: install it with `rustup component add {component}`"
        ))
    }
}

/// Whether tests can be run by nextest; `cargo test` runs them otherwise.
pub fn has_nextest() -> bool {
    answers(cargo(&["nextest", "--version"]))
}

/// A Debian package, installed if `there` does not hold and we are root.
///
/// # Errors
/// How to install it, when that could not be done here.
pub fn debian(package: &str, purpose: &str, there: impl Fn() -> bool) -> Result<(), String> {
    if there() {
        return Ok(());
    }
    let advice = format!("{purpose} needs the package {package}: `sudo apt-get install {package}`");
    let root = crate::shell::output(command("id", &["-u"])).is_ok_and(|id| id.trim() == "0");
    if !root || !answers(command("apt-get", &["--version"])) {
        return Err(advice);
    }
    println!("installing {package}, for {purpose}");
    let apt = |arguments: &[&str]| {
        let mut apt = command("apt-get", arguments);
        apt.env("DEBIAN_FRONTEND", "noninteractive");
        run(apt)
    };
    apt(&["update", "-qq"]).and_then(|()| apt(&["install", "-y", "-qq", package]))?;
    if there() { Ok(()) } else { Err(advice) }
}

/// Node and npm, which build the page.
///
/// # Errors
/// How to install them.
pub fn node() -> Result<(), String> {
    debian("npm", "the page", || {
        answers(command("npm", &["--version"]))
    })
}

/// A Chromium for the page's tests.
///
/// # Errors
/// How to install one, when that could not be done here.
pub fn chromium() -> Result<PathBuf, String> {
    let found = || {
        let folders = std::env::var_os("PATH").unwrap_or_default();
        std::env::split_paths(&folders)
            .flat_map(|folder| {
                ["chromium", "chromium-browser", "google-chrome"].map(|name| folder.join(name))
            })
            .find(|program| program.is_file())
    };
    let purpose = "the page's tests in a browser";
    debian("chromium", purpose, || found().is_some())?;
    found().ok_or_else(|| format!("{purpose} need Chromium"))
}

/// The PDF tools that the printed papers are rendered and read with.
///
/// # Errors
/// How to install them, when that could not be done here.
pub fn poppler() -> Result<(), String> {
    debian("poppler-utils", "measuring the printed papers", || {
        answers(command("pdftoppm", &["-v"]))
    })
}

/// A Python with packages of its own, made once under the target folder.
pub struct Python {
    /// What its folder is called.
    pub name: &'static str,
    /// What needs it.
    pub purpose: &'static str,
    /// The modules that it must be able to import.
    pub modules: &'static str,
}

/// The Python of the mesh-boolean peer.
pub const PEER: Python = Python {
    name: "peer-python",
    purpose: "the mesh-boolean peer",
    modules: "manifold3d, numpy",
};

/// The Python that reads the templates' files again.
pub const READER: Python = Python {
    name: "reader-python",
    purpose: "reading DXF and SVG templates again",
    modules: "ezdxf, svgelements",
};

/// The Python that holds files against their schemas.
pub const SCHEMAS: Python = Python {
    name: "schema-python",
    purpose: "holding files against their schemas",
    modules: "jsonschema",
};

impl Python {
    /// The interpreter, with the packages of a requirements file installed.
    ///
    /// # Errors
    /// What is missing and how to install it.
    pub fn ready(&self, requirements: &Path) -> Result<PathBuf, String> {
        let folder = target().join(self.name);
        let python = folder.join("bin").join("python");
        let import = format!("import {}", self.modules);
        let ready = || answers(command(&python, &["-c", &import]));
        if ready() {
            return Ok(python);
        }
        debian("python3", self.purpose, || {
            answers(command("python3", &["--version"]))
        })?;
        debian("python3-venv", self.purpose, || {
            answers(command("python3", &["-c", "import ensurepip"]))
        })?;
        let mut make = command("python3", &["-m", "venv"]);
        make.arg(&folder);
        run(make)?;
        let mut install = command(
            &python,
            &["-m", "pip", "install", "--quiet", "--requirement"],
        );
        install.arg(requirements);
        run(install)?;
        if ready() {
            Ok(python)
        } else {
            Err(format!(
                "{} cannot import {}",
                python.display(),
                self.modules
            ))
        }
    }
}
