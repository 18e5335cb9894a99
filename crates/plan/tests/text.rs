//! The plan as text and as JSON: width, one unit system, determinism, any input.

// A test stops where something is missing.
#![allow(clippy::unwrap_used)]

use files::design::Design;
use files::message::Said;
use files::read::read_design;
use files::units::Unit;
use files::workshop::Workshop;
use geometry::Length;
use piece::settle::{Settled, settle};
use plan::{plan, render_text};
use proptest::prelude::*;

const FILES: [(&str, &str); 3] = [
    (
        "bowl",
        include_str!("../../../examples/sandpiper-bowl.toml"),
    ),
    ("vase", include_str!("../../../examples/dunlin-vase.toml")),
    ("box", include_str!("../../../examples/turnstone-box.toml")),
];

fn design(at: usize) -> Design {
    let (name, text) = FILES[at];
    let (design, _, problems) = read_design(name, text);
    assert!(problems.is_empty(), "{problems:?}");
    design.unwrap()
}

fn settled(mut design: Design, unit: Unit) -> Settled {
    design.unit = unit;
    settle(&design, &Workshop::default())
}

#[test]
fn no_line_is_longer_than_eighty() {
    for at in 0..3 {
        for unit in [Unit::Mm, Unit::Inch] {
            let plan = plan(&settled(design(at), unit), unit);
            for working in [false, true] {
                for line in render_text(&plan, 80, working).lines() {
                    assert!(line.chars().count() <= 80, "{line}");
                    assert_eq!(line, line.trim_end());
                }
            }
        }
    }
}

#[test]
fn a_plan_of_cuts_that_run_together_says_so_and_prints_no_negative_figure() {
    let text = include_str!("../../../tests/findings/cannot-be-made.fail.toml");
    let design = |layer: &str| {
        let text = text.replace("  layer = 2\n", layer);
        read_design("cuts", &text).0.unwrap()
    };
    // Less than one kerf: the spacer itself would be negative.
    for layer in ["  layer = 2\n", "  layer = 1\n"] {
        let plan = plan(&settled(design(layer), Unit::Mm), Unit::Mm);
        let text = render_text(&plan, 80, true);
        let said = text
            .matches("none: the two cuts run into each other")
            .count();
        assert!(said > 10, "{text}");
        let below = |w: &str| {
            let number = w.strip_prefix(['-', '−']);
            number.is_some_and(|n| n.starts_with(|c: char| c.is_ascii_digit()))
        };
        let negative: Vec<&str> = text
            .lines()
            .filter(|l| {
                ["spacer", "slice", "removed", "cut"]
                    .iter()
                    .any(|of| l.contains(of))
            })
            .filter(|l| l.split_whitespace().any(below))
            .collect();
        assert!(negative.is_empty(), "{negative:#?}");
    }
}

#[test]
fn findings_show_what_they_were_worked_out_from() {
    let text = include_str!("../../../tests/findings/slice-fragile.fail.toml");
    for unit in [Unit::Mm, Unit::Inch] {
        let design = read_design("slice", text).0.unwrap();
        let found = plan::findings::find(&settled(design, unit));
        let found: Vec<_> = found.iter().map(|f| f.said(unit)).collect();
        let inputs: Vec<_> = found
            .iter()
            .filter_map(|f| f.against.as_ref())
            .flat_map(|a| &a.working.inputs)
            .collect();
        assert!(inputs.len() > 2);
        for input in inputs {
            assert_eq!(input.shown, input.amount.show(unit), "{}", input.name);
        }
    }
}

/// A number with a unit behind it, anywhere in a text.
fn holds(text: &str, units: &[&str]) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let number = |w: &str| {
        let w = w.trim_start_matches(['(', '"', '-', '−']);
        w.starts_with(|c: char| c.is_ascii_digit())
    };
    let unit = |w: &str| {
        let w = w.trim_end_matches(|c: char| !c.is_alphanumeric() && !"²³".contains(c));
        units.contains(&w)
    };
    words
        .windows(2)
        .find(|w| number(w[0]) && unit(w[1]))
        .map(|w| w.join(" "))
}

const METRIC: [&str; 9] = ["mm", "cm", "cm²", "cm³", "mm²", "mm³", "ml", "g", "kg"];
const IMPERIAL: [&str; 7] = ["in", "in²", "in³", "US", "oz", "lb", "inches"];

#[test]
fn a_plan_is_in_one_unit_system_throughout() {
    assert_eq!(
        holds("at 3 1/2 in, say", &IMPERIAL).as_deref(),
        Some("1/2 in,")
    );
    assert_eq!(holds("ring 4 of it", &IMPERIAL), None);
    for (at, (name, _)) in FILES.iter().enumerate() {
        for (unit, others) in [(Unit::Mm, &IMPERIAL[..]), (Unit::Inch, &METRIC[..])] {
            let plan = plan(&settled(design(at), unit), unit);
            let text = render_text(&plan, 80, true);
            assert_eq!(holds(&text, others), None, "{name} in {unit}");
            let json = serde_json::to_value(&plan).unwrap();
            let mut words = String::new();
            every_text(&json, &mut words);
            // The note on bare numbers names their units, whatever the plan's.
            let words = words.replace(plan.numbers, "");
            assert_eq!(holds(&words, others), None, "{name} in {unit}");
        }
    }
}

