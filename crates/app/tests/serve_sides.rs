//! Several sides that change one folder: tabs, other programs, a stopped program.
#![allow(clippy::unwrap_used)]

mod serve_support;

use std::io::{BufRead, BufReader, Write};
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use serve_support::{Server, folder_with};

const BOWL: &str = "sandpiper-bowl";

fn reach(view: &Value) -> &str {
    view["blanks"]["section[1].band[0].reach"]["shown"]
        .as_str()
        .unwrap()
}

fn set(path: &str, value: Value) -> Value {
    json!([{ "op": "set", "path": path, "value": value }])
}

/// Every text that is kept of a project.
fn kept(server: &Server) -> Vec<String> {
    let folder = server.folder.join(".ringwright/versions").join(BOWL);
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .flatten()
        .map(|e| e.path())
        .collect();
    files.sort();
    files
        .iter()
        .map(|f| std::fs::read_to_string(f).unwrap())
        .collect()
}

#[test]
fn two_tabs_that_set_different_things_go_together() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let base = server.view(BOWL)["version"].clone();
    let one = server.edit(BOWL, set("section[1].band[0].reach", json!("30")), &base);
    assert!(one["view"].is_object());
    let two = server.edit(BOWL, set("form.floor", json!("12")), &base);
    assert!(two["conflict"].is_null(), "{}", two["conflict"]);
    assert_eq!(reach(&two["view"]), "30");
    assert_eq!(two["view"]["blanks"]["form.floor"]["shown"], "12");
}

#[test]
fn two_tabs_that_set_the_same_thing_are_told_and_both_are_kept() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let base = server.view(BOWL)["version"].clone();
    server.edit(BOWL, set("section[1].band[0].reach", json!("30")), &base);
    let two = server.edit(BOWL, set("section[1].band[0].reach", json!("32")), &base);
    assert!(two["view"].is_null());
    let conflict = &two["conflict"];
    assert_eq!(reach(&server.view(BOWL)), "30");
    let take = |which: &str| {
        let body = json!({ "version": conflict[which] });
        server
            .post(&format!("/api/piece/{BOWL}/take"), &body)
            .json()
    };
    assert_eq!(reach(&take("mine")["view"]), "32");
    assert!(server.text(BOWL).contains("reach = 32"));
    assert_eq!(reach(&take("theirs")["view"]), "30");
    let all = kept(&server).join("\n");
    assert!(all.contains("reach = 30") && all.contains("reach = 32"));
}

#[test]
fn a_list_changed_elsewhere_is_a_conflict() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let base = server.view(BOWL)["version"].clone();
    server.edit(
        BOWL,
        json!([{ "op": "remove", "path": "form.outer[2]" }]),
        &base,
    );
    let two = server.edit(BOWL, set("form.outer[3][1]", json!(100.0)), &base);
    assert!(
        two["conflict"].is_object(),
        "an index no longer means the same"
    );
}

#[test]
fn two_writers_at_once_lose_nothing() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let writer = |path: &'static str, from: i32| {
        let server = &server;
        move || {
            let mut last = String::new();
            for i in 0..25 {
                let value = format!("{}.{}", from + i % 3, i % 10);
                loop {
                    let base = server.view(BOWL)["version"].clone();
                    let answer = server.edit(BOWL, set(path, json!(value)), &base);
                    if answer["view"].is_object() {
                        break;
                    }
                    assert!(answer["conflict"].is_object(), "{answer}");
                }
                last = value;
            }
            last
        }
    };
    let (one, two) = std::thread::scope(|scope| {
        let one = scope.spawn(writer("section[1].band[0].reach", 30));
        let two = scope.spawn(writer("form.floor", 11));
        (one.join().unwrap(), two.join().unwrap())
    });
    let text = server.text(BOWL);
    assert!(text.contains(&format!("reach = {one}")), "{one} in {text}");
    assert!(text.contains(&format!("floor = {two}")), "{two} in {text}");
}

