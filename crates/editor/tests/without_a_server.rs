//! A whole session over projects in memory: no server, no files, no clock.
#![allow(clippy::unwrap_used)]

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use drawings::WallSide;
use editor::answers::{Reader, look, piece, shelf, workshop};
use editor::hold::hold;
use editor::open_projects::OpenProjects;
use editor::pictures::{Asked, Portraits, What};
use editor::store::{MemoryStore, Saved, Store, Stored, hash};
use editor::wire::{EditRequest, Edited, Event, NewRequest, RenameRequest, TakeRequest, View};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

const BOWL: &str = include_str!("../../../examples/sandpiper-bowl.toml");
const READER: Reader = Reader {
    unit: None,
    spelling: None,
};

fn asked<T: DeserializeOwned>(value: Value) -> T {
    serde_json::from_value(value).unwrap()
}

/// A store with the bowl in it, whose time goes on by a second at every look.
fn projects() -> OpenProjects {
    let seconds = AtomicU64::new(0);
    let now = move || 1000.0 * seconds.fetch_add(1, Ordering::Relaxed) as f64;
    let store = MemoryStore::new(now);
    store.create("bowl", BOWL.as_bytes()).unwrap();
    OpenProjects::new(store)
}

fn view(projects: &OpenProjects) -> View {
    piece::view(projects, "bowl", READER).unwrap()
}

fn set(projects: &OpenProjects, base: &str, path: &str, value: &str) -> Edited {
    let edit = json!({ "op": "set", "path": path, "value": value });
    let asked: EditRequest = asked(json!({ "edits": [edit], "base": base }));
    piece::edit(projects, "bowl", READER, &asked).unwrap()
}

fn text(projects: &OpenProjects) -> String {
    let found = projects.store.read(Stored::Project("bowl")).unwrap();
    String::from_utf8(found.bytes).unwrap()
}

#[test]
fn an_edit_is_saved_undone_and_made_again() {
    let projects = projects();
    let heard = Arc::new(AtomicU64::new(0));
    let hears = heard.clone();
    hold(&projects.project("bowl").unwrap()).listen(move |event| {
        assert!(matches!(event, Event::Changed { on_disk: false, .. }));
        hears.fetch_add(1, Ordering::Relaxed);
        true
    });
    let first = view(&projects);
    let edited = set(&projects, &first.version, "form.floor", "9");
    let after = edited.view.unwrap();
    assert_eq!((after.undo, after.redo), (1, 0));
    assert_ne!(after.version, first.version);
    assert!(text(&projects).contains("floor = 9"));
    // What cannot be is told, and nothing changes.
    let refused = set(&projects, &after.version, "form.floor", "banana");
    assert!(refused.view.is_none() && !refused.problems.is_empty());
    let back = piece::undo(&projects, "bowl", READER)
        .unwrap()
        .view
        .unwrap();
    assert_eq!((back.undo, back.redo), (0, 1));
    assert_eq!(text(&projects), BOWL);
    let again = piece::redo(&projects, "bowl", READER)
        .unwrap()
        .view
        .unwrap();
    assert_eq!(again.version, after.version);
    assert_eq!(heard.load(Ordering::Relaxed), 3);
    assert_eq!(piece::versions(&projects, "bowl").unwrap().len(), 4);
}

#[test]
fn both_sides_of_a_conflict_are_kept() {
    let projects = projects();
    let first = view(&projects).version;
    let theirs = BOWL.replace("floor = ", "floor = 12 # was ");
    assert_ne!(theirs, BOWL);
    let seen = hash(&[BOWL.as_bytes()]);
    let saved = projects
        .store
        .save(Stored::Project("bowl"), theirs.as_bytes(), Some(&seen))
        .unwrap();
    assert_eq!(saved, Saved::Done);
    let answer = set(&projects, &first, "form.floor", "9");
    let conflict = answer
        .conflict
        .unwrap_or_else(|| panic!("{:?}", answer.problems));
    assert_eq!(text(&projects), theirs);
    let mine: TakeRequest = asked(json!({ "version": conflict.mine.unwrap() }));
    let taken = piece::take(&projects, "bowl", READER, &mine).unwrap();
    assert!(taken.view.is_some());
    assert!(text(&projects).contains("floor = 9"));
    // Another setting goes together with what they changed.
    let second = view(&projects).version;
    let now = text(&projects);
    let titled = now.replacen("title = ", "title = \"Other\" # was ", 1);
    let seen = hash(&[now.as_bytes()]);
    let bowl = Stored::Project("bowl");
    let saved = projects.store.save(bowl, titled.as_bytes(), Some(&seen));
    assert_eq!(saved.unwrap(), Saved::Done);
    let edited = set(&projects, &second, "form.floor", "10");
    assert_eq!(edited.view.unwrap().title, "Other");
}

