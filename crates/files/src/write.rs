//! A [`Design`] or a [`Workshop`] as the text of its file.
//!
//! What was left out stays left out, and numbers are written in the file's own unit
//! with as few decimals as are the same number.

mod exactness;
mod holding;
mod text;

use geometry::Length;

use crate::design::{BandSpec, BlankShape, Design, FloorSpec, LayerMake, RingSpec};
use crate::design::{RingsSpec, SectionSpec, SplitSpec};
use crate::form::{FormPoint, FormSpec, InnerSpec};
use crate::read::{FORMAT, SAW_KINDS};
use crate::workshop::{Saw, Workshop};

use text::Text;

/// Writes a project file that reads back as the same design.
///
/// ```
/// use files::{read::read_design, write::design_text};
/// let file = "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 30], [60, 50]]\nwall = 6\n\
///             [[section]]\nname = \"body\"\nsegments = 12\n";
/// let (design, ..) = read_design("bowl", file);
/// let again = design.map(|d| design_text(&d)).unwrap_or_default();
/// assert!(again.contains("outer = [[0, 30], [60, 50]]"));
/// assert!(read_design("bowl", &again).2.is_empty());
/// ```
pub fn design_text(design: &Design) -> String {
    let mut t = Text::new(design.unit);
    t.whole("ringwright", Some(FORMAT));
    t.word("title", Some(&design.title));
    t.word("unit", Some(design.unit.word()));
    t.word("notes", design.notes.as_deref());
    form(&mut t, &design.form);
    for (name, wood) in &design.woods {
        t.heading(&format!("[woods.{}]", text::key(name)));
        t.word("like", wood.like.as_deref());
        t.figure("density", wood.density);
        t.word("colour", wood.colour.as_deref());
    }
    holding::spec(&mut t, &design.holding);
    for section in &design.sections {
        section_text(&mut t, section);
    }
    t.done()
}

fn form(t: &mut Text, form: &FormSpec) {
    t.heading("[form]");
    points(t, "outer", &form.outer);
    t.flag("straight", form.straight);
    match &form.inner {
        InnerSpec::Points(inner) => points(t, "inner", inner),
        InnerSpec::Wall(walls) => match walls.as_slice() {
            [] => {}
            // One entry holds for the whole wall, whatever its height.
            [(_, wall)] => t.length("wall", Some(*wall)),
            walls => {
                let unit = t.unit();
                let pair = |(h, w): &(Length, Length)| {
                    format!("[{}, {}]", text::number(unit, *h), text::number(unit, *w))
                };
                t.list("wall", walls.iter().map(pair));
            }
        },
    }
    t.length("floor", form.floor);
    t.length("foot_recess", form.foot_recess);
    t.length("foot_width", form.foot_width);
    t.length("rim_easing", form.rim_easing);
}

fn points(t: &mut Text, key: &str, points: &[FormPoint]) {
    let unit = t.unit();
    let point = |p: &FormPoint| {
        let corner = if p.corner { ", \"corner\"" } else { "" };
        let (height, radius) = (text::number(unit, p.height), text::number(unit, p.radius));
        format!("[{height}, {radius}{corner}]")
    };
    t.list(key, points.iter().map(point));
}

fn section_text(t: &mut Text, section: &SectionSpec) {
    t.heading("[[section]]");
    t.word("name", Some(&section.name));
    t.words("wood", &section.wood);
    t.whole("segments", section.segments);
    t.length("stock", section.stock);
    t.length("ring_height", section.ring_height);
    match &section.rings {
        RingsSpec::Auto { height } => {
            t.word("rings", Some("auto"));
            t.length("height", *height);
        }
        RingsSpec::Count(count) => t.whole("rings", Some(*count)),
        RingsSpec::Listed(_) => {}
    }
    t.angle("joint_turn", section.joint_turn);
    t.angle("turn", section.turn);
    if let RingsSpec::Listed(rings) = &section.rings {
        for ring in rings {
            ring_text(t, ring);
        }
    }
    for band in &section.bands {
        band_text(t, band);
    }
    for split in &section.splits {
        split_text(t, split);
    }
}

fn ring_text(t: &mut Text, ring: &RingSpec) {
    t.heading("[[section.ring]]");
    t.whole("repeat", ring.repeat);
    t.words("wood", &ring.wood);
    t.whole("segments", ring.segments);
    t.length("stock", ring.stock);
    t.length("height", ring.height);
    t.angle("turn", ring.turn);
    t.length("outside", ring.outside);
    t.length("width", ring.width);
    t.flag("solid", ring.solid);
    if let Some(floor) = &ring.floor {
        floor_text(t, floor);
    }
}

