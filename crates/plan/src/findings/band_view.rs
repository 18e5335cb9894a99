//! A loop band with the wall around it, and what would make it fit.

use files::remedy::Way;
use geometry::Portable;
use std::f64::consts::TAU;

use files::key::{self, BandPath, KeyPath, SectionPath};
use files::message::{Message, Value};
use files::say;
use files::workshop::Saw;
use geometry::{Angle, Length};
use piece::band::{LoopEdges, Loops, block_places};
use piece::piece::{Band, Piece, Section};

use super::{Survey, limits};
use crate::operation::Subject;

/// Heights that are looked at from a loop's middle to its top or bottom.
const STEPS: usize = 200;

/// A band in its section.
#[derive(Clone, Copy)]
pub(super) struct BandView<'a> {
    pub piece: &'a Piece,
    pub section: &'a Section,
    pub band: &'a Band,
    at: (usize, usize),
}

impl<'a> BandView<'a> {
    /// Every band of a piece.
    pub fn each(piece: &'a Piece) -> impl Iterator<Item = BandView<'a>> {
        piece
            .sections
            .iter()
            .enumerate()
            .flat_map(move |(s, section)| {
                section
                    .bands
                    .iter()
                    .enumerate()
                    .map(move |(b, band)| BandView {
                        piece,
                        section,
                        band,
                        at: (s, b),
                    })
            })
    }

    /// Bands whose place was settled as the maker wants it; where the reach was
    /// impossible, a trouble says so and another tilt stands in.
    pub fn each_placed(survey: &Survey<'a>) -> Vec<BandView<'a>> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let troubles = &survey.settled.troubles;
        Self::each(piece)
            .filter(|v| !troubles.iter().any(|t| t.path == v.path().reach()))
            .collect()
    }

    pub fn path(&self) -> BandPath {
        self.section_path().band(self.at.1)
    }

    pub fn section_path(&self) -> SectionPath {
        key::section(self.at.0)
    }

    pub fn subject(&self) -> Subject {
        Subject {
            section: Some(self.at.0),
            band: Some(self.at.1),
            ..Subject::default()
        }
    }

    /// `the loops of belly`, or `the loops of belly's band 2`.
    pub fn name(&self) -> Message {
        let section = Value::name(self.section.name.as_str());
        if self.section.bands.len() > 1 {
            say!(
                "the loops of {section}'s band {band}",
                section = section,
                band = self.at.1 + 1,
            )
        } else {
            say!("the loops of {section}", section = section)
        }
    }

    /// Another saw of the workshop for the loops.
    pub fn saw_way(&self, saw: &Saw) -> Way {
        let name = saw.name.as_str();
        let what = say!(
            "cut {loops} on the {saw}",
            loops = self.name(),
            saw = Value::name(name)
        );
        Way::new(what).set(self.path().saw(), name)
    }

    /// What the loops' heights are counted from, above the foot.
    pub fn base(&self) -> Length {
        self.section.base_of(self.band)
    }

    /// The finished outside at a height above the section's underside, mm.
    pub fn outer(&self, z: f64) -> Option<f64> {
        let lift = self.base().as_mm();
        self.piece.form.outside().radius(z + lift)
    }

    /// The finished inside at a height above the section's underside, mm.
    pub fn inner(&self, z: f64) -> Option<f64> {
        let lift = self.base().as_mm();
        self.piece.form.inside().radius(z + lift)
    }

    /// Edges on the finished outside.
    pub fn edges(&self, loops: &Loops) -> LoopEdges {
        loops.edges(&|z| self.outer(z))
    }

    /// From a loop's middle to the furthest that its cut reaches on the blank, along
    /// the axis: radius · tan(tilt) + thickness / (2 cos(tilt)).
    pub fn half_on_blank(&self, loops: &Loops) -> Length {
        self.section.blank_radius * loops.tilt.as_rad().tangent()
            + loops.thickness / (2.0 * loops.tilt.as_rad().cosine())
    }

    /// The key that the layer is written with, and its name.
    pub fn layer_key(&self) -> (KeyPath, &'static str) {
        if self.band.spacer_solved {
            (self.path().layer(), "layer")
        } else {
            (self.path().spacer(), "spacer")
        }
    }

    /// Half of a layer along the axis: thickness / (2 cos(tilt)), mm.
    pub fn half_along_axis(loops: &Loops) -> f64 {
        loops.thickness.as_mm() / (2.0 * loops.tilt.as_rad().cosine())
    }

    /// How near a loop's cuts come to the section's ends on the blank: below, above.
    /// Negative past an end.
    pub fn clear(&self, loops: &Loops) -> (Length, Length) {
        let half = self.half_on_blank(loops);
        (
            loops.height - half,
            self.section.stacked - loops.height - half,
        )
    }

    /// Are the cuts on the blank clear of both ends by what the workshop keeps off?
    pub fn fits(&self, loops: &Loops) -> bool {
        let (below, above) = self.clear(loops);
        let need = *self.piece.workshop.sled.keep_off - Length::mm(1e-6);
        !need.exceeds(below) && !need.exceeds(above)
    }

    /// Wood for positioning blocks at the three best places.
    pub fn block_room(&self, loops: &Loops) -> Length {
        block_places(
            loops,
            self.section.blank_radius,
            self.section.stacked,
            &self.band.sled,
            &self.piece.workshop.sled,
        )
        .least_room
    }

    /// Is that enough for a block and what keeps it off the end?
    pub fn blocks_fit(&self, loops: &Loops) -> bool {
        let sled = &self.piece.workshop.sled;
        let need = *sled.block_length + *sled.keep_off - Length::mm(1e-6);
        !need.exceeds(self.block_room(loops))
    }

    /// Another saw of the workshop that the blank with its blocks passes, high and wide
    /// enough.
    pub fn other_saw(&self) -> Option<&'a Saw> {
        let (sled, blocks) = (&self.band.sled, &self.band.blocks);
        let high = sled.blade_height.max(blocks.blade_height);
        let wide = sled.narrower_side().1;
        let saws = self.piece.workshop.saws.iter();
        saws.filter(|s| s.name != self.band.saw.name)
            .find(|s| !high.exceeds(s.cutting_height) && !wide.exceeds(s.room_beside))
    }

