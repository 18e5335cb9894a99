//! The workshop file.

use std::collections::BTreeSet;

use geometry::{Angle, Length};

use super::{BOARD, SEGMENTS, climate, holding, read_file, woods};
use crate::reader::{Angles, Item, Lengths, Numbers, Table};
use crate::report::{Places, Problem};
use crate::workshop::{Glue, Saw, SawKind, Workshop};

const KERF: Lengths = Lengths::new("a saw's kerf", 0.2, 10.0);
const ALLOWANCE: Lengths = Lengths::new("an allowance", 0.0, 50.0);
const LOSS: Lengths = Lengths::new("a loss", 0.0, 10.0);
const GLUE_LINE: Lengths = Lengths::new("a glue line", 0.0, 1.0);
const MACHINE: Lengths = Lengths::new("a machine's measure", 5.0, 5000.0);
const SLED: Lengths = Lengths::new("a measure of the sled", 0.0, 500.0);
const TILT: Angles = Angles {
    of: "the largest tilt of a sled",
    least: 1.0,
    most: 80.0,
};
const SPEED: Numbers = Numbers {
    of: "a lathe's fastest speed",
    in_what: "turns a minute",
    least: 50.0,
    most: 20_000.0,
};
const MINUTES: Numbers = Numbers {
    of: "a time for glue",
    in_what: "minutes",
    least: 0.0,
    most: 10_000.0,
};
const SPREAD: Numbers = Numbers {
    of: "what is spread on a joint",
    in_what: "g/m²",
    least: 20.0,
    most: 2000.0,
};
const WASTE: Numbers = Numbers {
    of: "wasted glue",
    in_what: "percent",
    least: 0.0,
    most: 500.0,
};
const SECONDS: Numbers = Numbers {
    of: "the time to spread a face",
    in_what: "seconds",
    least: 0.5,
    most: 600.0,
};
const BATCH: Numbers = Numbers {
    of: "a batch of epoxy",
    in_what: "ml",
    least: 0.5,
    most: 5000.0,
};
const DAY: Numbers = Numbers {
    of: "a day's work",
    in_what: "hours",
    least: 0.5,
    most: 24.0,
};
const HOURS: Numbers = Numbers {
    of: "a cure",
    in_what: "hours",
    least: 0.0,
    most: 1000.0,
};

/// Most saws and board thicknesses.
const MOST: usize = 50;

/// Keys of the other file that are sometimes written into this one.
const IN_PROJECT: [(&str, &str); 5] = [
    ("form", "the form belongs in the project file"),
    ("section", "sections belong in the project file"),
    ("title", "the title belongs in the project file"),
    ("notes", "notes belong in the project file"),
    ("woods", "own woods belong in the project file"),
];

/// What `[holding]` may say in this file.
const HOLDING: [&str; 13] = [
    "block",
    "diameter",
    "recess",
    "recess_depth",
    "fixing",
    "screws",
    "screw_diameter",
    "screw_bite",
    "screw_circle",
    "tenon",
    "tool_force",
    "safety",
    "tool_bar",
];

/// Reads a workshop file. What it does not say stays as in [`Workshop::default`];
/// what it does say is noted in [`Workshop::given`].
///
/// Every problem of the file is in the last part, in the order of the file; there
/// is a workshop only if there was none. Never panics, whatever the text.
///
/// ```
/// use files::read::read_workshop;
/// let text = "ringwright = 1\nunit = \"inch\"\nstock = [\"13/16\", 1.5]\n";
/// let (workshop, _, problems) = read_workshop(text);
/// assert!(problems.is_empty());
/// assert!(workshop.is_some_and(|w| w.stock.len() == 2 && w.given.contains("stock")));
/// ```
pub fn read_workshop(text: &str) -> (Option<Workshop>, Places, Vec<Problem>) {
    read_file(text, "workshop", workshop)
}

