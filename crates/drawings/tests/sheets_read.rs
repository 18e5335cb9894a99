//! Drawings as documents: well-formed, legible, in one unit, the same bytes each time.

mod support;

use std::collections::BTreeSet;

use drawings::vector::{overlapping_words, words_off_the_sheet};
use drawings::views::Options;
use drawings::{Drawing, all_drawings, draw_all, to_svg};
use files::units::Unit;
use geometry::Length;
use support::{EXAMPLES, example, piece_of};

/// Every drawing of every example in both units, true to size and smaller.
fn everything() -> Vec<(String, Unit, Drawing)> {
    let mut out = Vec::new();
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        for unit in [Unit::Mm, Unit::Inch] {
            let sizes = [
                Options::full_size(unit),
                Options::within(unit, Length::mm(170.0)),
                Options::within(unit, Length::mm(120.0)),
            ];
            for (what, drawing) in sizes.iter().flat_map(|o| all_drawings(&piece, o)) {
                out.push((format!("{name} {what}"), unit, drawing));
            }
        }
    }
    out
}

#[test]
fn svg_is_well_formed_true_to_size_and_told_in_words() {
    for (name, _, drawing) in everything() {
        let svg = to_svg(&drawing);
        let document = roxmltree::Document::parse(&svg).unwrap_or_else(|e| panic!("{name}: {e}"));
        let root = document.root_element();
        let view: Vec<f64> = root
            .attribute("viewBox")
            .expect("a view box")
            .split(' ')
            .map(|n| n.parse().expect("a number"))
            .collect();
        for (attribute, size) in [("width", view[2]), ("height", view[3])] {
            let mm = root.attribute(attribute).expect("a size");
            let mm: f64 = mm
                .strip_suffix("mm")
                .expect("mm")
                .parse()
                .expect("a number");
            assert_eq!(mm, size, "{name}");
            assert!(mm > 20.0 && mm < 2000.0, "{name}: {mm}");
        }
        let words = |tag: &str| {
            let node = root.children().find(|n| n.has_tag_name(tag));
            node.and_then(|n| n.text()).unwrap_or("").len()
        };
        assert!(words("title") > 8 && words("desc") > 20, "{name}");
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{name}");
        let mut ids = BTreeSet::new();
        for node in document.descendants().filter(|n| n.is_element()) {
            let tag = node.tag_name().name();
            assert!(
                [
                    "svg", "title", "desc", "defs", "pattern", "rect", "g", "path", "circle",
                    "text"
                ]
                .contains(&tag),
                "{name}: {tag}"
            );
            if let Some(id) = node.attribute("id") {
                let layer = tag == "g";
                // A layer may be taken up twice; everything that is referred to is one.
                assert!(ids.insert(id.to_string()) || layer, "{name}: {id} twice");
            }
        }
    }
}

