//! What each key of the two files takes.

use super::path::Step;
use super::{Path, Quantity};

/// What a key takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A length.
    Length,
    /// An angle in degrees.
    Angle,
    /// A whole number.
    Whole,
    /// A number of something else.
    Number,
    /// What has a unit of its own in each system.
    Measured(Quantity),
    /// Words.
    Text,
    /// One wood, or several repeated round.
    Woods,
    /// Yes or no.
    Flag,
    /// A list of angles.
    Angles,
    /// A list of whole numbers.
    Wholes,
    /// A list of lengths.
    Lengths,
    /// How many rings, or `auto`.
    Rings,
    /// A turn, or `half`.
    Turn,
    /// A point's `corner`, or nothing.
    Corner,
    /// A point or entry: two lengths and perhaps a word.
    Point,
    /// A list of points.
    Points,
    /// A wall: one length, or a list of points.
    Wall,
    /// A table of further keys.
    Table,
}

/// What a key of a project takes; nothing for a key that no project has.
pub fn of_project(path: &Path) -> Option<Kind> {
    let pattern = path.pattern();
    Some(match pattern.as_str() {
        "title" | "notes" | "unit" => Kind::Text,
        "form.outer" | "form.inner" => Kind::Points,
        "form.wall" => Kind::Wall,
        "form.outer[]" | "form.inner[]" | "form.wall[]" => Kind::Point,
        "form.outer[][]" | "form.inner[][]" | "form.wall[][]" => match path.0.last() {
            Some(Step::At(0 | 1)) => Kind::Length,
            Some(Step::At(2)) if pattern != "form.wall[][]" => Kind::Corner,
            _ => return None,
        },
        "form.straight" => Kind::Flag,
        "form.floor" | "form.foot_recess" | "form.foot_width" | "form.rim_easing" => Kind::Length,
        "holding.thickness" | "holding.steady" => Kind::Length,
        other => {
            return of_section(other)
                .or_else(|| of_wood(other))
                .or_else(|| of_holding(other));
        }
    })
}

/// What holds the piece, in either file.
fn of_holding(pattern: &str) -> Option<Kind> {
    Some(match pattern.strip_prefix("holding.")? {
        "block" | "fixing" => Kind::Text,
        "screws" => Kind::Whole,
        "safety" => Kind::Number,
        "tool_force" => Kind::Measured(Quantity::Force),
        "diameter" | "recess" | "recess_depth" | "screw_diameter" | "screw_bite"
        | "screw_circle" | "tenon" | "tool_bar" => Kind::Length,
        _ => return None,
    })
}

fn of_section(pattern: &str) -> Option<Kind> {
    let key = pattern.strip_prefix("section[]")?;
    Some(match key {
        "" | ".ring[]" | ".band[]" | ".split[]" | ".ring[].floor" => Kind::Table,
        ".name" | ".band[].saw" | ".split[].saw" | ".band[].make" | ".band[].blank" => Kind::Text,
        ".wood" | ".ring[].wood" | ".band[].wood" | ".ring[].floor.wood" => Kind::Woods,
        ".segments" | ".ring[].segments" | ".ring[].repeat" => Kind::Whole,
        ".band[].loops" | ".band[].segments" => Kind::Whole,
        ".stock" | ".ring_height" | ".height" => Kind::Length,
        ".rings" => Kind::Rings,
        ".joint_turn" => Kind::Turn,
        ".turn" | ".ring[].turn" | ".split[].turn" | ".band[].start" | ".band[].tilt" => {
            Kind::Angle
        }
        ".ring[].stock" | ".ring[].height" | ".ring[].outside" | ".ring[].width" => Kind::Length,
        ".ring[].solid" | ".ring[].floor.floating" => Kind::Flag,
        ".ring[].floor.thickness"
        | ".ring[].floor.above"
        | ".ring[].floor.groove"
        | ".ring[].floor.gap" => Kind::Length,
        ".band[].height" | ".band[].reach" | ".band[].layer" | ".band[].spacer"
        | ".band[].glue_line" | ".split[].height" => Kind::Length,
        ".band[].azimuths" => Kind::Angles,
        ".band[].order" => Kind::Wholes,
        _ => return None,
    })
}

