//! A loop band's figures: cuts, sled, layer's blank.

use geometry::Length;
use piece::design::{BlankShape, LayerMake};
use piece::piece::{Band, Piece, Section};

use super::{GIVEN, PLANE, POLYGON, PRACTICE, SUM, TWO_CUTS, WALL};
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
    pub fn name(&self) -> String {
        let section = crate::words::plain(&self.section.name);
        if self.section.bands.len() == 1 {
            format!("the knot of section {section}")
        } else {
            format!("knot {} of section {section}", self.band_number + 1)
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

    fn tilt_in(&self, working: Working) -> Working {
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
        Figure::setting(
            "spacer",
            "spacer under the faceplate",
            Amount::Fine(b.cuts.spacer),
            working,
        )
    }

    fn of_cuts(&self, formula: &str) -> Working {
        self.tilt_in(
            Working::new(formula, TWO_CUTS)
                .with("spacer", Amount::Fine(self.band.cuts.spacer))
                .with("kerf", Amount::Fine(self.band.saw.kerf)),
        )
    }

    /// Thickness of the slice that comes out.
    pub fn slice(&self) -> Figure {
        Figure::setting(
            "slice",
            "slice that comes out",
            Amount::Fine(self.band.cuts.slice()),
            self.of_cuts("slice = spacer · cos(tilt) − kerf"),
        )
    }

    /// Thickness of all wood removed.
    pub fn removed(&self) -> Figure {
        Figure::setting(
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

    fn from_face(&self, sign: &str) -> Working {
        Working::new(
            format!("distance = waste block + height of the loops' middle {sign} spacer / 2"),
            SUM,
        )
        .with(
            "waste block",
            Amount::Length(self.piece.workshop.sled.waste_block),
        )
        .with(
            "height of the loops' middle",
            Amount::Length(self.band.loops.height),
        )
        .with("spacer", Amount::Fine(self.band.cuts.spacer))
    }

    /// Faceplate's face to the middle of the first cut, along the axis.
    pub fn first_cut(&self) -> Figure {
        Figure::setting(
            "first_cut",
            "faceplate's face to the first cut, on the axis, no spacer",
            Amount::Length(self.band.sled.first_cut),
            self.from_face("+"),
        )
    }

    /// The same to the second.
    pub fn second_cut(&self) -> Figure {
        Figure::setting(
            "second_cut",
            "faceplate's face to the second cut, on the axis, with spacer",
            Amount::Length(self.band.sled.second_cut),
            self.from_face("−"),
        )
    }

    /// The radius that passes the blade, and what it is the radius of.
    pub fn blank_diameter(&self) -> Figure {
        let (label, formula) = match self.section.blank {
            BlankShape::Cylinder => (
                "diameter at the blade, trued",
                "2 · largest flat radius outside among the section's rings",
            ),
            BlankShape::Polygon => (
                "diameter at the blade, over corners",
                "2 · largest corner radius outside among the section's rings",
            ),
        };
        let r = self.section.blank_radius;
        Figure::note("blank_diameter", label, Amount::Length(r * 2.0))
            .worked(Working::new(formula, POLYGON).with("radius", Amount::Length(r)))
    }

    /// Height of the axis over the saw's table.
    pub fn centre_height(&self) -> Figure {
        let sled = &self.piece.workshop.sled;
        Figure::setting(
            "centre_height",
            "axis over the saw's table",
            Amount::Length(self.band.sled.centre_height),
            Working::new(
                "height = sled's base + clearance + radius at the blade",
                SUM,
            )
            .with("sled's base", Amount::Length(sled.base))
            .with("clearance", Amount::Length(sled.clearance))
            .with(
                "radius at the blade",
                Amount::Length(self.section.blank_radius),
            ),
        )
    }

    /// Travel of the sled.
    pub fn travel(&self) -> Figure {
        Figure::setting(
            "travel",
            "sled's travel",
            Amount::Length(self.band.sled.travel),
            self.tilt_in(
                Working::new(
                    "travel = 2 · radius at the blade / cos(tilt) + 2 · run-out",
                    PLANE,
                )
                .with(
                    "radius at the blade",
                    Amount::Length(self.section.blank_radius),
                )
                .with("run-out", Amount::Length(self.piece.workshop.sled.run_out)),
            ),
        )
    }

    /// Height of blade that the work needs under the guide, blocks included.
    pub fn blade_height(&self) -> Figure {
        let need = self
            .band
            .sled
            .blade_height
            .max(self.band.blocks.blade_height);
        Figure::setting(
            "blade_height",
            "blade needed under the guide",
            Amount::Length(need),
            Working::new(
                "height = axis over the table + radius at the blade, or the top of the \
                 highest positioning block",
                SUM,
            )
            .with(
                "axis over the table",
                Amount::Length(self.band.sled.centre_height),
            )
            .with(
                "radius at the blade",
                Amount::Length(self.section.blank_radius),
            )
            .with(
                "top of the highest block",
                Amount::Length(self.band.blocks.blade_height),
            ),
        )
    }

    /// Wood on each side of the blade, and what the saw has.
    pub fn sides(&self) -> Vec<Figure> {
        let sled = &self.band.sled;
        let saw = &self.band.saw;
        let working = |formula: &str| {
            self.tilt_in(
                Working::new(formula, PLANE)
                    .with("spacer", Amount::Fine(self.band.cuts.spacer))
                    .with(
                        "radius at the blade",
                        Amount::Length(self.section.blank_radius),
                    ),
            )
        };
        vec![
            Figure::note(
                "free_side",
                "work on the free end's side of the blade",
                Amount::Length(sled.free_side),
            )
            .worked(working(
                "(section's height − loops' height + spacer / 2) · cos(tilt) + radius · sin(tilt)",
            )),
            Figure::note(
                "faceplate_side",
                "work on the faceplate's side of the blade",
                Amount::Length(sled.faceplate_side),
            )
            .worked(working(
                "(waste block + loops' height + spacer / 2) · cos(tilt) + radius · sin(tilt)",
            )),
            Figure::note(
                "saw_height",
                format!("{} cuts as high as", crate::words::plain(&saw.name)),
                Amount::Length(saw.cutting_height),
            ),
            Figure::note(
                "saw_room",
                format!(
                    "{} has room beside the blade",
                    crate::words::plain(&saw.name)
                ),
                Amount::Length(saw.room_beside),
            ),
        ]
    }

    /// The oval that a layer fills, and the blank that it is made from.
    pub fn layer_blank(&self) -> Vec<Figure> {
        let blank = &self.band.blank;
        let oval = |formula: &str| {
            self.tilt_in(
                Working::new(formula, PLANE)
                    .with("radius", Amount::Length(self.section.blank_radius))
                    .with("removed", Amount::Fine(self.band.loops.thickness)),
            )
        };
        let edged = |size: Length| {
            Working::new("oval + 2 · edge", SUM)
                .with("oval", Amount::Length(size))
                .with("edge", Amount::Length(blank.edge))
        };
        let mut out = vec![
            Figure::note("oval_length", "oval, length", Amount::Length(blank.length)).worked(oval(
                "length = 2 · radius / cos(tilt) + removed · tan(tilt)",
            )),
            Figure::note("oval_width", "oval, width", Amount::Length(blank.width))
                .worked(oval("width = 2 · radius")),
        ];
        match blank.hole {
            Some(hole) => out.push(
                Figure::note(
                    "largest_hole",
                    "largest round hole, before allowance",
                    Amount::Length(hole * 2.0),
                )
                .worked(Working::new(
                    "2 · nearest that either face comes to the axis on the finished inner wall",
                    WALL,
                )),
            ),
            None => out.push(Figure::note(
                "largest_hole",
                "largest round hole",
                Amount::Text("none: the loop meets the floor".into()),
            )),
        }
        match &blank.ring {
            None => {
                out.push(Figure::setting(
                    "blank_length",
                    "board, length",
                    Amount::Length(blank.length + blank.edge * 2.0),
                    edged(blank.length),
                ));
                out.push(Figure::setting(
                    "blank_width",
                    "board, width",
                    Amount::Length(blank.width + blank.edge * 2.0),
                    edged(blank.width),
                ));
            }
            Some(ring) => {
                out.push(Figure::note(
                    "segments",
                    "segments of the layer's ring",
                    Amount::Count(ring.segments),
                ));
                out.extend([
                    super::ring::mitre(ring),
                    super::ring::long_edge(ring),
                    super::ring::short_edge(ring),
                    super::ring::board_width(ring),
                ]);
                if blank.make == LayerMake::LongRing {
                    out.push(Figure::setting(
                        "lengthened",
                        "two opposite segments, longer by",
                        Amount::Length(blank.lengthened),
                        Working::new("longer by = oval's length − oval's width", PLANE)
                            .with("oval's length", Amount::Length(blank.length))
                            .with("oval's width", Amount::Length(blank.width)),
                    ));
                }
                let saw = super::ring::segment_saw(&self.piece.workshop);
                if let Some(strip) = blank.strip_length(saw.kerf) {
                    out.push(Figure::setting(
                        "layer_strip",
                        "strip for one layer",
                        Amount::Length(strip),
                        Working::new(
                            "strip = segments · pitch + kerf / cos(mitre) + (long edge − short \
                             edge) / 2 + 2 · longer by",
                            POLYGON,
                        )
                        .with("segments", Amount::Count(ring.segments))
                        .with("long edge", Amount::Length(ring.long_edge()))
                        .with("short edge", Amount::Length(ring.short_edge()))
                        .with("mitre", Amount::Angle(ring.mitre()))
                        .with("kerf", Amount::Fine(saw.kerf))
                        .with("longer by", Amount::Length(blank.lengthened)),
                    ));
                }
                out.extend(super::ring::outside(ring));
                out.extend(super::ring::inside(ring));
            }
        }
        out
    }

    /// Thickness that a layer's blank is planed to before it is fitted.
    pub fn rough_layer(&self) -> Figure {
        let loss = self.piece.workshop.allowances.flattening;
        Figure::setting(
            "rough_layer",
            "layer's blank, planed to",
            Amount::Fine(rough_layer(self)),
            Working::new("thickness = layer + 2 · flattening loss", PRACTICE)
                .with("layer", Amount::Fine(self.band.layer))
                .with("flattening loss", Amount::Fine(loss)),
        )
    }
}

/// A layer with the wood that is sanded off when it is fitted.
pub(crate) fn rough_layer(at: &BandAt<'_>) -> Length {
    (at.band.layer + at.piece.workshop.allowances.flattening * 2.0).max(Length::ZERO)
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
    pub fn name(&self) -> String {
        format!("loop {} of {}", self.number + 1, self.at.name())
    }

    /// Its place in the cutting order, from 0.
    pub fn turn(&self) -> usize {
        self.at.band.cut_at(self.number)
    }
}
