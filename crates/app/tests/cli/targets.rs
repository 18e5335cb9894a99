//! What a command may write over: nothing but a plain file of the kind that it writes.

use std::fs;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::support::{code, example, ringwright, text};
use tempfile::TempDir;

const LETTER: &str = "Dear friend,\nthe bowl is done.\n";

/// A folder with a small project and its workshop.
struct Shop {
    folder: TempDir,
    project: PathBuf,
    workshop: PathBuf,
}

impl Shop {
    fn new() -> Shop {
        let folder = tempfile::tempdir().unwrap();
        let project = folder.path().join("box.toml");
        let workshop = folder.path().join("workshop.toml");
        fs::copy(example("turnstone-box.toml"), &project).unwrap();
        fs::write(&workshop, "ringwright = 1\nunit = \"mm\"\n").unwrap();
        Shop {
            folder,
            project,
            workshop,
        }
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Both commands that write one file, writing this one.
    fn calls<'a>(&'a self, out: &'a str) -> [Vec<&'a str>; 2] {
        let project = self.project.to_str().unwrap();
        [
            vec!["sheets", project, "--only", "finishing", "--out", out],
            vec!["weigh", project, "--tolerance", "0.01", "--solid", out],
        ]
    }

    /// All that is in the folder, with what leads where and what is in the files.
    fn all(&self) -> Vec<(PathBuf, String)> {
        all_in(self.folder.path())
    }
}

fn all_in(folder: &Path) -> Vec<(PathBuf, String)> {
    let mut all: Vec<(PathBuf, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            let kind = fs::symlink_metadata(&path).unwrap().file_type();
            let holds = if kind.is_symlink() {
                format!("to {}", fs::read_link(&path).unwrap().display())
            } else if kind.is_file() {
                text(&fs::read(&path).unwrap())
            } else if kind.is_dir() {
                format!("{:?}", all_in(&path))
            } else {
                format!("{kind:?}")
            };
            (path, holds)
        })
        .collect();
    all.sort();
    all
}

#[test]
fn only_a_plain_file_of_the_kind_is_written_over() {
    let shop = Shop::new();
    fs::write(shop.at("letter.txt"), LETTER).unwrap();
    fs::create_dir(shop.at("folder")).unwrap();
    fs::hard_link(&shop.project, shop.at("second-name.toml")).unwrap();
    symlink(&shop.project, shop.at("link.pdf")).unwrap();
    symlink("nowhere", shop.at("dangling.pdf")).unwrap();
    symlink(shop.at("folder"), shop.at("link-to-folder")).unwrap();
    let fifo = Command::new("mkfifo").arg(shop.at("fifo")).status();
    assert!(fifo.unwrap().success());
    let before = shop.all();
    for (name, says) in [
        ("box.toml", "what the command reads"),
        ("./folder/../box.toml", "what the command reads"),
        ("second-name.toml", "what the command reads"),
        ("workshop.toml", "what the command reads"),
        ("letter.txt", "is not written over"),
        ("folder", "this is a folder, not a plain file"),
        ("link.pdf", "this is a link"),
        ("dangling.pdf", "this is a link"),
        ("link-to-folder", "this is a link"),
        ("fifo", "this is a pipe or a device"),
        ("no-folder/plan", "there is no folder"),
    ] {
        let out = shop.at(name);
        for call in shop.calls(out.to_str().unwrap()) {
            let output = ringwright(&call);
            code(&output, 2);
            let said = text(&output.stderr);
            assert!(said.contains(says), "{call:?}: {said}");
            // What would do instead is said as well.
            assert!(
                said.contains("give ") || said.contains("make it"),
                "{call:?}: {said}"
            );
            assert!(output.stdout.is_empty(), "{call:?}");
        }
        assert_eq!(shop.all(), before, "{name}");
    }
}

