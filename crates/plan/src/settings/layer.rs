//! The blank that a band's layers are made from.

use files::design::LayerMake;
use geometry::Length;
use piece::ring::RingSizes;

use super::band::BandAt;
use super::{PLANE, POLYGON, PRACTICE, SUM, WALL};
use crate::figure::{Amount, Figure, Working};

impl BandAt<'_> {
    /// The oval that a layer fills, and the blank that it is made from.
    pub fn layer_blank(&self) -> Vec<Figure> {
        let blank = &self.band.blank;
        let oval = |formula: &'static str| {
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
            Some(ring) => out.extend(self.ring_blank(ring)),
        }
        out
    }

    /// The ring that a layer is made as.
    fn ring_blank(&self, ring: &RingSizes) -> Vec<Figure> {
        let blank = &self.band.blank;
        let mut out = Vec::new();
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
        let saw = self.piece.workshop.segment_saw();
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
                .with("flattening loss", Amount::Fine(*loss)),
        )
    }
}

/// A layer with the wood that is sanded off when it is fitted.
pub(crate) fn rough_layer(at: &BandAt<'_>) -> Length {
    (at.band.layer + *at.piece.workshop.allowances.flattening * 2.0).max(Length::ZERO)
}