/// Waits until the piece on show answers a wish.
fn until(server: &Server, wish: impl Fn(&Value) -> bool) -> Value {
    let start = Instant::now();
    loop {
        let view = server.view(BOWL);
        if wish(&view) {
            return view;
        }
        assert!(
            start.elapsed() < Duration::from_secs(10),
            "{}",
            view["blanks"]
        );
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_file_changed_on_disk_is_noticed_and_can_be_undone() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let path = dir.path().join("sandpiper-bowl.toml");
    server.set(BOWL, "section[1].band[0].reach", json!("30"));
    let ours = server.text(BOWL);
    // The stream of events tells it without being asked.
    let mut stream = server.connect();
    let ask = server.text_of("GET", &format!("/api/piece/{BOWL}/events"), "", "", false);
    stream.write_all(ask.as_bytes()).unwrap();
    let mut lines = BufReader::new(stream).lines();
    let head = lines.next().unwrap().unwrap();
    assert!(head.contains("200"), "{head}");
    let theirs = ours.replace("floor = 11", "floor = 9  # by hand");
    std::fs::write(&path, &theirs).unwrap();
    let told = lines
        .map_while(Result::ok)
        .find(|l| l.starts_with("data:"))
        .unwrap();
    assert!(
        told.contains("\"event\":\"changed\"") && told.contains("\"on_disk\":true"),
        "{told}"
    );
    let view = until(&server, |v| v["blanks"]["form.floor"]["shown"] == "9");
    assert_eq!(view["undo"], 2);
    // Edits go on from theirs; their comment stays.
    server.set(BOWL, "section[1].band[0].reach", json!("31"));
    assert!(server.text(BOWL).contains("floor = 9  # by hand"));
    server.post(&format!("/api/piece/{BOWL}/undo"), &json!({}));
    assert_eq!(server.text(BOWL), theirs);
    server.post(&format!("/api/piece/{BOWL}/undo"), &json!({}));
    assert_eq!(server.text(BOWL), ours);
}

#[test]
fn an_edit_on_what_the_disk_no_longer_holds_overwrites_nothing() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let path = dir.path().join("sandpiper-bowl.toml");
    let base = server.view(BOWL)["version"].clone();
    let theirs = server.text(BOWL).replace("reach = 36", "reach = 28");
    std::fs::write(&path, &theirs).unwrap();
    // At once, before anyone has looked around.
    let answer = server.edit(BOWL, set("section[1].band[0].reach", json!("33")), &base);
    assert!(answer["conflict"].is_object(), "{answer}");
    assert_eq!(server.text(BOWL), theirs);
    assert!(kept(&server).iter().any(|t| t.contains("reach = 33")));
}

#[test]
fn a_broken_file_keeps_the_last_good_piece_in_view() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let path = dir.path().join("sandpiper-bowl.toml");
    let good = server.view(BOWL);
    let broken = server
        .text(BOWL)
        .replace("floor = 11", "floor = eleven\nflooor = 2");
    std::fs::write(&path, &broken).unwrap();
    let view = until(&server, |v| v["problems"] != json!([]));
    assert_eq!(view["version"], good["version"]);
    assert_eq!(view["sections"], good["sections"]);
    assert!(view["problems"][0]["line"].as_u64().is_some());
    // The text is there to be repaired, and no edit writes over it.
    let text = server.get(&format!("/api/piece/{BOWL}/text")).json();
    assert_eq!(text["text"], json!(broken));
    let answer = server.edit(BOWL, set("title", json!("New")), &good["version"]);
    assert!(answer["conflict"].is_object(), "{answer}");
    assert_eq!(server.text(BOWL), broken);
    let repaired = broken.replace("floor = eleven\nflooor = 2", "floor = 12");
    let body = json!({ "text": repaired, "base": text["version"] });
    let answer = server
        .post(&format!("/api/piece/{BOWL}/text"), &body)
        .json();
    assert_eq!(answer["view"]["blanks"]["form.floor"]["shown"], "12");
    assert_eq!(server.text(BOWL), repaired);
    // A project that never was good is on the shelf and can be repaired too.
    std::fs::write(
        dir.path().join("bad.toml"),
        "ringwright = 1\nunit = \"ell\"\n",
    )
    .unwrap();
    let shelf = server.get("/api/shelf").json();
    let bad = shelf["projects"]
        .as_array()
        .unwrap()
        .iter()
        .find(|p| p["name"] == "bad")
        .unwrap();
    assert_eq!(bad["broken"], true);
    let view = server.view("bad");
    assert!(view["form"].is_null() && view["problems"] != json!([]));
}