fn of_wood(pattern: &str) -> Option<Kind> {
    let rest = pattern.strip_prefix("woods.")?;
    Some(match rest.rsplit_once('.') {
        Some((_, "like" | "colour")) => Kind::Text,
        Some((_, "density")) => Kind::Number,
        _ => return None,
    })
}

/// What a key of a workshop takes.
pub fn of_workshop(path: &Path) -> Option<Kind> {
    Some(match path.pattern().as_str() {
        "unit" | "saw[].name" | "saw[].kind" | "defaults.wood" => Kind::Text,
        "stock" => Kind::Lengths,
        "saw[]" => Kind::Table,
        "saw[].kerf"
        | "saw[].cutting_height"
        | "saw[].room_beside"
        | "saw[].table_length"
        | "saw[].table_width" => Kind::Length,
        "glue.epoxy_for_layers" | "exactness.sled_stays_set" => Kind::Flag,
        "glue.coldest" => Kind::Measured(Quantity::Warmth),
        "glue.smallest_batch" => Kind::Measured(Quantity::Batch),
        "glue.spread" => Kind::Measured(Quantity::Spread),
        "sled.largest_tilt" => Kind::Angle,
        "exactness.mitre" | "exactness.mitre_scatter" | "exactness.index" | "exactness.tilt" => {
            Kind::Angle
        }
        "defaults.segments" => Kind::Whole,
        other => {
            let (table, key) = other.split_once('.')?;
            let numbers: &[&str] = match table {
                "lathe" => &["fastest", "jaws_fastest"],
                "glue" => &[
                    "clamp_minutes",
                    "cure_hours",
                    "epoxy_cure_hours",
                    "open_minutes",
                    "epoxy_open_minutes",
                    "waste",
                    "face_seconds",
                ],
                "climate" => &["shop_humidity", "dry_humidity", "damp_humidity"],
                "defaults" => &["hours_a_day"],
                _ => &[],
            };
            if numbers.contains(&key) {
                return Some(Kind::Number);
            }
            let lengths: &[&str] = match table {
                "allowances" => &[
                    "outside",
                    "inside",
                    "flattening",
                    "glue_line",
                    "layer_edge",
                    "jointing",
                ],
                "lathe" => &["swing", "length"],
                "sled" => &[
                    "base",
                    "clearance",
                    "run_out",
                    "waste_block",
                    "keep_off",
                    "block_length",
                    "block_height",
                    "dowel",
                ],
                "exactness" => &[
                    "segment_length",
                    "ring_centring",
                    "ring_flatness",
                    "height",
                    "slice_wedge",
                    "layer",
                    "layer_wedge",
                    "glue_line",
                    "slip",
                    "run_out",
                ],
                "climate" => {
                    let warm = ["shop_temperature", "dry_temperature", "damp_temperature"];
                    return warm
                        .contains(&key)
                        .then_some(Kind::Measured(Quantity::Warmth));
                }
                "holding" => return of_holding(other),
                "defaults" => &["board"],
                _ => return None,
            };
            return lengths.contains(&key).then_some(Kind::Length);
        }
    })
}

/// Keys that exclude each other: setting one takes the others' place.
pub fn rivals(pattern: &str) -> &'static [&'static str] {
    match pattern {
        "section[].band[].reach" => &["tilt"],
        "section[].band[].tilt" => &["reach"],
        "section[].band[].layer" => &["spacer"],
        "section[].band[].spacer" => &["layer"],
        "section[].band[].loops" => &["azimuths"],
        "section[].band[].azimuths" => &["loops", "start"],
        "form.wall" => &["inner"],
        "form.inner" => &["wall"],
        "section[].height" => &["ring"],
        _ => &[],
    }
}
