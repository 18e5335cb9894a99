//! `--spelling`: every word that the program prints, as its reader spells.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::support::{example, ringwright};

/// Beginnings of words as the two spell them (Oxford and Merriam-Webster dictionaries, from
/// memory).
const BRITISH: [&str; 9] = [
    "mitre",
    "mitring",
    "calliper",
    "centre",
    "colour",
    "grey",
    "anticlockwise",
    "millimetre",
    "fibre",
];
const AMERICAN: [&str; 9] = [
    "miter",
    "mitering",
    "caliper",
    "center",
    "color",
    "gray",
    "counterclockwise",
    "millimeter",
    "fiber",
];

/// Everything that is printed and written of a project, as words.
fn words(project: &Path, arguments: &[&str], out: &Path) -> Vec<(String, String)> {
    let file = project.to_str().unwrap();
    let folder = out.to_str().unwrap();
    let mut all = Vec::new();
    for command in [
        &["plan"][..],
        &["plan", "--show-working"],
        &["check"],
        &["weigh"],
        &["tolerance", "--makings", "50"],
    ] {
        let mut call = command.to_vec();
        call.push(file);
        call.extend(arguments);
        let said = ringwright(&call);
        all.push((command.join(" "), String::from_utf8(said.stdout).unwrap()));
    }
    let pdf = out.join("plan.pdf");
    for (command, into) in [
        ("draw", folder),
        ("templates", folder),
        ("sheets", pdf.to_str().unwrap()),
    ] {
        let mut call = vec![command, file, "--out", into];
        call.extend(arguments);
        assert!(ringwright(&call).status.success(), "{call:?}");
    }
    for entry in fs::read_dir(out).unwrap().flatten() {
        let path = entry.path();
        if path.extension().is_some_and(|e| e == "svg") {
            // Classes of lines are no words.
            let text = fs::read_to_string(&path).unwrap();
            let text = text.replace("line centre", "");
            let text: String = text
                .split('<')
                .filter_map(|part| part.split_once('>'))
                .map(|(_, words)| format!("{words}\n"))
                .collect();
            all.push((path.display().to_string(), text));
        }
    }
    let text = Command::new("pdftotext").arg(&pdf).arg("-").output();
    let text = text.expect("poppler, which cargo xtask test installs");
    all.push((
        "sheets".into(),
        String::from_utf8_lossy(&text.stdout).into_owned(),
    ));
    all
}

fn none_of(stems: &[&str], all: &[(String, String)]) {
    for (place, text) in all {
        assert!(
            text.len() > 20 || place.ends_with(".svg"),
            "{place} says nothing"
        );
        for line in text.lines() {
            let line = line.replace("greyling", "").to_lowercase();
            for word in line.split(|c: char| !c.is_ascii_alphabetic()) {
                let found = stems.iter().find(|stem| word.starts_with(*stem));
                assert!(found.is_none(), "{place}: {word} in {line}");
            }
        }
    }
}

/// A name of the maker's stays as it is; everything else is spelled one way.
#[test]
fn every_printed_word_is_spelled_one_way() {
    let folder = tempfile::tempdir().unwrap();
    let text = fs::read_to_string(example("sandpiper-bowl.toml")).unwrap();
    let text = text.replace("name = \"belly\"", "name = \"greyling\"");
    let inch = folder.path().join("inch.toml");
    let mm = folder.path().join("mm.toml");
    fs::write(&mm, &text).unwrap();
    // Plain numbers say their unit, so that the file may be one of inches.
    let made = ringwright(&[
        "new",
        inch.to_str().unwrap(),
        "--unit",
        "inch",
        "--loops",
        "3",
    ]);
    assert!(made.status.success());
    for (project, arguments, spelled, other) in [
        (&mm, &[][..], BRITISH, AMERICAN),
        (&mm, &["--unit", "inch"], BRITISH, AMERICAN),
        (&mm, &["--spelling", "american"], AMERICAN, BRITISH),
        (&inch, &[], AMERICAN, BRITISH),
        (&inch, &["--spelling", "british"], BRITISH, AMERICAN),
    ] {
        let out = tempfile::tempdir().unwrap();
        let all = words(project, arguments, out.path());
        none_of(&other, &all);
        let plan = all[1].1.to_lowercase();
        for stem in [spelled[0], spelled[3], spelled[6]] {
            assert!(plan.contains(stem), "{arguments:?}: no {stem}");
        }
        if project == &mm {
            assert!(all[0].1.contains("greyling"));
        }
    }
}
