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
