//! Distances on paper are the model's figures.

mod support;

use std::f64::consts::TAU;

use drawings::vector::Entity;
use drawings::views::{
    Options, half_section, layer_blank, ring_from_above, sled_from_above, unrolled_wall, wrap_strip,
};
use drawings::wall::{FaceKind, Faces, Wall, traces};
use drawings::{Drawing, WallSide, geometry, to_svg};
use files::units::Unit;
use geometry::Length;
use glam::DVec2;
use piece::model::Part;
use support::{EXAMPLES, example, paths, piece_of};

/// Hundredths of a millimetre: what a drawing owes the bench.
const NEAR: f64 = 0.01;

fn near(got: f64, want: f64, what: &str) {
    assert!(
        (got - want).abs() <= NEAR,
        "{what}: {got} drawn, {want} meant"
    );
}

fn read<T>(drawing: &Drawing, with: impl FnOnce(&roxmltree::Document<'_>) -> T) -> T {
    let svg = to_svg(drawing);
    let document = roxmltree::Document::parse(&svg).expect("well-formed");
    with(&document)
}

#[test]
fn a_ring_is_drawn_with_its_own_edges() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        for (s, section) in piece.sections.iter().enumerate() {
            for (r, ring) in section.rings.iter().enumerate() {
                if ring.repeats().is_none() {
                    continue;
                }
                let options = Options::full_size(Unit::Mm);
                let drawing = ring_from_above(&piece, s, r, &options).expect("a ring");
                let rings = read(&drawing, |svg| paths(svg, "ring"));
                // Closed form: a regular polygon about a circle has sides 2 R tan(180°/n).
                let n = ring.sizes.segments as f64;
                let half = std::f64::consts::PI / n;
                let outer = &rings[0];
                assert_eq!(outer.len() as f64, n);
                for i in 0..outer.len() {
                    let side = (outer[(i + 1) % outer.len()] - outer[i]).length();
                    near(side, 2.0 * ring.sizes.flat_out.as_mm() * half.tan(), name);
                }
                if let Some(inner) = rings.get(1) {
                    let side = (inner[1] - inner[0]).length();
                    near(side, 2.0 * ring.sizes.corner_in.as_mm() * half.sin(), name);
                }
                // The single segment beside it: long edge, then end, then short edge.
                let segment = &read(&drawing, |svg| paths(svg, "segment"))[0];
                near(
                    (segment[1] - segment[0]).length(),
                    ring.sizes.long_edge().as_mm(),
                    name,
                );
                near(
                    segment[2].y - segment[1].y,
                    ring.sizes.board_width().as_mm(),
                    name,
                );
            }
        }
    }
}

#[test]
fn a_wrap_round_strip_is_two_pi_r_long_and_its_cuts_lie_on_their_planes() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        for (s, section) in piece.sections.iter().enumerate() {
            let Some(band) = section.bands.first() else {
                continue;
            };
            let drawing = wrap_strip(&piece, s, Some((0, 0)), &Options::full_size(Unit::Inch))
                .expect("a strip");
            read(&drawing, |svg| {
                let edge = &paths(svg, "edge")[0];
                let r = section.blank_radius.as_mm();
                near((edge[1] - edge[0]).length(), TAU * r, name);
                near((edge[2] - edge[1]).length(), section.stacked.as_mm(), name);
                // The plane's own equation, z = h + tan(t) R cos(azimuth - climb).
                let cuts = paths(svg, "cuts");
                assert_eq!(cuts.len(), 2);
                let climb = band.loops.azimuths[0].as_rad();
                for (cut, side) in cuts.iter().zip([0.5, -0.5]) {
                    for p in cut {
                        let azimuth = (p.x - edge[0].x) / r;
                        let z = edge[3].y - p.y;
                        let h = (band.loops.height + band.cuts.spacer * side).as_mm();
                        let want = h + band.loops.tilt.as_rad().tan() * r * (azimuth - climb).cos();
                        near(z, want, name);
                    }
                }
            });
        }
    }
}

/// What the plan says of positioning blocks, "at least so much clear of the cut", measured on
/// the strip, square to the nearer edge of what the saw takes.
#[test]
fn positioning_blocks_keep_off_the_cut_as_the_plan_says() {
    let mut measured = 0;
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        let keep = piece.workshop.sled.keep_off.as_mm();
        for (s, section) in piece.sections.iter().enumerate() {
            for (b, band) in section.bands.iter().enumerate() {
                let drawing = wrap_strip(&piece, s, Some((b, 0)), &Options::full_size(Unit::Mm))
                    .expect("a strip");
                read(&drawing, |svg| {
                    let edge = &paths(svg, "edge")[0];
                    let r = section.blank_radius.as_mm();
                    let (tilt, climb) = (band.loops.tilt.as_rad(), band.loops.azimuths[0].as_rad());
                    let half = band.loops.thickness.as_mm() / (2.0 * tilt.cos());
                    let blocks = paths(svg, "blocks");
                    let mut nearest = f64::INFINITY;
                    for corner in blocks.iter().filter(|line| line.len() >= 4).flatten() {
                        let azimuth = (corner.x - edge[0].x) / r;
                        let z = edge[3].y - corner.y;
                        let on_cut =
                            band.loops.height.as_mm() + tilt.tan() * r * (azimuth - climb).cos();
                        let along = (z - on_cut).abs() - half;
                        let slope = tilt.tan() * (azimuth - climb).sin();
                        nearest = nearest.min(along / (1.0 + slope * slope).sqrt());
                    }
                    assert!(nearest > keep - 0.05, "{name}: {nearest} of {keep}");
                    assert!(nearest < keep + 3.0, "{name}: {nearest} of {keep}");
                    measured += 1;
                });
            }
        }
    }
    assert!(measured >= 3, "{measured}");
}