#[test]
fn the_shelf_makes_duplicates_renames_deletes_and_restores() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let names = || -> Vec<String> {
        let shelf = server.get("/api/shelf").json();
        let all = shelf["projects"].as_array().unwrap();
        all.iter()
            .map(|p| p["name"].as_str().unwrap().to_string())
            .collect()
    };
    let post = |path: &str, body: Value| server.post(path, &body).json();
    let asked = json!({ "kind": "vase", "title": "Tern vase", "loops": 5, "segments": 15, "height": "9 1/2 in", "unit": "inch" });
    assert_eq!(post("/api/shelf/new", asked.clone())["name"], "tern-vase");
    assert_eq!(post("/api/shelf/new", asked)["name"], "tern-vase-2");
    let view = server.view("tern-vase");
    assert_eq!(view["blanks"]["shape.height"]["shown"], "9 1/2");
    assert_eq!(
        view["sections"][1]["bands"][0]["loops"]
            .as_array()
            .unwrap()
            .len(),
        5
    );
    assert_eq!(view["counts"]["stops"], 0);
    let wrong = post(
        "/api/shelf/new",
        json!({ "kind": "boat", "height": "tall", "loops": 1, "segments": 2 }),
    );
    assert!(wrong["name"].is_null());
    assert_eq!(wrong["problems"].as_array().unwrap().len(), 4);
    assert_eq!(
        post("/api/shelf/sandpiper-bowl/duplicate", json!({}))["name"],
        "sandpiper-bowl-2"
    );
    assert_eq!(
        post(
            "/api/shelf/sandpiper-bowl-2/rename",
            json!({ "to": "Wader bowl" })
        )["name"],
        "Wader bowl"
    );
    assert_eq!(
        names(),
        ["sandpiper-bowl", "tern-vase", "tern-vase-2", "Wader bowl"]
    );
    let encoded = "/api/shelf/Wader%20bowl";
    assert_eq!(
        server.get(&format!("{encoded}/file")).body,
        server.text("Wader bowl").as_bytes()
    );
    assert_eq!(
        server.get(&format!("{encoded}/picture.png?w=64")).status,
        200
    );
    post(&format!("{encoded}/delete"), json!({}));
    assert_eq!(names().len(), 3);
    assert_eq!(server.get("/api/piece/Wader%20bowl").status, 404);
    let bin = server.get("/api/shelf").json()["bin"].clone();
    let id = bin[0]["id"].as_str().unwrap();
    assert_eq!(
        post(&format!("/api/bin/{id}/restore"), json!({}))["name"],
        "Wader bowl"
    );
    assert_eq!(names().len(), 4);
}

#[test]
fn the_workshop_is_changed_for_every_piece() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let before = server.view(BOWL);
    let shop = server.get("/api/workshop").json();
    assert_eq!(shop["blanks"]["allowances.outside"]["origin"], "default");
    let change = |base: &Value, edits: Value| {
        server
            .post("/api/workshop", &json!({ "base": base, "edits": edits }))
            .json()
    };
    let done = change(&shop["version"], set("allowances.outside", json!("5")));
    assert_eq!(
        done["workshop"]["blanks"]["allowances.outside"]["origin"],
        "workshop"
    );
    let after = server.view(BOWL);
    assert_ne!(after["version"], before["version"]);
    let outside = |v: &Value| v["sections"][1]["rings"][0]["outside"].as_f64().unwrap();
    assert!(outside(&after) > outside(&before));
    // Changed by another page meanwhile.
    let late = change(&shop["version"], set("allowances.inside", json!("5")));
    assert_eq!(late["conflict"], true);
    // One saw of the usual ones.
    let done = change(
        &done["workshop"]["version"],
        set("saw[0].kerf", json!("1.6")),
    );
    assert_eq!(done["problems"], json!([]));
    let text = std::fs::read_to_string(dir.path().join("workshop.toml")).unwrap();
    assert!(
        text.contains("kerf = 1.6") && text.contains("outside = 5"),
        "{text}"
    );
    let wrong = change(
        &done["workshop"]["version"],
        set("saw[0].kerf", json!("wide")),
    );
    assert!(wrong["workshop"].is_null() && wrong["problems"] != json!([]));
}

