//! What each key of the two files takes.

use super::Path;
use super::path::Step;

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
        other => return of_section(other).or_else(|| of_wood(other)),
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
        "lathe.fastest" | "glue.clamp_minutes" | "glue.cure_hours" | "glue.epoxy_cure_hours" => {
            Kind::Number
        }
        "glue.epoxy_for_layers" => Kind::Flag,
        "sled.largest_tilt" => Kind::Angle,
        "defaults.segments" => Kind::Whole,
        other => {
            let (table, key) = other.split_once('.')?;
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
