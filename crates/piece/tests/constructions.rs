//! Every construction: the registry, `find` against cells, and open rings against
//! `reference/construction_cases.json`, whose values were made outside the project (closed
//! forms checked by polygon clipping and a mesh kernel; each case names its source).

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

use files::design::RingSpec;
use files::read::read_design;
use files::workshop::Workshop;
use geometry::{Length, Outline, Tube};
use glam::DVec3;
use kurbo::Point;
use piece::course::{ALL, Course, Opening, construction};
use piece::model::{CourseBody, Part, SectionBody, Stack, WoodId, joint_area, volumes_by_part};
use piece::piece::Piece;
use piece::ring::RingSizes;
use piece::settle::settle;
use serde_json::Value;

fn cases(kind: &str) -> Vec<Value> {
    let text = include_str!("../../../reference/construction_cases.json");
    let all: Value = serde_json::from_str(text).unwrap();
    let of_kind = |c: &&Value| c["kind"] == kind;
    let cases = all["cases"].as_array().unwrap().iter().filter(of_kind);
    cases.cloned().collect()
}

fn num(v: &Value) -> f64 {
    v.as_f64().unwrap_or_else(|| panic!("{v} is no number"))
}

fn near(case: &Value, what: &str, got: f64, expected: f64) {
    let tolerance = &case["tolerance"];
    let allowed = num(&tolerance["absolute"]).max(num(&tolerance["relative"]) * expected.abs());
    let off = (got - expected).abs();
    assert!(
        off <= allowed,
        "{} {what}: {got} for {expected}",
        case["id"]
    );
}

/// An open ring between two heights.
fn open(n: usize, share: f64, heights: (f64, f64), flats: (f64, f64), rotation: f64) -> CourseBody {
    CourseBody::spaced(
        heights,
        flats,
        rotation.to_radians(),
        (vec![WoodId(0); n], share),
    )
}

/// The cases of one ring and its like: what it is cut to, its gaps, its wood, its glue.
#[test]
fn an_open_ring_is_that_of_the_outside_cases() {
    let mut seen = 0;
    for case in cases("open_ring") {
        let (given, expected) = (&case["inputs"], &case["expected"]);
        if !given["share"].is_number() || !given["apothem_out_mm"].is_number() {
            continue;
        }
        seen += 1;
        let n = num(&given["segments"]) as usize;
        let (share, height) = (num(&given["share"]), num(&given["ring_height_mm"]));
        let flats = (num(&given["apothem_out_mm"]), num(&given["apothem_in_mm"]));
        let mut sizes = RingSizes::closed(n, Length::mm(flats.0), Length::ZERO);
        sizes.filled = share;
        let sizes = sizes.with_board_width(Length::mm(flats.0 - flats.1));
        let half = std::f64::consts::PI / n as f64 * (1.0 - share);
        let turned = (
            num(&given["turned_inside_radius_mm"]),
            num(&given["turned_outside_radius_mm"]),
        );
        for (what, got) in [
            ("mitre_deg", sizes.mitre().as_deg()),
            ("long_edge_mm", sizes.long_edge().as_mm()),
            ("short_edge_mm", sizes.short_edge().as_mm()),
            ("board_width_mm", sizes.board_width().as_mm()),
            ("gap_angle_deg", 2.0 * half.to_degrees()),
            (
                "gap_outside_chord_mm",
                sizes.gap(Length::mm(turned.1)).as_mm(),
            ),
            (
                "gap_inside_chord_mm",
                sizes.gap(Length::mm(turned.0)).as_mm(),
            ),
            (
                "gap_between_outer_corners_before_turning_mm",
                sizes.gap(sizes.corner_out()).as_mm(),
            ),
            (
                "gap_between_inner_corners_before_turning_mm",
                sizes.gap(sizes.corner_in).as_mm(),
            ),
        ] {
            near(&case, what, got, num(&expected[what]));
        }
        let ring = open(n, share, (0.0, height), flats, 0.0);
        let stack = Stack::new(vec![(
            SectionBody::new(vec![ring.clone()], Vec::new()),
            0.0,
        )]);
        let volume = |form: Option<&dyn geometry::Turned>| {
            let parts = volumes_by_part(&stack, form, 1e-11);
            parts.iter().map(|p| p.moments.volume).sum::<f64>()
        };
        near(
            &case,
            "glued",
            volume(None),
            num(&expected["wood_in_glued_ring_mm3"]),
        );
        let tube = Tube::new(turned.0, turned.1, 0.0, height);
        let wood = num(&expected["wood_in_turned_ring_mm3"]);
        assert!(
            (volume(Some(&tube)) / wood - 1.0).abs() < 1e-8,
            "{}",
            case["id"]
        );
        let on = &expected["half_turned"];
        let turn = num(&on["turn_deg"]).to_radians();
        let glued = joint_area(&ring, &ring, turn, None);
        near(&case, "glue", glued, num(&on["glue_area_as_glued_mm2"]));
        let within = |radius| joint_area(&ring, &ring, turn, Some(radius));
        let area = within(turned.1) - within(turned.0);
        near(&case, "glue turned", area, num(&on["glue_area_turned_mm2"]));
    }
    assert!(seen >= 2);
}

