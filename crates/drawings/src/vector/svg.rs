//! A drawing as SVG: true to size, no scripts, the same bytes each time.

use geometry::Portable;
use std::fmt::Write as _;

use files::wood::Hatch;
use glam::DVec2;

use super::drawing::{Drawing, Fill, Item, LineKind, Shape};
use super::look::Pattern;
use super::text::{Anchor, Text};

/// Ink, paper and shade, as the page has them.
const INK: &str = "#24211c";
const PAPER: &str = "#fcfaf5";
const SHADE: &str = "#e9e3d6";
const MARK: &str = "#a9c4c4";
/// The type, and what stands in for it.
const TYPE: &str = "'Libertinus Serif', serif";

/// The drawing as SVG text. One user unit is one millimetre, and so are width and
/// height, so that it prints true to size. Numbers are written to 0.001 mm.
///
/// Classes (`line thin`, `words`, `wood`) let a page restyle it; ids begin with the
/// title's words, so that drawings with different titles may share a page.
pub fn to_svg(drawing: &Drawing) -> String {
    let mut out = String::with_capacity(16 * 1024);
    let id = slug(&drawing.title);
    let (w, h) = (number(drawing.width), number(drawing.height));
    // Writing to a String cannot fail.
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" \
         viewBox=\"0 0 {w} {h}\" role=\"img\" aria-labelledby=\"{id}-title {id}-desc\">"
    );
    let _ = writeln!(
        out,
        "<title id=\"{id}-title\">{}</title>",
        escaped(&drawing.title)
    );
    let _ = writeln!(
        out,
        "<desc id=\"{id}-desc\">{}</desc>",
        escaped(&drawing.description)
    );
    patterns(drawing, &id, &mut out);
    let _ = writeln!(
        out,
        "<rect class=\"sheet\" width=\"{w}\" height=\"{h}\" fill=\"{PAPER}\"/>"
    );
    for layer in drawing.layers.iter().filter(|l| !l.items.is_empty()) {
        let _ = writeln!(out, "<g id=\"{id}-{}\">", slug(&layer.name));
        let mut open = None;
        for item in &layer.items {
            let wanted = Group::of(item);
            if open != Some(wanted) {
                if open.is_some() {
                    out.push_str("</g>\n");
                }
                wanted.open(&mut out);
                open = Some(wanted);
            }
            match item {
                Item::Line(shape, _) => line(shape, &mut out),
                Item::Area(area) => {
                    let mut d = String::new();
                    for bound in &area.bounds {
                        path(bound, true, &mut d);
                    }
                    let (class, fill) = match area.fill {
                        Fill::Paper => ("paper", PAPER.to_string()),
                        Fill::Ink => ("ink", INK.to_string()),
                        Fill::Shade => ("shade", SHADE.to_string()),
                        Fill::Mark => ("mark", MARK.to_string()),
                        Fill::Wood(p) => ("wood", format!("url(#{id}-wood-{})", p.number)),
                    };
                    let _ = writeln!(out, "<path class=\"{class}\" d=\"{d}\" fill=\"{fill}\"/>");
                }
                Item::Text(text) => words(text, &mut out),
            }
        }
        if open.is_some() {
            out.push_str("</g>\n");
        }
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

/// Neighbouring items of one kind share a group's attributes.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Group {
    Lines(LineKind),
    Areas,
    Words,
}

impl Group {
    fn of(item: &Item) -> Self {
        match item {
            Item::Line(_, kind) => Group::Lines(*kind),
            Item::Area(_) => Group::Areas,
            Item::Text(_) => Group::Words,
        }
    }

    fn open(self, out: &mut String) {
        let _ = match self {
            Group::Lines(kind) => {
                let dashes: Vec<String> = kind.dashes().iter().map(|d| number(*d)).collect();
                let dashes = if dashes.is_empty() {
                    String::new()
                } else {
                    format!(" stroke-dasharray=\"{}\"", dashes.join(" "))
                };
                writeln!(
                    out,
                    "<g class=\"line {}\" fill=\"none\" stroke=\"{INK}\" stroke-width=\"{}\" \
                     stroke-linejoin=\"round\"{dashes}>",
                    kind.name(),
                    number(kind.width())
                )
            }
            Group::Areas => writeln!(out, "<g fill-rule=\"evenodd\">"),
            Group::Words => writeln!(
                out,
                "<g class=\"words\" font-family=\"{TYPE}\" fill=\"{INK}\" xml:space=\"preserve\">"
            ),
        };
    }
}

