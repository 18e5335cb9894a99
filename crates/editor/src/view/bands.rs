//! Loop bands for the page.

use ::plan::tables::SectionTable;
use ::plan::{BandLimit, BandLimits, band_limits};
use drawings::wall::{Lines, LoopLines, loop_lines};
use files::message::{Language, Said};
use files::units::Unit;
use piece::band::CrossingRow;
use piece::piece::{Band as PieceBand, Piece, Section};

use super::plan::figure;
use super::round;
use crate::wire::{Band, Crossing, Edges, Limit, Limits, Loop, Row, WallSide};

/// A section's loop bands.
pub fn bands(
    piece: &Piece,
    number: usize,
    table: Option<&SectionTable<Said>>,
    language: Language,
) -> Vec<Band> {
    let unit = language.unit;
    let Some(section) = piece.sections.get(number) else {
        return Vec::new();
    };
    section
        .bands
        .iter()
        .enumerate()
        .map(|(k, band)| {
            let lift = section.base_of(band).as_mm();
            let rows = |side, rows: &[CrossingRow]| rows_of(side, rows, lift, unit);
            let figures = table.and_then(|t| t.bands.get(k));
            Band {
                path: format!("section[{number}].band[{k}]"),
                section: number as u32,
                number: k as u32,
                centre: lift + band.loops.height.as_mm(),
                tilt: band.loops.tilt.as_deg(),
                top: band.outside.top.map(|z| z.as_mm() + lift),
                bottom: band.outside.bottom.map(|z| z.as_mm() + lift),
                z0: lift,
                z1: (section.bottom + section.height).as_mm(),
                loops: loops(piece, section, band),
                crossings: [
                    crossings(WallSide::Outside, &band.rows_outside, section, band),
                    crossings(WallSide::Inside, &band.rows_inside, section, band),
                ]
                .concat(),
                rows: [
                    rows(WallSide::Outside, &band.rows_outside),
                    rows(WallSide::Inside, &band.rows_inside),
                ]
                .concat(),
                limits: limits(&band_limits(piece, section, band), language),
                symmetry: symmetry(section, band),
                figures: figures.map_or_else(Vec::new, |t| {
                    t.figures.iter().map(|f| figure(f, unit)).collect()
                }),
            }
        })
        .collect()
}

fn limits(limits: &BandLimits, language: Language) -> Limits {
    let said = |limit: &BandLimit| Limit {
        least: limit.least.as_mm(),
        most: limit.most.as_mm(),
        why_least: limit.why_least.said(language),
        why_most: limit.why_most.said(language),
    };
    Limits {
        reach: said(&limits.reach),
        height: said(&limits.height),
        layer: said(&limits.layer),
    }
}

fn loops(piece: &Piece, section: &Section, band: &PieceBand) -> Vec<Loop> {
    let outside = loop_lines(section, band, piece.form.outside());
    let inside = loop_lines(section, band, piece.form.inside());
    let azimuths = band.loops.azimuths.iter().enumerate();
    azimuths
        .map(|(i, azimuth)| {
            let azimuth = (*azimuth + section.turn).wrapped().as_deg();
            Loop {
                number: i as u32 + 1,
                wood: band
                    .woods
                    .get(i)
                    .map_or_else(String::new, |w| piece.wood_name(*w).into()),
                azimuth: round(azimuth),
                cut: band.cut_at(i) as u32 + 1,
                outside: edges(&outside.turned(azimuth)),
                inside: edges(&inside.turned(azimuth)),
            }
        })
        .collect()
}

fn edges(lines: &LoopLines) -> Edges {
    let rounded = |lines: &Lines| {
        let line = |line: &Vec<(f64, f64)>| line.iter().map(|p| (round(p.0), round(p.1))).collect();
        lines.iter().map(line).collect()
    };
    Edges {
        upper: rounded(&lines.upper),
        lower: rounded(&lines.lower),
    }
}

fn crossings(
    wall: WallSide,
    rows: &[CrossingRow],
    section: &Section,
    band: &PieceBand,
) -> Vec<Crossing> {
    let (base, turn) = (section.base_of(band), section.turn_of(band));
    let all = rows.iter().flat_map(|r| &r.crossings);
    all.filter_map(|c| {
        Some(Crossing {
            wall,
            azimuth: round((c.azimuth + turn).wrapped().as_deg()),
            z: round((c.height? + base).as_mm()),
            over: c.over as u32 + 1,
            under: c.under as u32 + 1,
        })
    })
    .collect()
}

fn rows_of(wall: WallSide, rows: &[CrossingRow], lift: f64, unit: Unit) -> Vec<Row> {
    rows.iter()
        .filter_map(|row| {
            let z = row.height?.as_mm() + lift;
            Some(Row {
                wall,
                z: round(z),
                shown: unit.length(geometry::Length::mm(z)),
            })
        })
        .collect()
}

fn symmetry(section: &Section, band: &PieceBand) -> String {
    let n = band.loops.azimuths.len();
    let segments = section.rings.first().map_or(0, |r| r.sizes.segments);
    match band.repeats.1 {
        0 | 1 => format!("{segments} segments and {n} loops repeat nowhere round the piece"),
        2 => format!("{segments} segments and {n} loops repeat twice round the piece"),
        k => format!("{segments} segments and {n} loops repeat {k} times round the piece"),
    }
}
