//! The model against `reference/geometry_cases.json`: values made outside the
//! project with the mesh kernel manifold3d and scipy (each case names its source).

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

use std::collections::BTreeMap;

use geometry::{Plane, Tube, Turned};
use glam::DVec3;
use piece::model::{
    CourseBody, CutAndRejoin, LayerBody, LayerShape, Part, SectionBody, Stack, StepKind, WoodId,
    volumes_by_part,
};
use serde_json::Value;

fn cases(kind: &str) -> Vec<Value> {
    let text = include_str!("../../../reference/geometry_cases.json");
    let all: Value = serde_json::from_str(text).unwrap();
    let picked: Vec<Value> = all["cases"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|c| c["kind"] == kind)
        .cloned()
        .collect();
    assert!(!picked.is_empty(), "no {kind} cases");
    picked
}

fn num(v: &Value) -> f64 {
    v.as_f64().unwrap_or_else(|| panic!("{v} is no number"))
}

/// The case's rings and loops as a section; loop layers are boards beyond every wall.
fn section(inputs: &Value) -> (Stack, Vec<String>) {
    let mut woods: Vec<String> = Vec::new();
    let mut id = |name: &str| {
        let at = woods.iter().position(|w| w == name).unwrap_or_else(|| {
            woods.push(name.into());
            woods.len() - 1
        });
        WoodId(at as u16)
    };
    let mut rings = Vec::new();
    if let Some(list) = inputs["rings"].as_array() {
        for r in list {
            let n = num(&r["segments"]) as usize;
            let wood = id(r["wood"].as_str().unwrap());
            rings.push(CourseBody::segmented(
                (num(&r["bottom"]), num(&r["top"])),
                (num(&r["apothem_out"]), num(&r["apothem_in"])),
                num(&r["rotation"]).to_radians(),
                vec![wood; n],
            ));
        }
    } else {
        // The closed-form case gives a plain wall: any stack that holds it will do.
        let wall = &inputs["wall"];
        let wood = id("wall");
        rings.push(CourseBody::segmented(
            (num(&wall["bottom"]), num(&wall["top"])),
            (
                num(&wall["outer_radius"]) + 5.0,
                num(&wall["inner_radius"]) - 5.0,
            ),
            0.0,
            vec![wood; 24],
        ));
    }
    let mut steps = Vec::new();
    for (i, l) in inputs["loops"].as_array().unwrap().iter().enumerate() {
        let wood = id(&format!("loop{}", i + 1));
        let climb = num(&l["azimuth"]).to_radians();
        let plane = Plane::tilted(num(&l["height"]), num(&l["tilt"]).to_radians(), climb);
        let board = LayerShape::Board {
            length: 1000.0,
            width: 1000.0,
        };
        steps.push(CutAndRejoin::sawn_loop(
            StepKind::Loop {
                band: 0,
                number: i as u16,
            },
            &plane,
            num(&l["removed"]),
            num(&l["insert"]),
            |lower| LayerBody::new(board, vec![wood], lower, climb),
        ));
    }
    (
        Stack::new(vec![(SectionBody::new(rings, steps), 0.0)]),
        woods,
    )
}

/// A turned wall with straight sides between (radius, z) corners.
struct Corners {
    points: Vec<(f64, f64)>,
    breaks: Vec<f64>,
}

impl Turned for Corners {
    fn each_span(&self, z: f64, f: &mut dyn FnMut(f64, f64)) {
        let mut hits = Vec::new();
        for i in 0..self.points.len() {
            let (r0, z0) = self.points[i];
            let (r1, z1) = self.points[(i + 1) % self.points.len()];
            if (z0 < z) != (z1 < z) {
                hits.push(r0 + (z - z0) / (z1 - z0) * (r1 - r0));
            }
        }
        hits.sort_by(f64::total_cmp);
        for pair in hits.chunks_exact(2) {
            f(pair[0], pair[1]);
        }
    }
    fn break_heights(&self) -> &[f64] {
        &self.breaks
    }
    fn heights(&self) -> (f64, f64) {
        (self.breaks[0], self.breaks[self.breaks.len() - 1])
    }
}

fn turned(inputs: &Value) -> Box<dyn Turned> {
    if let Some(points) = inputs["turned"]["polygon_r_z"].as_array() {
        let points: Vec<_> = points.iter().map(|p| (num(&p[0]), num(&p[1]))).collect();
        let mut breaks: Vec<f64> = points.iter().map(|p| p.1).collect();
        breaks.sort_by(f64::total_cmp);
        breaks.dedup();
        return Box::new(Corners { points, breaks });
    }
    let t = if inputs["turned"].is_object() {
        &inputs["turned"]
    } else {
        &inputs["wall"]
    };
    Box::new(Tube::new(
        num(&t["inner_radius"]),
        num(&t["outer_radius"]),
        num(&t["bottom"]),
        num(&t["top"]),
    ))
}

#[test]
fn volumes_by_wood_agree_with_the_mesh_kernel() {
    for case in cases("volume") {
        let (stack, woods) = section(&case["inputs"]);
        let form = turned(&case["inputs"]);
        let mut got: BTreeMap<&str, f64> = BTreeMap::new();
        for v in volumes_by_part(&stack, Some(form.as_ref()), 1e-6) {
            *got.entry(&woods[v.wood.0 as usize]).or_default() += v.moments.volume;
        }
        let tolerance = num(&case["relative_tolerance"]);
        let mut worst = 0.0_f64;
        for (wood, want) in case["expected"].as_object().unwrap() {
            let off = got[wood.as_str()] / num(want) - 1.0;
            worst = worst.max(off.abs());
            assert!(
                off.abs() <= tolerance,
                "{}: {wood} {} against {want}",
                case["id"],
                got[wood.as_str()]
            );
        }
        if case["expected_total"].is_number() {
            let total: f64 = got.values().sum();
            let off = total / num(&case["expected_total"]) - 1.0;
            worst = worst.max(off.abs());
            assert!(off.abs() <= tolerance, "{}: total {total}", case["id"]);
        }
        println!("{}: largest relative deviation {worst:.2e}", case["id"]);
    }
}

fn name(part: Part) -> String {
    match part {
        Part::Segment { ring, segment } => format!("ring{}/segment{segment}", ring + 1),
        Part::Layer { step, .. } => format!("loop{}", step + 1),
        other => format!("{other:?}"),
    }
}

#[test]
fn points_are_found_where_the_separate_tracer_found_them() {
    let mut seen = 0;
    for case in cases("points") {
        let (stack, _) = section(&case["inputs"]);
        for point in case["expected"].as_array().unwrap() {
            let p = &point["point"];
            let p = DVec3::new(num(&p[0]), num(&p[1]), num(&p[2]));
            let found = stack.wood_at(p).map(|s| name(s.part));
            assert_eq!(found.as_deref(), point["found"].as_str(), "at {p}");
            // The other road: exactly one cell holds the point, and it is the same part.
            let holding: Vec<String> = stack
                .cells()
                .iter()
                .filter(|c| c.cell.contains(p, 0.0))
                .map(|c| name(c.part))
                .collect();
            assert_eq!(holding, vec![point["found"].as_str().unwrap().to_string()]);
            seen += 1;
        }
    }
    println!("{seen} points");
    assert!(seen > 100);
}
