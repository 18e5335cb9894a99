//! The errors of one making.

use geometry::Portable;
use std::f64::consts::TAU;

use glam::DVec2;
use piece::course::Course;
use piece::piece::{Piece, Section};

use super::cause::{Cause, Spread};

/// Every error of one making, mm and radians.
#[derive(Debug, Clone, Default)]
pub struct Errors {
    /// By section, from the bottom.
    pub sections: Vec<SectionErrors>,
    /// How far the hollow's axis is off the outside's: they are turned in two mountings.
    pub inside: DVec2,
}

/// Errors of one section.
#[derive(Debug, Clone, Default)]
pub struct SectionErrors {
    /// By ring, from the bottom.
    pub rings: Vec<RingErrors>,
    /// By band, then by loop number.
    pub bands: Vec<Vec<LoopErrors>>,
    /// By split.
    pub splits: Vec<SplitErrors>,
    /// How far the section stands off the axis that the piece is turned on.
    pub shift: DVec2,
    /// Difference of thickness of the section's underside, side to side.
    pub wedge: DVec2,
}

/// Errors of one ring.
#[derive(Debug, Clone, Default)]
pub struct RingErrors {
    /// By segment: its two mitres and its length.
    pub segments: Vec<SegmentErrors>,
    /// Off the centre.
    pub shift: DVec2,
    /// Difference of thickness, side to side, towards the thin side.
    pub wedge: DVec2,
}

/// Errors of one segment.
#[derive(Debug, Clone, Copy, Default)]
pub struct SegmentErrors {
    /// Both mitres, first and last anticlockwise, too large where positive.
    pub mitres: [f64; 2],
    /// Its length.
    pub length: f64,
}

/// Errors of one loop.
#[derive(Debug, Clone, Copy, Default)]
pub struct LoopErrors {
    /// Index.
    pub index: f64,
    /// Tilt.
    pub tilt: f64,
    /// Place along the axis.
    pub height: f64,
    /// Slice's thickness, side to side: along the climb and level.
    pub slice_wedge: DVec2,
    /// Layer and glue lines against their room.
    pub misfit: f64,
    /// Layer's thickness, side to side.
    pub layer_wedge: DVec2,
    /// Slip along the layer.
    pub slip: DVec2,
}

/// Errors of a split.
#[derive(Debug, Clone, Copy, Default)]
pub struct SplitErrors {
    /// Its turn.
    pub index: f64,
    /// Slip of the part above.
    pub slip: DVec2,
}

impl Errors {
    /// No error anywhere.
    pub fn none(piece: &Piece) -> Self {
        let normals = vec![0.0; count(piece)];
        Self::drawn(
            piece,
            &Spread::of(&files::workshop::Exactness::none()),
            &normals,
        )
    }

    /// The errors that [`count`] normal deviates stand for. Each cause keeps its own
    /// deviates, whatever the others' spread.
    pub fn drawn(piece: &Piece, spread: &Spread, normals: &[f64]) -> Self {
        let mut draw = Draw {
            normals: normals.iter(),
            spread,
        };
        Errors {
            sections: piece.sections.iter().map(|s| draw.section(s)).collect(),
            inside: draw.both(Cause::RunOut),
        }
    }
}

/// How many normal deviates a making of a piece takes.
pub fn count(piece: &Piece) -> usize {
    let ring = |r: &Course| 5 + 3 * segments(r);
    let section = |s: &Section| {
        let loops: usize = s.bands.iter().map(|b| b.loops.azimuths.len()).sum();
        4 + s.rings.iter().map(ring).sum::<usize>() + 12 * loops + 3 * s.splits.len()
    };
    2 + piece.sections.iter().map(section).sum::<usize>()
}

/// Segments whose mitres and lengths add up as the ring is closed.
fn segments(ring: &Course) -> usize {
    ring.closing_joints()
}

struct Draw<'a> {
    normals: std::slice::Iter<'a, f64>,
    spread: &'a Spread,
}

impl Draw<'_> {
    fn one(&mut self, cause: Cause) -> f64 {
        self.normals.next().copied().unwrap_or(0.0) * self.spread.deviation(cause)
    }

    fn both(&mut self, cause: Cause) -> DVec2 {
        DVec2::new(self.one(cause), self.one(cause))
    }

    fn section(&mut self, section: &Section) -> SectionErrors {
        SectionErrors {
            rings: section.rings.iter().map(|r| self.ring(r)).collect(),
            bands: section
                .bands
                .iter()
                .map(|b| self.band(b.loops.azimuths.len()))
                .collect(),
            splits: section
                .splits
                .iter()
                .map(|_| SplitErrors {
                    index: self.one(Cause::Index),
                    slip: self.both(Cause::Slip),
                })
                .collect(),
            shift: self.both(Cause::RunOut),
            wedge: self.both(Cause::RingFlatness),
        }
    }

    fn ring(&mut self, ring: &Course) -> RingErrors {
        let setting = self.one(Cause::Mitre);
        RingErrors {
            segments: (0..segments(ring))
                .map(|_| SegmentErrors {
                    mitres: [
                        setting + self.one(Cause::MitreScatter),
                        setting + self.one(Cause::MitreScatter),
                    ],
                    length: self.one(Cause::SegmentLength),
                })
                .collect(),
            shift: self.both(Cause::RingCentring),
            wedge: self.both(Cause::RingFlatness),
        }
    }

    fn band(&mut self, loops: usize) -> Vec<LoopErrors> {
        let mut band: Vec<LoopErrors> = (0..loops)
            .map(|_| LoopErrors {
                index: self.one(Cause::Index),
                tilt: self.one(Cause::Tilt),
                height: self.one(Cause::Height),
                slice_wedge: self.both(Cause::SliceWedge),
                misfit: self.one(Cause::Layer)
                    + self.one(Cause::GlueLine)
                    + self.one(Cause::GlueLine),
                layer_wedge: self.both(Cause::LayerWedge),
                slip: self.both(Cause::Slip),
            })
            .collect();
        if self.spread.sled_stays_set
            && let Some(first) = band.first().copied()
        {
            for each in &mut band {
                (each.tilt, each.height) = (first.tilt, first.height);
            }
        }
        band
    }
}

impl RingErrors {
    /// How far the flats move out because segments are too long on the mean:
    /// length / (2 tan(180°/n)).
    pub fn flats_out(&self) -> f64 {
        let n = self.segments.len();
        if n == 0 {
            return 0.0;
        }
        let mean = self.segments.iter().map(|s| s.length).sum::<f64>() / n as f64;
        mean / (2.0 * (TAU / (2 * n) as f64).tangent())
    }
}
