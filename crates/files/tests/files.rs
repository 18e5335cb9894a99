//! Project and workshop files, read and written.

use files::design::{BlankShape, InnerSide, LayerMake, RingsGiven, SectionSpec};
use files::key;
use files::keys::Giver;
use files::read::{check_against_workshop, read_design, read_workshop};
use files::report::{Places, Problem, render, said};
use files::units::Unit;
use files::workshop::{SawKind, Workshop};

const EVERYTHING: &str = r##"
ringwright = 1
title = "A vase"
unit = "inch"
notes = """
First line.
Second line."""

[form]
outer = [[0, "1 1/2 in"], [2.5, 2, "corner"], ["6-3/8\"", "60 mm"]]
straight = true
wall = [[0, "3/8"], ["6 in", 0.25]]
floor = "⅜"
foot_recess = "1/16 in"
foot_width = 0.5
rim_easing = "1 mm"

[woods.plum]
like = "cherry"
density = 780
colour = "#8a4a2c"

[[section]]
name = "foot"
wood = ["plum", "holly"]
segments = 8
stock = "3/4"
ring_height = 0.7
rings = 2
joint_turn = "half"

[[section]]
name = "body"
joint_turn = 10
turn = -7.5

[[section.ring]]
repeat = 3
wood = "walnut"
segments = 24
stock = 1
height = "15/16"
turn = "7.5°"
outside = 5
width = "1 1/4"
floor = { wood = "cherry", thickness = "1/4", above = 0.2, groove = "3/16", floating = true, gap = "0.5 mm" }

[[section.ring]]
solid = true

[[section.band]]
azimuths = [0, 90, 200.5]
height = 2
reach = 3
wood = ["holly", "ash", "cherry"]
layer = "3 mm"
saw = "big saw"
glue_line = 0.002
order = [3, 1, 2]
make = "long ring"
segments = 12
blank = "polygon"

[[section.split]]
height = 1.5
turn = 15
saw = "band saw"

[[section]]
name = "neck"
rings = "auto"
height = "3 in"
blank = "cylinder"

[[section.band]]
loops = 5
start = 12
height = 1
tilt = 30
wood = "holly"
spacer = "1/4"
make = "solid"
"##;

fn mm(length: Option<geometry::Length>) -> f64 {
    length.expect("given").as_mm()
}

#[test]
fn every_key_arrives() {
    let (design, places, problems) = read_design("x", EVERYTHING);
    assert!(
        problems.is_empty(),
        "{}",
        render("x", EVERYTHING, &problems)
    );
    let d = design.expect("no problems");
    assert_eq!((d.title.as_str(), d.unit), ("A vase", Unit::Inch));
    assert_eq!(d.notes.as_deref(), Some("First line.\nSecond line."));
    // By hand at 25.4 mm to the inch.
    let outer: Vec<(f64, f64, bool)> = d
        .form
        .outer
        .iter()
        .map(|p| (p.height.as_mm(), p.radius.as_mm(), p.corner))
        .collect();
    let expected = [
        (0.0, 38.1, false),
        (63.5, 50.8, true),
        (161.925, 60.0, false),
    ];
    for (got, want) in outer.iter().zip(expected) {
        assert!((got.0 - want.0).abs() < 1e-9 && (got.1 - want.1).abs() < 1e-9 && got.2 == want.2);
    }
    assert!(d.form.straight);
    let InnerSide::Wall(walls) = d.form.inner_side() else {
        panic!("wall was given");
    };
    assert!(
        (walls[0].thickness.as_mm() - 9.525).abs() < 1e-9
            && (walls[1].height.as_mm() - 152.4).abs() < 1e-9
    );
    assert!((mm(d.form.floor) - 9.525).abs() < 1e-9);
    assert!((mm(d.form.foot_recess) - 1.5875).abs() < 1e-9);
    assert!((mm(d.form.foot_width) - 12.7).abs() < 1e-9);
    assert!((mm(d.form.rim_easing) - 1.0).abs() < 1e-9);
    assert_eq!(d.woods["plum"].density, Some(780.0));
    assert_eq!(d.woods["plum"].like.as_deref(), Some("cherry"));
    assert_eq!(d.woods["plum"].colour.as_deref(), Some("#8a4a2c"));

    let foot = &d.sections[0];
    assert_eq!(foot.wood, ["plum", "holly"]);
    assert!(matches!(foot.rings_given(), RingsGiven::Count(2)));
    assert_eq!(foot.segments, Some(8));
    assert!((mm(foot.stock) - 19.05).abs() < 1e-9 && (mm(foot.ring_height) - 17.78).abs() < 1e-9);
    assert!(foot.joint_turn.is_none() && foot.turn.is_none());

    let body = &d.sections[1];
    assert!((body.joint_turn.expect("given").as_deg() - 10.0).abs() < 1e-9);
    assert!((body.turn.expect("given").as_deg() + 7.5).abs() < 1e-9);
    let RingsGiven::Listed(rings) = body.rings_given() else {
        panic!("rings were listed");
    };
    let ring = &rings[0];
    assert_eq!(
        (ring.repeat, ring.segments, ring.solid),
        (Some(3), Some(24), false)
    );
    assert_eq!(ring.wood, ["walnut"]);
    assert!((mm(ring.stock) - 25.4).abs() < 1e-9 && (mm(ring.height) - 23.8125).abs() < 1e-9);
    assert!((ring.turn.expect("given").as_deg() - 7.5).abs() < 1e-9);
    assert!((mm(ring.outside) - 127.0).abs() < 1e-9 && (mm(ring.width) - 31.75).abs() < 1e-9);
    let floor = ring.floor.as_ref().expect("given");
    assert_eq!((floor.wood.as_str(), floor.floating), ("cherry", true));
    assert!((mm(floor.thickness) - 6.35).abs() < 1e-9 && (mm(floor.above) - 5.08).abs() < 1e-9);
    assert!((mm(floor.groove) - 4.7625).abs() < 1e-9 && (mm(floor.gap) - 0.5).abs() < 1e-9);
    assert!(rings[1].solid);

    the_band_and_split_arrive(body);
    the_neck_arrives(&d.sections[2]);
    every_key_has_its_place(&places);
}

