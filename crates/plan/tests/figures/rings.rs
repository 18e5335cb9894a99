//! Rings: corners by crossing lines, wood by conservation.

use std::f64::consts::{PI, TAU};

use piece::course::Course;
use piece::piece::Piece;
use piece::ring::RingSizes;
use plan::operations::OperationKind;

use crate::examples::*;

/// The corner where two outer flats meet, by crossing their lines; of an open ring's segment
/// the corner that it would share with one as narrow.
pub fn outer_corner(sizes: &RingSizes) -> (f64, f64) {
    let (n, flat) = (sizes.segments as f64, sizes.flat_out.as_mm());
    // x = flat, and x cos a + y sin a = flat.
    let a = TAU / n * sizes.filled;
    (flat, (flat - flat * a.cos()) / a.sin())
}

/// An inner corner: on the circle, half a segment from the flat's middle.
fn inner_corner(sizes: &RingSizes) -> (f64, f64) {
    let half = PI / sizes.segments as f64 * sizes.filled;
    let r = sizes.corner_in.as_mm();
    (r * half.cos(), r * half.sin())
}

/// A segment's area by its four corners (shoelace).
fn segment_area(sizes: &RingSizes) -> f64 {
    let (o, i) = (outer_corner(sizes), inner_corner(sizes));
    let corners = [(o.0, -o.1), o, i, (i.0, -i.1)];
    let twice: f64 = (0..4)
        .map(|k| {
            let (a, b) = (corners[k], corners[(k + 1) % 4]);
            a.0 * b.1 - b.0 * a.1
        })
        .sum();
    twice / 2.0
}

/// Strip length from what comes out of it: segments, a kerf at each end of each, and
/// the slant that is left at the end.
fn strip_by_conservation(sizes: &RingSizes, count: usize, lengthened: f64) -> f64 {
    let (o, i) = (outer_corner(sizes), inner_corner(sizes));
    let width = o.0 - i.0;
    let slant = o.1 - i.1;
    // A kerf runs across the strip at the segments' own slant: its length times its width.
    let kerf = (width * width + slant * slant).sqrt() * KERF_TABLE;
    let end = width * slant;
    let pieces = count as f64 * segment_area(sizes) + 2.0 * lengthened * width;
    (pieces + (count + 1) as f64 * kerf + end) / width
}

#[test]
fn mitre_closes_a_turn() {
    each(OperationKind::CutSegments, "mitre", 1e-9, |at| {
        // 2 n mitres make one turn, or the share of it that the file fills; the ring has as
        // many segments as it has woods listed.
        let filled = at.ring_spec().filled.or(at.section_spec().filled);
        360.0 * filled.unwrap_or(100.0) / 100.0 / (2.0 * at.ring().woods.len() as f64)
    });
    each(OperationKind::MakeLayers, "mitre", 1e-9, |at| {
        180.0 / at.beside("segments")
    });
}

#[test]
fn long_edge_lies_between_crossing_flats() {
    each(OperationKind::CutSegments, "long_edge", 1e-9, |at| {
        2.0 * outer_corner(&at.ring().sizes).1
    });
    each(OperationKind::MakeLayers, "long_edge", 1e-9, |at| {
        2.0 * outer_corner(at.band().blank.ring.as_ref().unwrap()).1
    });
}

#[test]
fn short_edge_is_a_chord() {
    each(OperationKind::CutSegments, "short_edge", 1e-9, |at| {
        2.0 * inner_corner(&at.ring().sizes).1
    });
    each(OperationKind::MakeLayers, "short_edge", 1e-9, |at| {
        2.0 * inner_corner(at.band().blank.ring.as_ref().unwrap()).1
    });
}

#[test]
fn board_width_lies_between_the_edges() {
    let between = |s: &RingSizes| outer_corner(s).0 - inner_corner(s).0;
    each(OperationKind::Rip, "board_width", 1e-9, |at| {
        between(&at.ring().sizes)
    });
    each(OperationKind::MakeLayers, "board_width", 1e-9, |at| {
        between(at.band().blank.ring.as_ref().unwrap())
    });
}

#[test]
fn rip_width_leaves_two_jointings() {
    each(OperationKind::Rip, "rip_width", 1e-9, |at| {
        at.beside("board_width") + 2.0 * JOINTING
    });
}

#[test]
fn strip_is_pieces_and_kerfs() {
    each(OperationKind::Rip, "strip_length", 1e-9, |at| {
        let ring = at.ring();
        // The k-th wood in the order it first appears.
        let mut woods = ring.woods.clone();
        let mut seen = Vec::new();
        woods.retain(|w| {
            !seen.contains(w) && {
                seen.push(*w);
                true
            }
        });
        let wood = woods[at.number() - 1];
        let count = ring.woods.iter().filter(|w| **w == wood).count();
        strip_by_conservation(&ring.sizes, count, 0.0)
    });
    each(OperationKind::MakeLayers, "layer_strip", 1e-9, |at| {
        let band = at.band();
        let ring = band.blank.ring.as_ref().unwrap();
        strip_by_conservation(ring, ring.segments, band.blank.lengthened.as_mm())
    });
}

/// Every board that a project's rings name, or the plain shop's, mm, without repeats.
fn boards(example: &Example) -> Vec<f64> {
    let mut all: Vec<f64> = Vec::new();
    for (spec, section) in example
        .design
        .sections
        .iter()
        .zip(&example.piece().sections)
    {
        for ring in ring_specs(spec, section.rings.len()) {
            let board = ring.stock.or(spec.stock).map_or(BOARD, |s| s.as_mm());
            if !all.iter().any(|b| (b - board).abs() < 1e-9) {
                all.push(board);
            }
        }
    }
    all
}