fn workshop(top: &Table<'_>) -> Workshop {
    let mut shop = Workshop {
        unit: top.log.unit(),
        ..Workshop::default()
    };
    let given = &mut BTreeSet::new();
    if top.has("saw") {
        given.insert("saw".into());
        let tables = top.tables("saw", MOST);
        shop.saws = tables.iter().filter_map(|t| saw(t, given)).collect();
        saw_names_differ(&tables);
    }
    if let Some(item) = top.get("stock") {
        given.insert("stock".into());
        shop.stock = stock(&item);
    }
    if let Some(t) = sub(top, "allowances") {
        let a = &mut shop.allowances;
        set(&t, "outside", &ALLOWANCE, &mut a.outside, given);
        set(&t, "inside", &ALLOWANCE, &mut a.inside, given);
        set(&t, "flattening", &LOSS, &mut a.flattening, given);
        set(&t, "glue_line", &GLUE_LINE, &mut a.glue_line, given);
        set(&t, "layer_edge", &ALLOWANCE, &mut a.layer_edge, given);
        set(&t, "jointing", &LOSS, &mut a.jointing, given);
        t.finish(&[]);
    }
    if let Some(t) = sub(top, "lathe") {
        set(&t, "swing", &MACHINE, &mut shop.lathe.swing, given);
        set(&t, "length", &MACHINE, &mut shop.lathe.length, given);
        set_figure(&t, "fastest", &SPEED, &mut shop.lathe.fastest, given);
        let jaws = t.get("jaws_fastest").and_then(|i| i.figure(&SPEED));
        put(
            &t,
            "jaws_fastest",
            jaws.map(Some),
            &mut shop.lathe.jaws_fastest,
            given,
        );
        t.finish(&[]);
    }
    if let Some(t) = sub(top, "sled") {
        sled(&t, &mut shop, given);
    }
    if let Some(t) = sub(top, "holding") {
        let said = holding::of_workshop(&t);
        said.over(&mut shop);
        let keys = HOLDING.iter().filter(|key| t.has(key));
        given.extend(keys.map(|key| t.path_of(key)));
    }
    if let Some(t) = sub(top, "glue") {
        glue(&t, &mut shop.glue, given);
    }
    if let Some(t) = sub(top, "climate") {
        climate::read(&t, &mut shop.climate, given);
    }
    if let Some(t) = sub(top, "exactness") {
        super::exactness::exactness(&t, &mut shop.exactness, given);
    }
    if let Some(t) = sub(top, "defaults") {
        let defaults = &mut shop.defaults;
        let segments = t.whole("segments", &SEGMENTS);
        put(&t, "segments", segments, &mut defaults.segments, given);
        let wood = t.get("wood").and_then(|i| woods::built_in(&i));
        put(&t, "wood", wood, &mut defaults.wood, given);
        set(&t, "board", &BOARD, &mut defaults.board, given);
        set_figure(&t, "hours_a_day", &DAY, &mut defaults.hours_a_day, given);
        t.finish(&[("stock", "did you mean board?")]);
    }
    top.finish(&IN_PROJECT);
    shop.given = std::mem::take(given);
    shop
}

fn glue(t: &Table<'_>, glue: &mut Glue, given: &mut BTreeSet<String>) {
    set_figure(t, "clamp_minutes", &MINUTES, &mut glue.clamp_minutes, given);
    set_figure(t, "cure_hours", &HOURS, &mut glue.cure_hours, given);
    let (key, place) = ("epoxy_cure_hours", &mut glue.epoxy_cure_hours);
    set_figure(t, key, &HOURS, place, given);
    set_figure(t, "open_minutes", &MINUTES, &mut glue.open_minutes, given);
    let (key, place) = ("epoxy_open_minutes", &mut glue.epoxy_open_minutes);
    set_figure(t, key, &MINUTES, place, given);
    set_figure(t, "spread", &SPREAD, &mut glue.spread, given);
    set_figure(t, "waste", &WASTE, &mut glue.waste, given);
    set_figure(t, "face_seconds", &SECONDS, &mut glue.face_seconds, given);
    set_figure(t, "smallest_batch", &BATCH, &mut glue.smallest_batch, given);
    let coldest = climate::temperature(t, "coldest");
    put(t, "coldest", coldest, &mut glue.coldest, given);
    let epoxy = t.flag("epoxy_for_layers");
    put(
        t,
        "epoxy_for_layers",
        epoxy,
        &mut glue.epoxy_for_layers,
        given,
    );
    t.finish(&[]);
}