/// A third of a turn apart, segments share unequal parts of their faces.
#[test]
fn rings_a_third_of_a_pitch_apart_share_what_the_outside_case_says() {
    let all = cases("open_ring");
    let case = all
        .iter()
        .find(|c| c["id"] == "open-rings-third-turn")
        .unwrap();
    let given = &case["inputs"];
    let n = num(&given["segments"]) as usize;
    let ring = |share| open(n, num(&given[share]), (0.0, 15.0), (80.0, 58.0), 0.0);
    let (below, above) = (ring("share_below"), ring("share_above"));
    let within = |key: &str| {
        let turn = num(&given["turn_deg"]).to_radians();
        joint_area(&below, &above, turn, Some(num(&given[key])))
    };
    let area = within("turned_outside_radius_mm") - within("turned_inside_radius_mm");
    near(case, "glue", area, num(&case["expected"]["glue_area_mm2"]));
}

/// Three open rings of different sizes under one slanting wall.
#[test]
fn open_rings_under_a_slanting_wall_hold_the_wood_of_the_outside_case() {
    let all = cases("open_ring");
    let case = all
        .iter()
        .find(|c| c["id"] == "open-rings-on-a-cone")
        .unwrap();
    let given = &case["inputs"];
    let (n, share) = (num(&given["segments"]) as usize, num(&given["share"]));
    let height = num(&given["ring_height_mm"]);
    let flats = given["rings_apothem_out_in_mm"].as_array().unwrap();
    let ring = |(k, f): (usize, &Value)| {
        let low = height * k as f64;
        open(n, share, (low, low + height), (num(&f[0]), num(&f[1])), 0.0)
    };
    let rings: Vec<CourseBody> = flats.iter().enumerate().map(ring).collect();
    let stack = Stack::new(vec![(SectionBody::new(rings, Vec::new()), 0.0)]);
    let line = |key: &str| -> Vec<Point> {
        let points = given[key].as_array().unwrap().iter();
        points.map(|p| Point::new(num(&p[1]), num(&p[0]))).collect()
    };
    let (outer, mut round) = (line("outer_z_r_mm"), line("inner_z_r_mm"));
    round.reverse();
    let round: Vec<Point> = outer.into_iter().chain(round).collect();
    let wall = Outline::new(&round, &[]).unwrap();
    let parts = volumes_by_part(&stack, Some(&wall), 1e-11);
    for expected in case["expected"].as_array().unwrap() {
        let number = num(&expected["ring"]) as u16 - 1;
        let of_ring = parts
            .iter()
            .filter(|p| matches!(p.part, Part::Segment { ring, .. } if ring == number));
        let wood: f64 = of_ring.map(|p| p.moments.volume).sum();
        let off = (wood / num(&expected["wood_mm3"]) - 1.0).abs();
        assert!(off < 1e-7, "ring {number}: {wood}, {off:e} off");
    }
}

#[test]
fn points_in_open_rings_are_found_where_the_outside_cases_have_them() {
    let mut seen = 0;
    for case in cases("points") {
        let Some(rings) = case["inputs"]["rings"].as_array() else {
            continue;
        };
        if !rings.iter().all(|r| r["share"].is_number()) {
            continue;
        }
        let body = |r: &Value| {
            let heights = (num(&r["bottom"]), num(&r["top"]));
            let flats = (num(&r["apothem_out"]), num(&r["apothem_in"]));
            let n = num(&r["segments"]) as usize;
            open(n, num(&r["share"]), heights, flats, num(&r["rotation"]))
        };
        let bodies = rings.iter().map(body).collect();
        let stack = Stack::new(vec![(SectionBody::new(bodies, Vec::new()), 0.0)]);
        for point in case["expected"].as_array().unwrap() {
            let p = &point["point"];
            let p = DVec3::new(num(&p[0]), num(&p[1]), num(&p[2]));
            let found = match stack.wood_at(p).map(|s| s.part) {
                Some(Part::Segment { ring, segment }) => {
                    format!("ring{}/segment{segment}", ring + 1)
                }
                Some(other) => format!("{other:?}"),
                None if stack.meant_empty(p) => "gap".into(),
                None => "nothing".into(),
            };
            assert_eq!(found, point["found"].as_str().unwrap(), "at {p}");
            seen += 1;
        }
    }
    assert!(seen >= 80, "{seen}");
}