fn line(shape: &Shape, out: &mut String) {
    let _ = match shape {
        Shape::Circle { centre, radius } => writeln!(
            out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
            number(centre.x),
            number(centre.y),
            number(*radius)
        ),
        Shape::Arc {
            centre,
            radius,
            from,
            sweep,
        } => {
            let at = |a: f64| *centre + DVec2::new(a.cosine(), -a.sine()) * *radius;
            let (p, q) = (at(*from), at(*from + *sweep));
            let large = i32::from(sweep.abs() > std::f64::consts::PI);
            // y runs down the paper: anticlockwise is SVG's sweep 0.
            let way = i32::from(*sweep < 0.0);
            writeln!(
                out,
                "<path d=\"M{} {}A{r} {r} 0 {large} {way} {} {}\"/>",
                number(p.x),
                number(p.y),
                number(q.x),
                number(q.y),
                r = number(*radius)
            )
        }
        Shape::Polyline { points, closed } => {
            let mut d = String::new();
            path(points, *closed, &mut d);
            writeln!(out, "<path d=\"{d}\"/>")
        }
    };
}

fn path(points: &[DVec2], closed: bool, d: &mut String) {
    for (i, p) in points.iter().enumerate() {
        let _ = write!(
            d,
            "{}{} {}",
            if i == 0 { "M" } else { "L" },
            number(p.x),
            number(p.y)
        );
    }
    if closed && !points.is_empty() {
        d.push('Z');
    }
}

fn words(text: &Text, out: &mut String) {
    let (x, y) = (number(text.at.x), number(text.at.y));
    let anchor = match text.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let strong = if text.strong {
        " font-weight=\"600\""
    } else {
        ""
    };
    let turn = match number(-text.turn.to_degrees()) {
        none if none == "0" => String::new(),
        by => format!(" transform=\"rotate({by} {x} {y})\""),
    };
    let halo = if text.halo {
        format!(
            " stroke=\"{PAPER}\" stroke-width=\"{}\" stroke-linejoin=\"round\" paint-order=\"stroke\"",
            number(0.28 * text.size)
        )
    } else {
        String::new()
    };
    let _ = writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"{anchor}{strong}{turn}{halo}>{}</text>",
        number(text.size),
        escaped(&text.words)
    );
}

fn patterns(drawing: &Drawing, id: &str, out: &mut String) {
    let mut used: Vec<Pattern> = Vec::new();
    for item in drawing.items() {
        if let Item::Area(area) = item
            && let Fill::Wood(p) = area.fill
            && !used.iter().any(|u| u.number == p.number)
        {
            used.push(p);
        }
    }
    if used.is_empty() {
        return;
    }
    used.sort_by_key(|p| p.number);
    out.push_str("<defs>\n");
    for p in used {
        pattern(&p, id, out);
    }
    out.push_str("</defs>\n");
}

/// A pattern's tile: its size, its turn, and what is drawn in it.
fn pattern(p: &Pattern, id: &str, out: &mut String) {
    let v = p.variant;
    // Woods of one kind are told apart by the turn first, by the spacing next.
    let turn = match p.hatch {
        Hatch::Crossed => [45.0, 0.0, 22.5, 67.5],
        _ => [45.0, -45.0, 0.0, 90.0],
    }[v % 4];
    let wider = 1.0 + 0.5 * (v / 4) as f64;
    let (size, marks) = match (p.hatch, v) {
        (Hatch::Blank, 0) => (4.0, String::new()),
        // Further light woods: short strokes, so that they differ from the first and from dots.
        (Hatch::Blank, _) => (4.0 * wider, stroke("M1 2H2.6", 0.13)),
        (Hatch::Dots, _) => (
            2.0 * wider,
            format!(
                "<circle cx=\"1\" cy=\"1\" r=\"{}\" fill=\"{INK}\"/>",
                number(0.17)
            ),
        ),
        (Hatch::Lines, _) => (
            1.8 * wider,
            stroke(&format!("M0 .9H{}", number(1.8 * wider)), 0.13),
        ),
        (Hatch::Crossed, _) => (
            1.5 * wider,
            stroke(
                &format!("M0 .7H{s}M.7 0V{s}", s = number(1.5 * wider)),
                0.13,
            ),
        ),
        (Hatch::Filled, _) => (
            0.6 * wider,
            stroke(&format!("M0 .3H{}", number(0.6 * wider)), 0.26),
        ),
    };
    let s = number(size);
    let _ = writeln!(
        out,
        "<pattern id=\"{id}-wood-{}\" width=\"{s}\" height=\"{s}\" patternUnits=\"userSpaceOnUse\" \
         patternTransform=\"rotate({})\"><rect width=\"{s}\" height=\"{s}\" fill=\"{}\"/>{marks}</pattern>",
        p.number,
        number(turn),
        p.tint
    );
}

