//! The command as a maker runs it.

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn examples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|x| x == "toml"))
        .filter(|p| std::fs::read_to_string(p).unwrap().contains("[form]"))
        .collect();
    files.sort();
    assert!(files.len() >= 3);
    files
}

fn ringwright(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_ringwright"))
        .args(args)
        .output()
        .unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[track_caller]
fn code(output: &Output, wanted: i32) {
    assert_eq!(
        output.status.code(),
        Some(wanted),
        "{}{}",
        text(&output.stdout),
        text(&output.stderr)
    );
}

#[test]
fn every_starter_plans_without_a_stop_or_a_risk() {
    let folder = tempfile::tempdir().unwrap();
    for kind in ["bowl", "vase", "platter", "box"] {
        for unit in ["mm", "inch"] {
            for loops in ["0", "2", "3", "5"] {
                let file = folder.path().join(format!("{kind}-{unit}-{loops}.toml"));
                let file = file.to_str().unwrap();
                let made = ringwright(&[
                    "new",
                    file,
                    "--kind",
                    kind,
                    "--unit",
                    unit,
                    "--loops",
                    loops,
                    "--segments",
                    "15",
                ]);
                code(&made, 0);
                let check = ringwright(&["check", file]);
                code(&check, 0);
                assert!(
                    !text(&check.stdout).contains("risky"),
                    "{}",
                    text(&check.stdout)
                );
                code(&ringwright(&["plan", file]), 0);
            }
        }
    }
}

#[test]
fn a_starter_takes_sizes_in_any_unit_and_will_not_write_over_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tall.toml");
    let file = file.to_str().unwrap();
    let call = [
        "new",
        file,
        "--kind",
        "vase",
        "--height",
        "12 1/2 in",
        "--diameter",
        "180 mm",
    ];
    code(&ringwright(&call), 0);
    let first = std::fs::read(file).unwrap();
    let again = ringwright(&call);
    code(&again, 2);
    assert!(text(&again.stderr).contains("--force"));
    let forced: Vec<&str> = call
        .iter()
        .copied()
        .chain(["--force", "--loops", "3"])
        .collect();
    code(&ringwright(&forced), 0);
    assert_ne!(std::fs::read(file).unwrap(), first);
    assert_eq!(std::fs::read(format!("{file}.previous")).unwrap(), first);
    let low = ringwright(&[
        "new",
        file,
        "--force",
        "--height",
        "25 mm",
        "--diameter",
        "90 mm",
    ]);
    code(&low, 2);
    assert!(
        text(&low.stderr).contains("would do"),
        "{}",
        text(&low.stderr)
    );
    let wrong = ringwright(&["new", file, "--force", "--height", "tall"]);
    code(&wrong, 2);
    assert!(text(&wrong.stderr).contains("--height tall"));
}

#[test]
fn examples_plan_the_same_twice_in_one_unit_and_within_80_columns() {
    for file in examples() {
        let file = file.to_str().unwrap();
        for (unit, other) in [("mm", " in"), ("inch", " mm")] {
            let first = ringwright(&["plan", file, "--unit", unit, "--show-working"]);
            code(&first, 0);
            let again = ringwright(&["plan", file, "--unit", unit, "--show-working"]);
            assert_eq!(first.stdout, again.stdout);
            for line in text(&first.stdout).lines() {
                assert!(line.chars().count() <= 80, "{file}: {line}");
                let foreign = line.match_indices(other).any(|(i, _)| {
                    // A figure in the other unit: a digit, the unit, and no letter after it.
                    line[..i].ends_with(|c: char| c.is_ascii_digit())
                        && !line[i + other.len()..].starts_with(|c: char| c.is_alphabetic())
                        && (unit == "inch" || !line[i + other.len()..].starts_with(' '))
                });
                assert!(!foreign, "{file} in {unit}: {line}");
            }
        }
        let json = ringwright(&["plan", file, "--json"]);
        code(&json, 0);
        let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
        assert!(value["operations"].as_array().unwrap().len() > 20);
    }
}

#[test]
fn examples_have_nothing_that_stops_or_risks_the_work() {
    for file in examples() {
        let check = ringwright(&["check", file.to_str().unwrap(), "--json"]);
        code(&check, 0);
        let value: serde_json::Value = serde_json::from_slice(&check.stdout).unwrap();
        for finding in value["findings"].as_array().unwrap() {
            assert_eq!(finding["severity"], "worth_knowing", "{finding}");
        }
    }
}