fn every_text(value: &serde_json::Value, out: &mut String) {
    match value {
        serde_json::Value::String(text) => {
            out.push_str(text);
            out.push('\n');
        }
        serde_json::Value::Array(all) => all.iter().for_each(|v| every_text(v, out)),
        serde_json::Value::Object(all) => all.values().for_each(|v| every_text(v, out)),
        _ => {}
    }
}

#[test]
fn the_unit_changes_how_figures_are_shown_and_not_what_they_are() {
    for at in 0..3 {
        let [mm, inch] = [Unit::Mm, Unit::Inch].map(|u| plan(&settled(design(at), u), u));
        for (a, b) in mm.operations.iter().zip(&inch.operations) {
            assert_eq!(a.kind, b.kind);
            // Heights that are measured at are round in each unit, so they differ.
            let own = |f: &&plan::figure::Figure<Said>| !["outside", "inside"].contains(&f.sort());
            for (f, g) in a
                .figures
                .iter()
                .filter(own)
                .zip(b.figures.iter().filter(own))
            {
                assert_eq!(f.key, g.key);
                assert_eq!(f.amount.number(), g.amount.number(), "{}", f.key);
            }
        }
    }
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    for at in 0..3 {
        let once = || {
            let plan = plan(&settled(design(at), Unit::Mm), Unit::Mm);
            let json = serde_json::to_string(&plan).unwrap();
            (render_text(&plan, 80, true), json)
        };
        assert_eq!(once(), once());
    }
}

#[test]
fn json_names_its_units_once_and_shows_every_figure() {
    let json = serde_json::to_value(plan(&settled(design(0), Unit::Mm), Unit::Mm)).unwrap();
    assert!(json["numbers"].as_str().unwrap().contains("lengths in mm"));
    assert_eq!(json["unit"], "mm");
    let mitre = json["operations"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|o| o["figures"].as_array().unwrap())
        .find(|f| f["key"] == "mitre")
        .unwrap();
    assert_eq!(mitre["amount"]["kind"], "angle");
    assert!((mitre["amount"]["value"].as_f64().unwrap() - 15.0).abs() < 1e-9);
    assert_eq!(mitre["shown"], "15.00°");
    assert_eq!(mitre["cut_to"], true);
}

#[test]
fn working_is_shown_only_when_asked_for() {
    let plan = plan(&settled(design(1), Unit::Inch), Unit::Inch);
    let (plain, worked) = (render_text(&plan, 80, false), render_text(&plan, 80, true));
    assert!(!plain.contains("how: ") && worked.contains("how: spacer = "));
    // Every line of the plain plan is in the worked one, in order.
    let mut lines = worked.lines();
    for line in plain.lines() {
        assert!(lines.any(|l| l == line), "{line}");
    }
}

#[test]
fn a_piece_that_cannot_be_settled_is_said_in_words() {
    let text = render_text(
        &plan(&settled(Design::default(), Unit::Mm), Unit::Mm),
        80,
        true,
    );
    assert!(text.starts_with("Untitled piece\n") && text.contains("Stops the work"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever a file asks for, a plan comes out, without a figure that is no number.
    #[test]
    fn nonsense_is_planned_without_a_panic(
        which in 0..3usize,
        segments in 0..200usize,
        loops in 0..20usize,
        layer in -10.0..60.0f64,
        height in -50.0..300.0f64,
        tilt in -95.0..95.0f64,
        waste in -50.0..500.0f64,
        title in ".{0,120}",
    ) {
        let mut design = design(which);
        design.title = title;
        for section in &mut design.sections {
            section.segments = Some(segments);
            for band in &mut section.bands {
                band.loops = Some(loops);
                band.layer = Some(Length::mm(layer));
                band.height = Some(Length::mm(height));
                band.reach = None;
                band.tilt = Some(geometry::Angle::deg(tilt));
            }
        }
        let mut shop = Workshop::default();
        shop.sled.waste_block.value = Length::mm(waste);
        let plan = plan(&settle(&design, &shop), Unit::Mm);
        for operation in &plan.operations {
            for figure in &operation.figures {
                if let Some(number) = figure.amount.number() {
                    prop_assert!(number.is_finite(), "{}: {}", operation.title, figure.key);
                }
            }
        }
        for width in [40, 80] {
            for line in render_text(&plan, width, true).lines() {
                // As wide as it is shown: some characters take no room.
                prop_assert!(textwrap::core::display_width(line) <= width, "{}", line);
            }
        }
    }
}
