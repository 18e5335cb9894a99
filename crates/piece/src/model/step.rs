//! Cut and rejoin: the one step behind every loop, and behind a split that is
//! turned and glued again.

use geometry::{Motion, Plane};
use glam::DVec3;

use super::{LayerBody, PartCell};

/// What a step was for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StepKind {
    /// A loop of a band: the band's number in its section and the loop's, from 0.
    Loop {
        /// Band.
        band: u16,
        /// Loop, by azimuth, not by cutting order.
        number: u16,
    },
    /// A split, by its number in the section.
    Split {
        /// Split.
        number: u16,
    },
    /// A joint glued off its centre or out of square, as happens in the making: the
    /// ring above it, or 0 for the section's underside.
    Joint {
        /// Ring.
        ring: u16,
    },
}

/// Wood between two faces is sawn out; the part above moves; a layer may fill the room.
#[derive(Debug, Clone)]
pub struct CutAndRejoin {
    /// What it was for.
    pub kind: StepKind,
    /// Lower face of the cut, up towards the part that moves.
    pub lower: Plane,
    /// Upper face of the cut, before anything moves.
    pub upper: Plane,
    /// How the part above moves.
    pub motion: Motion,
    /// What is glued in.
    pub layer: Option<LayerBody>,
    /// The upper face after the move: the layer lies between `lower` and this.
    rejoined: Plane,
}

/// Where a point was before a step.
pub(super) enum Before {
    /// In the wood that the step started with.
    At(DVec3),
    /// In the layer that the step glued in.
    InLayer,
}

impl CutAndRejoin {
    /// A step from its two faces, the motion of the part above, and its layer.
    pub fn new(
        kind: StepKind,
        lower: Plane,
        upper: Plane,
        motion: Motion,
        layer: Option<LayerBody>,
    ) -> Self {
        Self {
            kind,
            lower,
            upper,
            rejoined: upper.moved(&motion),
            motion,
            layer,
        }
    }

    /// A loop: a slab of `removed` mm centred on `plane` makes room for a layer of
    /// `insert` mm (glue lines included); the part above moves along the plane's
    /// normal by what they differ.
    pub fn sawn_loop(
        kind: StepKind,
        plane: &Plane,
        removed: f64,
        insert: f64,
        layer: impl FnOnce(&Plane) -> LayerBody,
    ) -> Self {
        let lower = plane.shifted(-removed / 2.0);
        let body = layer(&lower);
        Self::new(
            kind,
            lower,
            plane.shifted(removed / 2.0),
            Motion::shift(plane.normal * (insert - removed)),
            Some(body),
        )
    }

    /// A level split at `height`, `kerf` mm lost, the part above turned by `turn` radians.
    pub fn split(number: u16, height: f64, kerf: f64, turn: f64) -> Self {
        let plane = Plane::tilted(height, 0.0, 0.0);
        Self::new(
            StepKind::Split { number },
            plane.shifted(-kerf / 2.0),
            plane.shifted(kerf / 2.0),
            Motion::round_axis(turn, DVec3::new(0.0, 0.0, -kerf)),
            None,
        )
    }

    /// How far the part above has risen on the axis, mm (negative: sunk).
    pub fn rise(&self) -> f64 {
        self.motion.shift.z
    }

    #[inline]
    pub(super) fn undo(&self, p: DVec3) -> Before {
        if self.lower.above(p) <= 0.0 {
            return Before::At(p);
        }
        if self.layer.is_some() && self.rejoined.above(p) < 0.0 {
            return Before::InLayer;
        }
        Before::At(self.motion.undo(p))
    }

    /// Saw the cells and put in the layer's.
    pub(super) fn cut(&self, step: u16, cells: Vec<PartCell>) -> Vec<PartCell> {
        let mut out = Vec::with_capacity(cells.len() * 2);
        for PartCell { cell, part, wood } in cells {
            let (below, rest) = cell.split(&self.lower);
            if !below.is_empty() {
                out.push(PartCell {
                    cell: below,
                    part,
                    wood,
                });
            }
            if rest.is_empty() {
                continue;
            }
            let (_, above) = rest.split(&self.upper);
            if !above.is_empty() {
                out.push(PartCell {
                    cell: above.moved(&self.motion),
                    part,
                    wood,
                });
            }
        }
        if let Some(layer) = &self.layer {
            // The two faces may not be parallel: start from more than enough.
            let room = (self.rejoined.offset - self.lower.offset).abs();
            let spare = 10.0 + room;
            for (cell, segment) in layer.cells(spare, room + 2.0 * spare) {
                let (_, above) = cell.split(&self.lower);
                let (cell, _) = above.split(&self.rejoined);
                if !cell.is_empty() {
                    out.push(PartCell {
                        cell,
                        part: super::Part::Layer {
                            step,
                            segment: segment as u16,
                        },
                        wood: layer.wood(segment),
                    });
                }
            }
        }
        out
    }
}
