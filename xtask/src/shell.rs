//! Running other programs, and the folders of the checkout.

use std::env;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::mpsc::{Sender, channel};
use std::thread;

/// The checkout: the folder above this crate's.
pub fn root() -> PathBuf {
    // Cargo sets it for what it runs; without Cargo, the current folder must do.
    env::var_os("CARGO_MANIFEST_DIR")
        .map(PathBuf::from)
        .and_then(|crate_folder| crate_folder.parent().map(Path::to_path_buf))
        .unwrap_or_else(|| PathBuf::from("."))
}

/// Where Cargo builds: `CARGO_TARGET_DIR`, or `target` in the checkout.
pub fn target() -> PathBuf {
    match env::var_os("CARGO_TARGET_DIR") {
        Some(folder) if !folder.is_empty() => root().join(folder),
        _ => root().join("target"),
    }
}

/// The built `ringwright` in a profile's folder (`debug`, `dist`).
pub fn ringwright(profile: &str) -> PathBuf {
    let name = format!("ringwright{}", env::consts::EXE_SUFFIX);
    target().join(profile).join(name)
}

/// A program to be run in the checkout.
pub fn command(program: impl AsRef<Path>, arguments: &[&str]) -> Command {
    let mut command = Command::new(program.as_ref());
    command.args(arguments).current_dir(root());
    command
}

/// Cargo, the one that runs this if there is one, without colours.
pub fn cargo(arguments: &[&str]) -> Command {
    let cargo = env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = command(PathBuf::from(cargo), arguments);
    command.env("CARGO_TERM_COLOR", "never");
    command
}

/// Whether a program is there and answers.
pub fn answers(mut command: Command) -> bool {
    command
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// Runs it, its output to the terminal.
///
/// # Errors
/// What was run, when it could not be started or did not succeed.
pub fn run(mut command: Command) -> Result<(), String> {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("{}: {status}", shown(&command))),
        Err(error) => Err(format!("{}: {error}", shown(&command))),
    }
}

/// Runs it and gives what it wrote to its standard output.
///
/// # Errors
/// As [`run`].
pub fn output(mut command: Command) -> Result<String, String> {
    let name = shown(&command);
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| format!("{name}: {error}"))?;
    if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    } else {
        Err(format!("{name}: {}", output.status))
    }
}

/// What a program wrote, and how it ended.
pub struct Watched {
    /// Both streams, line by line in the order they came.
    pub lines: Vec<String>,
    /// Exit code; `None` when it was killed or never started.
    pub code: Option<i32>,
}

/// Runs it, shows its output as it comes, and keeps it.
pub fn watch(mut command: Command) -> Watched {
    let child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child = match child {
        Ok(child) => child,
        Err(error) => {
            let line = format!("{}: {error}", shown(&command));
            println!("{line}");
            return Watched {
                lines: vec![line],
                code: None,
            };
        }
    };
    let (send, receive) = channel();
    let mut readers = Vec::new();
    if let Some(out) = child.stdout.take() {
        readers.push(reader(out, send.clone()));
    }
    if let Some(err) = child.stderr.take() {
        readers.push(reader(err, send.clone()));
    }
    drop(send);
    let mut lines = Vec::new();
    for line in receive {
        println!("{line}");
        lines.push(line);
    }
    for reader in readers {
        // A reader only ends; there is nothing of its own to hear.
        let _ = reader.join();
    }
    let code = child.wait().ok().and_then(|status| status.code());
    Watched { lines, code }
}

fn reader(stream: impl Read + Send + 'static, send: Sender<String>) -> thread::JoinHandle<()> {
    thread::spawn(move || {
        for bytes in BufReader::new(stream).split(b'\n').map_while(Result::ok) {
            let line = String::from_utf8_lossy(&bytes).trim_end().to_owned();
            if send.send(line).is_err() {
                break;
            }
        }
    })
}

fn shown(command: &Command) -> String {
    let mut text = command.get_program().to_string_lossy().into_owned();
    for argument in command.get_args() {
        text.push(' ');
        text.push_str(&argument.to_string_lossy());
    }
    text
}