fn the_band_and_split_arrive(body: &SectionSpec) {
    let band = &body.bands[0];
    let azimuths: Vec<f64> = band.azimuths.iter().map(|a| a.as_deg()).collect();
    assert!(
        azimuths
            .iter()
            .zip([0.0, 90.0, 200.5])
            .all(|(a, b)| (a - b).abs() < 1e-9)
    );
    assert!(band.loops.is_none() && band.tilt.is_none() && band.spacer.is_none());
    assert!((mm(band.height) - 50.8).abs() < 1e-9 && (mm(band.reach) - 76.2).abs() < 1e-9);
    assert!((mm(band.layer) - 3.0).abs() < 1e-9 && (mm(band.glue_line) - 0.0508).abs() < 1e-9);
    assert_eq!(band.wood, ["holly", "ash", "cherry"]);
    assert_eq!(band.order, [3, 1, 2]);
    assert_eq!(band.make, Some(LayerMake::LongRing));
    assert_eq!(band.segments, Some(12));
    // An older place of the key, still read.
    assert_eq!(body.blank, Some(BlankShape::Polygon));
    assert_eq!(band.saw.as_deref(), Some("big saw"));
    let split = &body.splits[0];
    assert!(
        (split.height.as_mm() - 38.1).abs() < 1e-9 && (split.turn.as_deg() - 15.0).abs() < 1e-9
    );
}

fn the_neck_arrives(neck: &SectionSpec) {
    assert!(
        matches!(neck.rings_given(), RingsGiven::Auto(Some(h)) if (h.as_mm() - 76.2).abs() < 1e-9)
    );
    let band = &neck.bands[0];
    assert_eq!(band.loops, Some(5));
    assert!((band.start.expect("given").as_deg() - 12.0).abs() < 1e-9);
    assert!((band.tilt.expect("given").as_deg() - 30.0).abs() < 1e-9);
    assert!((mm(band.spacer) - 6.35).abs() < 1e-9);
    assert_eq!(
        (band.make, neck.blank),
        (Some(LayerMake::Solid), Some(BlankShape::Cylinder))
    );
}

