//! The folder on disk: names, versions, and other programs that save at the same moment.
#![allow(clippy::unwrap_used)]

mod serve_support;

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};

use serde_json::{Value, json};
use serve_support::{Server, folder_with};

const BOWL: &str = "sandpiper-bowl";

fn set(path: &str, value: &str) -> Value {
    json!([{ "op": "set", "path": path, "value": value }])
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries.map(|e| e.path()).collect()
}

/// Every text that is kept of a project.
fn kept(server: &Server, name: &str) -> Vec<String> {
    let mut files = files(&server.folder.join(".ringwright/versions").join(name));
    files.sort();
    files
        .iter()
        .map(|f| std::fs::read_to_string(f).unwrap())
        .collect()
}

fn post(server: &Server, path: &str, body: &Value) -> Value {
    server.post(path, body).json()
}

#[test]
fn renaming_writes_over_no_project_whose_name_differs_in_letter_case() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let other = dir.path().join("Sandpiper-Bowl.toml");
    if other.exists() {
        // This disk takes both for one name.
        return;
    }
    std::fs::write(&other, "# another's\n").unwrap();
    let rename = format!("/api/shelf/{BOWL}/rename");
    let answer = post(&server, &rename, &json!({ "to": "Sandpiper-Bowl" }));
    assert!(answer["name"].is_null(), "{answer}");
    assert_eq!(std::fs::read_to_string(&other).unwrap(), "# another's\n");
    assert!(server.text(BOWL).starts_with("# A bowl"));
    // In letters alone a project is renamed all the same.
    std::fs::remove_file(&other).unwrap();
    let answer = post(&server, &rename, &json!({ "to": "Sandpiper-Bowl" }));
    assert_eq!(answer["name"], "Sandpiper-Bowl");
    assert!(server.text("Sandpiper-Bowl").starts_with("# A bowl"));
}

#[test]
fn a_new_project_does_not_come_by_the_versions_of_a_deleted_namesake() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let asked = json!({ "kind": "vase", "title": "Tern" });
    assert_eq!(post(&server, "/api/shelf/new", &asked)["name"], "tern");
    server.set("tern", "title", json!("The first"));
    let first = kept(&server, "tern");
    assert_eq!(first.len(), 2);
    post(&server, "/api/shelf/tern/delete", &json!({}));

    let asked = json!({ "kind": "bowl", "title": "Tern" });
    assert_eq!(post(&server, "/api/shelf/new", &asked)["name"], "tern");
    assert_eq!(server.view("tern")["undo"], 0);
    let text = server.text("tern");
    post(&server, "/api/piece/tern/undo", &json!({}));
    assert_eq!(server.text("tern"), text, "undo stays within the project");

    // The deleted one has its own versions still, and can be undone.
    let bin = server.get("/api/shelf").json()["bin"].clone();
    let id = bin[0]["id"].as_str().unwrap();
    let answer = post(&server, &format!("/api/bin/{id}/restore"), &json!({}));
    assert_eq!(answer["name"], "tern-2");
    assert_eq!(kept(&server, "tern-2"), first);
    post(&server, "/api/piece/tern-2/undo", &json!({}));
    assert_eq!(server.text("tern-2"), first[0]);
}

#[test]
fn a_renamed_project_takes_its_own_versions_along_and_no_others() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let asked = json!({ "kind": "vase", "title": "Tern" });
    post(&server, "/api/shelf/new", &asked);
    post(&server, "/api/shelf/tern/delete", &json!({}));
    server.set(BOWL, "title", json!("Renamed"));
    let own = kept(&server, BOWL);
    let rename = format!("/api/shelf/{BOWL}/rename");
    assert_eq!(
        post(&server, &rename, &json!({ "to": "tern" }))["name"],
        "tern"
    );
    assert_eq!(kept(&server, "tern"), own);
    post(&server, "/api/piece/tern/undo", &json!({}));
    assert_eq!(server.text("tern"), own[0]);
}

/// Another program saves in the very moment in which this one does: as soon as a new
/// version of ours is seen, its text is given the project's name.
#[test]
fn what_another_program_saves_during_a_save_is_kept_and_built_upon() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let path = dir.path().join(format!("{BOWL}.toml"));
    let versions = dir.path().join(".ringwright/versions").join(BOWL);
    // From here on every version in that folder comes from a save.
    server.set(BOWL, "section[1].band[0].reach", json!("30"));
    let (mut in_between, mut after) = (0, 0);
    for round in 0..12 {
        let view = server.view(BOWL);
        let mark = format!("# theirs {round}");
        let theirs = format!("{}{mark}\n", server.text(BOWL));
        let ready = dir.path().join("theirs.part");
        std::fs::write(&ready, &theirs).unwrap();
        let before = files(&versions);
        let stop = AtomicBool::new(false);
        let reach = format!("{}", 31 + round % 2);
        let answer = std::thread::scope(|scope| {
            scope.spawn(|| {
                let seen = || files(&versions).iter().any(|f| !before.contains(f));
                // A busy machine may not have let this look at all in time.
                while !stop.load(Ordering::Relaxed) && !seen() {
                    std::thread::yield_now();
                }
                std::fs::rename(&ready, &path).unwrap();
            });
            let edits = set("section[1].band[0].reach", &reach);
            let answer = server.edit(BOWL, edits, &view["version"]);
            stop.store(true, Ordering::Relaxed);
            answer
        });
        assert!(answer["view"].is_object(), "{answer}");
        let now = server.text(BOWL);
        let all = kept(&server, BOWL);
        assert!(
            now.contains(&mark) || all.iter().any(|t| t.contains(&mark)),
            "round {round}: theirs is nowhere"
        );
        let ours = format!("reach = {reach}");
        if now.contains(&mark) && now.contains(&ours) {
            in_between += 1;
        } else {
            // It came when ours was saved already, and wrote over it.
            after += 1;
            assert!(all.iter().any(|t| t.contains(&ours)), "ours is nowhere");
        }
    }
    println!("{in_between} came in between, {after} after");
    assert!(files(&dir.path().join(".ringwright/part")).is_empty());
}

#[cfg(unix)]
#[test]
fn a_saved_project_keeps_its_mode_and_its_other_names() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    let dir = folder_with(&[BOWL]);
    let path = dir.path().join(format!("{BOWL}.toml"));
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o664)).unwrap();
    let server = Server::start(dir.path());
    server.set(BOWL, "form.floor", json!("12"));
    let mode = std::fs::metadata(&path).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o664);
    let other = dir.path().join("also-this.txt");
    std::fs::hard_link(&path, &other).unwrap();
    server.set(BOWL, "form.floor", json!("13"));
    assert_eq!(std::fs::metadata(&path).unwrap().nlink(), 2);
    let text = std::fs::read_to_string(&other).unwrap();
    assert!(text.contains("floor = 13"), "{text}");
    // A new project may be read by whoever may read a file that the maker saves.
    post(
        &server,
        "/api/shelf/new",
        &json!({ "kind": "box", "title": "Box" }),
    );
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode();
    let plain = dir.path().join("plain");
    std::fs::write(&plain, "").unwrap();
    assert_eq!(mode(&dir.path().join("box.toml")), mode(&plain));
}
