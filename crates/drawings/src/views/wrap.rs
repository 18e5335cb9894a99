//! The wrap-round strip: the trued blank unrolled, with every cut and where blocks go.

use geometry::Portable;
use std::f64::consts::TAU;

use files::units::{Unit, degrees};
use geometry::{Angle, Length};
use glam::DVec2;
use piece::piece::{Band, Piece, Section};

use super::{Options, ruler};
use crate::vector::pen::{FIGURES, rectangle};
use crate::vector::{Anchor, Drawing, Fill, LineKind, Pen, Text, width_of};

/// A strip to wrap round a section as it is sawn, 2πR long and as high as the section
/// is stacked: both cuts of every loop, the index marks, and the start mark.
///
/// With `only` a band and a loop (from 0), that loop's cuts stand out and its
/// positioning blocks are shown. `None` if there is no such section, band or loop, or
/// no band at all.
pub fn wrap_strip(
    piece: &Piece,
    section: usize,
    only: Option<(usize, usize)>,
    options: &Options,
) -> Option<Drawing> {
    let place = piece.sections.get(section)?;
    place.bands.first()?;
    if let Some((b, l)) = only {
        place.bands.get(b)?.loops.azimuths.get(l)?;
    }
    let unit = options.unit;
    let round = place.blank_radius * TAU;
    let scale = options.scale(round);
    let k = scale.factor();
    let strip = Strip {
        section: place,
        k,
        w: round.as_mm() * k,
        h: place.stacked.as_mm() * k,
    };
    let what = match only {
        Some((_, l)) => format!(", loop {}", l + 1),
        None => String::new(),
    };
    let title = format!("Wrap-round strip, section {}{what}", place.name);
    let mut pen = Pen::new(
        format!("{}: {title}", piece.title),
        format!(
            "The blank of {} unrolled: {} round, {} high, with both cuts of each loop.",
            place.name,
            unit.length(round),
            unit.length(place.stacked)
        ),
        unit,
    );
    pen.layer("rings");
    for ring in place.rings.iter().skip(1) {
        let y = strip.y(ring.bottom.as_mm());
        pen.line(DVec2::new(0.0, y), DVec2::new(strip.w, y), LineKind::Guide);
    }
    for (b, band) in place.bands.iter().enumerate() {
        for l in 0..band.loops.azimuths.len() {
            if only.is_none_or(|o| o == (b, l)) {
                continue;
            }
            pen.layer("other loops");
            cuts(&mut pen, &strip, band, l, LineKind::Guide);
        }
        for l in 0..band.loops.azimuths.len() {
            if only.is_some_and(|o| o != (b, l)) {
                continue;
            }
            pen.layer("cuts");
            cuts(&mut pen, &strip, band, l, LineKind::Cut);
        }
    }
    if let Some((b, l)) = only
        && let Some(band) = place.bands.get(b)
    {
        blocks(&mut pen, piece, &strip, band, l);
    }
    pen.layer("edge");
    pen.round(
        rectangle(DVec2::ZERO, DVec2::new(strip.w, strip.h)),
        LineKind::Outline,
    );
    let rows = marks(&mut pen, &strip, only) as f64;
    pen.layer("scales");
    ruler::heights(&mut pen, -2.0, (0.0, place.stacked.as_mm()), &|z| {
        strip.y(z)
    });
    let below = strip.h + 8.0 + FIGURES * 1.3 * rows;
    ruler::azimuths(&mut pen, below, strip.w, false);
    round_figure(&mut pen, &strip, round, below + 12.0);
    let mut notes = vec![
        options.note(scale),
        format!(
            "Round a blank of diameter {}; cut along the edge and butt the ends. Under the edge: degrees, then the length along it.",
            unit.length(place.blank_radius * 2.0)
        ),
    ];
    if only.is_some() {
        notes.push(
            "Blocks are glued on either side of the cuts, keyed by a dowel that is drawn out while sawing."
                .into(),
        );
    }
    pen.heading(DVec2::new(0.0, below + 18.0), &title, &notes);
    Some(pen.finish(5.0))
}

