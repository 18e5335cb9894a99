//! How much work a piece is: counted before it is done, and never less than it is.
#![allow(
    clippy::unwrap_used,
    reason = "a test may stop where its own texts cannot be read"
)]

use std::fmt::Write as _;
use std::time::{Duration, Instant};

use files::read::read_design;
use files::workshop::Workshop;
use piece::settle::{Fits, Settled, settle};
use piece::work::Load;
use proptest::prelude::*;

/// Sections of rings of segments, each with bands of loops.
#[derive(Debug, Clone, Copy)]
struct Sort {
    sections: usize,
    rings: usize,
    ring_height: f64,
    segments: usize,
    bands: usize,
    loops: usize,
    tilt: f64,
    layer: f64,
    /// Bands spread over the height; otherwise all in the middle.
    spread: bool,
    splits: usize,
}

const SENSIBLE: Sort = Sort {
    sections: 1,
    rings: 40,
    ring_height: 10.0,
    segments: 36,
    bands: 1,
    loops: 16,
    tilt: 20.0,
    layer: 6.0,
    spread: true,
    splits: 0,
};

fn text(sort: &Sort) -> String {
    let stacked = sort.rings as f64 * sort.ring_height;
    let height = stacked * sort.sections as f64;
    let mut out = format!(
        "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 60], [{}, 110], [{height}, 70]]\nwall = 8\n",
        height / 2.0
    );
    for s in 0..sort.sections {
        writeln!(
            out,
            "[[section]]\nname = \"s{s}\"\nsegments = {}\nrings = {}\nring_height = {}\nstock = {}\nwood = \"hard maple\"",
            sort.segments,
            sort.rings,
            sort.ring_height,
            sort.ring_height + 2.0
        )
        .unwrap();
        for b in 0..sort.bands {
            let at = if sort.spread {
                (b + 1) as f64 / (sort.bands + 1) as f64
            } else {
                0.5
            };
            writeln!(
                out,
                "[[section.band]]\nloops = {}\nheight = {}\ntilt = {}\nlayer = {}\nwood = \"padauk\"",
                sort.loops,
                stacked * at,
                sort.tilt,
                sort.layer
            )
            .unwrap();
        }
        for k in 0..sort.splits {
            let at = stacked * (k + 1) as f64 / (sort.splits + 1) as f64;
            writeln!(out, "[[section.split]]\nheight = {at}\nturn = 5").unwrap();
        }
    }
    out
}

fn settled(sort: &Sort) -> Settled {
    let (design, _, problems) = read_design("work", &text(sort));
    settle(
        &design.unwrap_or_else(|| panic!("{problems:?}")),
        &Workshop::default(),
    )
}

#[test]
fn a_sensible_piece_is_free() {
    for sort in [
        SENSIBLE,
        Sort {
            tilt: 60.0,
            ..SENSIBLE
        },
        // Far more than anybody saws: twelve bands of sixteen loops.
        Sort {
            bands: 12,
            ..SENSIBLE
        },
        Sort {
            sections: 5,
            rings: 8,
            bands: 4,
            loops: 16,
            ring_height: 20.0,
            splits: 3,
            ..SENSIBLE
        },
        // As many rings and segments as a file may have.
        Sort {
            sections: 10,
            rings: 100,
            ring_height: 3.0,
            segments: 144,
            bands: 1,
            loops: 4,
            ..SENSIBLE
        },
    ] {
        let settled = settled(&sort);
        assert!(
            settled.overload.is_none(),
            "{sort:?}: {:?}",
            settled.overload
        );
        assert!(settled.piece.is_some());
    }
}

#[test]
fn a_legal_file_that_is_too_much_is_told_at_once_with_what_fits() {
    let sort = Sort {
        sections: 50,
        rings: 8,
        ring_height: 7.0,
        bands: 12,
        loops: 16,
        ..SENSIBLE
    };
    let start = Instant::now();
    let settled = settled(&sort);
    let took = start.elapsed();
    let over = settled.overload.expect("9600 loops are too much");
    assert_eq!(over.load.cuts, 9600);
    assert!(settled.piece.is_none());
    assert!(took < Duration::from_secs(5), "{took:?}");
    let Some(Fits::OneBandOf(most)) = over.fits else {
        panic!("{:?}", over.fits);
    };
    let fits = |loops| {
        let sort = Sort {
            bands: 1,
            loops,
            ..sort
        };
        self::settled(&sort).overload.is_none()
    };
    assert!(fits(most) && !fits(most + 1), "{most}");
}

#[test]
fn what_fits_is_the_most_that_fits() {
    let steep = Sort {
        rings: 1,
        ring_height: 50.0,
        bands: 6,
        tilt: 60.0,
        layer: 3.0,
        ..SENSIBLE
    };
    let over = settled(&steep).overload.expect("too many cells");
    assert!(over.load.cuts < Load::MOST_CUTS && over.load.cells > Load::MOST_CELLS);
    assert_eq!(over.path, "section[0].band[0].loops");
    let Some(Fits::Loops(most)) = over.fits else {
        panic!("{:?}", over.fits);
    };
    let fits = |loops| settled(&Sort { loops, ..steep }).overload.is_none();
    assert!(fits(most) && !fits(most + 1), "{most}");
    // Splits that leave no room for loops.
    let split = Sort {
        sections: 50,
        rings: 8,
        ring_height: 7.0,
        loops: 2,
        splits: 12,
        ..SENSIBLE
    };
    let over = settled(&split).overload.expect("700 cuts");
    assert_eq!((over.load.cuts, over.fits), (700, Some(Fits::Splits(6))));
    assert_eq!(over.path, "section[0].split");
}

fn sorts() -> impl Strategy<Value = Sort> {
    (
        (1usize..3, 1usize..12, 3.0..25.0f64, 3usize..40),
        (0usize..4, 2usize..9, 1.0..70.0f64, 1.5..8.0f64),
        (any::<bool>(), 0usize..3),
    )
        .prop_map(
            |(
                (sections, rings, ring_height, segments),
                (bands, loops, tilt, layer),
                (spread, splits),
            )| Sort {
                sections,
                rings,
                ring_height,
                segments,
                bands,
                loops,
                tilt,
                layer,
                spread,
                splits,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    /// The count is made without cutting anything; cutting never gives more.
    #[test]
    fn cutting_gives_no_more_cells_than_were_counted(sort in sorts()) {
        let Some(piece) = settled(&sort).piece else { return Ok(()) };
        let load = Load::of(&piece.stack);
        let cells = piece.stack.cells().len();
        prop_assert!(cells <= load.cells, "{cells} of {load:?}: {sort:?}");
    }
}