fn sled(t: &Table<'_>, shop: &mut Workshop, given: &mut BTreeSet<String>) {
    let sled = &mut shop.sled;
    set(t, "base", &SLED, &mut sled.base, given);
    set(t, "clearance", &SLED, &mut sled.clearance, given);
    set(t, "run_out", &SLED, &mut sled.run_out, given);
    set(t, "waste_block", &SLED, &mut sled.waste_block, given);
    set(t, "keep_off", &SLED, &mut sled.keep_off, given);
    set(t, "block_length", &SLED, &mut sled.block_length, given);
    set(t, "block_height", &SLED, &mut sled.block_height, given);
    set(t, "dowel", &SLED, &mut sled.dowel, given);
    let tilt: Option<Angle> = t.angle("largest_tilt", &TILT);
    put(t, "largest_tilt", tilt, &mut sled.largest_tilt, given);
    t.finish(&[]);
}

fn sub<'a>(top: &Table<'a>, key: &'static str) -> Option<Table<'a>> {
    top.get(key)?.table()
}

/// Puts a value in its place, and notes that it was given.
pub(super) fn put<T>(
    table: &Table<'_>,
    key: &str,
    value: Option<T>,
    place: &mut T,
    given: &mut BTreeSet<String>,
) {
    if let Some(value) = value {
        *place = value;
        given.insert(table.path_of(key));
    }
}

pub(super) fn set(
    table: &Table<'_>,
    key: &'static str,
    range: &Lengths,
    place: &mut Length,
    given: &mut BTreeSet<String>,
) {
    put(table, key, table.length(key, range), place, given);
}

fn set_figure(
    table: &Table<'_>,
    key: &'static str,
    range: &Numbers,
    place: &mut f64,
    given: &mut BTreeSet<String>,
) {
    let value = table.get(key).and_then(|item| item.figure(range));
    put(table, key, value, place, given);
}

fn stock(item: &Item<'_>) -> Vec<Length> {
    let items = item.list("board", MOST).unwrap_or_default();
    if items.is_empty() && item.is_list() {
        item.trouble("this list is empty", "name one board's thickness at least");
    }
    items.iter().filter_map(|i| i.length(&BOARD)).collect()
}

/// Words for the kinds of saw.
pub(crate) const SAW_KINDS: [(&str, SawKind); 3] = [
    ("band", SawKind::Band),
    ("table", SawKind::Table),
    ("mitre", SawKind::Mitre),
];

fn saw(table: &Table<'_>, given: &mut BTreeSet<String>) -> Option<Saw> {
    let kind = table.get("kind").and_then(|item| item.choice(&SAW_KINDS));
    table.need(
        "kind",
        "it says what the saw is used for",
        "write kind = \"band\", \"table\" or \"mitre\"",
    );
    // Where the kind is wrong, the rest is read all the same for its troubles.
    let mut saw = common(kind.unwrap_or(SawKind::Band));
    put(table, "name", table.text("name"), &mut saw.name, given);
    set(table, "kerf", &KERF, &mut saw.kerf, given);
    table.need(
        "kerf",
        "every cut is reckoned with it",
        "saw a notch in scrap, measure its width and write it here",
    );
    set(
        table,
        "cutting_height",
        &MACHINE,
        &mut saw.cutting_height,
        given,
    );
    set(table, "room_beside", &MACHINE, &mut saw.room_beside, given);
    set(
        table,
        "table_length",
        &MACHINE,
        &mut saw.table_length,
        given,
    );
    set(table, "table_width", &MACHINE, &mut saw.table_width, given);
    table.finish(&[("cut_height", "did you mean cutting_height?")]);
    kind.map(|_| saw)
}

/// A common saw of a kind, for what the file does not say.
fn common(kind: SawKind) -> Saw {
    let usual = Workshop::default()
        .saws
        .into_iter()
        .find(|s| s.kind == kind);
    usual.unwrap_or_else(|| Saw {
        name: "mitre saw".into(),
        kind,
        kerf: Length::mm(3.0),
        cutting_height: Length::mm(90.0),
        room_beside: Length::mm(300.0),
        table_length: Length::mm(300.0),
        table_width: Length::mm(600.0),
    })
}

fn saw_names_differ(tables: &[Table<'_>]) {
    let name = |t: &Table<'_>| -> Option<String> {
        let item = t.get("name");
        match item {
            Some(item) if item.is_text() => item.text(),
            _ => None,
        }
    };
    for (at, table) in tables.iter().enumerate() {
        let Some(own) = name(table) else { continue };
        if tables[..at].iter().any(|t| name(t).as_ref() == Some(&own)) {
            table.trouble(
                "name",
                format!("two saws are called {own}"),
                "give each saw a name of its own",
            );
        }
    }
}