#[test]
fn a_broken_file_gets_its_problems_and_exit_code_2_from_every_command() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("broken.toml");
    std::fs::write(
        &file,
        "ringwright = 1\nunit = \"mm\"\ntitel = \"x\"\n[form]\nouter = [[0, -3]]\n",
    )
    .unwrap();
    let name = file.to_str().unwrap();
    let out = folder.path().join("out");
    let points = folder.path().join("p.csv");
    std::fs::write(&points, "1,2,3\n").unwrap();
    let (out, points) = (out.to_str().unwrap(), points.to_str().unwrap());
    for call in [
        vec!["check", name],
        vec!["plan", name],
        vec!["weigh", name],
        vec!["draw", name, "--out", out],
        vec!["sheets", name, "--out", out],
        vec!["templates", name, "--out", out],
        vec!["probe", name, "--points", points],
    ] {
        let output = ringwright(&call);
        code(&output, 2);
        let said = text(&output.stdout) + &text(&output.stderr);
        assert!(said.contains("broken.toml:3:1"), "{call:?}: {said}");
        assert!(said.contains("title"), "{said}");
    }
    let json = ringwright(&["check", name, "--json"]);
    code(&json, 2);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    let problems = value["problems"].as_array().unwrap();
    assert!(problems.len() >= 2);
    assert!(
        problems
            .iter()
            .any(|p| p["line"] == 3 && p["key"] == "titel"),
        "{value}"
    );
    code(&ringwright(&["check", "no-such-file.toml"]), 2);
}

#[test]
fn probe_names_what_weigh_weighs() {
    let folder = tempfile::tempdir().unwrap();
    let points = folder.path().join("points.csv");
    // Spread over the wall of the box (58 outside, 7 thick), below its rim.
    let mut rows = String::from("x,y,z\n");
    let n = 3000;
    for i in 0..n {
        let share = f64::from(i) / f64::from(n);
        let az = std::f64::consts::TAU * (share * 618.0).fract();
        // Evenly by area between the two radii.
        let r = (51.0_f64.powi(2)
            + (58.0_f64.powi(2) - 51.0_f64.powi(2)) * (share * 377.0).fract())
        .sqrt();
        rows += &format!(
            "{},{},{}\n",
            r * az.cos(),
            r * az.sin(),
            20.0 + 70.0 * share
        );
    }
    std::fs::write(&points, rows).unwrap();
    let file = examples()
        .into_iter()
        .find(|f| f.ends_with("turnstone-box.toml"))
        .unwrap();
    let file = file.to_str().unwrap();
    let probe = ringwright(&["probe", file, "--points", points.to_str().unwrap()]);
    code(&probe, 0);
    let mut reader = csv::Reader::from_reader(probe.stdout.as_slice());
    let woods: Vec<String> = reader
        .records()
        .map(|r| r.unwrap()[3].to_string())
        .collect();
    assert_eq!(woods.len(), n as usize);
    let share_of = |wood: &str| woods.iter().filter(|w| *w == wood).count() as f64 / f64::from(n);
    let weigh = ringwright(&["weigh", file, "--json"]);
    code(&weigh, 0);
    let value: serde_json::Value = serde_json::from_slice(&weigh.stdout).unwrap();
    let maple = value["after_turning"]["woods"]["hard maple"]["mm3"]
        .as_f64()
        .unwrap();
    // Floor panel: maple too, a disc under the hollow of 51 and its groove.
    let wall = std::f64::consts::PI * (58.0_f64.powi(2) - 51.0_f64.powi(2)) * 70.0;
    let layers = share_of("hard maple") * wall;
    assert!(layers > 0.05 * wall && layers < maple, "{layers} {maple}");
}

#[test]
fn drawings_are_the_same_twice() {
    let folder = tempfile::tempdir().unwrap();
    let file = &examples()[2];
    let run = |name: &str| {
        let out = folder.path().join(name);
        let drawn = ringwright(&[
            "draw",
            file.to_str().unwrap(),
            "--out",
            out.to_str().unwrap(),
            "--width",
            "400",
        ]);
        code(&drawn, 0);
        let mut files: Vec<(String, Vec<u8>)> = std::fs::read_dir(&out)
            .unwrap()
            .map(|e| e.unwrap().path())
            .map(|p| {
                (
                    p.file_name().unwrap().to_string_lossy().into_owned(),
                    std::fs::read(&p).unwrap(),
                )
            })
            .collect();
        files.sort();
        files
    };
    let (a, b) = (run("a"), run("b"));
    assert!(
        a.len() >= 6,
        "{:?}",
        a.iter().map(|f| &f.0).collect::<Vec<_>>()
    );
    assert!(a == b, "two runs differ");
}

#[test]
fn sheets_are_the_same_twice_and_their_calls_are_checked() {
    let folder = tempfile::tempdir().unwrap();
    let file = examples()
        .into_iter()
        .find(|f| f.ends_with("turnstone-box.toml"))
        .unwrap();
    let file = file.to_str().unwrap();
    let out = |name: &str| folder.path().join(name).to_str().unwrap().to_string();
    let call = |to: &str, more: &[&str]| {
        let mut call = vec!["sheets", file, "--out", to, "--only", "wood,finishing"];
        call.extend(more);
        ringwright(&call)
    };
    let (a, b, dated) = (out("a.pdf"), out("b.pdf"), out("dated.pdf"));
    let first = call(&a, &[]);
    code(&first, 0);
    assert_eq!(text(&first.stdout).trim(), a);
    code(&call(&b, &[]), 0);
    let read = |path: &str| std::fs::read(path).unwrap();
    assert!(read(&a).starts_with(b"%PDF-1."));
    assert!(read(&a) == read(&b), "two runs differ");
    code(
        &call(&dated, &["--date", "2026-03-02", "--paper", "letter"]),
        0,
    );
    assert!(read(&dated) != read(&a));
    for (wrong, remedy) in [
        (["--paper", "a5"], "a4, letter, a3, tabloid"),
        (["--date", "2026-02-30"], "2026-02-30"),
        (["--only", "woods"], "wood, rings"),
    ] {
        let refused = call(&a, &wrong);
        code(&refused, 2);
        let said = text(&refused.stderr);
        assert!(said.contains(remedy), "{wrong:?}: {said}");
    }
    let nowhere = call(&out("no-folder/a.pdf"), &[]);
    code(&nowhere, 2);
    assert!(text(&nowhere.stderr).contains("no-folder"));
}

