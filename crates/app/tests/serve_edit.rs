//! Editing over HTTP: the file's text is changed where it stands and nothing is lost.
#![allow(clippy::unwrap_used)]

mod serve_support;

use serde_json::{Value, json};
use serve_support::{Server, folder_with};

const BOWL: &str = "sandpiper-bowl";
const VASE: &str = "dunlin-vase";

/// Lines of `after` that are not in `before`, and the other way round.
fn differs(before: &str, after: &str) -> (Vec<String>, Vec<String>) {
    let only = |a: &str, b: &str| {
        let b: Vec<&str> = b.lines().collect();
        a.lines()
            .filter(|l| !b.contains(l))
            .map(String::from)
            .collect()
    };
    (only(before, after), only(after, before))
}

#[test]
fn one_setting_changes_one_line_and_comments_stay() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let before = server.text(BOWL);
    let edited = server.set(BOWL, "section[1].band[0].reach", json!("34.5"));
    assert_eq!(edited["problems"], json!([]));
    let blank = &edited["view"]["blanks"]["section[1].band[0].reach"];
    assert_eq!(
        (blank["shown"].as_str(), blank["origin"].as_str()),
        (Some("34.5"), Some("maker"))
    );
    let (gone, new) = differs(&before, &server.text(BOWL));
    assert_eq!(
        gone,
        ["  reach = 36        # lowest to highest edge on the finished wall"]
    );
    assert_eq!(
        new,
        ["  reach = 34.5        # lowest to highest edge on the finished wall"]
    );
    // The maker's own words stay as they were written.
    server.set(BOWL, "form.wall", json!("5/16 in"));
    assert!(server.text(BOWL).contains("wall = \"5/16 in\"\n"));
    // Setting the tilt takes the reach's place, its comment too.
    server.set(BOWL, "section[1].band[0].tilt", json!("9.5"));
    let text = server.text(BOWL);
    assert!(text.contains("  tilt = 9.5        # lowest to highest edge on the finished wall"));
    assert!(!text.contains("reach ="));
}

#[test]
fn a_wrong_value_changes_nothing_and_says_why() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let before = server.text(BOWL);
    for (path, value) in [
        ("section[1].band[0].reach", json!("far")),
        ("section[1].band[0].loops", json!(99)),
        ("section[1].wood", json!("unobtainium")),
        ("form.floor", json!("-4 mm")),
        ("form.outer[2][1]", json!("0")),
        ("section[1].band[0].order", json!("1, 2, 2, 4")),
        ("section[1].ring#1.segments", json!(2)),
    ] {
        let edited = server.set(BOWL, path, value);
        assert!(edited["view"].is_null(), "{path}");
        let problem = &edited["problems"][0];
        assert!(
            problem["what"].as_str().is_some_and(|w| !w.is_empty()),
            "{path}"
        );
        assert!(
            problem["remedy"].as_str().is_some_and(|w| !w.is_empty()),
            "{path}"
        );
        assert_eq!(server.text(BOWL), before, "{path}");
    }
    assert_eq!(server.view(BOWL)["undo"], 0);
}

#[test]
fn every_blank_takes_its_own_value_back() {
    // What a blank shows, set again, must be read, whatever the page's unit: of both
    // units' examples, shown in both units.
    let dir = folder_with(&[BOWL, VASE, "turnstone-box"]);
    let server = Server::start(dir.path());
    for name in [BOWL, VASE, "turnstone-box"] {
        for unit in ["mm", "inch"] {
            let view = server.get(&format!("/api/piece/{name}?unit={unit}")).json();
            let blanks = view["blanks"].as_object().unwrap();
            assert!(blanks.len() > 60, "{name} has {} blanks", blanks.len());
            for (path, blank) in blanks {
                let shown = blank["shown"].as_str().unwrap();
                // Setting a computed figure instead of what it follows from, or an empty
                // wish, is the maker's choice and not this test's.
                if shown.is_empty() || blank["origin"] == "form" || path == "section[0].turn" {
                    continue;
                }
                let value = match blank["kind"].as_str().unwrap() {
                    "flag" => json!(shown == "true"),
                    "woods" => json!(shown.split(", ").collect::<Vec<_>>()),
                    _ => json!(shown),
                };
                let body = json!({
                    "edits": [{ "op": "set", "path": path, "value": value }],
                    "base": view["version"], "preview": true,
                });
                let answer = server
                    .post(&format!("/api/piece/{name}/edit?unit={unit}"), &body)
                    .json();
                let solid_false = path.ends_with(".solid") && shown == "false";
                assert!(
                    answer["view"].is_object() || solid_false,
                    "{name} {path} = {value}: {}",
                    answer["problems"]
                );
                if answer["view"].is_object() && !path.ends_with("[2]") && blank["kind"] != "woods"
                {
                    assert_eq!(
                        answer["view"]["blanks"][path]["shown"], blank["shown"],
                        "{name} {path}"
                    );
                }
            }
        }
    }
}