#[test]
fn no_words_stand_on_others_or_off_the_sheet() {
    let mut wrong = Vec::new();
    for (name, unit, drawing) in everything() {
        for (a, b) in overlapping_words(&drawing) {
            wrong.push(format!("{name} in {unit}: \"{a}\" on \"{b}\""));
        }
        for words in words_off_the_sheet(&drawing) {
            wrong.push(format!("{name} in {unit}: \"{words}\" off the sheet"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_check_for_overlaps_finds_one() {
    use drawings::vector::{Anchor, Pen, Text};
    use glam::DVec2;
    let mut pen = Pen::new("a", "b", Unit::Mm);
    pen.text(Text::new(DVec2::ZERO, "height", Anchor::Start, 3.5));
    pen.text(Text {
        turn: 1.0,
        ..Text::new(DVec2::new(4.0, 1.0), "width", Anchor::Middle, 3.5)
    });
    pen.text(Text::new(
        DVec2::new(0.0, 14.0),
        "below",
        Anchor::Start,
        3.5,
    ));
    let drawing = pen.finish(1.0);
    assert_eq!(overlapping_words(&drawing).len(), 1);
    assert!(words_off_the_sheet(&drawing).is_empty());
}

/// Widths of words as the type itself gives them: the table in the crate is its copy.
#[test]
fn the_table_of_widths_is_the_types_own() {
    let font = typst_assets::fonts()
        .find(|f| {
            ttf_parser::Face::parse(f, 0).is_ok_and(|face| {
                face.names()
                    .into_iter()
                    .any(|n| n.to_string().as_deref() == Some("LibertinusSerif-Regular"))
            })
        })
        .expect("the type");
    let face = ttf_parser::Face::parse(font, 0).expect("a font");
    for c in (' '..='~').chain(['°', '⌀', '·', '×']) {
        let glyph = face.glyph_index(c).expect("a glyph");
        let wide = f64::from(face.glyph_hor_advance(glyph).expect("a width"))
            / f64::from(face.units_per_em());
        let got = drawings::vector::width_of(&c.to_string(), 1.0, false);
        assert!((got - wide).abs() < 1e-9, "{c}: {got}, {wide}");
    }
}

#[test]
fn no_drawing_mixes_units() {
    for (name, unit, drawing) in everything() {
        let mut all: Vec<&str> = drawing.texts().map(|t| t.words.as_str()).collect();
        all.push(&drawing.description);
        for text in all {
            let words: Vec<&str> = text
                .split(|c: char| !(c.is_alphanumeric() || c == '/'))
                .collect();
            let fraction = |w: &&str| {
                w.split_once('/')
                    .is_some_and(|(a, b)| a.parse::<u8>().is_ok() && b.parse::<u8>().is_ok())
            };
            // "in" is also a word: only after a figure is it a unit.
            let inches = words
                .windows(2)
                .any(|w| w[1] == "in" && w[0].ends_with(|c: char| c.is_ascii_digit()));
            let other = match unit {
                Unit::Mm => inches || words.contains(&"inches") || words.iter().any(fraction),
                Unit::Inch => words.iter().any(|w| *w == "mm" || *w == "millimetres"),
            };
            assert!(!other, "{name} in {unit}: {text}");
        }
    }
}

#[test]
fn woods_differ_in_black_and_white() {
    let mut compared = 0;
    for (name, _, drawing) in everything() {
        let svg = to_svg(&drawing);
        let document = roxmltree::Document::parse(&svg).expect("well-formed");
        let mut patterns = BTreeSet::new();
        let mut count = 0;
        for node in document.descendants().filter(|n| n.has_tag_name("pattern")) {
            // All but the tint: the tile, its turn, and what is drawn in it.
            let marks: Vec<String> = node
                .children()
                .filter(|n| n.is_element() && !n.has_tag_name("rect"))
                .flat_map(|n| n.attributes().map(|a| a.value().to_string()))
                .collect();
            // A tile without marks looks the same however it is turned.
            let turn = if marks.is_empty() {
                None
            } else {
                node.attribute("patternTransform")
            };
            patterns.insert((node.attribute("width"), turn, marks));
            count += 1;
        }
        assert_eq!(patterns.len(), count, "{name}");
        compared = compared.max(count);
    }
    assert!(compared >= 4);
}

#[test]
fn the_same_bytes_twice_and_on_one_thread_or_two() {
    let piece = example("vase");
    let pool = |threads| {
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .expect("threads")
    };
    let one = pool(1).install(|| draw_all(&piece, Unit::Inch.into(), 360).collect::<Vec<_>>());
    let two = pool(2).install(|| draw_all(&piece, Unit::Inch.into(), 360).collect::<Vec<_>>());
    assert_eq!(one.len(), two.len());
    for (a, b) in one.iter().zip(&two) {
        assert!(a == b, "{} differs", a.0);
    }
    assert!(
        one == pool(2).install(|| draw_all(&piece, Unit::Inch.into(), 360).collect::<Vec<_>>())
    );
}

#[test]
fn every_drawing_has_its_own_name() {
    let names: Vec<String> = draw_all(&example("bowl"), Unit::Mm.into(), 64)
        .map(|(name, bytes)| {
            assert!(bytes.len() > 100, "{name}");
            name
        })
        .collect();
    let distinct: BTreeSet<&String> = names.iter().collect();
    assert_eq!(distinct.len(), names.len());
    for wanted in [
        "outside.png",
        "outside.svg",
        "inside.png",
        "inside.svg",
        "piece.png",
        "half-section.svg",
        "ring-1.svg",
        "ring-7.svg",
        "sled-belly.svg",
        "layer-belly.svg",
        "wrap-belly.svg",
        "wrap-belly-loop-4.svg",
    ] {
        assert!(names.iter().any(|n| n == wanted), "{wanted} of {names:?}");
    }
}
