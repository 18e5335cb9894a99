//! What reaches a terminal, and an output that takes no more.

use std::fs::{self, File, OpenOptions};
use std::process::{Output, Stdio};
use std::time::Instant;

use crate::support::{code, command, example, ringwright, text};

/// Clears a screen, turns the line round, hides a letter and begins a line of its own.
const NASTY: &str = "a\u{1b}[2Jb\u{202e}c\u{200b}d\u{9b}31me\u{2066}f\u{7f}\u{7}g\u{61c}";

/// The same as TOML writes it in a basic string.
const WRITTEN: &str =
    "a\\u001b[2Jb\\u202ec\\u200bd\\u009b31me\\u2066f\\u007f\\u0007g\\u061c\\n\\r\\u2028";

fn box_text() -> String {
    fs::read_to_string(example("turnstone-box.toml")).unwrap()
}

fn device(name: &str) -> File {
    OpenOptions::new().write(true).open(name).unwrap()
}

#[track_caller]
fn nothing_obeyed(output: &Output, call: &[String]) {
    for stream in [&output.stdout, &output.stderr] {
        let said = text(stream);
        for c in said.chars() {
            let obeyed = (c.is_control() && c != '\n')
                || ('\u{200b}'..='\u{200f}').contains(&c)
                || ('\u{2028}'..='\u{202e}').contains(&c)
                || ('\u{2060}'..='\u{206f}').contains(&c)
                || ['\u{61c}', '\u{feff}', '\u{ad}'].contains(&c);
            assert!(!obeyed, "U+{:04X} in {call:?}:\n{said:?}", u32::from(c));
        }
    }
}

#[test]
fn nothing_that_a_terminal_obeys_comes_from_a_file_its_name_or_a_call() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_string();
    let named = format!("{NASTY}\nringwright: all is well");
    let good = at(&format!("{named}.toml"));
    let broken = at(&format!("{named} broken.toml"));
    let (shop, points) = (at(&format!("{named} shop.toml")), at("points.csv"));
    let project = box_text()
        .replacen("title = \"", &format!("title = \"{WRITTEN}"), 1)
        .replace("\"walnut\"", &format!("\"{WRITTEN} oak\""))
        .replace("name = \"", &format!("name = \"{WRITTEN}"));
    let wood = format!("\n[woods.\"{WRITTEN} oak\"]\nlike = \"walnut\"\n");
    let ill = project.replace("[form]", &format!("\"{WRITTEN}\" = \"{WRITTEN}\"\n[form]"));
    fs::write(&good, project.clone() + &wood).unwrap();
    fs::write(&broken, format!("{ill}# {NASTY}\nkey = {NASTY}\n")).unwrap();
    fs::write(
        &shop,
        format!("ringwright = 1\nunit = \"mm\"\n[[saw]]\nname = \"{WRITTEN}\"\nkerf = 1.3\n"),
    )
    .unwrap();
    fs::write(&points, format!("1,2,{NASTY}\n1,{NASTY},3\n")).unwrap();
    let ok_points = at("good-points.csv");
    fs::write(&ok_points, "55,0,30\n0,0,1\n54,3,60\n").unwrap();
    let nowhere = at(&format!("{named}/out"));
    // JSON says all of it, escaped.
    let json = ringwright(&["check", &broken, "--json"]);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(value["problems"][0]["file"], broken.as_str());
    let mut calls: Vec<Vec<&str>> = Vec::new();
    for file in [&good, &broken, &nowhere] {
        calls.extend([
            vec!["check", file],
            vec!["check", file, "--json"],
            vec!["check", file, "--workshop", &shop],
            vec!["plan", file, "--show-working"],
            vec!["plan", file, "--json"],
            vec!["weigh", file, "--tolerance", "0.01"],
            vec!["weigh", file, "--tolerance", "0.01", "--json"],
            vec!["weigh", file, "--solid", &nowhere],
            vec!["probe", file, "--points", &points],
            vec!["probe", file, "--points", &ok_points],
            vec!["tolerance", file, "--makings", "20"],
            vec!["tolerance", file, "--makings", "20", "--json"],
            vec!["tolerance", file, "--limit", NASTY],
            vec!["sheets", file, "--out", &nowhere],
            vec!["sheets", file, "--out", &good],
            vec!["draw", file, "--out", &broken],
            vec!["templates", file, "--out", &broken],
            vec!["new", file, "--force"],
            vec!["open", file, "--no-browser"],
        ]);
    }
    for wrong in [NASTY, &named] {
        calls.extend([
            vec![wrong],
            vec!["check", "x", wrong],
            vec!["check", "x", "--json", "--unit", wrong],
            vec!["new", "x", "--height", wrong],
            vec!["new", "x", "--loops", wrong],
            vec!["sheets", "x", "--out", "y", "--only", wrong],
            vec!["sheets", "x", "--out", "y", "--paper", wrong],
            vec!["sheets", "x", "--out", "y", "--date", wrong],
        ]);
    }
    for call in calls {
        let output = ringwright(&call);
        let call: Vec<String> = call.iter().map(|a| a.escape_debug().to_string()).collect();
        nothing_obeyed(&output, &call);
        let forged = |said: &[u8]| {
            text(said)
                .lines()
                .any(|l| l.starts_with("ringwright: all is well"))
        };
        assert!(
            !forged(&output.stdout) && !forged(&output.stderr),
            "{call:?}"
        );
    }
}