fn floor_text(t: &mut Text, floor: &FloorSpec) {
    t.word("floor.wood", Some(&floor.wood));
    t.length("floor.thickness", floor.thickness);
    t.length("floor.above", floor.above);
    t.length("floor.groove", floor.groove);
    // Floating is what is taken where nothing is said.
    t.either("floor.floating", (!floor.floating).then_some(false));
    t.length("floor.gap", floor.gap);
}

fn band_text(t: &mut Text, band: &BandSpec) {
    t.heading("[[section.band]]");
    t.whole("loops", band.loops);
    if !band.azimuths.is_empty() {
        t.list("azimuths", band.azimuths.iter().map(|a| text::degrees(*a)));
    }
    t.angle("start", band.start);
    t.length("height", band.height);
    t.angle("tilt", band.tilt);
    t.length("reach", band.reach);
    t.words("wood", &band.wood);
    t.length("layer", band.layer);
    t.length("spacer", band.spacer);
    t.word("saw", band.saw.as_deref());
    t.length("glue_line", band.glue_line);
    if !band.order.is_empty() {
        t.list("order", band.order.iter().map(usize::to_string));
    }
    t.word(
        "make",
        band.make.map(|make| match make {
            LayerMake::Solid => "solid",
            LayerMake::RoundRing => "round ring",
            LayerMake::LongRing => "long ring",
        }),
    );
    t.whole("segments", band.segments);
    t.word(
        "blank",
        band.blank.map(|blank| match blank {
            BlankShape::Cylinder => "cylinder",
            BlankShape::Polygon => "polygon",
        }),
    );
}

fn split_text(t: &mut Text, split: &SplitSpec) {
    t.heading("[[section.split]]");
    t.length("height", Some(split.height));
    t.angle("turn", Some(split.turn));
    t.word("saw", split.saw.as_deref());
}

/// Writes a workshop file that reads back as the same workshop: what its file gave,
/// and what differs from common practice.
///
/// ```
/// use geometry::Length;
/// use files::{workshop::Workshop, write::workshop_text};
/// let mut shop = Workshop::default();
/// shop.allowances.outside = Length::mm(4.5);
/// assert_eq!(
///     workshop_text(&shop),
///     "ringwright = 1\nunit = \"mm\"\n\n[allowances]\noutside = 4.5\n"
/// );
/// ```
pub fn workshop_text(shop: &Workshop) -> String {
    let usual = Workshop::default();
    let mut t = Text::new(shop.unit);
    t.whole("ringwright", Some(FORMAT));
    t.word("unit", Some(shop.unit.word()));
    let given = |key: &str| shop.given.contains(key);
    let differs = |a: Length, b: Length| a.as_mm() != b.as_mm();
    let same_stock = shop.stock.len() == usual.stock.len()
        && !shop
            .stock
            .iter()
            .zip(&usual.stock)
            .any(|(a, b)| differs(*a, *b));
    if given("stock") || !same_stock {
        let unit = shop.unit;
        t.list("stock", shop.stock.iter().map(|s| text::number(unit, *s)));
    }
    for (heading, lengths) in lengths_of(shop, &usual) {
        let wanted: Vec<_> = lengths
            .into_iter()
            .filter(|(key, value, usual)| {
                given(&format!("{heading}.{key}")) || differs(*value, *usual)
            })
            .collect();
        let rest = others_of(shop, &usual, heading);
        let rest: Vec<_> = rest
            .into_iter()
            .filter(|(key, _, differs)| given(&format!("{heading}.{key}")) || *differs)
            .collect();
        if wanted.is_empty() && rest.is_empty() {
            continue;
        }
        t.heading(&format!("[{heading}]"));
        for (key, value, _) in wanted {
            t.length(key, Some(value));
        }
        for (key, value, _) in rest {
            t.raw(key, &value);
        }
    }
    exactness::exactness(&mut t, shop, &usual);
    holding::spec(&mut t, &holding::of_shop(shop, &usual));
    holding::climate(&mut t, shop, &usual);
    if given("saw") || saws_differ(&shop.saws, &usual.saws) {
        // A shop without any saw is said by an empty list, which [[saw]] cannot be.
        if shop.saws.is_empty() {
            return t.done().replacen("unit =", "saw = []\nunit =", 1);
        }
        for saw in &shop.saws {
            saw_text(&mut t, saw);
        }
    }
    t.done()
}

fn saws_differ(a: &[Saw], b: &[Saw]) -> bool {
    let figures = |s: &Saw| {
        [
            s.kerf,
            s.cutting_height,
            s.room_beside,
            s.table_length,
            s.table_width,
        ]
        .map(Length::as_mm)
    };
    a.len() != b.len()
        || a.iter()
            .zip(b)
            .any(|(a, b)| a.name != b.name || a.kind != b.kind || figures(a) != figures(b))
}

