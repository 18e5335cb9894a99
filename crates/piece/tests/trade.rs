//! Ring, two-cut, board and loop figures against `reference/trade_cases.json`
//! (published tables and closed forms, each case naming its source) and the
//! node, oval and two-cut cases of `reference/geometry_cases.json` (scipy, closed forms).

#![allow(clippy::unwrap_used, reason = "a test may stop where it finds nothing")]

use geometry::{Angle, Length};
use piece::band::{Loops, TwoCuts, crossing_rows, oval};
use piece::ring::{RingSizes, arc_as_chord_share};
use serde_json::Value;

fn find(id: &str) -> Value {
    for text in [
        include_str!("../../../reference/trade_cases.json"),
        include_str!("../../../reference/geometry_cases.json"),
    ] {
        let all: Value = serde_json::from_str(text).unwrap();
        if let Some(case) = all["cases"]
            .as_array()
            .unwrap()
            .iter()
            .find(|c| c["id"] == id)
        {
            return case.clone();
        }
    }
    panic!("no case {id}");
}

fn num(v: &Value) -> f64 {
    v.as_f64().unwrap_or_else(|| panic!("{v} is no number"))
}

fn list(v: &Value) -> Vec<f64> {
    v.as_array().unwrap().iter().map(num).collect()
}

/// Asserts and prints a deviation, so that the largest can be reported.
fn close(what: &str, got: f64, want: f64, tolerance: f64) {
    println!(
        "deviation {what}: {:.2e} (tolerance {tolerance:.0e})",
        (got - want).abs()
    );
    assert!(
        (got - want).abs() <= tolerance,
        "{what}: {got} against {want}"
    );
}

fn ring(segments: usize, flats: f64) -> RingSizes {
    RingSizes {
        segments,
        flat_out: Length::mm(flats / 2.0),
        corner_in: Length::ZERO,
        filled: 1.0,
    }
}

#[test]
fn flats_and_corners_follow_the_published_table() {
    let case = find("polygon-factors");
    let tolerance = num(&case["absolute_tolerance"]);
    for (i, n) in list(&case["inputs"]["n"]).into_iter().enumerate() {
        let n = n as usize;
        let flats = list(&case["expected"]["flats"])[i];
        let corners = list(&case["expected"]["corners"])[i];
        close("side", ring(n, flats).long_edge().as_mm(), 1.0, tolerance);
        // The table rounds to five places, so feed it the exact flats for a side of 1.
        let exact = 1.0 / (std::f64::consts::PI / n as f64).tan();
        close("flats", exact, flats, tolerance);
        close(
            "corners",
            ring(n, exact).corner_out().as_mm() * 2.0,
            corners,
            tolerance,
        );
    }
    let case = find("hexagon-stock");
    let hexagon = ring(6, 1.0);
    close(
        "hexagon",
        hexagon.corner_out().as_mm() / hexagon.flat_out.as_mm(),
        num(&case["expected"]["corners_over_flats"]),
        num(&case["absolute_tolerance"]),
    );
}

#[test]
fn hexagon_of_24_inches() {
    let case = find("hexagon-24-flats");
    let edge = RingSizes {
        segments: 6,
        flat_out: Length::inches(num(&case["inputs"]["flats_in"]) / 2.0),
        corner_in: Length::ZERO,
        filled: 1.0,
    }
    .long_edge();
    close(
        "hexagon edge",
        edge.as_inches(),
        num(&case["expected"]["long_edge_in"]),
        num(&case["absolute_tolerance"]),
    );
}

#[test]
fn an_arc_is_not_a_length() {
    let case = find("arc-is-not-a-length");
    for (i, n) in list(&case["inputs"]["n"]).into_iter().enumerate() {
        let want = list(&case["expected"]["shortfall_percent"])[i];
        let got = 100.0 * (1.0 - arc_as_chord_share(n as usize));
        close("shortfall %", got, want, num(&case["absolute_tolerance"]));
    }
}

#[test]
fn flipped_segments_take_their_mean_edge_and_a_slanted_kerf() {
    let case = find("board-length-flipped");
    let input = &case["inputs"];
    let n = num(&input["n"]) as usize;
    let flat = num(&input["long_edge"]) / (2.0 * (std::f64::consts::PI / n as f64).tan());
    let ring = RingSizes {
        segments: n,
        flat_out: Length::mm(flat),
        corner_in: Length::ZERO,
        filled: 1.0,
    }
    .with_board_width(Length::mm(num(&input["width"])));
    let tolerance = num(&case["absolute_tolerance"]);
    close(
        "width",
        ring.board_width().as_mm(),
        num(&input["width"]),
        1e-9,
    );
    close(
        "short edge",
        ring.short_edge().as_mm(),
        num(&case["expected"]["short_edge"]),
        tolerance,
    );
    let kerf = Length::mm(num(&input["kerf"]));
    close(
        "pitch",
        ring.pitch(kerf).as_mm(),
        num(&case["expected"]["pitch"]),
        tolerance,
    );
}