#[test]
fn a_save_that_was_overtaken_is_not_done() {
    let store = MemoryStore::new(|| 0.0);
    store.create("bowl", b"one").unwrap();
    let bowl = Stored::Project("bowl");
    let (one, two) = (hash(&[b"one"]), hash(&[b"two"]));
    assert_eq!(store.save(bowl, b"two", Some(&one)).unwrap(), Saved::Done);
    let late = store.save(bowl, b"three", Some(&one)).unwrap();
    assert_eq!(late, Saved::Overtaken);
    assert_eq!(store.save(bowl, b"three", None).unwrap(), Saved::Overtaken);
    assert_eq!(store.read(bowl).unwrap().bytes, b"two");
    assert_eq!(store.save(bowl, b"three", Some(&two)).unwrap(), Saved::Done);
    assert!(store.save(Stored::Project("../x"), b"x", None).is_err());
}

#[test]
fn projects_are_made_renamed_deleted_and_had_back() {
    let projects = projects();
    let new: NewRequest = asked(json!({ "kind": "vase", "title": "Tern vase" }));
    let name = shelf::new(&projects, &new).unwrap().name.unwrap();
    assert_eq!(name, "tern-vase");
    assert_eq!(
        shelf::duplicate(&projects, &name).unwrap().name.unwrap(),
        "tern-vase-2"
    );
    let taken: RenameRequest = asked(json!({ "to": "bowl" }));
    assert!(shelf::rename(&projects, &name, &taken).is_err());
    let to: RenameRequest = asked(json!({ "to": "Tall one" }));
    assert_eq!(
        shelf::rename(&projects, &name, &to).unwrap().name.unwrap(),
        "Tall one"
    );
    assert!(piece::view(&projects, &name, READER).is_err_and(|e| e.missing));
    shelf::delete(&projects, "bowl").unwrap();
    let listed = shelf::shelf(&projects, READER).unwrap();
    let names: Vec<&str> = listed.projects.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names, ["Tall one", "tern-vase-2"]);
    assert_eq!(
        shelf::restore(&projects, &listed.bin[0].id)
            .unwrap()
            .name
            .unwrap(),
        "bowl"
    );
    assert_eq!(text(&projects), BOWL);
    assert!(shelf::shelf(&projects, READER).unwrap().bin.is_empty());
}

#[test]
fn the_workshop_is_written_and_every_piece_follows() {
    let projects = projects();
    let before = view(&projects);
    let shop = workshop::view(&projects, READER);
    let edit = json!({ "op": "set", "path": "stock", "value": "30, 40" });
    let change = asked(json!({ "edits": [edit], "base": shop.version }));
    let changed = workshop::change(&projects, READER, &change).unwrap();
    assert_eq!(changed.problems.len(), 0);
    let found = projects.store.read(Stored::Workshop).unwrap();
    assert!(
        String::from_utf8(found.bytes)
            .unwrap()
            .contains("stock = [30, 40]")
    );
    assert_ne!(view(&projects).version, before.version);
    // A page that has not seen the change yet.
    assert!(
        workshop::change(&projects, READER, &change)
            .unwrap()
            .conflict
    );
}

#[test]
fn what_is_looked_at_is_of_the_version_that_is_shown() {
    let projects = projects();
    let first = view(&projects).version;
    set(&projects, &first, "form.floor", "9");
    let revision = look::version(&projects, "bowl", Some(&first))
        .unwrap()
        .unwrap();
    assert_eq!(revision.text, BOWL);
    let asked = Asked {
        what: What::Wall(WallSide::Outside),
        width: 64,
        azimuth: 0.0,
        height: 0.0,
        grain: true,
        upto: None,
    };
    let png = look::picture(&Portraits::default(), &revision, &asked).unwrap();
    assert!(png.starts_with(b"\x89PNG"));
    assert!(look::drawing(&revision, READER, 1).is_some_and(|svg| svg.contains("<svg")));
    assert!(look::at(&revision, READER, glam::DVec3::new(f64::NAN, 0.0, 0.0)).is_none());
}

#[test]
fn words_are_spelled_for_the_reader_and_not_for_the_file() {
    let projects = projects();
    let view = |spelling: Value| {
        let reader: Reader = asked(json!({ "unit": "mm", "spelling": spelling }));
        let view = piece::view(&projects, "bowl", reader).unwrap();
        serde_json::to_string(&view).unwrap()
    };
    // Keys keep their names; only words are spelled.
    let (british, american) = (view(Value::Null), view(json!("american")));
    assert!(british.contains("the mitre") && !british.contains("miter"));
    assert!(american.contains("the miter") && !american.contains("the mitre"));
    assert_eq!(view(json!("british")), british);
    assert!(american.contains(" mm"));
}
