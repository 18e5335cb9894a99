//! `[[section.band]]`: loops sawn into a section, each a slice replaced by a layer.

use geometry::{Angle, Length};

use super::Board;
use super::section::SEGMENTS;
use crate::keys::{
    Angles, Counts, Fixed, Lengths, Moved, Quantity, Rivals, Rules, Usual, degrees, keys, word,
    words,
};
use crate::read::MOST_SEGMENTS;
use crate::reader::Table;

const LOOPS: Counts = Counts::new("a band has 2 to 16 loops", 2, 16);
const ORDER: Counts = Counts::new("a loop's number is from 1 to how many there are", 1, 16);
const AZIMUTH: Angles = Angles::new("an azimuth", -360.0, 360.0);
const TILT: Angles = Angles::new("a tilt (0° is straight across)", 1.0, 75.0);
const HEIGHT: Lengths = Lengths::new("the height of a band's middle", 0.5, 3000.0);
const REACH: Lengths = Lengths::new("a reach", 1.0, 2000.0);
const LAYER: Lengths = Lengths::new("a layer", 0.2, 100.0);
const SPACER: Lengths = Lengths::fine("a spacer", 0.2, 200.0);
/// Steepest that a cut may be: what is given, what a reach is solved to, what the page offers.
pub const STEEPEST: Angle = Angle::deg(TILT.most);
/// Flattest that a cut may be.
pub const FLATTEST: Angle = Angle::deg(TILT.least);
/// A glue line in a loop.
pub(crate) const GLUE_LINE: Lengths = Lengths::fine("a glue line", 0.0, 1.0);

words! {
    /// How a layer's blank is made.
    pub enum LayerMake {
        /// One board, as large as the oval.
        Solid = "solid", "from one board";
        /// A round segmented ring large enough for the oval.
        RoundRing = "round ring", "as a round ring";
        /// A segmented ring with two opposite segments lengthened.
        LongRing = "long ring", "as a long ring";
    }
}

words! {
    /// What a section is when loops are sawn into it.
    pub enum BlankShape {
        /// Trued on the lathe to a cylinder first.
        Cylinder = "cylinder", "trued to a cylinder first";
        /// The stack as it left the glue.
        Polygon = "polygon", "as it left the glue";
    }
}

keys! {
    /// A loop band: n loops sawn into a section, each a slice replaced by a layer.
    pub struct BandSpec, BandPath, "[[section.band]]" {
        /// how many, evenly spaced
        loops: Option<usize> = "number of loops", Quantity::Count(LOOPS),
            Usual::OneOf("this or `azimuths`", Fixed::Count(4));
        /// each loop's own, all different
        azimuths: Vec<Angle> = "azimuths of the loops", Quantity::Angles(LOOPS, AZIMUTH),
            Usual::OneOf("this or `loops`", Fixed::Nothing);
        /// azimuth of the first loop, with `loops` only
        start: Option<Angle> = "azimuth of the first loop", Quantity::Angle(AZIMUTH), degrees(0.0);
        /// the loops' middle above the section's underside
        height: Option<Length> = "height of the loops' middle", Quantity::Length(HEIGHT),
            Usual::Must(
                "it says where the loops' middle is",
                "write it above the section's underside",
            );
        /// of each cut from straight across
        tilt: Option<Angle> = "tilt of the cuts", Quantity::Angle(TILT),
            Usual::OneOf("this or `reach`", Fixed::Angle(Angle::deg(20.0)));
        /// lowest to highest edge of a layer, its two glue lines with it, on the finished outside
        reach: Option<Length> = "reach", Quantity::Length(REACH),
            Usual::OneOf("this or `tilt`", Fixed::Nothing);
        /// of the layers: one, or one for each loop
        wood: Vec<String> = "wood of the layers", Quantity::Woods(MOST_SEGMENTS),
            Usual::Meanwhile(
                "a layer needs one",
                "write wood = \"holly\" or the like, one that stands out from the section's",
                Fixed::Word("padauk"),
            );
        /// how the boards of the layers were sawn from the log
        board: Option<Board> = "boards of the layers", Quantity::Choice(Board::SAWN),
            word("flat-sawn");
        /// dry thickness of a layer
        layer: Option<Length> = "layer's thickness", Quantity::Length(LAYER),
            Usual::OneOf("this or `spacer`", Fixed::Length(Length::mm(6.0)));
        /// that stands under the faceplate for the second cut
        spacer: Option<Length> = "spacer", Quantity::Length(SPACER),
            Usual::OneOf("this or `layer`", Fixed::Nothing);
        /// a saw of the workshop by name
        saw: Option<String> = "saw", Quantity::Saw, Usual::Follows("the first band saw");
        /// thickness of one
        glue_line: Option<Length> = "one glue line", Quantity::Length(GLUE_LINE),
            Usual::Workshop("allowances.glue_line");
        /// of cutting, by loop numbers from 1: `[1, 3, 2, 4]`
        order: Vec<usize> = "cutting order", Quantity::Counts(ORDER, 100),
            Usual::Follows("1, 2, 3, ...");
        /// how a layer is made; a long ring has two opposite segments lengthened
        make: Option<LayerMake> = "how a layer is made", Quantity::Choice(LayerMake::WORDS),
            word("solid");
        /// in a layer made as a ring
        segments: Option<usize> = "segments in a layer", Quantity::Count(SEGMENTS),
            Usual::Follows("as in the section's first ring");
        /// told by, whatever its name and place; written by the program when it is needed
        id: Option<String> = "id", Quantity::Id, Usual::Nothing("none");
    }
}

