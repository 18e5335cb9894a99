//! Parts of a piece in its file: ids, and keys that have found another place.

use files::edit::{Edit, EditContext, SectionContext, Units, Words, apply, identify};
use files::key::{self, KeyPath};
use files::keys::File;
use files::read::read_design;
use files::units::Unit;

const HEAD: &str = "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 40], [90, 60]]\nwall = 8\n";

fn ground() -> EditContext {
    let section = SectionContext {
        rings: 3,
        stacked: 54.0,
        segments: 12,
        ..SectionContext::default()
    };
    let units = Units {
        page: Unit::Mm,
        file: Unit::Mm,
    };
    EditContext {
        units,
        file: File::Project,
        sections: vec![section; 3],
    }
}

fn two_sections() -> String {
    format!(
        "{HEAD}[[section]]\nname = \"foot\"  # the lowest\nstock = 19\nrings = 2\n\
         [[section]]\nname = \"body\"\nstock = 19\nrings = 3\n\
         [[section.band]]\nloops = 3\nheight = 27\nreach = 20\nwood = \"padauk\"\nlayer = 4\n"
    )
}

fn problems(text: &str) -> Vec<(String, String)> {
    let all = read_design("piece", text).2.into_iter();
    all.map(|p| (p.key_path.to_string(), p.what)).collect()
}

fn given(text: &str, path: &KeyPath, taken: &[&str]) -> (String, String) {
    identify(text, path, taken, &ground()).unwrap_or_else(|e| panic!("{}", e.what))
}

#[test]
fn an_id_is_written_once_and_stays_through_renaming_and_reordering() {
    let body = key::section(1).path();
    let (text, id) = given(&two_sections(), &body, &[]);
    assert_eq!(id, "s1");
    assert_eq!(given(&text, &body, &[]), (text.clone(), id.clone()));
    assert!(text.contains("# the lowest"), "{text}");
    let edits = [
        Edit::Set {
            path: key::section(1).name(),
            value: Words::Text("belly".into()),
        },
        Edit::Move { path: body, to: 0 },
    ];
    let moved = apply(&text, &edits, &ground()).unwrap_or_else(|e| panic!("{}", e.what));
    assert_eq!(problems(&moved), []);
    let design = read_design("piece", &moved).0.expect("clean");
    assert_eq!(design.part_of(&id), Some(key::section(0).path()));
    assert_eq!(design.sections[0].name, "belly");
}

#[test]
fn an_id_that_something_refers_to_is_not_given_again() {
    let band = key::section(1).band(0).path();
    assert_eq!(given(&two_sections(), &band, &["b1", "b2"]).1, "b3");
}

#[test]
fn a_counted_ring_becomes_an_entry_and_its_copies_have_no_id() {
    let ring = key::section(1).real_ring(1).path();
    let (text, id) = given(&two_sections(), &ring, &[]);
    assert_eq!(problems(&text), []);
    let design = read_design("piece", &text).0.expect("clean");
    let ids: Vec<Option<&str>> = design.sections[1]
        .listed
        .iter()
        .map(|r| r.id.as_deref())
        .collect();
    assert_eq!(ids, [None, Some(id.as_str()), None]);
    // A new ring is like the one below it, but another one.
    let add = Edit::Add {
        path: key::section(1).ring(0).path().list(),
        at: 2,
        value: None,
    };
    let more = apply(&text, &[add], &ground()).unwrap_or_else(|e| panic!("{}", e.what));
    assert_eq!(problems(&more), [], "{more}");
    assert_eq!(more.matches("id = ").count(), 1, "{more}");
}

#[test]
fn two_parts_with_one_id_and_odd_ids_are_told() {
    let text = two_sections()
        .replace("name = \"foot\"", "id = \"a\"\nname = \"foot\"")
        .replace("loops = 3", "id = \"a\"\nloops = 3");
    let all = problems(&text);
    assert_eq!(all.len(), 1, "{all:?}");
    assert_eq!(all[0].0, "section[1].band[0].id");
    assert!(
        all[0].1.contains("section 1 has the id a already"),
        "{all:?}"
    );
    for odd in ["", "a b", "ä", &"x".repeat(41)] {
        let text = two_sections().replace("loops = 3", &format!("id = \"{odd}\"\nloops = 3"));
        assert_eq!(problems(&text).len(), 1, "{odd:?}");
    }
}

#[test]
fn the_blank_is_the_sections_and_still_read_where_it_was() {
    let old = two_sections().replace("loops = 3", "loops = 3\nblank = \"polygon\"");
    assert_eq!(problems(&old), []);
    let design = read_design("piece", &old).0.expect("clean");
    let blank = design.sections[1].blank.map(|b| b.word());
    assert_eq!(blank, Some("polygon"));
    // Written anew it stands where it belongs, and an edit takes the old one away.
    let set = Edit::Set {
        path: key::section(1).blank(),
        value: Words::Text("cylinder".into()),
    };
    let new = apply(&old, &[set], &ground()).unwrap_or_else(|e| panic!("{}", e.what));
    assert_eq!(new.matches("blank").count(), 1, "{new}");
    let design = read_design("piece", &new).0.expect("clean");
    assert_eq!(design.sections[1].blank.map(|b| b.word()), Some("cylinder"));
}

#[test]
fn plywood_is_for_discs_and_floors() {
    let ring = "[[section.ring]]\nsolid = true\nstock = 19\nboard = \"plywood\"\n";
    let text = two_sections().replace("rings = 2\n", ring);
    assert_eq!(problems(&text), []);
    let segments = text.replace("solid = true\n", "");
    assert_eq!(problems(&segments)[0].0, "section[0].ring[0].board");
    // Sections and bands offer what is sawn from a log only.
    for at in ["name = \"body\"", "loops = 3"] {
        let text = two_sections().replace(at, &format!("{at}\nboard = \"plywood\""));
        let all = read_design("piece", &text).2;
        assert_eq!(all.len(), 1, "{at}");
        assert!(!all[0].remedy.contains("plywood"), "{}", all[0].remedy);
    }
}

#[test]
fn bands_of_a_section_share_its_blank() {
    let text = two_sections()
        .replace("name = \"body\"", "name = \"body\"\nblank = \"cylinder\"")
        .replace("loops = 3", "loops = 3\nblank = \"polygon\"");
    let all = problems(&text);
    assert_eq!(all.len(), 1, "{all:?}");
    assert_eq!(all[0].0, "section[1].band[0].blank");
}

/// An azimuth out of range was followed by "the order must name each of the 3 loops once".
#[test]
fn an_azimuth_out_of_range_is_one_problem() {
    let text = two_sections().replace(
        "loops = 3",
        "azimuths = [0, 90, 180, 400]\norder = [1, 2, 3, 4]",
    );
    let all = problems(&text);
    assert_eq!(all.len(), 1, "{all:?}");
    assert!(
        all[0].0.starts_with("section[1].band[0].azimuths"),
        "{all:?}"
    );
}