#[test]
fn a_sled_shows_the_tilt_and_both_distances() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        for (s, section) in piece.sections.iter().enumerate() {
            let Some(band) = section.bands.first() else {
                continue;
            };
            let drawing =
                sled_from_above(&piece, s, 0, &Options::full_size(Unit::Mm)).expect("a sled");
            read(&drawing, |svg| {
                let axis = &paths(svg, "axis")[0];
                let way = (axis[1] - axis[0]).normalize();
                let cuts = paths(svg, "cuts");
                let cut = (cuts[0][1] - cuts[0][0]).normalize();
                // Tilt: between a cut and a cut square to the axis.
                let square = DVec2::new(-way.y, way.x);
                let tilt = square.dot(cut).abs().acos();
                assert!(
                    (tilt - band.loops.tilt.as_rad()).abs() < 1e-4,
                    "{name}: {} drawn",
                    tilt.to_degrees()
                );
                // Both cuts are met on the axis a spacer apart, square to them by its cosine.
                let apart = (cuts[1][0].x - cuts[0][0].x).abs();
                near(apart, band.cuts.spacer.as_mm() * tilt.cos(), name);
                // Blank: its far corner from the faceplate's face is waste block and height.
                let jig = paths(svg, "jig");
                let blank = &jig[jig.len() - 1];
                near(
                    (blank[1] - blank[0]).length(),
                    section.stacked.as_mm(),
                    "blank's height",
                );
                near(
                    (blank[2] - blank[1]).length(),
                    2.0 * section.blank_radius.as_mm(),
                    "blank's diameter",
                );
                let to_cut = (cuts[0][0] + cuts[0][1]) / 2.0 - (blank[0] + blank[3]) / 2.0;
                near(
                    to_cut.dot(way) + piece.workshop.sled.waste_block.as_mm(),
                    band.sled.second_cut.as_mm(),
                    "second cut from the faceplate's face",
                );
            });
        }
    }
}

#[test]
fn a_layer_covers_its_oval() {
    for name in ["bowl", "vase", "box"] {
        let piece = example(name);
        let s = piece
            .sections
            .iter()
            .position(|s| !s.bands.is_empty())
            .expect("a band");
        let band = &piece.sections[s].bands[0];
        let drawing = layer_blank(&piece, s, 0, &Options::full_size(Unit::Mm)).expect("a layer");
        read(&drawing, |svg| {
            let oval = &paths(svg, "oval")[0];
            let low = oval.iter().copied().reduce(DVec2::min).expect("points");
            let high = oval.iter().copied().reduce(DVec2::max).expect("points");
            near(high.x - low.x, band.blank.length.as_mm(), name);
            near(high.y - low.y, band.blank.width.as_mm(), name);
            let cover = paths(
                svg,
                if band.blank.ring.is_some() {
                    "ring"
                } else {
                    "board"
                },
            );
            let cover = &cover[0];
            // Every point of the oval is within the convex cover, its edge of wood away.
            let middle = (low + high) / 2.0;
            for i in 0..cover.len() {
                let (a, b) = (cover[i], cover[(i + 1) % cover.len()]);
                let side = (b - a).perp_dot(middle - a).signum();
                for p in oval {
                    let inside = (b - a).perp_dot(*p - a) * side / (b - a).length();
                    assert!(inside > -NEAR, "{name}: {inside}");
                }
            }
        });
    }
}

