//! Tables of rings and knots, for reading at a glance and for machines.

use files::message::{Language, Message, Said, Unsaid, Wording};
use files::say;
use geometry::Length;
use piece::band::CrossingRow;
use piece::piece::Piece;
use piece::symmetry::nearest_that_repeat;
use serde::Serialize;

use crate::figure::{Amount, Figure, Working, figures_said};
use crate::operation::Subject;
use crate::ring_group::RingGroup;
use crate::settings::WALL;
use crate::settings::band::BandAt;
use crate::settings::ring;
use crate::words;

/// One section's rings and knots.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct SectionTable<W: Wording = Unsaid> {
    /// Its name.
    pub name: String,
    /// Its underside above the foot, its heights, its turn.
    pub figures: Vec<Figure<W>>,
    /// Rings alike, from the bottom up by the first of each.
    pub rings: Vec<RingRow<W>>,
    /// Its knots.
    pub bands: Vec<BandTable<W>>,
}

/// Rings made alike.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct RingRow<W: Wording = Unsaid> {
    /// Their numbers through the whole piece, from 1.
    pub numbers: Vec<usize>,
    /// `segments`, `disc` or `panel`.
    pub make: &'static str,
    /// Woods of one repeat round the ring.
    pub pattern: String,
    /// Segments, mitre, edges, width, diameters, height.
    pub figures: Vec<Figure<W>>,
}

/// One loop band.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct BandTable<W: Wording = Unsaid> {
    /// What it is about.
    pub subject: Subject,
    /// `the knot of section belly`.
    pub name: W::Text,
    /// Cuts, sled, layers, edges, widths, symmetry, least heights.
    pub figures: Vec<Figure<W>>,
    /// Loops in cutting order.
    pub loops: Vec<LoopRow<W>>,
    /// Rows of crossings from the top down.
    pub rows: Vec<RowTable<W>>,
}

/// One loop.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct LoopRow<W: Wording = Unsaid> {
    /// Its number by azimuth, from 1.
    pub number: usize,
    /// Its layer's wood.
    pub wood: String,
    /// Index mark and positioning blocks.
    pub figures: Vec<Figure<W>>,
}

/// Crossings at one height.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct RowTable<W: Wording = Unsaid> {
    /// Heights of the row outside and inside.
    pub figures: Vec<Figure<W>>,
    /// Its crossings by azimuth.
    pub crossings: Vec<CrossingEntry<W>>,
}

/// Which loop runs whole over which.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct CrossingEntry<W: Wording = Unsaid> {
    /// Azimuth on the wall.
    pub azimuth: Figure<W>,
    /// The loop that was cut later and runs through, its number from 1.
    pub over: usize,
    /// The loop that it interrupts, its number from 1.
    pub under: usize,
}

impl SectionTable {
    /// A section's tables.
    pub fn of(piece: &Piece, number: usize) -> Option<SectionTable> {
        let section = piece.sections.get(number)?;
        let rows = RingGroup::of_section(piece, number);
        Some(SectionTable {
            name: words::plain(&section.name),
            figures: vec![
                Figure::note(
                    "bottom",
                    "underside above the foot",
                    Amount::Length(section.bottom),
                ),
                Figure::note(
                    "stacked",
                    "height as stacked",
                    Amount::Length(section.stacked),
                ),
                Figure::note(
                    "height",
                    "height when all is glued",
                    Amount::Length(section.height),
                ),
                Figure::note(
                    "turn",
                    "turned against the lowest section",
                    Amount::Angle(section.turn),
                ),
            ],
            rings: rows.iter().map(ring_row).collect(),
            bands: BandAt::of_section(piece, number)
                .into_iter()
                .map(band_table)
                .collect(),
        })
    }
}