#[test]
fn mill_thickness_is_the_board_as_written() {
    each(OperationKind::Mill, "thickness", 1e-9, |at| {
        let subject = at.operation.subject;
        if subject.band.is_some() {
            at.band_spec().layer.unwrap().as_mm() + 2.0 * FLATTENING
        } else if subject.ring.is_some() {
            // A floor panel as thick as the form's floor.
            at.example.design.form.floor.unwrap().as_mm()
        } else {
            let near = |b: &f64| (b - at.value()).abs() < 1e-9;
            boards(at.example).into_iter().find(near).unwrap()
        }
    });
}

#[test]
fn every_board_that_the_files_name_is_milled_once() {
    for example in &examples() {
        let mut milled: Vec<f64> = example
            .plan
            .operations
            .iter()
            .filter(|o| o.kind == OperationKind::Mill && o.subject.section.is_none())
            .map(|o| o.figures[0].amount.number().unwrap())
            .collect();
        let mut named = boards(example);
        milled.sort_by(f64::total_cmp);
        named.sort_by(f64::total_cmp);
        assert_eq!(milled.len(), named.len(), "{}", example.name);
        for (m, n) in milled.iter().zip(&named) {
            assert!((m - n).abs() < 1e-9);
        }
    }
}

#[test]
fn flattening_takes_two_faces() {
    for kind in [OperationKind::Flatten, OperationKind::SpaceSegments] {
        each(kind, "height", 1e-9, |at| {
            let given = at.ring_spec().height.or(at.section_spec().ring_height);
            given.map_or(at.board() - 2.0 * FLATTENING, |h| h.as_mm())
        });
    }
}

/// Largest radius of the form over a ring's whole height, looked for at many places.
fn widest(piece: &Piece, ring: &Course) -> f64 {
    let (low, high) = (ring.spans.0.as_mm(), ring.spans.1.as_mm());
    (0..=20_000)
        .filter_map(|k| {
            let z = low + (high - low) * f64::from(k) / 20_000.0;
            piece.form.outside().radius(z)
        })
        .fold(0.0, f64::max)
}

#[test]
fn pitches_close_a_turn() {
    each(OperationKind::SpaceSegments, "pitch", 1e-9, |at| {
        360.0 / at.ring().woods.len() as f64
    });
}

/// The corner is put down once and turned by a pitch, as dividers do.
#[test]
fn steps_come_back_to_the_first_corner() {
    each(OperationKind::SpaceSegments, "corner_step", 1e-9, |at| {
        let (n, flat) = (
            at.ring().woods.len() as f64,
            at.ring().sizes.flat_out.as_mm(),
        );
        let half_edge = 0.5 * at.ring().sizes.long_edge().as_mm();
        let (sin, cos) = (std::f64::consts::TAU / n).sin_cos();
        let turned = (flat * cos - half_edge * sin, flat * sin + half_edge * cos);
        (turned.0 - flat).hypot(turned.1 - half_edge)
    });
}

#[test]
fn disc_covers_the_form() {
    each(OperationKind::CutDisc, "diameter", 1e-3, |at| {
        2.0 * (widest(at.piece(), at.ring()) + OUTSIDE)
    });
}

#[test]
fn panel_fills_its_groove() {
    // The box's wall is straight: its inside is radius less wall, everywhere; half the
    // wall is groove, the floor's loose edge has 1 mm of room.
    let wall = |at: &At<'_>| at.example.design.form.wall[0].thickness.as_mm();
    let form = |at: &At<'_>| at.example.design.form.clone();
    let radius = move |at: &At<'_>| form(at).outer[0].radius.as_mm() - wall(at) / 2.0;
    each(OperationKind::FitFloor, "panel_diameter", 1e-6, |at| {
        2.0 * radius(at)
    });
    each(OperationKind::FitFloor, "groove_depth", 1e-6, |at| {
        radius(at) + 1.0 - inner_corner(&at.ring().sizes).0
    });
    each(OperationKind::FitFloor, "groove_width", 1e-9, |at| {
        at.example.design.form.floor.unwrap().as_mm()
    });
    each(OperationKind::FitFloor, "groove_height", 1e-9, |at| {
        at.example.design.form.foot_recess.unwrap().as_mm()
    });
}

#[test]
fn joints_stand_half_a_segment_apart() {
    each(OperationKind::StackSection, "joint_turn", 1e-9, |at| {
        if let Some(given) = at.section_spec().joint_turn {
            return given.as_deg();
        }
        let half = 180.0 / at.section().rings[0].sizes.segments as f64;
        // To and fro, by the ring's place in its section.
        let first = at
            .piece()
            .ring_number(at.operation.subject.section.unwrap(), 0);
        if (at.number() - first) % 2 == 1 {
            half
        } else {
            -half
        }
    });
    each(OperationKind::StackSection, "joint_turn_arc", 1e-9, |at| {
        let turn = at.beside(&format!("joint_turn_{}", at.number()));
        let first = at
            .piece()
            .ring_number(at.operation.subject.section.unwrap(), 0);
        let ring = &at.section().rings[at.number() - first];
        // The share of the whole circle.
        2.0 * PI * ring.sizes.flat_out.as_mm() * turn / 360.0
    });
}