/// A bowl whose middle ring is of a construction, by the keys of its example, under a loop
/// and a split.
fn example(keys: &str) -> Piece {
    let keys = keys.replace(", ", "\n  ");
    let text = format!(
        r#"
ringwright = 1
title = "Trial"
unit = "mm"
[form]
outer = [[0, 60], [80, 70]]
wall = 10
floor = 12
[[section]]
name = "all"
wood = ["hard maple", "cherry"]
stock = 20
  [[section.ring]]
  solid = true
  wood = "walnut"
  [[section.ring]]
  wood = "cherry"
  {keys}
  [[section.ring]]
  repeat = 3
  [[section.band]]
  loops = 2
  height = 40
  tilt = 8
  layer = 5
  wood = "holly"
  [[section.split]]
  height = 70
  turn = 7
"#
    );
    let (design, _, problems) = read_design("trial", &text);
    let design = design.unwrap_or_else(|| panic!("{problems:?}"));
    settle(&design, &Workshop::default()).piece.expect("a form")
}

fn of_example(piece: &Piece) -> &Course {
    &piece.sections[0].rings[1]
}

/// Each is reached by the keys of its own example, has a name of its own, is settled with
/// parts, a cut list and joints or a reason for none.
#[test]
fn every_construction_is_reached_by_its_keys_and_settles_whole() {
    let mut words: Vec<&str> = Vec::new();
    for known in ALL {
        let piece = example(known.example());
        let course = of_example(&piece);
        let word = known.word();
        assert_eq!(course.construction.word(), word);
        assert!(!words.contains(&word), "{word} twice");
        words.push(word);
        let cut: usize = course.cuts.iter().map(|c| c.count).sum();
        let parts = course.woods.len() + usize::from(course.let_in.is_some());
        assert_eq!(cut, parts, "{word}: every part is in the cut list once");
        let long = |c: &piece::course::Cut| {
            c.width.exceeds(Length::ZERO) && c.length.exceeds(Length::ZERO)
        };
        assert!(course.cuts.iter().all(long), "{word}");
        // Parts of which none is joined to another stand apart.
        assert!(parts == 1 || !course.joints.is_empty() || !course.openings.is_empty());
        for joint in &course.joints {
            assert!(
                joint.count > 0 && joint.face.0.exceeds(Length::ZERO),
                "{word}"
            );
        }
        for opening in &course.openings {
            match opening {
                Opening::Gap { count, angle } => assert!(*count > 0 && angle.as_rad() > 0.0),
                Opening::Edge { radii, heights } => {
                    assert!(radii.1.exceeds(radii.0) && heights.1.exceeds(heights.0));
                }
            }
        }
    }
    // What asks for nothing in particular is a closed ring.
    assert_eq!(construction(&RingSpec::default()).word(), "segments");
}

/// 20,000 points of each construction, with loops and a split through its section: the one
/// cell that holds a point is of the part that is found there.
#[test]
fn find_and_cells_agree_on_every_construction() {
    for known in ALL {
        let piece = example(known.example());
        let cells = piece.stack.cells();
        let height = piece.stack.height();
        let (mut in_wood, mut empty) = (0, 0);
        for i in 0..20_000 {
            // Steps by the plastic number's powers spread evenly (Roberts' R3 sequence).
            let part = |step: f64| (0.5 + step * f64::from(i)).fract();
            let p = DVec3::new(
                190.0 * (part(0.819_172_513_396_164_4) - 0.5),
                190.0 * (part(0.671_043_606_703_789_3) - 0.5),
                height * part(0.549_700_477_901_970_3),
            );
            let found = piece.stack.wood_at(p).map(|s| (s.part, s.wood));
            let mut holding = cells.iter().filter(|c| c.cell.contains(p, 0.0));
            let held = holding.next().map(|c| (c.part, c.wood));
            assert_eq!(found, held, "{} at {p}", known.word());
            assert!(
                holding.next().is_none(),
                "{}: two cells at {p}",
                known.word()
            );
            in_wood += usize::from(found.is_some());
            empty += usize::from(found.is_none() && piece.stack.meant_empty(p));
        }
        assert!(in_wood > 4000, "{}: {in_wood}", known.word());
        println!(
            "{}: {in_wood} in wood, {empty} in room meant to be empty",
            known.word()
        );
    }
}