struct Strip<'a> {
    section: &'a Section,
    k: f64,
    w: f64,
    h: f64,
}

impl Strip<'_> {
    fn y(&self, z: f64) -> f64 {
        self.h - z * self.k
    }

    fn x(&self, azimuth: f64) -> f64 {
        azimuth / TAU * self.w
    }
}

/// The two cuts of a loop: the blade's middle on the blank,
/// z = height ± spacer/2 + R tan(tilt) cos(azimuth − climb).
fn cuts(pen: &mut Pen, strip: &Strip<'_>, band: &Band, number: usize, kind: LineKind) {
    let Some(climb) = band.loops.azimuths.get(number) else {
        return;
    };
    let rise = strip.section.blank_radius.as_mm() * band.loops.tilt.as_rad().tangent();
    for side in [0.5, -0.5] {
        let middle = (band.loops.height + band.cuts.spacer * side).as_mm();
        const STEPS: usize = 360;
        let points: Vec<DVec2> = (0..=STEPS)
            .map(|i| {
                let a = TAU * i as f64 / STEPS as f64;
                let z = middle + rise * (a - climb.as_rad()).cosine();
                DVec2::new(strip.x(a), strip.y(z))
            })
            .collect();
        pen.through(points, kind);
    }
}

/// A loop's positioning blocks, above and below its cuts.
fn blocks(pen: &mut Pen, piece: &Piece, strip: &Strip<'_>, band: &Band, number: usize) {
    let Some(climb) = band.loops.azimuths.get(number) else {
        return;
    };
    let sled = &piece.workshop.sled;
    let half = band.loops.thickness.as_mm() / (2.0 * band.loops.tilt.as_rad().cosine());
    let (long, wide) = (sled.block_length.as_mm(), sled.dowel.as_mm() * 2.5);
    pen.layer("blocks");
    for (i, place) in band.blocks.places.iter().enumerate() {
        let azimuth = (*climb + place.from_climb).wrapped();
        let middle = place.cut_height.as_mm();
        let at = strip.x(azimuth.as_rad());
        // A block at the seam is drawn on both ends.
        let wide = wide * strip.k;
        let copies = [0.0, strip.w, -strip.w];
        for x in copies.map(|c| at + c) {
            if x + wide / 2.0 < 0.0 || x - wide / 2.0 > strip.w {
                continue;
            }
            // The saw's path rises or falls across the block's width: so much wood stays between
            // it and either edge of a block, square to the cut.
            let radius = strip.section.blank_radius.as_mm();
            let tangent = band.loops.tilt.as_rad().tangent();
            let turn = place.from_climb.as_rad();
            let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
            for edge in [-0.5, 0.5] {
                let at = turn + edge * wide / strip.k / radius;
                let cut = middle + radius * tangent * (at.cosine() - turn.cosine());
                let keep = sled.keep_off.as_mm() * 1.0_f64.hypotenuse(tangent * at.sine());
                low = low.min(cut - half - keep);
                high = high.max(cut + half + keep);
            }
            for (from, to) in [(high, high + long), (low - long, low)] {
                let shape = rectangle(
                    DVec2::new((x - wide / 2.0).max(0.0), strip.y(to)),
                    DVec2::new((x + wide / 2.0).min(strip.w), strip.y(from)),
                );
                pen.area(vec![shape.clone()], Fill::Shade);
                pen.round(shape, LineKind::Thin);
            }
            pen.line(
                DVec2::new(x, strip.y(high + long)),
                DVec2::new(x, strip.y(low - long)),
                LineKind::Centre,
            );
            let letter = letter(i).to_string();
            let inside = x.clamp(3.0, strip.w - 3.0);
            let y = strip.y(high + long / 2.0);
            pen.text(
                Text {
                    strong: true,
                    ..Text::centred(DVec2::new(inside, y), letter, FIGURES)
                }
                .with_halo(),
            );
        }
    }
}

