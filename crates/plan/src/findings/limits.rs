//! Every limit that a finding holds a figure against: its value, where it comes from,
//! and where a maker changes it.

use geometry::{Angle, Length};
use piece::workshop::{Saw, Workshop};

use crate::figure::Amount;

/// How well a limit is founded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// It follows from the geometry: beyond it the work is not whole.
    Geometry,
    /// The maker's own figure, or common practice until the workshop's file gives it.
    Workshop,
    /// The trade does so; no publication is claimed.
    CommonPractice,
    /// The built-in table of woods, after the Wood Handbook.
    Published,
}

/// A limit.
pub struct Limit {
    /// A name for machines.
    pub key: &'static str,
    /// What it limits, in words.
    pub words: &'static str,
    /// Its value in a workshop.
    pub value: fn(&Workshop) -> Amount,
    /// How well it is founded.
    pub mark: Mark,
    /// Where it comes from.
    pub source: &'static str,
    /// The key of the workshop's file that changes it.
    pub change: Option<&'static str>,
}

/// Less than this is not measured with a rule and not said: 0.05 mm.
pub(super) const UNSEEN: Length = Length::mm(0.05);
/// Thinnest slice that comes out in one piece.
pub(super) const WHOLE_SLICE: Length = Length::mm(1.5);
/// Widest board that is found without being glued up.
pub(super) const BROAD_BOARD: Length = Length::mm(200.0);
/// Joint lines nearer than this share of a segment look like one.
pub(super) const JOINT_SHARE: f64 = 0.1;
/// Azimuths that differ by less are even.
pub(super) const EVEN: Angle = Angle::deg(0.05);
/// How far inside the finished surface wood is looked for.
pub(super) const SKIN: Length = Length::mm(0.02);

macro_rules! limits {
    ($($name:ident: $key:literal, $words:literal, $value:expr, $mark:ident, $source:literal, $change:expr;)*) => {
        $(
            #[doc = $words]
            pub const $name: Limit = Limit {
                key: $key,
                words: $words,
                value: $value,
                mark: Mark::$mark,
                source: $source,
                change: $change,
            };
        )*
        /// The table of limits.
        pub static LIMITS: &[&Limit] = &[$(&$name),*];
    };
}

