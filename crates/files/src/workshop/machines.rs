//! `[lathe]` and `[sled]`.

use geometry::{Angle, Length};

use super::saw::MACHINE;
use crate::keys::{
    Angles, Given, Lengths, Numbers, Quantity, Rules, Usual, degrees, keys, mm, number,
};

const SPEED: Numbers = Numbers::new(
    "a lathe's fastest speed",
    ("turns a minute", "rpm"),
    50.0,
    20_000.0,
);

keys! {
    /// The lathe.
    pub struct Lathe, LathePath, "[lathe]" {
        /// largest diameter over the bed
        swing: Given<Length> = "swing over the bed", Quantity::Length(MACHINE), mm(400.0);
        /// longest piece between centres
        length: Given<Length> = "length between centres", Quantity::Length(MACHINE), mm(600.0);
        /// fastest that the spindle turns, turns a minute
        fastest: Given<f64> = "fastest spindle speed", Quantity::Number(SPEED), number(3200.0);
        /// fastest that the chuck's jaws or the faceplate may turn, turns a minute
        jaws_fastest: Given<Option<f64>> = "fastest that jaws or faceplate allow",
            Quantity::Number(SPEED), Usual::Nothing("not known");
        /// fastest while the piece is held by its rim alone, in wide jaws or a jam chuck, turns
        /// a minute; common practice is 300 to 500
        rim_held_fastest: Given<f64> = "fastest while held by the rim", Quantity::Number(SPEED),
            number(400.0);
        /// fastest for sanding, turns a minute; common practice
        sanding_fastest: Given<f64> = "fastest for sanding", Quantity::Number(SPEED),
            number(500.0);
    }
}

impl Rules for Lathe {}

const SLED: Lengths = Lengths::new("a measure of the sled", 0.0, 500.0);
const TILT: Angles = Angles::new("the largest tilt of a sled", 1.0, 80.0);

keys! {
    /// The sliding jig and how a section stands on it.
    pub struct Sled, SledPath, "[sled]" {
        /// thickness of its base
        base: Given<Length> = "thickness of the base", Quantity::Length(SLED), mm(18.0);
        /// between the blank and the base
        clearance: Given<Length> = "room between blank and base", Quantity::Length(SLED),
            mm(20.0);
        /// travel before and after the cut
        run_out: Given<Length> = "travel before and after the cut", Quantity::Length(SLED),
            mm(25.0);
        /// faceplate's face to the section's underside: the waste block
        waste_block: Given<Length> = "faceplate to the section's underside",
            Quantity::Length(SLED), mm(38.0);
        /// least wood that must stay between a cut and a waste block or faceplate
        keep_off: Given<Length> = "wood kept between a cut and an end", Quantity::Length(SLED),
            mm(5.0);
        /// of one positioning block, along the axis
        block_length: Given<Length> = "length of a positioning block", Quantity::Length(SLED),
            mm(16.0);
        /// how far a positioning block stands out from the blank
        block_height: Given<Length> = "height of a positioning block", Quantity::Length(SLED),
            mm(18.0);
        /// through a pair of positioning blocks
        dowel: Given<Length> = "dowel through a pair of blocks", Quantity::Length(SLED), mm(8.0);
        /// largest that the sled can be set to
        largest_tilt: Given<Angle> = "largest tilt of the sled", Quantity::Angle(TILT),
            degrees(50.0);
    }
}

impl Rules for Sled {}