    /// Is any of a loop's edges outside of its own section on the finished outside?
    pub fn interrupted(&self, loops: &Loops) -> bool {
        let edges = self.edges(loops);
        let low = edges.bottom.is_some_and(|z| !(-limits::SKIN).exceeds(z));
        let high = edges
            .top
            .is_some_and(|z| !z.exceeds(self.section.stacked + limits::SKIN));
        !(low && high)
    }

    /// Between the two nearest loops, a quarter turn from where they cross: the upper
    /// one's lower edge less the lower one's upper edge, mm, and how far their azimuths
    /// are apart.
    pub fn gap(&self, loops: &Loops) -> Option<(f64, Angle)> {
        let apart = nearest(&loops.azimuths)?;
        let slope = loops.tilt.as_rad().tangent() * (apart.as_rad() / 2.0).sine();
        let half = Self::half_along_axis(loops);
        let h = loops.height.as_mm();
        let at = |on_axis, slope| Loops::height_on(&|z| self.outer(z), on_axis, slope);
        Some((at(h - half, slope)? - at(h + half, -slope)?, apart))
    }

    /// Are neighbours nowhere apart?
    pub fn merged(&self, loops: &Loops) -> bool {
        self.gap(loops).is_some_and(|(gap, _)| gap <= 0.0)
    }

    /// Do all loops part between their crossings, and is there wall to see it on?
    pub fn parted(&self, loops: &Loops) -> bool {
        self.gap(loops).is_some_and(|(gap, _)| gap > 0.0)
    }

    /// The largest of (z − c) R'(z) / R(z) along the loop's two edges, c being where the
    /// edge's plane meets the axis, and its height.
    ///
    /// On the wall a plane runs where z − c = tan(tilt) cos(azimuth) R(z). Seen along
    /// one azimuth the two sides grow alike where 1 = tan(tilt) cos(azimuth) R'(z).
    pub fn flare(&self, loops: &Loops) -> Option<(f64, f64)> {
        let lift = self.base().as_mm();
        let side = self.piece.form.outside();
        let slope = loops.tilt.as_rad().tangent();
        let half = Self::half_along_axis(loops);
        let h = loops.height.as_mm();
        let mut worst: Option<(f64, f64)> = None;
        for c in [h - half, h + half] {
            for way in [1.0, -1.0] {
                // To where the loop tops or bottoms out, or as far as there is a wall.
                let end = Loops::height_on(&|z| self.outer(z), c, way * slope);
                let wall = if way > 0.0 {
                    side.highest()
                } else {
                    side.lowest()
                };
                let end = end.unwrap_or(wall - lift);
                for k in 1..STEPS {
                    let z = c + (end - c) * k as f64 / STEPS as f64;
                    let (Some(r), Some(d)) = (side.radius(z + lift), side.slope(z + lift)) else {
                        continue;
                    };
                    let ratio = (z - c) * d / r.max(1e-9);
                    if worst.is_none_or(|w| ratio > w.0) {
                        worst = Some((ratio, z));
                    }
                }
            }
        }
        worst.filter(|w| w.0.is_finite())
    }

    /// Does the cut climb faster than the wall flares all along the loop?
    pub fn unbroken(&self, loops: &Loops) -> bool {
        self.flare(loops).is_none_or(|(ratio, _)| ratio < 1.0)
    }
}

/// The smallest angle between two loops.
fn nearest(azimuths: &[Angle]) -> Option<Angle> {
    let mut sorted: Vec<f64> = azimuths.iter().map(|a| a.wrapped().as_rad()).collect();
    sorted.sort_by(f64::total_cmp);
    let round = sorted.first()? + TAU;
    let next = sorted.iter().skip(1).copied().chain([round]);
    let gaps = sorted.iter().zip(next).map(|(a, b)| b - a);
    gaps.reduce(f64::min).map(Angle::rad)
}
