//! What the sled is set to for a band.

use files::design::BlankShape;
use files::message::Value;
use files::say;

use super::band::BandAt;
use super::{PLANE, POLYGON, SUM};
use crate::figure::{Amount, Figure, Working};

impl BandAt<'_> {
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
            .with("sled's base", Amount::Length(*sled.base))
            .with("clearance", Amount::Length(*sled.clearance))
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
                .with("run-out", Amount::Length(*self.piece.workshop.sled.run_out)),
            ),
        )
    }

    /// Height of blade that the work needs under the guide, blocks included.
    pub fn blade_height(&self) -> Figure {
        let (blank, block) = (self.band.sled.blade_height, self.band.blocks.blade_height);
        let governs = if block.exceeds(blank) {
            "the highest positioning block"
        } else {
            "the blank"
        };
        Figure::setting(
            "blade_height",
            "blade needed under the guide",
            Amount::Length(blank.max(block)),
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
            .with("top of the highest block", Amount::Length(block))
            .with("governed by", Amount::Text(governs.into())),
        )
    }

    /// Wood on each side of the blade, and what the saw has.
    pub fn sides(&self) -> Vec<Figure> {
        let sled = &self.band.sled;
        let saw = &self.band.saw;
        let name = || Value::name(crate::words::plain(&saw.name));
        let working = |formula: &'static str| {
            let working = self.spacer_in(Working::new(formula, PLANE));
            self.tilt_in(working.with(
                "radius at the blade",
                Amount::Length(self.section.blank_radius),
            ))
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
                say!("{saw} cuts as high as", saw = name()),
                Amount::Length(saw.cutting_height),
            ),
            Figure::note(
                "saw_room",
                say!("{saw} has room beside the blade", saw = name()),
                Amount::Length(saw.room_beside),
            ),
        ]
    }
}
