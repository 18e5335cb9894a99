//! The workshop's settings by group: label, value and range of each.

use files::workshop::{Air, Glue, Saw, SawKind, Sled, Workshop};
use geometry::{Angle, Length};

use super::holding::held;
use crate::serve::view::blanks::{Range, Sheet};
use crate::serve::wire::Origin;
use files::edit::Quantity;

/// What a setting is.
pub enum Value {
    /// A length; nothing where it is left open.
    Length(Option<Length>),
    /// A length that is read off a calliper.
    Fine(Length),
    /// An angle.
    Angle(Angle),
    /// A number and what it counts.
    Number(Option<f64>, &'static str),
    /// What has a unit of its own in each system, metric.
    Measured(Quantity, f64),
    /// A count.
    Whole(usize),
    /// Yes or no.
    Flag(bool),
    /// Words.
    Text(String),
    /// One of several: the file's word, and the page's.
    Choice(&'static str, &'static [(&'static str, &'static str)]),
    /// Board thicknesses.
    Boards(Vec<Length>),
}

/// One setting.
pub struct Setting {
    /// Its key.
    pub path: String,
    label: String,
    value: Value,
    range: Range,
}

impl Setting {
    /// A setting whose value has a range.
    pub fn new(path: impl Into<String>, label: &str, value: Value, least: f64, most: f64) -> Self {
        Setting {
            path: path.into(),
            label: label.into(),
            value,
            range: Range(least, most),
        }
    }

    /// A setting of words.
    pub fn words(path: impl Into<String>, label: &str, value: Value) -> Self {
        Setting::new(path, label, value, 0.0, 0.0)
    }