impl Rules for BandSpec {
    const RIVALS: &'static [Rivals] = &[
        Rivals {
            one: "loops",
            other: "azimuths",
            why: "loops evenly spaced or each at its own azimuth",
            neither: Some((
                "neither loops nor azimuths: a band needs one of them",
                "write loops = 4 or the like, or azimuths = [0, 90, ...]",
            )),
        },
        Rivals {
            one: "tilt",
            other: "reach",
            why: "one gives the other",
            neither: Some((
                "neither tilt nor reach: a band needs one of them",
                "write tilt in degrees, or reach from the lowest to the highest edge on the wall",
            )),
        },
        Rivals {
            one: "layer",
            other: "spacer",
            why: "one gives the other",
            neither: Some((
                "neither layer nor spacer: a band needs one of them",
                "write the layer's thickness, or the spacer that stands under the faceplate",
            )),
        },
    ];
    const DISPLACES: &'static [(&'static str, &'static [&'static str])] =
        &[("azimuths", &["start"])];
    const MOVED: &'static [Moved] = &[Moved {
        name: "blank",
        quantity: Quantity::Choice(BlankShape::WORDS),
        to: "the section's",
    }];
    const ELSEWHERE: &'static [(&'static str, &'static str)] = &[
        ("stock", "a layer's thickness is given by layer or spacer"),
        ("rings", "rings belong in the [[section]]"),
        (
            "turn",
            "a turn belongs in the [[section]] or a [[section.split]]; azimuths are set by start",
        ),
    ];

    fn check(&self, table: &Table<'_>) {
        if table.has("start") && table.has("azimuths") {
            table.trouble(
                "start",
                "start goes with loops; azimuths already say where each loop is".into(),
                "take one of the two out",
            );
        }
        if table.has("segments") && self.make == Some(LayerMake::Solid) {
            table.trouble(
                "segments",
                "segments go with a layer made as a ring, but this one is solid".into(),
                "take segments out, or write make = \"round ring\"",
            );
        }
        // Azimuths that cannot be are told of already; they are loops all the same.
        let listed = table
            .peek("azimuths")
            .and_then(|item| item.entries("azimuth"));
        let count = self.loops.or(listed.map(|l| l.len())).unwrap_or(0);
        if count > 0 && self.wood.len() > count {
            table.trouble(
                "wood",
                format!("{} woods for {count} loops", self.wood.len()),
                "name one wood, or one for each loop",
            );
        }
        azimuths_differ(table);
        each_once(self, count, table);
    }
}

fn azimuths_differ(table: &Table<'_>) {
    let Some(items) = table
        .peek("azimuths")
        .and_then(|item| item.entries("azimuth"))
    else {
        return;
    };
    if items.len() > LOOPS.most {
        return;
    }
    let in_range = |degrees: &f64| *degrees >= AZIMUTH.least && *degrees <= AZIMUTH.most;
    let degrees: Vec<Option<f64>> = items
        .iter()
        .map(|item| item.degrees().filter(in_range))
        .collect();
    for (at, degrees_here) in degrees.iter().enumerate() {
        let Some(here) = degrees_here else { continue };
        let near = |other: &f64| {
            let apart = (other - here).rem_euclid(360.0);
            apart.min(360.0 - apart) < 1e-6
        };
        if degrees[..at].iter().flatten().any(near) {
            items[at].trouble(
                "two loops at one azimuth would be one and the same cut",
                "give each loop an azimuth of its own",
            );
        }
    }
}

/// The order names each loop once.
fn each_once(band: &BandSpec, count: usize, table: &Table<'_>) {
    let Some(item) = table.peek("order").filter(|item| item.is_list()) else {
        return;
    };
    if item.entries("entry").is_some_and(|e| !e.is_empty()) && band.order.is_empty() {
        // What is no loop's number has been told.
        return;
    }
    let mut sorted = band.order.clone();
    sorted.sort_unstable();
    // Where the loops themselves are wrong, that is told already.
    if count > 0 && sorted != (1..=count).collect::<Vec<_>>() {
        item.trouble(
            &format!("the order must name each of the {count} loops once"),
            &format!("write the numbers 1 to {count} in the order of cutting"),
        );
    }
}
