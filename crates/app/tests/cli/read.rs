//! What a command reads: plain files of a size that such a file has.

use std::process::{Command, Output};

use crate::support::{code, examples, text};

/// As `ringwright`, ended if it does not answer in half a minute, and with little memory.
fn held_short(args: &[&str]) -> Output {
    Command::new("timeout")
        .args(["30", "sh", "-c", "ulimit -v 1000000; exec \"$0\" \"$@\""])
        .arg(env!("CARGO_BIN_EXE_ringwright"))
        .args(args)
        .output()
        .unwrap()
}

#[test]
fn a_file_that_is_too_large_is_refused_unread() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_string();
    let good = examples()[0].to_str().unwrap().to_string();
    let huge = at("huge.toml");
    let file = std::fs::File::create(&huge).unwrap();
    file.set_len(3 << 30).unwrap();
    let limits = [
        (vec!["check", &huge], "larger than 1 MiB"),
        (
            vec!["check", &good, "--workshop", &huge],
            "larger than 1 MiB",
        ),
        (
            vec!["probe", &good, "--points", &huge],
            "larger than 64 MiB",
        ),
    ];
    for (args, limit) in limits {
        let output = held_short(&args);
        code(&output, 2);
        let said = text(&output.stdout) + &text(&output.stderr);
        assert!(said.contains(limit), "{args:?}: {said}");
        // With what to do instead.
        assert!(
            said.contains("few kilobytes of text") || said.contains("several lists"),
            "{said}"
        );
    }
}

#[test]
fn what_is_no_plain_file_is_refused_and_not_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    let pipe = folder.path().join("pipe.toml");
    let made = Command::new("mkfifo").arg(&pipe).status().unwrap();
    assert!(made.success());
    let pipe = pipe.to_str().unwrap();
    let good = examples()[0].to_str().unwrap().to_string();
    let zero = "/dev/zero";
    for args in [
        vec!["plan", pipe],
        vec!["plan", zero],
        vec!["check", &good, "--workshop", pipe],
        vec!["check", &good, "--workshop", zero],
        vec!["probe", &good, "--points", pipe],
        vec!["probe", &good, "--points", zero],
    ] {
        let output = held_short(&args);
        code(&output, 2);
        let said = text(&output.stderr);
        assert!(
            said.contains("a pipe or a device, not a plain file; name a plain file"),
            "{args:?}: {said}"
        );
    }
}