#[test]
fn a_ring_that_closes_early_tells_its_mitre() {
    let case = find("ring-closes-early");
    let at = |key: &str| {
        RingSizes {
            segments: num(&case["inputs"][key]) as usize,
            flat_out: Length::mm(1.0),
            corner_in: Length::ZERO,
            filled: 1.0,
        }
        .mitre()
        .as_deg()
    };
    let tolerance = num(&case["absolute_tolerance"]);
    close(
        "mitre",
        at("closed_at"),
        num(&case["expected"]["mitre_deg"]),
        tolerance,
    );
    close(
        "error",
        at("closed_at") - at("intended"),
        num(&case["expected"]["error_per_cut_deg"]),
        tolerance,
    );
}

#[test]
fn two_cuts_give_slice_and_removed() {
    for id in [
        "two-cuts-6.35-1.0-30",
        "two-cuts-8-0.9-22.5",
        "two-cuts-10-3.2-35",
    ] {
        let case = find(id);
        let input = &case["inputs"];
        let cuts = TwoCuts {
            tilt: Angle::deg(num(&input["tilt"])),
            kerf: Length::mm(num(&input["kerf"])),
            spacer: Length::mm(num(&input["spacer_along_axis"])),
        };
        let tolerance = num(&case["absolute_tolerance_mm"]);
        close(
            "slice",
            cuts.slice().as_mm(),
            num(&case["expected"]["slice_thickness"]),
            tolerance,
        );
        close(
            "removed",
            cuts.removed().as_mm(),
            num(&case["expected"]["removed_thickness"]),
            tolerance,
        );
    }
    // The wide slot: its plane is 12.23° to the axis, so 77.77° from straight across;
    // the spacer stands at the fence, square to the axis.
    let case = find("wide-slot-spacer");
    let input = &case["inputs"];
    let cuts = TwoCuts {
        tilt: Angle::deg(num(&input["plane_to_axis_deg"])),
        kerf: Length::inches(num(&case["expected"]["kerf_in"])),
        spacer: Length::inches(num(&input["spacer_in"])),
    };
    close(
        "slot",
        cuts.removed().as_inches(),
        num(&input["slot_in"]),
        num(&case["absolute_tolerance"]),
    );
}

#[test]
fn ovals_have_the_sampled_extent() {
    for id in [
        "oval-insert-60-30",
        "oval-insert-70-25",
        "oval-insert-45-40",
    ] {
        let case = find(id);
        let input = &case["inputs"];
        let (length, width) = oval(
            Length::mm(num(&input["blank_radius"])),
            Length::mm(num(&input["thickness"])),
            Angle::deg(num(&input["tilt"])),
        );
        let tolerance = num(&case["absolute_tolerance_mm"]);
        close(
            "length",
            length.as_mm(),
            num(&case["expected"]["length"]),
            tolerance,
        );
        close(
            "width",
            width.as_mm(),
            num(&case["expected"]["width"]),
            tolerance,
        );
    }
}

/// The reference's vase: R(z) = 50 + 12 sin(π (z − 10) / 130), z from 10 to 140.
fn reference_vase(z: f64) -> Option<f64> {
    (10.0..=140.0)
        .contains(&z)
        .then(|| 50.0 + 12.0 * (std::f64::consts::PI * (z - 10.0) / 130.0).sin())
}

#[test]
fn tops_bottoms_and_rows_agree_with_brentq() {
    for id in [
        "node-heights-3-loops-on-a-vase",
        "node-heights-5-loops-on-a-vase",
    ] {
        let case = find(id);
        let input = &case["inputs"];
        let n = num(&input["loops"]) as usize;
        let loops = Loops {
            height: Length::mm(num(&input["height"])),
            tilt: Angle::deg(num(&input["tilt"])),
            thickness: Length::mm(num(&input["removed"])),
            azimuths: (0..n)
                .map(|i| Angle::full().divided_by(n) * i as f64)
                .collect(),
        };
        let tolerance = num(&case["absolute_tolerance_mm"]);
        let edges = loops.edges(&reference_vase);
        close(
            "top",
            edges.top.unwrap().as_mm(),
            num(&case["expected"]["top_of_loops"]),
            tolerance,
        );
        close(
            "bottom",
            edges.bottom.unwrap().as_mm(),
            num(&case["expected"]["bottom_of_loops"]),
            tolerance,
        );
        let order: Vec<usize> = (0..n).collect();
        let rows = crossing_rows(&loops, &order, &reference_vase);
        let want = list(&case["expected"]["node_rows"]);
        assert_eq!(rows.len(), want.len());
        for (row, want) in rows.iter().zip(want) {
            close("row", row.height.unwrap().as_mm(), want, tolerance);
            assert_eq!(
                row.crossings.len() as f64,
                num(&case["expected"]["nodes_per_row"])
            );
            assert!(row.crossings.iter().all(|c| c.over > c.under));
        }
    }
}