fn ring_row(group: &RingGroup<'_>) -> RingRow {
    let sizes = group.sizes();
    let ring = group.ring;
    let loss = group.piece.workshop.allowances.flattening;
    let mut figures = Vec::new();
    let make = ring.construction.word();
    if group.segmented() {
        figures.push(Figure::note(
            "segments",
            "segments",
            Amount::Count(sizes.segments),
        ));
        figures.extend([
            ring::mitre(sizes),
            ring::long_edge(sizes),
            ring::short_edge(sizes),
            ring::board_width(sizes),
        ]);
        figures.extend(ring::outside(sizes));
        figures.extend(ring::inside(sizes));
    } else {
        figures.push(Figure::note(
            "outside_flats",
            "diameter",
            Amount::Length(sizes.flat_out * 2.0),
        ));
    }
    figures.push(ring::height(ring.height, ring.stock, *loss));
    RingRow {
        numbers: group.numbers(),
        make,
        pattern: group.pattern(),
        figures,
    }
}

fn band_table(at: BandAt<'_>) -> BandTable {
    let [kerf, glue_line] = at.shop_quantities();
    let mut figures = vec![
        Figure::note("loops", "loops", Amount::Count(at.count())),
        Figure::note(
            "height",
            "loops' middle above the section's underside",
            Amount::Length(at.band.loops.height),
        ),
        at.tilt(),
        at.reach(),
        kerf,
        glue_line,
        at.spacer(),
        at.slice(),
        at.removed(),
        at.layer(),
        at.first_cut(),
        at.second_cut(),
        at.blank_diameter(),
        at.centre_height(),
        at.travel(),
        at.blade_height(),
    ];
    figures.extend(at.sides());
    figures.extend(at.layer_blank().into_iter().map(|mut f| {
        f.key = format!("layer_{}", f.key).into();
        f.label = say!("layer: {what}", what = f.label);
        f
    }));
    figures.extend(at.edges(false));
    figures.extend(at.edges(true));
    figures.extend(at.widths());
    figures.extend(at.least_section());
    figures.extend(symmetry(&at));
    let loops = at.band.order.iter().map(|&k| {
        let mut figures = at.mark(k);
        figures.extend(at.blocks(k));
        LoopRow {
            number: k + 1,
            wood: at.wood(k),
            figures,
        }
    });
    BandTable {
        subject: at.subject(),
        name: at.name(),
        figures,
        loops: loops.collect(),
        rows: rows(&at),
    }
}

/// Repeats in one turn, and the segment counts that keep the loops' own.
fn symmetry(at: &BandAt<'_>) -> Vec<Figure> {
    let (loops, both) = at.band.repeats;
    let mut out = vec![
        Figure::note(
            "repeats_loops",
            "loops repeat in a turn",
            Amount::Count(loops),
        ),
        Figure::note(
            "repeats",
            "loops, joints and woods together repeat in a turn",
            Amount::Count(both),
        )
        .worked(Working::new(
            "greatest common divisor of the loops' repeats and each ring's",
            "counting",
        )),
    ];
    let segments = at.section.rings.iter().map(|r| r.sizes.segments).max();
    if let (Some(segments), true) = (segments, both < loops) {
        let (low, high) = nearest_that_repeat(segments, loops);
        let counts: Vec<Message> = [low, high]
            .into_iter()
            .flatten()
            .map(|n| say!("{n}", n = n))
            .collect();
        if !counts.is_empty() {
            out.push(Figure::note(
                "nearest_segments",
                "nearest segment counts that repeat with the loops",
                Amount::Text(Message::joined(counts, " or ")),
            ));
        }
    }
    out
}

