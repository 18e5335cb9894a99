//! Every limit that a finding holds a figure against: its value, where it comes from,
//! and where a maker changes it.

use files::message::Value;
use files::say;
use files::workshop::{Saw, Workshop};
use geometry::{Angle, Length};

use piece::work::Load;

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
    /// What the program was measured to take.
    Measured,
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
pub(super) const WHOLE_SLICE: Length = piece::settle::WHOLE_SLICE;
/// Widest board that is found without being glued up.
pub(super) const BROAD_BOARD: Length = Length::mm(200.0);
/// Joint lines nearer than this share of a segment look like one.
pub(super) const JOINT_SHARE: f64 = 0.1;
/// Least share of an open ring's faces that is glued to the ring below.
pub(super) const LEAST_FACE: f64 = 0.2;
/// Azimuths that differ by less are even.
pub(super) const EVEN: Angle = Angle::deg(0.05);
/// How far inside the finished surface wood is looked for.
pub(super) const SKIN: Length = Length::mm(0.02);

/// Heights of a piece that stands free, as times the diameter that holds it.
pub(super) const FREE_TIMES: f64 = 3.0;
/// Wood between the tips of the faceplate's screws and the parting line.
pub(super) const SCREW_TIPS: Length = Length::mm(3.0);

/// Reach of a hollowing bar as times its diameter.
pub(super) const BAR_TIMES: f64 = 14.0;
/// Walls that ring lower than this are felt to chatter, Hz.
pub(super) const LOW_NOTE: f64 = 250.0;
/// Pull of what lies off the axis, as a share of the tool's force.
pub(super) const BALANCE_SHARE: f64 = 0.5;
/// What a glued floor may move.
pub(super) const FLOOR_GIVES: Length = Length::mm(1.2);
/// What a loose floor keeps in its groove.
pub(super) const STAYS_IN: Length = Length::mm(1.0);
/// What a mitred joint gives.
pub(super) const WEDGE_GIVES: Length = Length::mm(0.2);
/// What a glued layer of one board may move.
pub(super) const LAYER_GIVES: Length = Length::mm(1.5);
/// Walls thinner than this are turned with luck.
pub(super) const THIN_WALL: Length = Length::mm(2.5);
/// Of a wall so much must be left when the errors of the making are spent.
pub(super) const SHARE_LEFT: f64 = 0.75;
/// Rims thinner than this chip.
pub(super) const THIN_RIM: Length = Length::mm(2.5);
/// Segments shorter than this are not held beside a blade.
pub(super) const TINY_SEGMENT: Length = Length::mm(15.0);
/// Glue lines are crossed at no less than this.
pub(super) const LEAST_CROSSING: Angle = Angle::deg(5.0);
/// Blade that may be bare above the blank.
pub(super) const BARE_BLADE: Length = Length::mm(25.0);
/// Pieces that fall sooner are called unsteady.
pub(super) const LEAST_TIPPING: Angle = Angle::deg(10.0);
/// What one hand lifts without thinking, g.
pub(super) const ONE_HAND: f64 = 3000.0;

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
    CUTS: "cuts", "loops and splits of a piece",
        |_| Amount::Count(Load::MOST_CUTS), Measured, "measured on two cores: a cut takes up to 0.07 MB and 1.5 ms of a plan, 2 MB and 70 ms of its PDF", None;
    CELLS: "cells", "cells that the cuts part the wood into, at most",
        |_| Amount::Count(Load::MOST_CELLS), Measured, "measured on two cores: a cell takes up to 1.3 kB and 15 µs of the weights; counted before anything is cut", None;
    FORM_HEIGHT: "form_height", "height of the stack against the finished form's",
        |_| Amount::Length(UNSEEN), Geometry, "the form must lie in the stack", None;
    COVERS: "covers", "flats outside, corners inside the finished wall over a ring's whole height",
        |_| Amount::Length(Length::ZERO), Geometry, "the form must lie in the ring", None;
    OUTSIDE: "outside", "wood left outside the finished wall, at a flat",
        |w| Amount::Length(*w.allowances.outside), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.outside");
    INSIDE: "inside", "wood left inside the finished wall, at a corner",
        |w| Amount::Length(*w.allowances.inside), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.inside");
    FLATTENING: "flattening", "wood that flattening takes from each face of a ring",
        |w| Amount::Fine(*w.allowances.flattening), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.flattening");
    POINT: "point", "an opening in the middle of a ring of segments",
        |_| Amount::Length(Length::ZERO), CommonPractice,
        "common practice: points do not meet, and wedges across the grain move apart", None;
    SOLID_FLOOR: "solid_floor", "wood in the whole of the form's floor",
        |_| Amount::Length(SKIN), Geometry, "the floor must lie in a disc or a panel", None;
    JOINTS_APART: "joints_apart", "least angle between joint lines above each other, as a share of a segment",
        |_| Amount::Text(say!("{share} of a segment", share = Value::name(JOINT_SHARE.to_string()))), CommonPractice,
        "common practice: joints are staggered, like bricks", None;
    SWING: "swing", "largest diameter over the lathe's bed",
        |w| Amount::Length(*w.lathe.swing), Workshop, "the lathe's manual", Some("lathe.swing");
    BETWEEN_CENTRES: "between_centres", "longest piece between the lathe's centres",
        |w| Amount::Length(*w.lathe.length), Workshop, "the lathe's manual", Some("lathe.length");
    KEEP_OFF: "keep_off", "wood between a cut and an end of the section, waste block or faceplate",
        |w| Amount::Length(*w.sled.keep_off), Workshop, "the workshop's file; common practice until it says",
        Some("sled.keep_off");
    SECTION_ENDS: "section_ends", "a loop's visible edges against its section's ends",
        |_| Amount::Length(Length::ZERO), Geometry, "a layer ends where its section ends", None;
    FLARE: "flare", "how fast the wall flares, against how fast the cut climbs there",
        |_| Amount::Text("1".into()), Geometry,
        "where (height above the loop's middle) x (wall's slope) / radius is 1, wall and cut run along each other", None;
    FLOOR_FACE: "floor_face", "a loop's lowest edge inside against the floor's upper face",
        |_| Amount::Length(Length::ZERO), Geometry, "the inside wall ends at the floor", None;
    BLOCK_ROOM: "block_room", "wood above and below a cut for a positioning block: its length, and what keeps it off the end",
        |w| Amount::Length(*w.sled.block_length + *w.sled.keep_off), Workshop,
        "the workshop's file; common practice until it says", Some("sled.block_length");
    CUTTING_HEIGHT: "cutting_height", "tallest piece that passes under the saw's guide",
        |w| Amount::Length(first_saw(w, |s| s.cutting_height)), Workshop, "the saw's manual", Some("saw.cutting_height");
    ROOM_BESIDE: "room_beside", "room between the blade and the saw's column",
        |w| Amount::Length(first_saw(w, |s| s.room_beside)), Workshop, "the saw's manual", Some("saw.room_beside");
    TABLE_LENGTH: "table_length", "length of the saw's table along the cut",
        |w| Amount::Length(first_saw(w, |s| s.table_length)), Workshop, "the saw's manual", Some("saw.table_length");
    SLED_TILT: "sled_tilt", "largest tilt of the sled",
        |w| Amount::Angle(*w.sled.largest_tilt), Workshop, "the workshop's file; common practice until it says",
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
    HOLDING: "holding", "share of what the block, joint, screws or tenon may bear, safety counted",
        |_| Amount::Percent(100.0), Workshop,
        "strengths published or from memory as marked, a third of them used; an estimate", Some("holding.safety");
    FREE_HEIGHT: "free_height", "free height while hollowing, as times the diameter of the joint on the block",
        |_| Amount::Text(say!("{n} times", n = Value::name(FREE_TIMES.to_string()))), CommonPractice, "common practice; from memory", None;
    SCREWS_CLEAR: "screws_clear", "wood between the tips of the faceplate's screws and the parting line",
        |_| Amount::Length(SCREW_TIPS), CommonPractice, "common practice: a parting tool's width; from memory", None;
    BAR_REACH: "bar_reach", "reach of a hollowing bar past its rest, 14 times its diameter",
        |w| Amount::Length(*w.holding.tool_bar * BAR_TIMES), Workshop,
        "common practice, 10 to 14 times; from memory", Some("holding.tool_bar");
    NOTE: "note", "lowest note of the wall near the rim",
        |_| Amount::Frequency(LOW_NOTE), CommonPractice, "an estimate; from memory", None;
    BALANCE: "balance", "pull of the weight that lies off the axis, half of the tool's force",
        |w| Amount::Force(*w.holding.tool_force * BALANCE_SHARE), Workshop, "an estimate; from memory",
        Some("holding.tool_force");
    FLOOR_MOVES: "floor_moves", "change across a floor of one board that is glued in, between shop and home",
        |_| Amount::Fine(FLOOR_GIVES), CommonPractice,
        "common practice: floors of one board up to 4 to 5 in are glued; from memory", None;
    FLOOR_ROOM: "floor_room", "room at a loose floor's edge against its swelling",
        |_| Amount::Text("the gap".into()), Geometry, "Wood Handbook eq. 13-2", None;
    GROOVE_LEFT: "groove_left", "what a loose floor keeps in its groove when it has shrunk",
        |_| Amount::Fine(STAYS_IN), CommonPractice, "common practice; from memory", None;
    WEDGE: "wedge", "opening of a mitred joint over the seasons, were it free",
        |_| Amount::Fine(WEDGE_GIVES), CommonPractice, "an estimate; from memory", None;
    LAYER_MOVES: "layer_moves", "change across a layer of one board against the wall",
        |_| Amount::Fine(LAYER_GIVES), CommonPractice, "an estimate: thin layers give more than floors; from memory", None;
    KNOWN_SHRINKAGE: "known_shrinkage", "a wood's shrinkage across its grain",
        |_| Amount::Text("known".into()), Published, "Wood Handbook Tables 4-3 and 4-4", Some("woods");
    CLOSES: "closes", "wood outside against what closing a ring takes, each cut off by 0.1°",
        |w| Amount::Fine(*w.allowances.outside), Workshop, "the workshop's file; common practice until it says",
        Some("allowances.outside");
    OPEN_TIME: "open_time", "minutes from the first face spread to the joint closed",
        |w| Amount::Minutes(*w.glue.open_minutes), Workshop, "the glue's label; common practice until the file says",
        Some("glue.open_minutes");
    COLDEST: "coldest", "coldest that the glue may be used at",
        |w| Amount::Temperature(*w.glue.coldest), Workshop, "the glue's label; common practice until the file says",
        Some("glue.coldest");
    WALL: "wall", "thinnest wall", |_| Amount::Length(THIN_WALL), CommonPractice,
        "common practice, about 3/32 in; from memory", None;
    SPENT: "spent", "wall left once run-out and centring are spent, of the thinnest",
        |_| Amount::Percent(SHARE_LEFT * 100.0), CommonPractice,
        "the share that the study of tolerances takes; a turner's judgement, from memory", None;
    RIM: "rim", "width of the rim under its easing", |_| Amount::Length(THIN_RIM), CommonPractice,
        "common practice; from memory", None;
    TINY: "tiny", "shortest long edge of a segment", |_| Amount::Length(TINY_SEGMENT), CommonPractice,
        "common practice; from memory", None;
    END_GRAIN: "end_grain", "end grain glued to long grain", |_| Amount::Text("none".into()), Published,
        "Wood Handbook chapter 10, from memory: end grain is not relied on", None;
    FACE: "face", "least share of an open ring's faces that is glued to the ring below",
        |_| Amount::Percent(LEAST_FACE * 100.0), CommonPractice,
        "common practice: segments bridge the gaps below by a good part; from memory", None;
    GLANCING: "glancing", "least angle at which a cut crosses glue lines", |_| Amount::Angle(LEAST_CROSSING),
        CommonPractice, "common practice: a blade follows a glue line; from memory", None;
    EXPOSED: "exposed", "blade bare above the blank", |_| Amount::Length(BARE_BLADE), CommonPractice,
        "guides stand about 1/4 in over the work; blocks may stand out 3/4 in; from memory", None;
    TABLE_HALF: "table_half", "half the width of the saw's table",
        |w| Amount::Length(first_saw(w, |s| s.table_width) / 2.0), Workshop, "the saw's manual", Some("saw.table_width");
    TIPPING: "tipping", "tilt at which the piece falls over", |_| Amount::Angle(LEAST_TIPPING), CommonPractice,
        "tests of household goods tilt them by about 10°; from memory", None;
    HAND: "hand", "weight that one hand lifts", |_| Amount::Weight(ONE_HAND), CommonPractice,
        "common sense; from memory", None;
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