fn saw_text(t: &mut Text, saw: &Saw) {
    t.heading("[[saw]]");
    let kind = SAW_KINDS.iter().find(|(_, kind)| *kind == saw.kind);
    t.word("name", Some(&saw.name));
    t.word("kind", kind.map(|(word, _)| *word));
    t.length("kerf", Some(saw.kerf));
    t.length("cutting_height", Some(saw.cutting_height));
    t.length("room_beside", Some(saw.room_beside));
    t.length("table_length", Some(saw.table_length));
    t.length("table_width", Some(saw.table_width));
}

type Lengths = Vec<(&'static str, Length, Length)>;

/// The workshop's tables with their lengths: key, the shop's, the usual one.
fn lengths_of(shop: &Workshop, usual: &Workshop) -> [(&'static str, Lengths); 5] {
    let (a, b) = (&shop.allowances, &usual.allowances);
    let (s, u) = (&shop.sled, &usual.sled);
    [
        (
            "allowances",
            vec![
                ("outside", a.outside, b.outside),
                ("inside", a.inside, b.inside),
                ("flattening", a.flattening, b.flattening),
                ("glue_line", a.glue_line, b.glue_line),
                ("layer_edge", a.layer_edge, b.layer_edge),
                ("jointing", a.jointing, b.jointing),
            ],
        ),
        (
            "lathe",
            vec![
                ("swing", shop.lathe.swing, usual.lathe.swing),
                ("length", shop.lathe.length, usual.lathe.length),
            ],
        ),
        (
            "sled",
            vec![
                ("base", s.base, u.base),
                ("clearance", s.clearance, u.clearance),
                ("run_out", s.run_out, u.run_out),
                ("waste_block", s.waste_block, u.waste_block),
                ("keep_off", s.keep_off, u.keep_off),
                ("block_length", s.block_length, u.block_length),
                ("block_height", s.block_height, u.block_height),
                ("dowel", s.dowel, u.dowel),
            ],
        ),
        ("glue", Vec::new()),
        (
            "defaults",
            vec![("board", shop.defaults.board, usual.defaults.board)],
        ),
    ]
}

/// What is no length: key, the value as written, does it differ from the usual one?
fn others_of(
    shop: &Workshop,
    usual: &Workshop,
    heading: &str,
) -> Vec<(&'static str, String, bool)> {
    match heading {
        "lathe" => {
            let mut all = vec![figure("fastest", shop.lathe.fastest, usual.lathe.fastest)];
            let jaws = shop.lathe.jaws_fastest;
            all.extend(jaws.map(|jaws| ("jaws_fastest", format!("{jaws}"), true)));
            all
        }
        "sled" => {
            let (own, other) = (shop.sled.largest_tilt, usual.sled.largest_tilt);
            let differs = own.as_rad() != other.as_rad();
            vec![("largest_tilt", text::degrees(own), differs)]
        }
        "glue" => {
            let (own, other) = (&shop.glue, &usual.glue);
            let epoxy = own.epoxy_for_layers;
            vec![
                figure("clamp_minutes", own.clamp_minutes, other.clamp_minutes),
                figure("cure_hours", own.cure_hours, other.cure_hours),
                (
                    "epoxy_for_layers",
                    epoxy.to_string(),
                    epoxy != other.epoxy_for_layers,
                ),
                figure(
                    "epoxy_cure_hours",
                    own.epoxy_cure_hours,
                    other.epoxy_cure_hours,
                ),
                figure("open_minutes", own.open_minutes, other.open_minutes),
                figure(
                    "epoxy_open_minutes",
                    own.epoxy_open_minutes,
                    other.epoxy_open_minutes,
                ),
                figure("spread", own.spread, other.spread),
                figure("waste", own.waste, other.waste),
                figure("face_seconds", own.face_seconds, other.face_seconds),
                figure("smallest_batch", own.smallest_batch, other.smallest_batch),
                (
                    "coldest",
                    holding::temperature(shop.unit, own.coldest),
                    own.coldest != other.coldest,
                ),
            ]
        }
        "defaults" => {
            let (own, other) = (&shop.defaults, &usual.defaults);
            vec![
                (
                    "segments",
                    own.segments.to_string(),
                    own.segments != other.segments,
                ),
                ("wood", text::quoted(&own.wood), own.wood != other.wood),
                figure("hours_a_day", own.hours_a_day, other.hours_a_day),
            ]
        }
        _ => Vec::new(),
    }
}

fn figure(key: &'static str, own: f64, usual: f64) -> (&'static str, String, bool) {
    (key, format!("{own}"), own != usual)
}