fn stroke(d: &str, width: f64) -> String {
    format!(
        "<path d=\"{d}\" stroke=\"{INK}\" stroke-width=\"{}\"/>",
        number(width)
    )
}

/// A number to 0.001, without zeros that say nothing and never `-0`; 0 for what is no number.
fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".into();
    }
    let mut text = format!("{value:.3}");
    while text.ends_with('0') {
        text.pop();
    }
    if text.ends_with('.') {
        text.pop();
    }
    if text == "-0" || text.is_empty() {
        return "0".into();
    }
    text
}

/// Words as an XML id: letters, figures and hyphens, beginning with a letter.
fn slug(words: &str) -> String {
    let mut out = String::from("d");
    for c in words.chars() {
        if c.is_ascii_alphanumeric() {
            if out == "d" {
                out.push('-');
            }
            out.push(c.to_ascii_lowercase());
        } else if !out.ends_with('-') {
            out.push('-');
        }
    }
    out.truncate(out.trim_end_matches('-').len());
    out
}

/// Text as XML: the five marks written out, what XML forbids left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c < ' ' || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vector::Pen;
    use files::units::Unit;

    /// The whole of a small drawing, so that what is written can be read in a diff.
    #[test]
    fn a_small_drawing_is_written_so() {
        let mut pen = Pen::new("A <peg>", "6 mm & round", Unit::Mm);
        pen.layer("body");
        pen.circle(DVec2::ZERO, 3.0, LineKind::Outline);
        pen.line(
            DVec2::new(-3.0, 0.0),
            DVec2::new(3.0, -0.00001),
            LineKind::Centre,
        );
        let quarter = std::f64::consts::FRAC_PI_2;
        pen.arc(DVec2::ZERO, 2.0, 0.0, quarter, LineKind::Thin);
        pen.text(Text {
            turn: quarter,
            ..Text::centred(DVec2::ZERO, "6", 3.0)
        });
        let want = r##"<svg xmlns="http://www.w3.org/2000/svg" width="8mm" height="8mm" viewBox="0 0 8 8" role="img" aria-labelledby="d-a-peg-title d-a-peg-desc">
<title id="d-a-peg-title">A &lt;peg&gt;</title>
<desc id="d-a-peg-desc">6 mm &amp; round</desc>
<rect class="sheet" width="8" height="8" fill="#fcfaf5"/>
<g id="d-a-peg-d-body">
<g class="line outline" fill="none" stroke="#24211c" stroke-width="0.5" stroke-linejoin="round">
<circle cx="4" cy="4" r="3"/>
</g>
<g class="line centre" fill="none" stroke="#24211c" stroke-width="0.18" stroke-linejoin="round" stroke-dasharray="6 1.2 0.5 1.2">
<path d="M1 4L7 4"/>
</g>
<g class="line thin" fill="none" stroke="#24211c" stroke-width="0.25" stroke-linejoin="round">
<path d="M6 4A2 2 0 0 0 4 2"/>
</g>
<g class="words" font-family="'Libertinus Serif', serif" fill="#24211c" xml:space="preserve">
<text x="4" y="4.987" font-size="3" text-anchor="middle" transform="rotate(-90 4 4.987)">6</text>
</g>
</g>
</svg>
"##;
        assert_eq!(to_svg(&pen.finish(1.0)), want);
    }
}
