//! A limit stands in one place: what a file takes is what the work is solved to.

use files::design::STEEPEST;
use files::read::read_design;
use files::workshop::Workshop;
use geometry::{Angle, Length};
use piece::settle::{Settled, settle};

/// A tube of radius 20 mm with loops of a reach.
fn tube(reach: f64) -> Settled {
    let text = format!(
        "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 20], [400, 20]]\nstraight = true\n\
         wall = 5\n[[section]]\nname = \"body\"\nwood = \"hard maple\"\nrings = 22\n\
         [[section.band]]\nloops = 2\nheight = 200\nreach = {reach}\nwood = \"padauk\"\nlayer = 3\n"
    );
    let (design, _, problems) = read_design("tube", &text);
    assert!(problems.is_empty(), "{problems:?}");
    settle(&design.expect("clean"), &Workshop::default())
}

/// On a cylinder a plane's middle line rises 2 R tan(tilt): 78° on 20 mm is 188 mm, and what
/// the layer adds at the edges is below 10 mm in both.
#[test]
fn a_reach_is_solved_to_no_steeper_tilt_than_the_file_takes() {
    let rise = |degrees: f64| 40.0 * degrees.to_radians().tan();
    // 80° was reached before, a tilt that the file itself refuses.
    let steep = tube(rise(78.0) + 12.0);
    assert_eq!(steep.troubles.len(), 1, "{:?}", steep.troubles);
    let least = tube(rise(70.0));
    assert!(least.troubles.is_empty(), "{:?}", least.troubles);
    for settled in [steep, least] {
        let piece = settled.piece.expect("settled");
        let tilt = piece.sections[0].bands[0].loops.tilt;
        assert!(!tilt.exceeds(STEEPEST + Angle::deg(1e-9)), "{tilt:?}");
    }
}

/// What the file leaves open is what the table of keys says, and is told as chosen.
#[test]
fn an_open_figure_of_a_band_is_the_tables_and_is_told() {
    let mut design = read_design("x", &std::fs::read_to_string(bowl()).expect("an example"))
        .0
        .expect("clean");
    let band = &mut design.sections[1].bands[0];
    (band.layer, band.spacer, band.tilt, band.reach) = (None, None, None, None);
    band.wood.clear();
    let piece = settle(&design, &Workshop::default())
        .piece
        .expect("settled");
    let table = files::design::BandSpec::KEYS;
    let settled = &piece.sections[1].bands[0];
    let tilt = table.usual("tilt").angle().unwrap_or(Angle::ZERO);
    assert!(settled.loops.tilt.within(tilt, Angle::deg(1e-9)));
    let usual = table.usual("layer").length().unwrap_or(Length::ZERO);
    assert!(settled.layer.within(usual, Length::mm(1e-9)));
    let at = files::key::section(1).band(0);
    for path in [at.layer(), at.tilt(), at.wood()] {
        assert!(piece.chosen.iter().any(|c| c.path == path), "{path:?}");
    }
}

fn bowl() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/sandpiper-bowl.toml")
}