/// Index marks under the strip, each with its loop, degrees and length round the edge;
/// the loops' numbers on their cuts' tops; the start mark. Returns how many rows they take.
fn marks(pen: &mut Pen, strip: &Strip<'_>, only: Option<(usize, usize)>) -> usize {
    let radius = strip.section.blank_radius;
    let unit = pen.unit;
    pen.layer("marks");
    let start = DVec2::new(0.0, strip.h);
    pen.area(
        vec![vec![
            start,
            start + DVec2::new(3.0, 5.0),
            start + DVec2::new(-3.0, 5.0),
        ]],
        Fill::Ink,
    );
    let mut marks = Vec::new();
    for (b, band) in strip.section.bands.iter().enumerate() {
        for (l, azimuth) in band.loops.azimuths.iter().enumerate() {
            if only.is_some_and(|o| o != (b, l)) {
                continue;
            }
            let a = azimuth.wrapped();
            marks.push(Mark::new(strip, unit, a, &format!("loop {}", l + 1)));
            if only.is_some() {
                for (i, place) in band.blocks.places.iter().enumerate() {
                    let at = (*azimuth + place.from_climb).wrapped();
                    let words = format!("blocks {}", letter(i));
                    marks.push(Mark::new(strip, unit, at, &words));
                }
            }
            let x = strip.x(a.as_rad());
            let rise = radius.as_mm() * band.loops.tilt.as_rad().tangent();
            let top = (band.loops.height + band.cuts.spacer / 2.0).as_mm() + rise;
            let at = DVec2::new(x.clamp(3.5, strip.w - 3.5), strip.y(top) - 3.6);
            pen.balloon(at, &(l + 1).to_string(), 3.0);
        }
    }
    let rows = put_marks(pen, strip, marks);
    pen.layer("start");
    pen.small(DVec2::new(-3.5, strip.h + 5.0), "start mark", Anchor::End);
    rows
}

/// A mark under the strip.
struct Mark {
    x: f64,
    words: String,
}

impl Mark {
    /// A mark at an azimuth: its words, degrees, and length round the edge.
    fn new(strip: &Strip<'_>, unit: Unit, at: Angle, words: &str) -> Self {
        let along = unit.length_bare(strip.section.blank_radius * at.as_rad());
        Mark {
            x: strip.x(at.as_rad()),
            words: format!("{words} · {} · {along}", degrees(at, 1)),
        }
    }
}

/// Puts marks' lines and words under the strip, in as many rows as it takes for none to
/// touch another. Returns how many.
fn put_marks(pen: &mut Pen, strip: &Strip<'_>, mut marks: Vec<Mark>) -> usize {
    const ROW: f64 = FIGURES * 1.3;
    // From the right: a line then never comes down through words put before it.
    marks.sort_by(|a, b| b.x.total_cmp(&a.x));
    let mut put: Vec<(f64, f64, f64, usize)> = Vec::new();
    for mark in marks {
        let wide = width_of(&mark.words, FIGURES, false);
        // The start mark needs its own width to be left free.
        let left = if mark.x < 4.0 {
            mark.x + 4.0
        } else {
            mark.x + 1.5
        };
        let (from, to) = (mark.x - 1.0, left + wide + 1.5);
        let row = (0..)
            .find(|row| {
                put.iter().all(|(x, a, b, r)| {
                    let words = r == row && *a < to && from < *b;
                    let line = r >= row && (from..to).contains(x);
                    !words && !line
                })
            })
            .unwrap_or(0);
        put.push((mark.x, from, to, row));
        let y = strip.h + 5.5 + ROW * row as f64;
        pen.line(
            DVec2::new(mark.x, strip.h),
            DVec2::new(mark.x, y),
            LineKind::Cut,
        );
        pen.words(DVec2::new(left, y), mark.words, Anchor::Start);
    }
    put.iter().map(|p| p.3 + 1).max().unwrap_or(0)
}

fn letter(i: usize) -> char {
    char::from(b'A' + (i % 26) as u8)
}

fn round_figure(pen: &mut Pen, strip: &Strip<'_>, round: Length, y: f64) {
    pen.layer("dimensions");
    let figure = pen.figure(round);
    pen.dimension_line(DVec2::new(0.0, y), DVec2::new(strip.w, y), &figure);
}