#[test]
fn a_blanks_limits_are_the_readers() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let view = server.view(BOWL);
    let try_at = |path: &str, value: f64, unit: &str| {
        let words = if unit == "mm" {
            format!("{value} mm")
        } else {
            format!("{value}")
        };
        let body = json!({
            "edits": [{ "op": "set", "path": path, "value": words }],
            "base": view["version"], "preview": true,
        });
        let answer = server
            .post(&format!("/api/piece/{BOWL}/edit"), &body)
            .json();
        // A limit of the reader, not one of the form that comes after it.
        answer["problems"].as_array().unwrap().iter().any(|p| {
            let said = format!("{}{}", p["what"], p["remedy"]);
            said.contains(" to ")
        })
    };
    let mut checked = 0;
    for (path, blank) in view["blanks"].as_object().unwrap() {
        let (Some(least), Some(most)) = (blank["least"].as_f64(), blank["most"].as_f64()) else {
            continue;
        };
        if path.starts_with("shape.") || blank["origin"] == "form" {
            continue;
        }
        let unit = blank["unit"].as_str().unwrap();
        for (value, refused) in [(most + 1.0, true), (least - 1.0, true)] {
            assert_eq!(
                try_at(path, value, unit),
                refused,
                "{path} = {value} {unit}"
            );
            checked += 1;
        }
    }
    assert!(checked > 80, "{checked} limits checked");
    // What is offered is also taken: 401 to 500 rings once were offered and then refused.
    let most = &view["blanks"]["section[1].rings"]["most"];
    assert_eq!(most, &json!(400.0));
    let taken = server.set(BOWL, "section[1].rings", json!(400));
    assert_eq!(taken["problems"], json!([]));
}

#[test]
fn rings_are_listed_out_only_as_far_as_needed() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let woods = |view: &Value, ring: usize| view["sections"][1]["rings"][ring]["woods"].clone();
    let before = server.view(BOWL);
    assert_eq!(before["sections"][1]["rings"].as_array().unwrap().len(), 4);
    let mut names: Vec<&str> = vec!["walnut"; 12];
    names[6] = "cherry";
    let edited = server.set(BOWL, "section[1].ring#2.wood", json!(names));
    let view = &edited["view"];
    assert_eq!(edited["problems"], json!([]));
    assert_eq!(woods(view, 2), json!(names));
    for ring in [0, 1, 3] {
        assert_eq!(woods(view, ring), woods(&before, ring), "ring {ring}");
    }
    let text = server.text(BOWL);
    assert!(!text.contains("rings = 4"));
    assert_eq!(text.matches("[[section.ring]]").count(), 2 + 3, "{text}");
    assert!(text.contains("repeat = 2"));
    // A repeating pattern is written short.
    server.set(
        BOWL,
        "section[1].ring#0.wood",
        json!(["ash, white", "walnut"].repeat(6)),
    );
    assert!(
        server
            .text(BOWL)
            .contains("wood = [\"ash, white\", \"walnut\"]"),
        "{}",
        server.text(BOWL)
    );
    // Add, move, remove.
    let version = server.view(BOWL)["version"].clone();
    let edited = server.edit(
        BOWL,
        json!([{ "op": "add", "path": "section[1].ring", "at": 2 }]),
        &version,
    );
    assert_eq!(
        edited["view"]["sections"][1]["rings"]
            .as_array()
            .unwrap()
            .len(),
        5
    );
    let version = &edited["view"]["version"];
    let edited = server.edit(
        BOWL,
        json!([{ "op": "move", "path": "section[1].ring#3", "to": 0 }]),
        version,
    );
    assert_eq!(woods(&edited["view"], 0), json!(names));
    let version = &edited["view"]["version"];
    let edited = server.edit(
        BOWL,
        json!([{ "op": "remove", "path": "section[1].ring#0" }]),
        version,
    );
    let rings = edited["view"]["sections"][1]["rings"].as_array().unwrap();
    assert_eq!(rings.len(), 4);
    assert!(rings.iter().all(|r| r["woods"] != json!(names)));
}

