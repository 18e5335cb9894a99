//! A drawing as DXF for laser, CNC and drawing programs.
//!
//! ASCII, release 12 (group codes after Autodesk's DXF reference), which every
//! reader takes. One unit is one millimetre; y runs up. Layer names are the
//! drawing's, in capitals with hyphens, as that release asks.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use drawings::vector::{Anchor, Drawing, Item, LineKind, Shape, Text};
use glam::DVec2;

/// Height of capitals as a share of the type's size: what DXF calls text height.
const CAPITALS: f64 = 0.658;
/// Longest layer name of release 12.
const LONGEST_NAME: usize = 31;

/// The drawing as DXF text. Areas are left out: their bounds are drawn as lines.
pub fn to_dxf(drawing: &Drawing) -> String {
    let mut out = Groups(String::with_capacity(64 * 1024));
    out.word(999, &ascii(&drawing.title));
    out.word(999, "millimetres");
    header(drawing, &mut out);
    tables(drawing, &mut out);
    out.section("ENTITIES");
    for layer in &drawing.layers {
        let name = layer_name(&layer.name);
        for item in &layer.items {
            entity(item, &name, drawing.height, &mut out);
        }
    }
    out.word(0, "ENDSEC");
    out.word(0, "EOF");
    out.0
}

/// Pairs of a group code and a value.
struct Groups(String);

impl Groups {
    fn word(&mut self, code: u16, value: &str) {
        // Writing to a String cannot fail.
        let _ = write!(self.0, "{code:>3}\r\n{value}\r\n");
    }

    fn number(&mut self, code: u16, value: f64) {
        let value = if value.is_finite() { value } else { 0.0 };
        let text = format!("{value:.6}");
        self.word(
            code,
            if text == "-0.000000" {
                "0.000000"
            } else {
                &text
            },
        );
    }

    fn count(&mut self, code: u16, value: usize) {
        self.word(code, &format!("{value:>6}"));
    }

    fn point(&mut self, first: u16, p: DVec2) {
        self.number(first, p.x);
        self.number(first + 10, p.y);
        self.number(first + 20, 0.0);
    }

    fn section(&mut self, name: &str) {
        self.word(0, "SECTION");
        self.word(2, name);
    }
}

fn header(drawing: &Drawing, out: &mut Groups) {
    out.section("HEADER");
    out.word(9, "$ACADVER");
    out.word(1, "AC1009");
    out.word(9, "$EXTMIN");
    out.point(10, DVec2::ZERO);
    out.word(9, "$EXTMAX");
    out.point(10, DVec2::new(drawing.width, drawing.height));
    out.word(0, "ENDSEC");
}

/// Line types: a name for those that are not full.
const fn line_type(kind: LineKind) -> &'static str {
    match kind {
        LineKind::Hidden => "HIDDEN",
        LineKind::Centre => "CENTER",
        LineKind::Phantom => "PHANTOM",
        LineKind::Guide => "DOT",
        _ => "CONTINUOUS",
    }
}

fn tables(drawing: &Drawing, out: &mut Groups) {
    out.section("TABLES");
    let mut types: BTreeMap<&str, &[f64]> = BTreeMap::new();
    for kind in LineKind::ALL {
        types.insert(line_type(kind), kind.dashes());
    }
    out.word(0, "TABLE");
    out.word(2, "LTYPE");
    out.count(70, types.len());
    for (name, dashes) in types {
        out.word(0, "LTYPE");
        out.word(2, name);
        out.count(70, 64);
        out.word(3, "");
        out.count(72, 65);
        let dashes = if name == "CONTINUOUS" { &[] } else { dashes };
        out.count(73, dashes.len());
        out.number(40, dashes.iter().sum());
        for (i, dash) in dashes.iter().enumerate() {
            out.number(49, if i % 2 == 0 { *dash } else { -dash });
        }
    }
    out.word(0, "ENDTAB");
    let mut layers: Vec<String> = vec!["0".into()];
    for layer in &drawing.layers {
        let name = layer_name(&layer.name);
        if !layers.contains(&name) {
            layers.push(name);
        }
    }
    out.word(0, "TABLE");
    out.word(2, "LAYER");
    out.count(70, layers.len());
    for name in layers {
        out.word(0, "LAYER");
        out.word(2, &name);
        out.count(70, 64);
        out.count(62, 7);
        out.word(6, "CONTINUOUS");
    }
    out.word(0, "ENDTAB");
    out.word(0, "TABLE");
    out.word(2, "STYLE");
    out.count(70, 1);
    out.word(0, "STYLE");
    out.word(2, "STANDARD");
    out.count(70, 0);
    out.number(40, 0.0);
    out.number(41, 1.0);
    out.number(50, 0.0);
    out.count(71, 0);
    out.number(42, 2.5);
    out.word(3, "txt");
    out.word(4, "");
    out.word(0, "ENDTAB");
    out.word(0, "ENDSEC");
}