limits! {
    WHOLE_FORM: "form", "a curve that crosses nothing, and wood between outside and inside",
        |_| Amount::Length(Length::ZERO), Geometry, "the form's own curves", None;
    POSSIBLE: "possible", "a piece that can be put together as it is written",
        |_| Amount::Length(Length::ZERO), Geometry, "the sums of rings, cuts and layers", None;
    FORM_HEIGHT: "form_height", "height of the stack against the finished form's",
        |_| Amount::Length(UNSEEN), Geometry, "the form must lie in the stack", None;
    COVERS: "covers", "flats outside, corners inside the finished wall over a ring's whole height",
        |_| Amount::Length(Length::ZERO), Geometry, "the form must lie in the ring", None;
    OUTSIDE: "outside", "wood left outside the finished wall, at a flat",
        |w| Amount::Length(w.allowances.outside), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.outside");
    INSIDE: "inside", "wood left inside the finished wall, at a corner",
        |w| Amount::Length(w.allowances.inside), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.inside");
    FLATTENING: "flattening", "wood that flattening takes from each face of a ring",
        |w| Amount::Fine(w.allowances.flattening), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.flattening");
    POINT: "point", "an opening in the middle of a ring of segments",
        |_| Amount::Length(Length::ZERO), CommonPractice,
        "common practice: points do not meet, and wedges across the grain move apart", None;
    SOLID_FLOOR: "solid_floor", "wood in the whole of the form's floor",
        |_| Amount::Length(SKIN), Geometry, "the floor must lie in a disc or a panel", None;
    JOINTS_APART: "joints_apart", "least angle between joint lines above each other, as a share of a segment",
        |_| Amount::Text(format!("{} of a segment", JOINT_SHARE)), CommonPractice,
        "common practice: joints are staggered, like bricks", None;
    SWING: "swing", "largest diameter over the lathe's bed",
        |w| Amount::Length(w.lathe.swing), Workshop, "the lathe's manual", Some("lathe.swing");
    BETWEEN_CENTRES: "between_centres", "longest piece between the lathe's centres",
        |w| Amount::Length(w.lathe.length), Workshop, "the lathe's manual", Some("lathe.length");
    KEEP_OFF: "keep_off", "wood between a cut and an end of the section, waste block or faceplate",
        |w| Amount::Length(w.sled.keep_off), Workshop, "the workshop's file; common practice until it says",
        Some("sled.keep_off");
    SECTION_ENDS: "section_ends", "a loop's visible edges against its section's ends",
        |_| Amount::Length(Length::ZERO), Geometry, "a layer ends where its section ends", None;
    FLARE: "flare", "how fast the wall flares, against how fast the cut climbs there",
        |_| Amount::Text("1".into()), Geometry,
        "where (height above the loop's middle) x (wall's slope) / radius is 1, wall and cut run along each other", None;
    FLOOR_FACE: "floor_face", "a loop's lowest edge inside against the floor's upper face",
        |_| Amount::Length(Length::ZERO), Geometry, "the inside wall ends at the floor", None;
    BLOCK_ROOM: "block_room", "wood above and below a cut for a positioning block: its length, and what keeps it off the end",
        |w| Amount::Length(w.sled.block_length + w.sled.keep_off), Workshop,
        "the workshop's file; common practice until it says", Some("sled.block_length");
    CUTTING_HEIGHT: "cutting_height", "tallest piece that passes under the saw's guide",
        |w| Amount::Length(first_saw(w, |s| s.cutting_height)), Workshop, "the saw's manual", Some("saw.cutting_height");
    ROOM_BESIDE: "room_beside", "room between the blade and the saw's column",
        |w| Amount::Length(first_saw(w, |s| s.room_beside)), Workshop, "the saw's manual", Some("saw.room_beside");
    TABLE_LENGTH: "table_length", "length of the saw's table along the cut",
        |w| Amount::Length(first_saw(w, |s| s.table_length)), Workshop, "the saw's manual", Some("saw.table_length");
    SLED_TILT: "sled_tilt", "largest tilt of the sled",
        |w| Amount::Angle(w.sled.largest_tilt), Workshop, "the workshop's file; common practice until it says",
        Some("sled.largest_tilt");
    SLICE: "slice", "thinnest slice that comes out in one piece",
        |_| Amount::Fine(WHOLE_SLICE), CommonPractice,
        "common practice: thinner ones break and jam beside the blade", None;
    LOOPS_APART: "loops_apart", "gap between neighbouring loops where they are furthest apart",
        |_| Amount::Length(Length::ZERO), Geometry, "without a gap they look like one band", None;
    WINDOW: "window", "open height of the windows between loops, from one crossing to the next above it",
        |_| Amount::Length(Length::ZERO), Geometry,
        "the crossings' heights less the band's height, thickness / cos(tilt)", None;
    BOARD: "board", "widest board that is found without being glued up",
        |_| Amount::Length(BROAD_BOARD), CommonPractice, "common practice, about 8 in; from memory", None;
    EVEN_SPACING: "even_spacing", "azimuths of loops against even spacing",
        |_| Amount::Angle(EVEN), Geometry, "only evenly spaced loops cross in level rows", None;
    REPEATS: "repeats", "repeats of the finished pattern in one turn, against the loops alone",
        |_| Amount::Text("the loops' own".into()), Geometry,
        "the greatest common divisor of loops and of each ring's repeats", None;
    LOOPS_WHOLE: "loops_whole", "a split's height against the loops' visible edges",
        |_| Amount::Length(Length::ZERO), Geometry, "what is above a split is turned", None;
    GLUE_LINE_SPLIT: "glue_line_split", "a split's height against the nearest glue line between rings",
        |_| Amount::Length(UNSEEN), Geometry, "a split elsewhere divides a ring", None;
    KNOWN_DENSITY: "known_density", "a wood's weight for its size",
        |_| Amount::Text("known, and sources agree".into()), Published,
        "the built-in table, after the Wood Handbook, or the project's own figure", Some("woods");
    WOOD_THERE: "wood_there", "depth below the finished surface at which wood is looked for",
        |_| Amount::Fine(SKIN), Geometry, "asked of the piece as it is glued, at some ten thousand points", None;
}

/// A figure of the saw that is used where none is named.
fn first_saw(workshop: &Workshop, figure: fn(&Saw) -> Length) -> Length {
    workshop.saws.first().map_or(Length::ZERO, figure)
}