/// Later findings must be able to point into the file.
fn every_key_has_its_place(places: &Places) {
    let line_of = |text: &str| {
        let before = EVERYTHING.split(text).next().expect("first part");
        before.matches('\n').count() + 1
    };
    let reach = places.at(key::section(1).band(0).reach()).expect("given");
    assert_eq!(
        (reach.line, reach.column, reach.length),
        (line_of("reach = 3"), 9, 1)
    );
    assert_eq!(
        places.at(key::section(1).band(0).tilt()),
        places.at(key::section(1).band(0).path())
    );
    assert_eq!(
        places.at(key::section(1).path()).expect("given").line,
        line_of("[[section]]\nname = \"body\"")
    );
    assert_eq!(
        places
            .at(key::form().outer().entry(1).entry(0))
            .expect("given")
            .column,
        28
    );
    assert!(places.at(key::shop().sled().dowel()).is_none());
    assert!(places.has(&key::form().wall()) && !places.has(&key::form().inner()));
}

#[test]
fn a_workshop_keeps_what_it_is_not_told() {
    let text = "ringwright = 1\nunit = \"mm\"\n[[saw]]\nkind = \"band\"\nkerf = 0.9\n\
                [allowances]\nglue_line = 0.08\n[sled]\nlargest_tilt = 45\n";
    let (shop, _, problems) = read_workshop(text);
    assert!(problems.is_empty(), "{}", render("w", text, &problems));
    let (shop, usual) = (shop.expect("clean"), Workshop::default());
    assert_eq!(shop.saws.len(), 1);
    let saw = &shop.saws[0];
    assert_eq!((saw.name.as_str(), saw.kind), ("band saw", SawKind::Band));
    assert!((saw.kerf.as_mm() - 0.9).abs() < 1e-12);
    assert!(
        saw.cutting_height
            .within(usual.saws[0].cutting_height, geometry::Length::mm(1e-12))
    );
    assert!((shop.allowances.glue_line.as_mm() - 0.08).abs() < 1e-12);
    assert!((shop.sled.largest_tilt.as_deg() - 45.0).abs() < 1e-9);
    assert_eq!(shop.stock.len(), usual.stock.len());
    let said: Vec<String> = shop
        .settings()
        .into_iter()
        .filter(|s| s.by == Some(Giver::Workshop) && !s.path.counts())
        .map(|s| s.path.to_string())
        .collect();
    assert_eq!(said, ["allowances.glue_line", "sled.largest_tilt"]);
    assert!(shop.saws.is_said() && !shop.stock.is_said());
}

#[test]
fn a_saw_that_the_workshop_has_not_is_told() {
    let (design, places, _) = read_design("x", EVERYTHING);
    let problems = check_against_workshop(&design.expect("clean"), &Workshop::default(), &places);
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert_eq!(problems[0].key_path, "section[1].band[0].saw");
    assert!(problems[0].what.contains("big saw"));
    assert!(problems[0].remedy.contains("band saw"));
    assert_eq!(problems[0].place, places.at(key::section(1).band(0).saw()));
}

#[test]
fn newlines_and_marks_change_nothing() {
    let crlf = EVERYTHING.replace('\n', "\r\n");
    let marked = format!("\u{feff}{EVERYTHING}");
    for text in [crlf.as_str(), marked.as_str()] {
        let (design, places, problems) = read_design("x", text);
        assert!(problems.is_empty(), "{}", render("x", text, &problems));
        assert!(design.is_some());
        let plain = read_design("x", EVERYTHING).1;
        let path = key::section(1).band(0).reach();
        assert_eq!(places.at(&path), plain.at(&path));
    }
}

#[test]
fn problems_come_in_the_order_of_the_file_and_serialise() {
    let text = "ringwright = 1\nunit = \"mm\"\nzebra = 1\n[form]\nouter = 3\n[[section]]\n";
    let (design, _, problems) = read_design("x", text);
    assert!(design.is_none());
    assert!(problems.len() >= 4, "{problems:?}");
    assert!(problems.is_sorted());
    let json = serde_json::to_value(&problems).expect("plain data");
    assert_eq!(json[0]["place"]["line"], 3);
    assert_eq!(json[0]["key_path"], "zebra");
    assert!(
        problems
            .iter()
            .all(|p: &Problem| !p.remedy.is_empty() && !p.what.is_empty())
    );
}

#[test]
fn a_long_list_of_problems_is_cut() {
    let keys: String = (0..80).map(|i| format!("key_{i} = {i}\n")).collect();
    let text = format!("{EVERYTHING}\n{keys}");
    let (_, _, problems) = read_design("x", &text);
    assert_eq!(problems.len(), 41);
    assert_eq!(problems[40].what, "and 40 more from here on");
    assert!(problems.is_sorted());
}