    /// Puts its blank on a sheet.
    pub fn put(&self, sheet: &mut Sheet, origin: Origin) {
        let (path, label, range) = (self.path.as_str(), self.label.as_str(), self.range);
        match &self.value {
            Value::Length(length) => sheet.length(path, label, *length, origin, range),
            Value::Fine(length) => sheet.fine(path, label, Some(*length), origin, range),
            Value::Angle(angle) => sheet.angle(path, label, Some(*angle), origin, range),
            Value::Number(number, unit) => sheet.number(path, label, *number, unit, origin, range),
            Value::Measured(what, metric) => {
                sheet.measured(path, label, (*what, *metric), origin, range);
            }
            Value::Whole(count) => sheet.whole(path, label, Some(*count), origin, range),
            Value::Flag(yes) => sheet.flag(path, label, *yes, origin),
            Value::Text(words) => sheet.text(path, label, words, origin),
            Value::Choice(word, all) => sheet.choice(path, label, word, origin, all),
            Value::Boards(boards) => {
                let boards: Vec<String> = boards.iter().map(|l| sheet.unit.length(*l)).collect();
                sheet.list(path, label, boards.join(", "), origin);
            }
        }
    }
}

/// Every setting, by the title of its group.
pub fn settings(shop: &Workshop) -> Vec<(String, Vec<Setting>)> {
    let mut groups: Vec<(String, Vec<Setting>)> = shop
        .saws
        .iter()
        .enumerate()
        .map(|(k, s)| (s.name.clone(), saw(k, s)))
        .collect();
    let titled = [
        ("Allowances", allowances(shop)),
        ("Lathe", lathe(shop)),
        ("Sled", sled(&shop.sled)),
        ("What holds the piece", held(&shop.holding)),
        ("Glue", glue(&shop.glue)),
        (
            "How exactly you work: 19 of 20 settings within",
            exactness(shop),
        ),
        ("Air of shop and home", climate(shop)),
        ("Where a project does not say", defaults(shop)),
    ];
    groups.extend(titled.map(|(title, settings)| (title.to_string(), settings)));
    groups
}

fn saw(number: usize, saw: &Saw) -> Vec<Setting> {
    let path = |key: &str| format!("saw[{number}].{key}");
    let of = |what: &str| format!("{what} of {}", saw.name);
    let kind = match saw.kind {
        SawKind::Band => "band",
        SawKind::Table => "table",
        SawKind::Mitre => "mitre",
    };
    let kinds = &[
        ("band", "band saw"),
        ("table", "table saw"),
        ("mitre", "mitre saw"),
    ];
    let machine = |key: &str, what: &str, value: Length| {
        Setting::new(
            path(key),
            &of(what),
            Value::Length(Some(value)),
            5.0,
            5000.0,
        )
    };
    vec![
        Setting::words(
            path("name"),
            "name of the saw",
            Value::Text(saw.name.clone()),
        ),
        Setting::words(path("kind"), &of("kind"), Value::Choice(kind, kinds)),
        Setting::new(path("kerf"), &of("kerf"), Value::Fine(saw.kerf), 0.2, 10.0),
        machine("cutting_height", "cutting height", saw.cutting_height),
        machine("room_beside", "room beside the blade", saw.room_beside),
        machine(
            "table_length",
            "table length along the cut",
            saw.table_length,
        ),
        machine("table_width", "table width", saw.table_width),
    ]
}

fn allowances(shop: &Workshop) -> Vec<Setting> {
    let a = &shop.allowances;
    let left = |key: &str, label: &str, value: Length| {
        let path = format!("allowances.{key}");
        Setting::new(path, label, Value::Length(Some(value)), 0.0, 50.0)
    };
    let lost = |key: &str, label: &str, value: Length, most: f64| {
        Setting::new(
            format!("allowances.{key}"),
            label,
            Value::Fine(value),
            0.0,
            most,
        )
    };
    vec![
        left(
            "outside",
            "wood left outside the wall, at a flat",
            a.outside,
        ),
        left("inside", "wood left inside the wall, at a corner", a.inside),
        left("layer_edge", "wood left round a layer's oval", a.layer_edge),
        lost(
            "flattening",
            "loss to each face of a ring",
            a.flattening,
            10.0,
        ),
        lost("jointing", "loss to each edge of a strip", a.jointing, 10.0),
        lost("glue_line", "one glue line in a loop", a.glue_line, 1.0),
    ]
}

fn lathe(shop: &Workshop) -> Vec<Setting> {
    let l = &shop.lathe;
    let size = |key: &str, label: &str, value: Length| {
        Setting::new(key, label, Value::Length(Some(value)), 5.0, 5000.0)
    };
    let speed = |key: &str, label: &str, value: Option<f64>| {
        Setting::new(key, label, Value::Number(value, "rpm"), 50.0, 20_000.0)
    };
    vec![
        size("lathe.swing", "swing over the bed", l.swing),
        size("lathe.length", "length between centres", l.length),
        speed("lathe.fastest", "fastest spindle speed", Some(l.fastest)),
        speed(
            "lathe.jaws_fastest",
            "fastest that jaws or faceplate allow",
            l.jaws_fastest,
        ),
    ]
}

fn sled(s: &Sled) -> Vec<Setting> {
    let size = |key: &str, label: &str, value: Length| {
        let path = format!("sled.{key}");
        Setting::new(path, label, Value::Length(Some(value)), 0.0, 500.0)
    };
    let tilt = Value::Angle(s.largest_tilt);
    vec![
        size("base", "thickness of the base", s.base),
        size("clearance", "room between blank and base", s.clearance),
        size("run_out", "travel before and after the cut", s.run_out),
        size(
            "waste_block",
            "faceplate to the section's underside",
            s.waste_block,
        ),
        size("keep_off", "wood kept between a cut and an end", s.keep_off),
        size(
            "block_length",
            "length of a positioning block",
            s.block_length,
        ),
        size(
            "block_height",
            "height of a positioning block",
            s.block_height,
        ),
        size("dowel", "dowel through a pair of blocks", s.dowel),
        Setting::new(
            "sled.largest_tilt",
            "largest tilt of the sled",
            tilt,
            1.0,
            80.0,
        ),
    ]
}

fn glue(g: &Glue) -> Vec<Setting> {
    let number = |key: &str, label: &str, value: f64, unit: &'static str, range: (f64, f64)| {
        let value = Value::Number(Some(value), unit);
        Setting::new(format!("glue.{key}"), label, value, range.0, range.1)
    };
    let measured = |key: &str, label: &str, what: Quantity, value: f64, range: (f64, f64)| {
        let value = Value::Measured(what, value);
        Setting::new(format!("glue.{key}"), label, value, range.0, range.1)
    };
    let (minutes, hours) = ((0.0, 10_000.0), (0.0, 1000.0));
    let epoxy = Value::Flag(g.epoxy_for_layers);
    vec![
        number(
            "clamp_minutes",
            "time in clamps",
            g.clamp_minutes,
            "min",
            minutes,
        ),
        number(
            "cure_hours",
            "cure before the next cut",
            g.cure_hours,
            "h",
            hours,
        ),
        number(
            "open_minutes",
            "from the first face spread to the joint closed",
            g.open_minutes,
            "min",
            minutes,
        ),
        Setting::words(
            "glue.epoxy_for_layers",
            "layers are glued with epoxy",
            epoxy,
        ),
        number(
            "epoxy_cure_hours",
            "cure of epoxy",
            g.epoxy_cure_hours,
            "h",
            hours,
        ),
        number(
            "epoxy_open_minutes",
            "open time of epoxy",
            g.epoxy_open_minutes,
            "min",
            minutes,
        ),
        measured(
            "spread",
            "glue on a joint",
            Quantity::Spread,
            g.spread,
            (20.0, 2000.0),
        ),
        number(
            "waste",
            "left in the pot and pressed out",
            g.waste,
            "%",
            (0.0, 500.0),
        ),
        number(
            "face_seconds",
            "to spread one small face",
            g.face_seconds,
            "s",
            (0.5, 600.0),
        ),
        measured(
            "smallest_batch",
            "smallest batch of epoxy measured well",
            Quantity::Batch,
            g.smallest_batch,
            (0.5, 5000.0),
        ),
        measured(
            "coldest",
            "coldest that the glue may be used at",
            Quantity::Warmth,
            g.coldest,
            (-10.0, 60.0),
        ),
    ]
}

