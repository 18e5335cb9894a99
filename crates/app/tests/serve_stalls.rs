//! Work that nobody waits for any more holds up nothing that somebody waits for.
#![allow(clippy::unwrap_used)]

mod serve_support;

use std::io::Write;
use std::time::{Duration, Instant};

use serde_json::json;
use serve_support::{Server, folder_with};

const VASE: &str = "dunlin-vase";

fn timed(act: impl FnOnce()) -> Duration {
    let start = Instant::now();
    act();
    start.elapsed()
}

/// Asks for a paper and closes the connection without waiting for it, so often. Between
/// two of them the server has time to begin.
fn give_up(server: &Server, path: &str, times: usize) {
    for _ in 0..times {
        let mut stream = server.connect();
        let request = server.text_of("GET", path, "", "", false);
        stream.write_all(request.as_bytes()).unwrap();
        std::thread::sleep(Duration::from_millis(100));
    }
}

#[test]
fn papers_given_up_hold_up_neither_views_nor_edits_nor_papers() {
    let dir = folder_with(&[VASE]);
    let server = Server::start(dir.path());
    let pdf = format!("/api/piece/{VASE}/plan.pdf");
    // Everything is worked out once, so that only waiting is measured.
    server.view(VASE);
    let one = timed(|| assert_eq!(server.get(&pdf).status, 200));
    let idle = timed(|| assert!(server.view(VASE)["route"].is_object()));
    give_up(&server, &pdf, 24);
    let view = timed(|| assert!(server.view(VASE)["route"].is_object()));
    let edit = timed(|| {
        let answer = server.set(VASE, "title", json!("another title"));
        assert_eq!(answer["view"]["title"], "another title");
    });
    let paper = timed(|| assert_eq!(server.get(&pdf).status, 200));
    println!("a view {idle:?}, then {view:?}; an edit {edit:?}; a paper {one:?}, then {paper:?}");
    // What is under way takes its share of the machine, but nobody waits for it to end.
    assert!(view < Duration::from_secs(3), "a view took {view:?}");
    assert!(edit < Duration::from_secs(6), "an edit took {edit:?}");
    // One paper may still be under way, which the typesetter cannot leave at once.
    let most = one * 4 + Duration::from_secs(3);
    assert!(paper < most, "a paper took {paper:?}, alone {one:?}");
}

#[test]
fn pictures_under_way_hold_up_no_view() {
    let dir = folder_with(&[VASE]);
    let server = Server::start(dir.path());
    server.view(VASE);
    let mut waiting = Vec::new();
    for i in 0..40 {
        let mut stream = server.connect();
        let path = format!("/api/piece/{VASE}/picture/outside.png?w=4096&az={i}");
        let request = server.text_of("GET", &path, "", "", true);
        stream.write_all(request.as_bytes()).unwrap();
        waiting.push(stream);
    }
    std::thread::sleep(Duration::from_millis(200));
    let view = timed(|| assert!(server.view(VASE)["route"].is_object()));
    println!("a view beside {} pictures: {view:?}", waiting.len());
    assert!(view < Duration::from_secs(3), "a view took {view:?}");
}

/// A file that keeps to every limit of its keys: 50 sections of 12 bands of 16 loops.
fn legal_but_vast() -> String {
    use std::fmt::Write as _;
    let mut text = "ringwright = 1\ntitle = \"vast\"\nunit = \"mm\"\n[form]\n\
                    outer = [[0, 60], [1500, 110], [3000, 70]]\nwall = 8\n"
        .to_string();
    for s in 0..50 {
        write!(
            text,
            "[[section]]\nname = \"s{s}\"\nsegments = 36\nrings = 8\nring_height = 7.5\n\
             stock = 10\nwood = \"hard maple\"\n"
        )
        .unwrap();
        for b in 1..=12 {
            write!(
                text,
                "[[section.band]]\nloops = 16\nheight = {}\ntilt = 40\nlayer = 3\n\
                 wood = \"padauk\"\n",
                60.0 * f64::from(b) / 13.0
            )
            .unwrap();
        }
    }
    text
}

#[test]
fn a_piece_that_is_too_much_work_is_told_and_the_server_goes_on() {
    let dir = folder_with(&[VASE]);
    std::fs::write(dir.path().join("vast.toml"), legal_but_vast()).unwrap();
    let server = Server::start(dir.path());
    let told = |problems: &serde_json::Value| {
        let problems = problems.as_array().unwrap();
        let found = problems
            .iter()
            .find(|p| p["what"].as_str().unwrap().contains("9600 loops"));
        let found = found.unwrap_or_else(|| panic!("{problems:?}"));
        assert_eq!(found["path"], "section[0].band[0].loops");
        assert_eq!(
            found["remedy"],
            "one band in a section, with at most 8 loops"
        );
    };
    let took = timed(|| {
        let view = server.view("vast");
        assert!(view["route"].is_null());
        told(&view["problems"]);
        assert_eq!(server.get("/api/shelf").status, 200);
        assert_eq!(server.get("/api/piece/vast/plan.pdf").status, 404);
    });
    println!("told in {took:?}");
    assert!(took < Duration::from_secs(20), "{took:?}");
    // A change that would lead there is refused, and changes nothing.
    let before = server.text(VASE);
    let body = json!({ "base": server.view(VASE)["version"], "text": legal_but_vast() });
    let answer = server.post(&format!("/api/piece/{VASE}/text"), &body);
    told(&answer.json()["problems"]);
    assert_eq!(server.text(VASE), before);
    assert!(server.view(VASE)["route"].is_object());
}
