//! The examples as pieces, and ways to read what was drawn.
#![allow(dead_code)]

use files::workshop::Workshop;
use glam::DVec2;
use piece::piece::Piece;
use piece::settle::settle;

/// The three examples, by name.
pub const EXAMPLES: [(&str, &str); 3] = [
    (
        "bowl",
        include_str!("../../../../examples/sandpiper-bowl.toml"),
    ),
    (
        "vase",
        include_str!("../../../../examples/dunlin-vase.toml"),
    ),
    (
        "box",
        include_str!("../../../../examples/turnstone-box.toml"),
    ),
];

/// A project's text as a piece.
pub fn piece_of(text: &str) -> Piece {
    let (design, _, problems) = files::read::read_design("project", text);
    let design = design.unwrap_or_else(|| {
        panic!("{}", files::report::render("project", text, &problems));
    });
    settle(&design, &Workshop::default())
        .piece
        .expect("the project has a form and sections")
}

/// One of the examples.
pub fn example(name: &str) -> Piece {
    let text = EXAMPLES.iter().find(|e| e.0 == name).expect("an example").1;
    piece_of(text)
}

/// The points of an SVG path of straight lines.
pub fn points(d: &str) -> Vec<DVec2> {
    d.trim_end_matches('Z')
        .split(['M', 'L'])
        .filter(|p| !p.is_empty())
        .map(|p| {
            let (x, y) = p.split_once(' ').expect("two numbers");
            DVec2::new(x.parse().expect("x"), y.parse().expect("y"))
        })
        .collect()
}

/// All paths in the layer whose id ends with `layer`.
pub fn paths(svg: &roxmltree::Document<'_>, layer: &str) -> Vec<Vec<DVec2>> {
    svg.descendants()
        .filter(|n| {
            n.attribute("id")
                .is_some_and(|id| id.ends_with(&format!("-{layer}")))
        })
        .flat_map(|g| g.descendants())
        .filter(|n| n.has_tag_name("path"))
        .filter_map(|n| n.attribute("d"))
        .filter(|d| !d.contains('A'))
        .map(points)
        .collect()
}