#[test]
fn loops_edges_lie_on_their_planes_and_are_whole_where_they_pass_over() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        for side in [WallSide::Outside, WallSide::Inside] {
            let wall = Wall::new(&piece, side);
            let lines = traces(&wall, &Faces::of(&piece));
            for (s, section) in piece.sections.iter().enumerate() {
                let Some(band) = section.bands.first() else {
                    continue;
                };
                let (t, h) = (band.loops.tilt.as_rad().tan(), band.loops.height.as_mm());
                let half = band.loops.thickness.as_mm() / (2.0 * band.loops.tilt.as_rad().cos());
                let mut seen = vec![0.0; band.loops.azimuths.len()];
                for trace in &lines {
                    let FaceKind::Layer {
                        section: at,
                        step,
                        upper,
                    } = trace.kind
                    else {
                        continue;
                    };
                    if usize::from(at) != s {
                        continue;
                    }
                    let number = band.order[usize::from(step)];
                    let climb = (band.loops.azimuths[number] + section.turn).as_rad();
                    for p in &trace.points {
                        // The plane's own equation at the wall's own radius.
                        let r = wall.radius(p.y).expect("on the wall");
                        let on_axis = h + if upper { half } else { -half };
                        let want = section.bottom.as_mm() + on_axis + t * r * (p.x - climb).cos();
                        // A cut that meets the wall nearly level is off by more in height
                        // than across.
                        near(p.y, want, name);
                    }
                    seen[number] += trace
                        .points
                        .windows(2)
                        .map(|w| (w[1].x - w[0].x).abs())
                        .sum::<f64>();
                }
                // The loop cut last runs through: both its edges, once round.
                let last = *band.order.last().expect("a loop");
                assert!(
                    (seen[last] - 2.0 * TAU).abs() < 1e-3,
                    "{name} {side:?}: {} of {}",
                    seen[last],
                    2.0 * TAU
                );
                assert!(
                    seen[band.order[0]] < 2.0 * TAU - 0.05,
                    "{name}: the first is interrupted"
                );
                // Where two cross, the model has the one that was cut later.
                let rows = match side {
                    WallSide::Outside => &band.rows_outside,
                    WallSide::Inside => &band.rows_inside,
                };
                let mut crossings = 0;
                for crossing in rows.iter().flat_map(|r| &r.crossings) {
                    let Some(z) = crossing.height else { continue };
                    let z = (z + section.bottom).as_mm();
                    let azimuth = (crossing.azimuth + section.turn).as_rad();
                    let spot = wall.spot(azimuth, z).expect("wood");
                    let Part::Layer { step, .. } = spot.part else {
                        panic!("{name}: no layer at a crossing");
                    };
                    let there = band.order[usize::from(step)];
                    // A third loop may pass over both.
                    if there != crossing.over {
                        assert!(band.cut_at(there) > band.cut_at(crossing.over), "{name}");
                        continue;
                    }
                    crossings += 1;
                }
                assert!(crossings > 0, "{name}");
            }
        }
    }
}

#[test]
fn the_wall_is_as_high_as_the_form_and_true_at_the_radius_it_names() {
    for (name, text) in EXAMPLES {
        let piece = piece_of(text);
        let drawing = unrolled_wall(&piece, WallSide::Outside, &Options::full_size(Unit::Mm));
        read(&drawing, |svg| {
            let edge = &paths(svg, "edge")[0];
            let wall = Wall::new(&piece, WallSide::Outside);
            near(edge[2].y - edge[1].y, piece.form.height().as_mm(), name);
            near(
                edge[1].x - edge[0].x,
                TAU * wall.true_radius().as_mm(),
                name,
            );
            // The highest point of any loop's edge is where the model says loops top out.
            for section in piece.sections.iter().filter(|s| !s.bands.is_empty()) {
                let top = section.bands[0].outside.top.expect("on the wall");
                let highest = paths(svg, "loops")
                    .iter()
                    .flatten()
                    .map(|p| p.y)
                    .fold(f64::MAX, f64::min);
                let z = piece.form.height().as_mm() - (highest - edge[0].y);
                near(z, (section.bottom + top).as_mm(), name);
            }
        });
    }
}

#[test]
fn a_smaller_scale_shrinks_everything_alike() {
    let piece = example("bowl");
    let small = Options::within(Unit::Mm, Length::mm(180.0));
    let drawing = unrolled_wall(&piece, WallSide::Outside, &small);
    read(&drawing, |svg| {
        let edge = &paths(svg, "edge")[0];
        let wall = Wall::new(&piece, WallSide::Outside);
        // 620 mm go into 180 at 1 : 5.
        near(
            (edge[1].x - edge[0].x) * 5.0,
            TAU * wall.true_radius().as_mm(),
            "round",
        );
        near(
            (edge[2].y - edge[1].y) * 5.0,
            piece.form.height().as_mm(),
            "high",
        );
    });
    let full = half_section(&piece, &Options::full_size(Unit::Mm));
    let half = half_section(&piece, &Options::within(Unit::Mm, Length::mm(100.0)));
    let outline = |d: &Drawing| read(d, |svg| paths(svg, "outline")[0].clone());
    let (a, b) = (outline(&full), outline(&half));
    for i in 1..a.len() {
        let (p, q) = (a[i] - a[0], b[i] - b[0]);
        assert!((p - q * 2.0).length() < NEAR);
    }
}

#[test]
fn entities_are_the_same_lines() {
    let piece = example("bowl");
    let ring = &piece.sections[1].rings[0];
    let drawing = ring_from_above(&piece, 1, 0, &Options::full_size(Unit::Mm)).expect("a ring");
    let (mut round, mut words) = (0.0, 0);
    for entity in geometry(&drawing) {
        match entity {
            Entity::Line {
                layer: "ring",
                from,
                to,
                ..
            } => round += (to - from).length(),
            Entity::Text { .. } => words += 1,
            _ => {}
        }
    }
    let n = ring.sizes.segments as f64;
    near(
        round,
        n * (ring.sizes.long_edge() + ring.sizes.short_edge()).as_mm(),
        "outer and inner edge",
    );
    assert_eq!(words, drawing.texts().count());
}