fn rows(at: &BandAt<'_>) -> Vec<RowTable> {
    let band = at.band;
    let height =
        |key: &'static str, label: &'static str, row: Option<&CrossingRow>, raise: Length| {
            let amount = match row.and_then(|r| r.height) {
                Some(h) => Amount::Length(h + raise),
                None => Amount::Text("off the wall".into()),
            };
            Figure::note(key, label, amount).worked(
                Working::new(
                    "where height = loops' height + radius of the wall · tan(tilt) · cos(half the \
                 angle between the two climbs)",
                    WALL,
                )
                .with("loops' height", Amount::Length(band.loops.height))
                .with("tilt", Amount::Angle(band.loops.tilt)),
            )
        };
    let bottom = at.section.base_of(at.band);
    band.rows_outside
        .iter()
        .enumerate()
        .map(|(k, row)| {
            let inside = band.rows_inside.get(k);
            RowTable {
                figures: vec![
                    height("outside", "outside, above the foot", Some(row), bottom),
                    height(
                        "outside_in_section",
                        "outside, above the section's underside",
                        Some(row),
                        Length::ZERO,
                    ),
                    height("inside", "inside, above the foot", inside, bottom),
                    height(
                        "inside_in_section",
                        "inside, above the section's underside",
                        inside,
                        Length::ZERO,
                    ),
                ],
                crossings: row
                    .crossings
                    .iter()
                    .map(|c| CrossingEntry {
                        azimuth: Figure::note("azimuth", "azimuth", Amount::Angle(c.azimuth)),
                        over: c.over + 1,
                        under: c.under + 1,
                    })
                    .collect(),
            }
        })
        .collect()
}

/// A figure of a list by its key.
pub fn figure<'a, W: Wording>(figures: &'a [Figure<W>], key: &str) -> Option<&'a Figure<W>> {
    figures.iter().find(|f| f.key == key)
}

impl SectionTable {
    /// The tables in one reader's language.
    pub fn said(&self, language: Language) -> SectionTable<Said> {
        let ring = |row: &RingRow| RingRow {
            numbers: row.numbers.clone(),
            make: row.make,
            pattern: row.pattern.clone(),
            figures: figures_said(&row.figures, language),
        };
        SectionTable {
            name: self.name.clone(),
            figures: figures_said(&self.figures, language),
            rings: self.rings.iter().map(ring).collect(),
            bands: self.bands.iter().map(|b| b.said(language)).collect(),
        }
    }
}

impl BandTable {
    fn said(&self, language: Language) -> BandTable<Said> {
        let of_loop = |row: &LoopRow| LoopRow {
            number: row.number,
            wood: row.wood.clone(),
            figures: figures_said(&row.figures, language),
        };
        let crossing = |entry: &CrossingEntry| CrossingEntry {
            azimuth: entry.azimuth.said(language),
            over: entry.over,
            under: entry.under,
        };
        let row = |row: &RowTable| RowTable {
            figures: figures_said(&row.figures, language),
            crossings: row.crossings.iter().map(crossing).collect(),
        };
        BandTable {
            subject: self.subject,
            name: self.name.said(language),
            figures: figures_said(&self.figures, language),
            loops: self.loops.iter().map(of_loop).collect(),
            rows: self.rows.iter().map(row).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn four_loops_cross_in_three_rows_each_pair_twice() {
        let table = SectionTable::of(&trial::bowl(), 1).unwrap();
        let band = &table.bands[0];
        assert_eq!(band.rows.len(), 3);
        let crossings: usize = band.rows.iter().map(|r| r.crossings.len()).sum();
        // n (n - 1) crossings on a wall.
        assert_eq!(crossings, 12);
    }

    #[test]
    fn what_is_cut_later_runs_over() {
        let piece = trial::ordered();
        let table = SectionTable::of(&piece, 1).unwrap();
        let band = &piece.sections[1].bands[0];
        for crossing in table.bands[0].rows.iter().flat_map(|r| &r.crossings) {
            assert!(band.cut_at(crossing.over - 1) > band.cut_at(crossing.under - 1));
        }
        assert!(SectionTable::of(&piece, 7).is_none());
    }

    #[test]
    fn segment_counts_that_repeat_are_named_where_the_pattern_does_not() {
        let table = SectionTable::of(&trial::eight_and_three(), 1).unwrap();
        let figures = &table.bands[0].figures;
        let shown = |key: &str| {
            figure(figures, key)
                .unwrap()
                .amount
                .show(files::units::Unit::Mm)
        };
        assert_eq!(shown("repeats"), "1");
        assert_eq!(shown("nearest_segments"), "6 or 9");
    }
}