fn exactness(shop: &Workshop) -> Vec<Setting> {
    let e = &shop.exactness;
    let angle = |key: &str, label: &str, value: Angle| {
        Setting::new(
            format!("exactness.{key}"),
            label,
            Value::Angle(value),
            0.0,
            5.0,
        )
    };
    let length = |key: &str, label: &str, value: Length| {
        Setting::new(
            format!("exactness.{key}"),
            label,
            Value::Fine(value),
            0.0,
            5.0,
        )
    };
    let stays = Value::Flag(e.sled_stays_set);
    vec![
        angle("mitre", "setting for a ring's mitres", e.mitre),
        angle(
            "mitre_scatter",
            "one mitre against the next",
            e.mitre_scatter,
        ),
        length(
            "segment_length",
            "one segment against the next",
            e.segment_length,
        ),
        length(
            "ring_centring",
            "a ring glued off the centre",
            e.ring_centring,
        ),
        length(
            "ring_flatness",
            "a ring's thickness, side against side",
            e.ring_flatness,
        ),
        angle("index", "the index mark, seen from the axis", e.index),
        angle("tilt", "tilt of the sled", e.tilt),
        length("height", "place of the first cut along the axis", e.height),
        length(
            "slice_wedge",
            "a slice's thickness, side against side",
            e.slice_wedge,
        ),
        length("layer", "a layer against the room measured for it", e.layer),
        length(
            "layer_wedge",
            "a layer's thickness, side against side",
            e.layer_wedge,
        ),
        length("glue_line", "a glue line against the usual", e.glue_line),
        length("slip", "slip along a layer in the clamps", e.slip),
        length(
            "run_out",
            "whole swing of a dial on mounting again",
            e.run_out,
        ),
        Setting::words(
            "exactness.sled_stays_set",
            "the sled stays set from loop to loop",
            stays,
        ),
    ]
}

fn climate(shop: &Workshop) -> Vec<Setting> {
    let c = &shop.climate;
    let places: [(&str, &str, Air); 3] = [
        ("shop", "in the shop", c.shop),
        ("dry", "at home, driest season", c.dry),
        ("damp", "at home, dampest season", c.damp),
    ];
    let of = |(key, place, air): (&str, &str, Air)| {
        [
            Setting::new(
                format!("climate.{key}_humidity"),
                &format!("relative humidity {place}"),
                Value::Number(Some(air.humidity), "%"),
                5.0,
                95.0,
            ),
            Setting::new(
                format!("climate.{key}_temperature"),
                &format!("temperature {place}"),
                Value::Measured(Quantity::Warmth, air.temperature),
                -10.0,
                60.0,
            ),
        ]
    };
    places.into_iter().flat_map(of).collect()
}

fn defaults(shop: &Workshop) -> Vec<Setting> {
    let d = &shop.defaults;
    let hours = Value::Number(Some(d.hours_a_day), "h");
    vec![
        Setting::new(
            "defaults.segments",
            "segments in a ring",
            Value::Whole(d.segments),
            3.0,
            144.0,
        ),
        Setting::words(
            "defaults.wood",
            "wood of a ring",
            Value::Text(d.wood.clone()),
        ),
        Setting::new(
            "defaults.board",
            "board thickness",
            Value::Length(Some(d.board)),
            0.5,
            300.0,
        ),
        Setting::words(
            "stock",
            "board thicknesses in stock",
            Value::Boards(shop.stock.clone()),
        ),
        Setting::new(
            "defaults.hours_a_day",
            "hours of work a day",
            hours,
            0.5,
            24.0,
        ),
    ]
}