#[test]
fn sections_points_bands_and_splits_come_and_go() {
    let dir = folder_with(&[BOWL, VASE]);
    let server = Server::start(dir.path());
    let go = |name: &str, edits: Value| {
        let version = server.view(name)["version"].clone();
        let edited = server.edit(name, edits, &version);
        assert_eq!(edited["problems"], json!([]), "{}", server.text(name));
        edited["view"].clone()
    };
    let view = go(
        BOWL,
        json!([{ "op": "add", "path": "form.outer", "at": 3, "value": ["57 mm", "91.5 mm"] }]),
    );
    assert_eq!(view["form"]["points"][3]["radius"], 91.5);
    assert_eq!(view["form"]["points"].as_array().unwrap().len(), 7);
    let view = go(
        BOWL,
        json!([{ "op": "set", "path": "form.outer[3][2]", "value": "corner" }]),
    );
    assert_eq!(view["form"]["points"][3]["corner"], true);
    let view = go(BOWL, json!([{ "op": "remove", "path": "form.outer[3]" }]));
    assert_eq!(view["form"]["points"].as_array().unwrap().len(), 6);
    let names = |view: &Value| -> Vec<String> {
        let all = view["sections"].as_array().unwrap();
        all.iter()
            .map(|s| s["name"].as_str().unwrap().to_string())
            .collect()
    };
    let view = go(BOWL, json!([{ "op": "add", "path": "section", "at": 1 }]));
    assert_eq!(names(&view), ["foot", "foot 2", "belly", "rim"]);
    let view = go(
        BOWL,
        json!([{ "op": "move", "path": "section[1]", "to": 2 }]),
    );
    assert_eq!(names(&view), ["foot", "belly", "foot 2", "rim"]);
    assert_eq!(view["sections"][1]["bands"].as_array().unwrap().len(), 1);
    let view = go(BOWL, json!([{ "op": "remove", "path": "section[2]" }]));
    assert_eq!(names(&view), ["foot", "belly", "rim"]);
    let view = go(
        VASE,
        json!([{ "op": "add", "path": "section[2].band", "at": 0 }]),
    );
    assert_eq!(
        view["sections"][2]["bands"][0]["loops"]
            .as_array()
            .unwrap()
            .len(),
        4
    );
    let view = go(
        VASE,
        json!([{ "op": "remove", "path": "section[2].band[0]" }]),
    );
    assert_eq!(view["sections"][2]["bands"], json!([]));
    let view = go(
        VASE,
        json!([{ "op": "remove", "path": "section[2].split[0]" }]),
    );
    assert_eq!(view["sections"][2]["splits"], json!([]));
    let view = go(
        VASE,
        json!([{ "op": "add", "path": "section[2].split", "at": 0 }]),
    );
    assert_eq!(view["sections"][2]["splits"][0]["turn"], 12.0);
}

