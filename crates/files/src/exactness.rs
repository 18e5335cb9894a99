//! How exact the maker is: what each setting may be off by.

use geometry::{Angle, Length};

/// What 19 of 20 settings stay within, either way: how exactly a maker works.
///
/// The defaults are common practice for careful work with a rule, a calliper and an
/// angle gauge; no publication is claimed for any of them.
#[derive(Debug, Clone, Copy)]
pub struct Exactness {
    /// Setting of the saw for a ring's mitres; every mitre of the ring shares it.
    pub mitre: Angle,
    /// One mitre against the next at the same setting.
    pub mitre_scatter: Angle,
    /// Length of one segment against the next at the same stop.
    pub segment_length: Length,
    /// How far a ring is glued off the centre.
    pub ring_centring: Length,
    /// Difference of a ring's thickness from one side to the other.
    pub ring_flatness: Length,
    /// Index mark, seen from the axis.
    pub index: Angle,
    /// Tilt of the sled.
    pub tilt: Angle,
    /// Place of the first cut along the axis.
    pub height: Length,
    /// Difference of a sawn slice's thickness from one side to the other: the second
    /// cut is not parallel to the first.
    pub slice_wedge: Length,
    /// Layer's thickness against the room that was measured for it.
    pub layer: Length,
    /// Difference of a layer's thickness from one side to the other.
    pub layer_wedge: Length,
    /// Thickness of one glue line.
    pub glue_line: Length,
    /// How far the part above a layer slips along it in the clamps.
    pub slip: Length,
    /// Run-out when a section is mounted again: the whole swing of a dial gauge.
    pub run_out: Length,
    /// The sled stays set from one loop of a band to the next, so that they share the
    /// errors of tilt and height.
    pub sled_stays_set: bool,
}

impl Default for Exactness {
    fn default() -> Self {
        Exactness {
            mitre: Angle::deg(0.02),
            mitre_scatter: Angle::deg(0.03),
            segment_length: Length::mm(0.05),
            ring_centring: Length::mm(0.5),
            ring_flatness: Length::mm(0.1),
            index: Angle::deg(0.2),
            tilt: Angle::deg(0.1),
            height: Length::mm(0.2),
            slice_wedge: Length::mm(0.1),
            layer: Length::mm(0.1),
            layer_wedge: Length::mm(0.1),
            glue_line: Length::mm(0.03),
            slip: Length::mm(0.15),
            run_out: Length::mm(0.1),
            sled_stays_set: false,
        }
    }
}

impl Exactness {
    /// No error anywhere.
    pub const NONE: Exactness = Exactness {
        mitre: Angle::ZERO,
        mitre_scatter: Angle::ZERO,
        segment_length: Length::ZERO,
        ring_centring: Length::ZERO,
        ring_flatness: Length::ZERO,
        index: Angle::ZERO,
        tilt: Angle::ZERO,
        height: Length::ZERO,
        slice_wedge: Length::ZERO,
        layer: Length::ZERO,
        layer_wedge: Length::ZERO,
        glue_line: Length::ZERO,
        slip: Length::ZERO,
        run_out: Length::ZERO,
        sled_stays_set: false,
    };

    /// Its lengths by their keys in the workshop's file.
    pub fn lengths_mut(&mut self) -> [(&'static str, &mut Length); 10] {
        [
            ("segment_length", &mut self.segment_length),
            ("ring_centring", &mut self.ring_centring),
            ("ring_flatness", &mut self.ring_flatness),
            ("height", &mut self.height),
            ("slice_wedge", &mut self.slice_wedge),
            ("layer", &mut self.layer),
            ("layer_wedge", &mut self.layer_wedge),
            ("glue_line", &mut self.glue_line),
            ("slip", &mut self.slip),
            ("run_out", &mut self.run_out),
        ]
    }

    /// Its angles by their keys in the workshop's file.
    pub fn angles_mut(&mut self) -> [(&'static str, &mut Angle); 4] {
        [
            ("mitre", &mut self.mitre),
            ("mitre_scatter", &mut self.mitre_scatter),
            ("index", &mut self.index),
            ("tilt", &mut self.tilt),
        ]
    }
}