#[test]
fn a_full_output_is_said_and_has_its_exit_code() {
    let folder = tempfile::tempdir().unwrap();
    let project = folder.path().join("box.toml");
    fs::copy(example("turnstone-box.toml"), &project).unwrap();
    let project = project.to_str().unwrap();
    for call in [
        vec!["--help"],
        vec!["--version"],
        vec!["check", project],
        vec!["plan", project],
        vec!["plan", project, "--json"],
        vec!["weigh", project, "--tolerance", "0.01"],
    ] {
        let full = command(&call).stdout(device("/dev/full")).output().unwrap();
        code(&full, 2);
        let said = text(&full.stderr);
        assert!(said.contains("could not be written"), "{call:?}: {said}");
        assert!(!said.contains("panicked"), "{call:?}: {said}");
    }
    // Where nothing can be said the exit code is all there is.
    for call in [vec!["check", "no-such-file"], vec!["no-such-command"]] {
        let full = command(&call)
            .stdout(device("/dev/full"))
            .stderr(device("/dev/full"))
            .output()
            .unwrap();
        code(&full, 2);
    }
}

#[test]
fn a_reader_that_hangs_up_is_no_error() {
    let folder = tempfile::tempdir().unwrap();
    let project = folder.path().join("box.toml");
    fs::copy(example("turnstone-box.toml"), &project).unwrap();
    let project = project.to_str().unwrap();
    for call in [
        vec!["--help"],
        vec!["plan", project, "--json"],
        vec!["plan", project, "--show-working"],
    ] {
        let mut child = command(&call)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        code(&output, 0);
        assert_eq!(text(&output.stderr), "", "{call:?}");
    }
    // Both hung up: a wrong call still has its exit code.
    let mut child = command(&["plan", "no-such-file"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop((child.stdout.take(), child.stderr.take()));
    assert_eq!(child.wait().unwrap().code(), Some(2));
}

#[test]
fn a_title_of_900_kilobytes_is_refused_at_once_and_the_longest_is_planned_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("box.toml");
    let out = folder.path().join("plan.pdf");
    let (file, pdf) = (path.to_str().unwrap(), out.to_str().unwrap());
    let with = |title: &str| {
        let text = box_text().replace("Turnstone box", title);
        fs::write(&path, text).unwrap();
    };
    for (title, wanted) in [
        ("x".repeat(900_000), 2),
        ("xy zw ".repeat(150_000), 2),
        ("x".repeat(200), 0),
    ] {
        with(&title);
        for call in [
            vec!["check", file],
            vec!["plan", file],
            vec!["sheets", file, "--only", "front", "--out", pdf],
        ] {
            let from = Instant::now();
            code(&ringwright(&call), wanted);
            // A debug program on a busy machine.
            let seconds = from.elapsed().as_secs_f64();
            assert!(seconds < 10.0, "{call:?}: {seconds} s");
        }
    }
}