/// The program is killed in the middle of saves, again and again; what it said was
/// saved is there whole.
#[test]
fn kill_in_the_middle_of_saves_loses_nothing() {
    let dir = folder_with(&[BOWL]);
    kill_in_the_middle(dir.path(), 200, || {
        // The file itself is whole at any time.
        let text = std::fs::read_to_string(dir.path().join("sandpiper-bowl.toml")).unwrap();
        assert!(
            text.starts_with("# A bowl") && text.trim_end().ends_with("stock = 16"),
            "{text}"
        );
    });
}

/// The same of a file that has another name, which is written into: it is whole again as
/// soon as the program is started.
#[cfg(unix)]
#[test]
fn kill_in_the_middle_of_saves_of_a_linked_file_loses_nothing() {
    let dir = folder_with(&[BOWL]);
    let path = dir.path().join("sandpiper-bowl.toml");
    let other = dir.path().join("linked.txt");
    std::fs::hard_link(&path, &other).unwrap();
    kill_in_the_middle(dir.path(), 80, || {});
    assert_eq!(
        std::fs::read(path).unwrap(),
        std::fs::read(other).unwrap(),
        "both names are still one file"
    );
}

fn kill_in_the_middle(folder: &std::path::Path, wanted: usize, look: impl Fn()) {
    let mut saves = 0;
    let mut rounds = 0;
    let mut told = String::from("36");
    while saves < wanted {
        rounds += 1;
        let mut server = Server::start(folder);
        let found = server.view(BOWL);
        assert_eq!(found["problems"], json!([]), "round {rounds}");
        // Either the last save that was answered, or the one that was under way.
        let now: f64 = reach(&found).parse().unwrap();
        let last: f64 = told.parse().unwrap();
        assert!(
            now == last || (now - last - 0.1).abs() < 1e-9 || now == 25.0,
            "{now} after {last}"
        );
        told = format!("{now}");
        let stop = Instant::now() + Duration::from_millis(120 + 37 * (rounds % 9));
        let mut version = found["version"].clone();
        let mut value = now;
        std::thread::scope(|scope| {
            let child = server.child.id();
            scope.spawn(move || {
                std::thread::sleep(stop.saturating_duration_since(Instant::now()));
                // SIGKILL: nothing of the program gets to tidy up.
                let _ = std::process::Command::new("kill")
                    .args(["-9", &child.to_string()])
                    .status();
            });
            loop {
                value = if value > 35.0 {
                    25.0
                } else {
                    ((value + 0.1) * 10.0).round() / 10.0
                };
                let edits = set("section[1].band[0].reach", json!(format!("{value}")));
                let body = json!({ "edits": edits, "base": version }).to_string();
                let ask =
                    server.text_of("POST", &format!("/api/piece/{BOWL}/edit"), "", &body, true);
                let Ok(mut stream) = std::net::TcpStream::connect(("127.0.0.1", server.port))
                else {
                    break;
                };
                if stream.write_all(ask.as_bytes()).is_err() {
                    break;
                }
                let answer = serve_support::read_answer(&mut BufReader::new(stream));
                let Ok(json) = serde_json::from_slice::<Value>(&answer.body) else {
                    break;
                };
                if !json["view"].is_object() {
                    break;
                }
                version = json["view"]["version"].clone();
                told = format!("{value}");
                saves += 1;
            }
        });
        let _ = server.child.wait();
        look();
    }
    println!("{saves} saves, killed {rounds} times");
    let server = Server::start(folder);
    let part = folder.join(".ringwright/part");
    assert_eq!(
        std::fs::read_dir(part).unwrap().count(),
        0,
        "what was half written is cleared"
    );
    assert!(kept(&server).len() <= 20);
}