#[test]
fn the_deepest_file_that_is_read_fits_a_small_stack() {
    let deep = |n: usize| vec!["a"; n].join(".");
    let texts = [
        format!("{} = 1\n", deep(1000)),
        format!("[{}]\n{} = {{ {} = 1 }}\n", deep(330), deep(330), deep(330)),
        // The second is a duplicate, which the parser itself must let go.
        format!("a = 1\na = {{ {} = 1 }}\n", deep(990)),
        format!("notes = {}{}\n", "[".repeat(80), "]".repeat(80)),
    ];
    let read = move || {
        for text in texts {
            let (design, _, problems) = read_design("x", &text);
            assert!(design.is_none() && !problems.is_empty());
            assert!(!problems.iter().any(|p| p.what.contains("nested too deep")));
        }
    };
    // A quarter of what a thread gets otherwise.
    let thread = std::thread::Builder::new()
        .stack_size(512 * 1024)
        .spawn(read);
    assert!(thread.expect("started").join().is_ok());
}

#[test]
fn paths_are_said_as_people_count() {
    assert_eq!(
        said(key::section(0).ring(11).floor().wood()),
        "section 1, ring 12, floor, wood"
    );
    assert_eq!(
        said(key::form().outer().entry(2).entry(0)),
        "form, outer 3 1"
    );
    assert_eq!(said(key::project().path()), "");
}

/// The examples in `docs/files.md`, by the word behind their ```` ```toml ````.
fn documented(word: &str) -> Vec<String> {
    let docs = include_str!("../../../docs/files.md");
    let fence = format!("```toml {word}\n");
    let examples = docs.split(&fence).skip(1);
    examples
        .map(|rest| rest.split("```").next().unwrap_or("").to_string())
        .collect()
}

#[test]
fn the_documented_files_are_good() {
    let projects = documented("project");
    assert_eq!(projects.len(), 1);
    let bowl = &projects[0];
    assert!(bowl.lines().count() <= 42, "{} lines", bowl.lines().count());
    let (design, _, problems) = read_design("bowl", bowl);
    assert!(problems.is_empty(), "{}", render("bowl", bowl, &problems));
    let design = design.expect("clean");
    let rings = design.sections.iter().map(|s| match s.rings_given() {
        RingsGiven::Count(count) => count,
        RingsGiven::Listed(rings) => rings.len(),
        RingsGiven::Auto(_) => 0,
    });
    assert_eq!(rings.sum::<usize>(), 8);
    let shops = documented("workshop");
    assert_eq!(shops.len(), 1);
    let (_, _, problems) = read_workshop(&shops[0]);
    assert!(
        problems.is_empty(),
        "{}",
        render("workshop", &shops[0], &problems)
    );
}

#[test]
fn the_examples_are_good_files() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let entries = std::fs::read_dir(folder).expect("part of the repository");
    let mut read = 0;
    for path in entries.flatten().map(|entry| entry.path()) {
        if path.extension().is_none_or(|e| e != "toml") {
            continue;
        }
        let name = path.display().to_string();
        let text = std::fs::read_to_string(&path).expect("text");
        let workshop = name.contains("workshop");
        let problems = if workshop {
            read_workshop(&text).2
        } else {
            read_design(&name, &text).2
        };
        assert!(problems.is_empty(), "{}", render(&name, &text, &problems));
        read += usize::from(!workshop);
    }
    assert!(read >= 3, "only {read} projects");
}

#[test]
fn a_name_has_200_characters_and_notes_20_000_at_most() {
    let problems = |title: usize, notes: usize| {
        let text = format!(
            "ringwright = 1\nunit = \"mm\"\ntitle = \"{}\"\nnotes = \"{}\"\n[form]\n\
             outer = [[0, 40], [60, 60]]\nwall = 8\n[[section]]\nname = \"body\"\nwood = \"walnut\"\n\
             stock = 19\nrings = 3\n",
            "é".repeat(title),
            "é".repeat(notes)
        );
        read_design("bowl", &text).2
    };
    assert!(problems(200, 20_000).is_empty());
    let told = problems(201, 20_001);
    let keys: Vec<String> = told.iter().map(|p| p.key_path.to_string()).collect();
    assert_eq!(keys, ["title", "notes"]);
    assert!(told[0].what.contains("200") && told[1].what.contains("20000"));
    assert!(told.iter().all(|p| p.remedy == "make it shorter"));
}
