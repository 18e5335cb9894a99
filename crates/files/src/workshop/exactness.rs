//! `[exactness]`: what each setting may be off by.

use geometry::{Angle, Length};

use crate::keys::{Angles, Given, Lengths, Quantity, Rules, Slots, degrees, flag, keys, mm};

const LENGTH: Quantity = Quantity::Length(Lengths::fine("an error of a length", 0.0, 5.0));
const ANGLE: Quantity = Quantity::Angle(Angles::new("an error of an angle", 0.0, 5.0));

keys! {
    /// What 19 of 20 settings stay within, either way: how exactly a maker works.
    ///
    /// The defaults are common practice for careful work with a rule, a calliper and an
    /// angle gauge; no publication is claimed for any of them.
    pub struct Exactness, ExactnessPath, "[exactness]" {
        /// setting of the saw for a ring's mitres; all of the ring share it
        mitre: Given<Angle> = "setting for a ring's mitres", ANGLE, degrees(0.02);
        /// one mitre against the next at that setting
        mitre_scatter: Given<Angle> = "one mitre against the next", ANGLE, degrees(0.03);
        /// one segment against the next at the same stop
        segment_length: Given<Length> = "one segment against the next", LENGTH, mm(0.05);
        /// how far a ring is glued off the centre
        ring_centring: Given<Length> = "a ring glued off the centre", LENGTH, mm(0.5);
        /// a ring's thickness, one side against the other
        ring_flatness: Given<Length> = "a ring's thickness, side against side", LENGTH, mm(0.1);
        /// index mark, seen from the axis
        index: Given<Angle> = "the index mark, seen from the axis", ANGLE, degrees(0.2);
        /// tilt of the sled
        tilt: Given<Angle> = "tilt of the sled", ANGLE, degrees(0.1);
        /// place of the first cut along the axis
        height: Given<Length> = "place of the first cut along the axis", LENGTH, mm(0.2);
        /// a sawn slice's thickness, one side against the other: the second cut is not
        /// parallel to the first
        slice_wedge: Given<Length> = "a slice's thickness, side against side", LENGTH, mm(0.1);
        /// a layer's thickness against the room that was measured for it
        layer: Given<Length> = "a layer against the room measured for it", LENGTH, mm(0.1);
        /// a layer's thickness, one side against the other
        layer_wedge: Given<Length> = "a layer's thickness, side against side", LENGTH, mm(0.1);
        /// thickness of one against the usual
        glue_line: Given<Length> = "a glue line against the usual", LENGTH, mm(0.03);
        /// how far the part above a layer slips along it in the clamps
        slip: Given<Length> = "slip along a layer in the clamps", LENGTH, mm(0.15);
        /// whole swing of a dial gauge when a section is mounted again
        run_out: Given<Length> = "whole swing of a dial on mounting again", LENGTH, mm(0.1);
        /// the sled stays set from one loop of a band to the next, so that they share the
        /// errors of tilt and height
        sled_stays_set: Given<bool> = "the sled stays set from loop to loop",
            Quantity::Flag, flag(false);
    }
}

impl Rules for Exactness {
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[
        ("kerf", "a saw's kerf belongs under [[saw]]"),
        ("flattening", "losses belong under [allowances]"),
    ];
}

impl Exactness {
    /// No error anywhere.
    pub fn none() -> Exactness {
        let mut none = Exactness::default();
        for (_, slot) in none.slots_mut() {
            slot.clear();
        }
        none
    }
}