#[test]
fn the_whole_form_is_scaled() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let edited = server.set(BOWL, "shape.height", json!("130 mm"));
    let view = &edited["view"];
    assert_eq!(view["blanks"]["shape.height"]["shown"], "130");
    // 40 mm up of 122 comes to 40·130/122 = 42.62 mm.
    assert_eq!(view["form"]["points"][2]["height"], 42.62);
    assert_eq!(view["form"]["points"][2]["radius"], 82.0);
    let edited = server.set(BOWL, "shape.diameter", json!("8 in"));
    assert_eq!(edited["view"]["form"]["points"][5]["radius"], 101.6);
    let edited = server.set(BOWL, "shape.foot", json!(100.0));
    assert_eq!(edited["view"]["form"]["points"][0]["radius"], 50.0);
    // One step each.
    assert_eq!(edited["view"]["undo"], 3);
}

#[test]
fn undo_and_redo_reach_back_to_the_first_text() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let first = server.text(BOWL);
    let mut texts = vec![first.clone()];
    for i in 0..40 {
        let reach = format!("{}.5", 20 + i % 17);
        let edited = server.set(BOWL, "section[1].band[0].reach", json!(reach));
        assert_eq!(edited["view"]["undo"], i + 1);
        texts.push(server.text(BOWL));
    }
    let step = |what: &str| {
        server
            .post(&format!("/api/piece/{BOWL}/{what}"), &json!({}))
            .json()
    };
    for text in texts.iter().rev().skip(1) {
        assert!(step("undo")["view"].is_object());
        assert_eq!(server.text(BOWL), *text);
    }
    assert_eq!(server.text(BOWL), first);
    assert!(step("undo")["view"].is_null());
    for text in texts.iter().skip(1) {
        assert!(step("redo")["view"].is_object());
        assert_eq!(server.text(BOWL), *text);
    }
    assert_eq!(
        step("redo")["problems"][0]["what"],
        "there is nothing to redo"
    );
    // A new edit after an undo ends what could be redone.
    step("undo");
    assert_eq!(
        server.set(BOWL, "title", json!("Other bowl"))["view"]["redo"],
        0
    );
}

#[test]
fn a_stopped_and_started_server_still_knows_twenty_steps() {
    let dir = folder_with(&[BOWL]);
    let first = std::fs::read_to_string(dir.path().join("sandpiper-bowl.toml")).unwrap();
    {
        let server = Server::start(dir.path());
        for i in 0..5 {
            server.set(BOWL, "section[1].band[0].reach", json!(30 + i));
        }
    }
    let server = Server::start(dir.path());
    let view = server.view(BOWL);
    assert_eq!(view["blanks"]["section[1].band[0].reach"]["shown"], "34");
    // The first text was never saved by the program, but it was read by it.
    let mut undone = 0;
    while server
        .post(&format!("/api/piece/{BOWL}/undo"), &json!({}))
        .json()["view"]
        .is_object()
    {
        undone += 1;
    }
    assert_eq!(undone, 5);
    assert_eq!(server.text(BOWL), first);
}

#[test]
fn previews_are_seen_and_not_kept() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let before = server.text(BOWL);
    let view = server.view(BOWL);
    let preview = |reach: f64, seq: u32| {
        let body = json!({
            "edits": [{ "op": "set", "path": "section[1].band[0].reach", "value": reach }],
            "base": view["version"], "preview": true, "client": "a", "seq": seq,
        });
        server
            .post(&format!("/api/piece/{BOWL}/edit"), &body)
            .json()
    };
    let seen = preview(30.0, 1);
    assert_eq!(
        seen["view"]["blanks"]["section[1].band[0].reach"]["shown"],
        "30"
    );
    assert_eq!(seen["seq"], 1);
    let picture = seen["view"]["pictures"]["outside"]
        .as_str()
        .unwrap()
        .to_string();
    assert_eq!(server.get(&format!("{picture}&w=256")).status, 200);
    // An old question that comes late is not answered with a picture.
    assert!(preview(31.0, 3)["view"].is_object());
    assert_eq!(preview(30.5, 2)["superseded"], true);
    assert_eq!(server.text(BOWL), before);
    let now = server.view(BOWL);
    assert_eq!(
        (&now["version"], &now["undo"]),
        (&view["version"], &json!(0))
    );
}
