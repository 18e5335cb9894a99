//! The sliding jig: how it is set, and what it asks of the saw.

use geometry::Portable;
use geometry::{Angle, Length};

use crate::band::cuts::TwoCuts;
use files::workshop::{Saw, Sled};

/// What the sled is set to for one band. All loops of the band share it.
///
/// The blank's axis lies level on the sled, `centre_height` over the table and at
/// `tilt` from square to the line of travel; the blade stands upright. The blank
/// is clamped by its faceplate; the spacer goes under the faceplate.
#[derive(Debug, Clone, Copy)]
pub struct SledSetting {
    /// Angle of the axis from square to the line of travel.
    pub tilt: Angle,
    /// Axis over the saw's table: sled base, clearance and the blank's radius.
    pub centre_height: Length,
    /// Length of the cut through the blank, 2 R / cos(tilt).
    pub cut_length: Length,
    /// Travel of the sled: the cut and the run-out at either end.
    pub travel: Length,
    /// Height of blade needed under the guide: axis height and the blank's radius.
    pub blade_height: Length,
    /// Faceplate's face to the blade along the axis at the first cut, no spacer.
    pub first_cut: Length,
    /// The same in the blank at the second cut, where the spacer has pushed it out.
    pub second_cut: Length,
    /// Widest that the blank stands out from the blade on the free end's side.
    pub free_side: Length,
    /// Widest on the faceplate's side, faceplate and waste block included.
    pub faceplate_side: Length,
}

/// What stands on the sled.
#[derive(Debug, Clone, Copy)]
pub struct SledShop {
    /// Radius that really passes the blade: flats of a trued cylinder, corners of a polygon.
    pub blank_radius: Length,
    /// The section's height as it is sawn.
    pub section_height: Length,
    /// Height of the loops' middle above the section's underside.
    pub loop_height: Length,
}

impl SledSetting {
    /// The setting for a blank, two cuts, and a sled.
    pub fn new(blank: SledShop, cuts: &TwoCuts, sled: &Sled) -> Self {
        let (st, ct) = cuts.tilt.as_rad().sine_cosine();
        let r = blank.blank_radius;
        let centre_height = *sled.base + *sled.clearance + r;
        let cut_length = r * (2.0 / ct);
        let half = cuts.spacer / 2.0;
        // The corner of the blank's end furthest from the blade, square to the cut.
        let free = (blank.section_height - blank.loop_height + half) * ct + r * st;
        let held = (*sled.waste_block + blank.loop_height + half) * ct + r * st;
        SledSetting {
            tilt: cuts.tilt,
            centre_height,
            cut_length,
            travel: cut_length + *sled.run_out * 2.0,
            blade_height: centre_height + r,
            first_cut: *sled.waste_block + blank.loop_height + half,
            second_cut: *sled.waste_block + blank.loop_height - half,
            free_side: free,
            faceplate_side: held,
        }
    }

    /// The side that faces the saw's column, the narrower one, and how wide it is.
    pub fn narrower_side(&self) -> (bool, Length) {
        if self.free_side.exceeds(self.faceplate_side) {
            (false, self.faceplate_side)
        } else {
            (true, self.free_side)
        }
    }

    /// Blade height that the saw lacks, if any.
    pub fn height_short(&self, saw: &Saw) -> Option<Length> {
        let short = self.blade_height - saw.cutting_height;
        short.exceeds(Length::ZERO).then_some(short)
    }

    /// Room beside the blade that the saw lacks with the narrower side to its column.
    pub fn room_short(&self, saw: &Saw) -> Option<Length> {
        let short = self.narrower_side().1 - saw.room_beside;
        short.exceeds(Length::ZERO).then_some(short)
    }
}
