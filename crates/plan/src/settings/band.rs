//! A loop band's figures: cuts, sled, layer's blank.

use files::message::{Message, Value};
use files::say;
use geometry::Length;
use piece::piece::{Band, Piece, Section};

use super::{GIVEN, SUM, TWO_CUTS, WALL};
use crate::figure::{Amount, Figure, Working};
use crate::operation::Subject;

/// A band of a piece.
#[derive(Debug, Clone, Copy)]
pub struct BandAt<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// Its section's number, from 0.
    pub section_number: usize,
    /// Its own number in the section, from 0.
    pub band_number: usize,
    /// Its section.
    pub section: &'a Section,
    /// The band.
    pub band: &'a Band,
}

impl<'a> BandAt<'a> {
    /// Every band of a section.
    pub fn of_section(piece: &'a Piece, section_number: usize) -> Vec<BandAt<'a>> {
        let Some(section) = piece.sections.get(section_number) else {
            return Vec::new();
        };
        let at = |(band_number, band)| BandAt {
            piece,
            section_number,
            band_number,
            section,
            band,
        };
        section.bands.iter().enumerate().map(at).collect()
    }

    /// What an operation on the whole band is about.
    pub fn subject(&self) -> Subject {
        Subject {
            section: Some(self.section_number),
            band: Some(self.band_number),
            ..Subject::default()
        }
    }

    /// The band in words: `the knot of section "belly"`.
    pub fn name(&self) -> Message {
        let section = Value::name(crate::words::plain(&self.section.name));
        if self.section.bands.len() == 1 {
            say!("the knot of section {section}", section = section)
        } else {
            say!(
                "knot {number} of section {section}",
                number = self.band_number + 1,
                section = section,
            )
        }
    }

    /// Loops in it.
    pub fn count(&self) -> usize {
        self.band.loops.azimuths.len()
    }

    /// A layer's wood by loop number, from 0.
    pub fn wood(&self, number: usize) -> String {
        let id = self.band.woods.get(number);
        id.map_or(String::new(), |id| {
            crate::words::plain(self.piece.wood_name(*id))
        })
    }

    pub(super) fn tilt_in(&self, working: Working) -> Working {
        working.with("tilt", Amount::Angle(self.band.cuts.tilt))
    }

    /// Tilt of the cuts.
    pub fn tilt(&self) -> Figure {
        let working = if self.band.tilt_solved {
            let reach = self.band.outside.reach().unwrap_or(Length::ZERO);
            Working::new(
                "the tilt at which lowest and highest edge on the finished outside wall lie a \
                 reach apart, found by halving",
                WALL,
            )
            .with("reach", Amount::Length(reach))
            .with(
                "height of the loops' middle",
                Amount::Length(self.band.loops.height),
            )
            .with("removed", Amount::Fine(self.band.cuts.removed()))
        } else {
            Working::new("as given, or 20° where nothing is given", GIVEN)
        };
        Figure::setting(
            "tilt",
            "tilt from a cut straight across",
            Amount::Angle(self.band.cuts.tilt),
            working,
        )
    }

    /// Kerf and glue line: the two quantities of the shop that the cuts rest on.
    pub fn shop_quantities(&self) -> [Figure; 2] {
        [
            Figure::note("kerf", "kerf", Amount::Fine(self.band.saw.kerf)),
            Figure::note(
                "glue_line",
                "one glue line",
                Amount::Fine(self.band.glue_line),
            ),
        ]
    }

    /// What stands under the faceplate for the second cut.
    pub fn spacer(&self) -> Figure {
        let b = self.band;
        let working = if b.spacer_solved {
            self.tilt_in(
                Working::new(
                    "spacer = (layer + 2 · glue line − kerf) / cos(tilt)",
                    TWO_CUTS,
                )
                .with("layer", Amount::Fine(b.layer))
                .with("glue line", Amount::Fine(b.glue_line))
                .with("kerf", Amount::Fine(b.saw.kerf)),
            )
        } else {
            Working::new("as given", GIVEN)
        };
        self.cut_setting(
            "spacer",
            "spacer under the faceplate",
            Amount::Fine(b.cuts.spacer),
            working,
        )
    }

    /// The spacer as what other figures are worked out from.
    pub(super) fn spacer_in(&self, working: Working) -> Working {
        let spacer = self.of_two_cuts(Amount::Fine(self.band.cuts.spacer));
        working.with("spacer", spacer)
    }

    /// What only two cuts with a slice between them have, or why there is none.
    fn of_two_cuts(&self, amount: Amount) -> Amount {
        if self.band.cuts.run_together() {
            Amount::Text("none: the two cuts run into each other".into())
        } else {
            amount
        }
    }

    /// As [`Figure::setting`]; where there is nothing to set, a note of why.
    fn cut_setting(
        &self,
        key: &'static str,
        label: &'static str,
        amount: Amount,
        working: Working,
    ) -> Figure {
        Figure {
            cut_to: !self.band.cuts.run_together(),
            ..Figure::setting(key, label, self.of_two_cuts(amount), working)
        }
    }

    fn of_cuts(&self, formula: &'static str) -> Working {
        let working = self.spacer_in(Working::new(formula, TWO_CUTS));
        self.tilt_in(working.with("kerf", Amount::Fine(self.band.saw.kerf)))
    }

    /// Thickness of the slice that comes out.
    pub fn slice(&self) -> Figure {
        self.cut_setting(
            "slice",
            "slice that comes out",
            Amount::Fine(self.band.cuts.slice()),
            self.of_cuts("slice = spacer · cos(tilt) − kerf"),
        )
    }

    /// Thickness of all wood removed.
    pub fn removed(&self) -> Figure {
        self.cut_setting(
            "removed",
            "wood removed, slice and two kerfs",
            Amount::Fine(self.band.cuts.removed()),
            self.of_cuts("removed = spacer · cos(tilt) + kerf = slice + 2 · kerf"),
        )
    }

    /// Thickness that the layer is sanded to.
    pub fn layer(&self) -> Figure {
        let b = self.band;
        Figure::setting(
            "layer",
            "sand the layer to",
            Amount::Fine(b.layer),
            Working::new("layer = removed − 2 · glue line", TWO_CUTS)
                .with("removed", Amount::Fine(b.cuts.removed()))
                .with("glue line", Amount::Fine(b.glue_line)),
        )
    }

    fn stands_off(&self, sign: &'static str) -> Working {
        let working = Working::new(
            say!(
                "distance = waste block + height of the loops' middle {sign} spacer / 2",
                sign = sign,
            ),
            SUM,
        )
        .with(
            "waste block",
            Amount::Length(*self.piece.workshop.sled.waste_block),
        )
        .with(
            "height of the loops' middle",
            Amount::Length(self.band.loops.height),
        );
        self.spacer_in(working)
    }

    /// Faceplate's face to the middle of the first cut, along the axis.
    pub fn first_cut(&self) -> Figure {
        self.cut_setting(
            "first_cut",
            "faceplate's face to the first cut, on the axis, no spacer",
            Amount::Length(self.band.sled.first_cut),
            self.stands_off("+"),
        )
    }

    /// The same to the second.
    pub fn second_cut(&self) -> Figure {
        self.cut_setting(
            "second_cut",
            "faceplate's face to the second cut, on the axis, with spacer",
            Amount::Length(self.band.sled.second_cut),
            self.stands_off("−"),
        )
    }
}

/// One loop of a band.
#[derive(Debug, Clone, Copy)]
pub struct LoopAt<'a> {
    /// The band.
    pub at: BandAt<'a>,
    /// The loop's number by azimuth, from 0.
    pub number: usize,
}

impl LoopAt<'_> {
    /// What an operation on the loop is about.
    pub fn subject(&self) -> Subject {
        Subject {
            loop_number: Some(self.number),
            ..self.at.subject()
        }
    }

    /// `loop 3 of the knot of section "belly"`.
    pub fn name(&self) -> Message {
        say!(
            "loop {number} of {band}",
            number = self.number + 1,
            band = self.at.name(),
        )
    }

    /// Its place in the cutting order, from 0.
    pub fn turn(&self) -> usize {
        self.at.band.cut_at(self.number)
    }
}
