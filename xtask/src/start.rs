//! `cargo xtask start`: from a fresh checkout to the page with an example on it.

use std::env;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Stdio};
use std::time::Duration;

use crate::page;
use crate::shell::{self, cargo, command, ringwright, root};

/// Set by the checks: the page is opened, asked for, and closed again.
pub const ASK_AND_END: &str = "RINGWRIGHT_START_ASK_AND_END";

/// Builds the page and the program, and opens a folder with copies of the examples, until
/// it is ended.
///
/// # Errors
/// The step that did not succeed.
pub fn run() -> Result<(), String> {
    page::build()?;
    println!("building ringwright (the first time takes some minutes)");
    // The profile that the tests use, so that one build serves both.
    shell::run(cargo(&["build", "--quiet", "--bin", "ringwright"]))?;
    let folder = root().join("out").join("projects");
    let copied = copy_examples(&root().join("examples"), &folder)?;
    if copied > 0 {
        println!("{copied} examples copied into {}", folder.display());
    }
    let mut open = command(ringwright("debug"), &["open"]);
    open.arg(&folder);
    if env::var_os(ASK_AND_END).is_none() {
        return shell::run(open);
    }
    open.args(["--no-browser", "--port", "0"])
        .stdout(Stdio::piped());
    let mut child = open.spawn().map_err(|e| format!("ringwright open: {e}"))?;
    let asked = address(&mut child).and_then(|address| ask(&address));
    // Ended or not, it has told what it could.
    let _ = child.kill().and_then(|()| child.wait());
    println!("the page answers: {}", asked?);
    Ok(())
}

/// Copies the examples that the folder does not have: what a maker has changed stays.
fn copy_examples(from: &Path, to: &Path) -> Result<usize, String> {
    let said = |path: &Path, e: std::io::Error| format!("{}: {e}", path.display());
    fs::create_dir_all(to).map_err(|e| said(to, e))?;
    let mut copied = 0;
    for entry in fs::read_dir(from).map_err(|e| said(from, e))? {
        let path: PathBuf = entry.map_err(|e| said(from, e))?.path();
        let Some(name) = path.file_name().filter(|_| path.extension().is_some()) else {
            continue;
        };
        let target = to.join(name);
        if !target.exists() {
            fs::copy(&path, &target).map_err(|e| said(&target, e))?;
            copied += 1;
        }
    }
    Ok(copied)
}

/// The address that the program prints.
fn address(child: &mut Child) -> Result<String, String> {
    let out = child.stdout.take().ok_or("no output")?;
    for line in BufReader::new(out).lines() {
        let line = line.map_err(|e| e.to_string())?;
        println!("{line}");
        if line.starts_with("http://") {
            return Ok(line);
        }
    }
    Err("ringwright open printed no address".into())
}

/// Asks for the page as a browser would: with the key in the address, then with the cookie
/// that it was given for it.
fn ask(address: &str) -> Result<String, String> {
    let rest = address.strip_prefix("http://").ok_or("no address")?;
    let (host, path) = rest.split_once('/').unwrap_or((rest, ""));
    let first = get(host, &format!("/{path}"), None)?;
    let cookie = first
        .lines()
        .find_map(|line| line.strip_prefix("set-cookie: "))
        .and_then(|cookie| cookie.split(';').next())
        .ok_or_else(|| format!("no cookie for the key: {first}"))?;
    let page = get(host, "/", Some(cookie))?;
    let status = page.lines().next().unwrap_or_default().trim().to_string();
    let built = page.contains("/assets/");
    if status.ends_with("200 OK") && built {
        Ok(status)
    } else {
        Err(format!("{status}; the built page is in it: {built}"))
    }
}

fn get(host: &str, path: &str, cookie: Option<&str>) -> Result<String, String> {
    let wrong = |e: std::io::Error| format!("{host}: {e}");
    let mut stream = TcpStream::connect(host).map_err(wrong)?;
    stream
        .set_read_timeout(Some(Duration::from_secs(20)))
        .map_err(wrong)?;
    let cookie = cookie.map_or(String::new(), |c| format!("Cookie: {c}\r\n"));
    write!(
        stream,
        "GET {path} HTTP/1.1\r\nHost: {host}\r\n{cookie}Connection: close\r\n\r\n"
    )
    .map_err(wrong)?;
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).map_err(wrong)?;
    Ok(String::from_utf8_lossy(&answer).into_owned())
}