#[test]
fn what_was_written_is_written_over_but_nothing_else_by_that_name() {
    let shop = Shop::new();
    let (pdf, solid) = (shop.at("plan.pdf"), shop.at("model.json"));
    let calls = || {
        let [sheets, _] = shop.calls(pdf.to_str().unwrap());
        let [_, weigh] = shop.calls(solid.to_str().unwrap());
        [(sheets, &pdf), (weigh, &solid)]
    };
    for (call, path) in calls() {
        code(&ringwright(&call), 0);
        let first = fs::read(path).unwrap();
        code(&ringwright(&call), 0);
        assert_eq!(fs::read(path).unwrap(), first);
        // A file that some program has only made room with holds nothing that is lost.
        fs::write(path, "").unwrap();
        code(&ringwright(&call), 0);
        assert_eq!(fs::read(path).unwrap(), first);
    }
    for other in [LETTER.as_bytes(), b"\x89PNG\r\n\x1a\n", b"{\"name\": 1}"] {
        for (call, path) in calls() {
            fs::write(path, other).unwrap();
            code(&ringwright(&call), 2);
            assert_eq!(fs::read(path).unwrap(), other);
        }
    }
}

#[test]
fn a_folder_of_drawings_is_filled_whole_or_not_at_all() {
    let shop = Shop::new();
    let project = shop.project.to_str().unwrap();
    let out = shop.at("drawn");
    let out = out.to_str().unwrap();
    for (call, letter) in [
        (
            vec!["draw", project, "--width", "200", "--out", out],
            "half-section.svg",
        ),
        (vec!["templates", project, "--out", out], "half-section.dxf"),
        (
            vec!["tolerance", project, "--makings", "20", "--pictures", out],
            "inside-worst-typical-perfect.png",
        ),
    ] {
        // Revision where it is not there; written over where it is.
        code(&ringwright(&call), 0);
        code(&ringwright(&call), 0);
        fs::remove_dir_all(out).unwrap();
        // A file in the folder's place.
        fs::write(out, LETTER).unwrap();
        let output = ringwright(&call);
        code(&output, 2);
        assert!(text(&output.stderr).contains("this is no folder"));
        assert_eq!(fs::read_to_string(out).unwrap(), LETTER);
        fs::remove_file(out).unwrap();
        // Someone's own file by the name of a drawing.
        fs::create_dir(out).unwrap();
        fs::write(Path::new(out).join(letter), LETTER).unwrap();
        let before = all_in(Path::new(out));
        let output = ringwright(&call);
        code(&output, 2);
        assert!(text(&output.stderr).contains(letter));
        assert_eq!(all_in(Path::new(out)), before, "{call:?}");
        fs::remove_file(Path::new(out).join(letter)).unwrap();
        symlink(&shop.workshop, Path::new(out).join(letter)).unwrap();
        code(&ringwright(&call), 2);
        assert_eq!(all_in(Path::new(out)).len(), 1, "{call:?}");
        fs::remove_dir_all(out).unwrap();
    }
}

#[test]
fn a_new_project_takes_the_place_of_a_project_only() {
    let shop = Shop::new();
    fs::write(shop.at("letter.txt"), LETTER).unwrap();
    fs::create_dir(shop.at("folder")).unwrap();
    symlink(&shop.project, shop.at("link.toml")).unwrap();
    symlink("nowhere", shop.at("dangling.toml")).unwrap();
    let before = shop.all();
    for name in [
        "letter.txt",
        "folder",
        "link.toml",
        "dangling.toml",
        "workshop.toml",
    ] {
        let path = shop.at(name);
        for force in [&[][..], &["--force"]] {
            let call = [&["new", path.to_str().unwrap()], force].concat();
            let output = ringwright(&call);
            code(&output, 2);
            assert!(text(&output.stderr).contains(name), "{call:?}");
            assert_eq!(shop.all(), before, "{call:?}");
        }
    }
    let path = shop.project.to_str().unwrap();
    code(&ringwright(&["new", path]), 2);
    assert_eq!(shop.all(), before);
    code(&ringwright(&["new", path, "--force"]), 0);
    let kept = fs::read_to_string(shop.at("box.toml.previous")).unwrap();
    assert_eq!(
        kept,
        fs::read_to_string(example("turnstone-box.toml")).unwrap()
    );
    // One that cannot be read is a project all the same.
    fs::write(path, "title = \n[form]\n").unwrap();
    code(&ringwright(&["new", path, "--force"]), 0);
}