fn begin(what: &str, layer: &str, kind: Option<LineKind>, out: &mut Groups) {
    out.word(0, what);
    out.word(8, layer);
    match kind.map(line_type) {
        None | Some("CONTINUOUS") => {}
        Some(name) => out.word(6, name),
    }
}

fn entity(item: &Item, layer: &str, height: f64, out: &mut Groups) {
    let up = |p: DVec2| DVec2::new(p.x, height - p.y);
    match item {
        Item::Area(_) => {}
        Item::Text(text) => words(text, layer, up(text.at), out),
        Item::Line(Shape::Circle { centre, radius }, kind) => {
            begin("CIRCLE", layer, Some(*kind), out);
            out.point(10, up(*centre));
            out.number(40, *radius);
        }
        Item::Line(
            Shape::Arc {
                centre,
                radius,
                from,
                sweep,
            },
            kind,
        ) => {
            // An arc runs anticlockwise from its first angle to its second.
            let (a, b) = if *sweep < 0.0 {
                (from + sweep, *from)
            } else {
                (*from, from + sweep)
            };
            begin("ARC", layer, Some(*kind), out);
            out.point(10, up(*centre));
            out.number(40, *radius);
            out.number(50, a.to_degrees().rem_euclid(360.0));
            out.number(51, b.to_degrees().rem_euclid(360.0));
        }
        Item::Line(Shape::Polyline { points, closed }, kind) => match points.as_slice() {
            [] | [_] => {}
            [a, b] => {
                begin("LINE", layer, Some(*kind), out);
                out.point(10, up(*a));
                out.point(11, up(*b));
            }
            points => {
                begin("POLYLINE", layer, Some(*kind), out);
                out.count(66, 1);
                out.point(10, DVec2::ZERO);
                out.count(70, usize::from(*closed));
                for p in points {
                    out.word(0, "VERTEX");
                    out.word(8, layer);
                    out.point(10, up(*p));
                }
                out.word(0, "SEQEND");
                out.word(8, layer);
            }
        },
    }
}

fn words(text: &Text, layer: &str, at: DVec2, out: &mut Groups) {
    let words = ascii(&text.words);
    if words.is_empty() {
        return;
    }
    begin("TEXT", layer, None, out);
    out.point(10, at);
    out.number(40, text.size * CAPITALS);
    out.word(1, &words);
    out.number(50, text.turn.to_degrees());
    let held = match text.anchor {
        Anchor::Start => return,
        Anchor::Middle => 1,
        Anchor::End => 2,
    };
    out.count(72, held);
    out.point(11, at);
}

/// A layer's name as release 12 allows it.
fn layer_name(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars().take(LONGEST_NAME) {
        if c.is_ascii_alphanumeric() {
            out.push(c.to_ascii_uppercase());
        } else if !out.ends_with('-') {
            out.push('-');
        }
    }
    if out.is_empty() { "0".into() } else { out }
}

/// Words in ASCII: the format's own codes for degrees and diameters, plain
/// stand-ins for dashes and signs, `?` for what has none.
fn ascii(words: &str) -> String {
    let mut out = String::new();
    for c in words.chars() {
        match c {
            '°' => out.push_str("%%d"),
            '⌀' | 'Ø' | 'ø' => out.push_str("%%c"),
            '±' => out.push_str("%%p"),
            '×' => out.push('x'),
            '−' | '–' | '—' => out.push('-'),
            '·' => out.push('*'),
            '“' | '”' => out.push('"'),
            '‘' | '’' => out.push('\''),
            ' '..='~' => out.push(c),
            c if c.is_whitespace() || c.is_control() => out.push(' '),
            _ => out.push('?'),
        }
    }
    out.trim().into()
}
