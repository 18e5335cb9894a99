//! No path leads out of the folder of projects, whatever its letters or links.

mod serve_support;

use serde_json::json;
use serve_support::{Server, folder_with};

const BOWL: &str = "sandpiper-bowl";

/// Names that would lead out of the folder, were they taken for paths.
const WAYS_OUT: [&str; 21] = [
    "../secret",
    "..%2fsecret",
    "..%2Fsecret",
    "%2e%2e%2fsecret",
    "%2e%2e/secret",
    "..%5csecret",
    "%2E%2E%5Csecret",
    "%252e%252e%252fsecret",
    "..%c0%afsecret",
    "....//secret",
    "%00secret",
    "secret%00",
    "%2fetc%2fpasswd",
    "/etc/passwd",
    "C:%5csecret",
    ".ringwright",
    ".",
    "..",
    "%2e%2e",
    "workshop",
    "a%0d%0aX-Evil:%201",
];

#[test]
fn no_path_leads_out_of_the_folder() {
    let outer = tempfile::tempdir().unwrap();
    let secret = "ringwright = 1\ntitle = \"secret\"\n";
    std::fs::write(outer.path().join("secret.toml"), secret).unwrap();
    let inner = outer.path().join("projects");
    std::fs::create_dir(&inner).unwrap();
    let server = Server::start(&inner);
    for name in WAYS_OUT {
        for path in [
            format!("/api/piece/{name}"),
            format!("/api/piece/{name}/text"),
            format!("/api/piece/{name}/versions"),
            format!("/api/shelf/{name}/file"),
            format!("/assets/{name}"),
            format!("/api/piece/x/picture/{name}"),
        ] {
            let answer = server.get(&path);
            assert!(
                (400..500).contains(&answer.status),
                "{path} gives {}",
                answer.status
            );
            assert!(answer.header("x-evil").is_none());
            assert!(
                !String::from_utf8_lossy(&answer.body).contains("title = "),
                "{path}"
            );
        }
        for path in [
            format!("/api/shelf/{name}/delete"),
            format!("/api/shelf/{name}/duplicate"),
            format!("/api/bin/{name}/restore"),
        ] {
            let answer = server.post(&path, &json!({}));
            assert!(
                (400..500).contains(&answer.status),
                "{path} gives {}",
                answer.status
            );
        }
    }
    // Names in bodies.
    std::fs::copy(
        serve_support::examples().join("sandpiper-bowl.toml"),
        inner.join("bowl.toml"),
    )
    .unwrap();
    for to in [
        "../stolen",
        "/tmp/stolen",
        "..",
        ".hidden",
        "a/b",
        "a\\b",
        "workshop",
        "a\0b",
        "",
    ] {
        let answer = server.post("/api/shelf/bowl/rename", &json!({ "to": to }));
        assert!(
            answer.json()["name"].is_null() || answer.status >= 400,
            "{to:?}"
        );
        let text = std::fs::read_to_string(inner.join("bowl.toml")).unwrap();
        let brought = server.post("/api/shelf/import", &json!({ "name": to, "text": text }));
        let name = brought.json()["name"].as_str().map(String::from);
        let name = name.expect("a file from elsewhere gets a name of its own");
        assert!(
            inner.join(format!("{name}.toml")).is_file(),
            "{to:?} came in as {name}"
        );
    }
    let outside: Vec<_> = std::fs::read_dir(outer.path())
        .unwrap()
        .flatten()
        .map(|e| e.file_name())
        .collect();
    assert_eq!(outside.len(), 2, "{outside:?}");
    assert_eq!(
        std::fs::read_to_string(outer.path().join("secret.toml")).unwrap(),
        secret
    );
}

#[cfg(unix)]
#[test]
fn links_out_of_the_folder_are_not_followed() {
    use std::os::unix::fs::symlink;
    let outer = folder_with(&[BOWL]);
    let before = std::fs::read(outer.path().join("sandpiper-bowl.toml")).unwrap();
    let inner = outer.path().join("projects");
    std::fs::create_dir(&inner).unwrap();
    symlink("../sandpiper-bowl.toml", inner.join("link.toml")).unwrap();
    symlink("/", inner.join("root.toml")).unwrap();
    symlink("/dev/zero", inner.join("zero.toml")).unwrap();
    symlink("loop.toml", inner.join("loop.toml")).unwrap();
    symlink("../sandpiper-bowl.toml", inner.join("workshop.toml")).unwrap();
    let server = Server::start(&inner);
    assert_eq!(server.get("/api/shelf").json()["projects"], json!([]));
    for name in ["link", "root", "zero", "loop"] {
        for path in ["", "/text", "/picture/outside.png"] {
            let answer = server.get(&format!("/api/piece/{name}{path}"));
            assert!(
                (400..500).contains(&answer.status),
                "{name}{path} {}",
                answer.status
            );
        }
        assert!(server.get(&format!("/api/shelf/{name}/file")).status >= 400);
        assert!(
            server
                .post(&format!("/api/shelf/{name}/duplicate"), &json!({}))
                .status
                >= 400
        );
        assert!(
            server
                .post(&format!("/api/shelf/{name}/delete"), &json!({}))
                .status
                >= 400
        );
    }
    // The workshop that is a link is not written over.
    let shop = server.get("/api/workshop").json();
    assert!(!shop["problems"].as_array().unwrap().is_empty());
    let body = json!({ "base": shop["version"], "edits": [{ "op": "set", "path": "lathe.swing", "value": 300 }] });
    assert!(server.post("/api/workshop", &body).status >= 400);
    // A new project does not write through a link of its name.
    let made = server.post("/api/shelf/import", &json!({ "name": "link", "text": "x" }));
    assert_eq!(made.json()["name"], "link-2");
    assert_eq!(
        std::fs::read(outer.path().join("sandpiper-bowl.toml")).unwrap(),
        before
    );
}