#[test]
fn templates_come_as_svg_and_dxf() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("templates");
    for file in examples() {
        let call = [
            "templates",
            file.to_str().unwrap(),
            "--out",
            out.to_str().unwrap(),
        ];
        code(&ringwright(&call), 0);
    }
    let mut names: Vec<String> = std::fs::read_dir(&out)
        .unwrap()
        .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|name| !name.ends_with(".previous"))
        .collect();
    names.sort();
    for start in [
        "half-section",
        "index-disc-",
        "layer-",
        "segment-",
        "wedge-",
    ] {
        for ending in ["svg", "dxf"] {
            let there = |n: &String| n.starts_with(start) && n.ends_with(ending);
            assert!(names.iter().any(there), "{start} {ending}: {names:?}");
        }
    }
}

#[test]
fn papers_of_work_that_cannot_be_done_are_printed_and_say_so() {
    let folder = tempfile::tempdir().unwrap();
    let file = examples()
        .into_iter()
        .find(|f| f.ends_with("turnstone-box.toml"))
        .unwrap();
    // The loops reach out of the blank.
    let tall = std::fs::read_to_string(file).unwrap();
    let tall = tall.replace("  reach = 46", "  reach = 74");
    let (file, out) = (folder.path().join("tall.toml"), folder.path().join("p.pdf"));
    std::fs::write(&file, tall).unwrap();
    let (file, out) = (file.to_str().unwrap(), out.to_str().unwrap());
    let printed = ringwright(&["sheets", file, "--out", out, "--only", "wood"]);
    code(&printed, 1);
    assert!(std::fs::read(out).unwrap().starts_with(b"%PDF-1."));
    code(&ringwright(&["check", file]), 1);
}

#[test]
fn the_tolerance_study_is_the_same_twice_and_draws_its_makings() {
    let file = examples()
        .into_iter()
        .find(|f| f.ends_with("turnstone-box.toml"))
        .unwrap();
    let file = file.to_str().unwrap();
    let call = ["tolerance", file, "--makings", "150", "--seed", "7"];
    let first = ringwright(&call);
    code(&first, 0);
    assert_eq!(first.stdout, ringwright(&call).stdout);
    assert!(text(&first.stdout).contains("estimate"));
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("made");
    let more = [
        "--limit",
        "1/64 in",
        "--wall-limit",
        "4 mm",
        "--unit",
        "inch",
        "--json",
    ];
    let pictures = ["--pictures", out.to_str().unwrap()];
    let json = ringwright(&[&call[..], &more, &pictures].concat());
    code(&json, 0);
    let value: serde_json::Value = serde_json::from_slice(&json.stdout).unwrap();
    let results = value["results"].as_array().unwrap();
    assert_eq!(results.len(), 10);
    assert_eq!(results[0]["limit"]["shown"], "0.016 in");
    assert_eq!(results[9]["limit"]["amount"]["value"], 4.0);
    for name in [
        "outside-worst-typical-perfect.png",
        "inside-worst-typical-perfect.png",
        "outside-ten-times-worst-typical-perfect.png",
        "close-up-worst-typical-perfect.png",
    ] {
        let bytes = std::fs::read(out.join(name)).unwrap();
        assert!(
            bytes.starts_with(b"\x89PNG") && bytes.len() > 5000,
            "{name}"
        );
    }
    for (key, value, says) in [
        ("--limit", "wide", "--limit wide"),
        ("--limit", "-1 mm", "-1 mm"),
        ("--makings", "0", "from 1 to"),
    ] {
        let wrong = ringwright(&["tolerance", file, &format!("{key}={value}")]);
        code(&wrong, 2);
        assert!(
            text(&wrong.stderr).contains(says),
            "{}",
            text(&wrong.stderr)
        );
    }
}

/// As `ringwright`, ended if it does not answer in half a minute, and with little memory.
#[cfg(target_os = "linux")]
fn held_short(args: &[&str]) -> Output {
    Command::new("timeout")
        .args(["30", "sh", "-c", "ulimit -v 1000000; exec \"$0\" \"$@\""])
        .arg(env!("CARGO_BIN_EXE_ringwright"))
        .args(args)
        .output()
        .unwrap()
}

#[cfg(target_os = "linux")]
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

#[cfg(target_os = "linux")]
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
