//! The text of a new project file.

use files::units::{Unit, fixed};
use geometry::Length;

use super::NewPiece;
use super::kind::PieceKind;

/// A length as the file's unit writes it: 0.5 mm steps, or sixteenths of an inch.
fn written(length: Length, unit: Unit) -> String {
    match unit {
        Unit::Mm => {
            let text = fixed((length.as_mm() * 2.0).round() / 2.0, 1);
            text.strip_suffix(".0").map_or(text.clone(), String::from)
        }
        Unit::Inch => {
            let sixteenths = Length::inches((length.as_inches() * 16.0).round() / 16.0);
            format!("\"{}\"", unit.length_bare(sixteenths))
        }
    }
}

/// The file of a new piece; with loops of this reach, or none.
pub fn text(new: &NewPiece, reach: Option<Length>) -> String {
    let unit = new.unit;
    let w = |l: Length| written(l, unit);
    let mm = |v: f64| w(Length::mm(v));
    let (h, r) = (new.height, new.diameter / 2.0);
    let points: Vec<String> = new
        .kind
        .curve()
        .iter()
        .map(|(z, x)| format!("  [{}, {}],", w(h * *z), w(r * *x)))
        .collect();
    // A loose floor reaches so far into the wall that it stays in when it shrinks.
    let groove = 1.5 + new.diameter.as_mm() / 80.0;
    let least = match new.kind {
        PieceKind::Box => groove + 3.0,
        _ => 3.5,
    };
    let wall = (new.diameter.as_mm() / 28.0).clamp(3.5, 9.0).max(least);
    let stock = match unit {
        Unit::Mm => "19".to_string(),
        Unit::Inch => "\"3/4\"".to_string(),
    };
    let ring = match unit {
        Unit::Mm => Length::mm(18.0),
        Unit::Inch => Length::inches(0.75) - Length::mm(1.0),
    };
    let straight = if new.kind == PieceKind::Box {
        "straight = true\n"
    } else {
        ""
    };
    let unit_name = match unit {
        Unit::Mm => "mm",
        Unit::Inch => "inch",
    };
    let mut out = format!(
        "# Plain numbers are in the unit below; \"6 3/8 in\" or \"162 mm\" may stand anywhere.\n\
         ringwright = 1\n\
         title = {}\n\
         unit = \"{unit_name}\"\n\
         \n\
         [form]\n\
         # Outside of the finished piece, from the foot up: [height, radius].\n\
         outer = [\n{}\n]\n\
         {straight}\
         wall = {}          # thickness, square to the outside\n\
         floor = {}\n\
         foot_recess = {}\n\
         foot_width = {}\n\
         rim_easing = {}\n",
        toml_edit::Value::from(new.title.as_str()),
        points.join("\n"),
        mm(wall),
        mm(wall + 2.0),
        mm(2.0),
        mm(wall + 2.0),
        mm(1.5),
    );
    let base = match new.kind {
        PieceKind::Box => format!(
            "  # A floor that is free to move in its groove.\n  \
             floor = {{ wood = \"hard maple\", floating = true, groove = {} }}\n",
            mm(groove)
        ),
        _ => "  # One solid disc.\n  solid = true\n".into(),
    };
    out += &format!(
        "\n# Sections from the bottom up; rings in them from the bottom up.\n\
         [[section]]\n\
         name = \"base\"\n\
         wood = \"walnut\"\n\
         segments = {}\n\
         \n\
         \x20 [[section.ring]]\n\
         \x20 stock = {stock}\n\
         {base}",
        new.segments
    );
    out += &format!(
        "\n[[section]]\n\
         name = \"body\"\n\
         wood = \"hard maple\"    # or several, repeated round: [\"hard maple\", \"cherry\"]\n\
         segments = {}\n\
         stock = {stock}          # board thickness; flattening makes the ring thinner\n\
         rings = \"auto\"        # as many as reach the rim\n",
        new.segments
    );
    if let Some(reach) = reach {
        let middle = (h - ring) / 2.0;
        let layer = (h.as_mm() / 20.0).clamp(3.0, 6.0);
        out += &format!(
            "\n\
             \x20 # The knot: each loop is a slice sawn out and filled with a layer.\n\
             \x20 [[section.band]]\n\
             \x20 loops = {}\n\
             \x20 height = {}        # the loops' middle above the section's underside\n\
             \x20 reach = {}         # lowest to highest edge on the finished wall\n\
             \x20 wood = \"purpleheart\"\n\
             \x20 layer = {}         # the layer's thickness\n\
             \x20 make = \"long ring\"  # segments, two of them longer; or \"solid\": one board\n",
            new.loops,
            w(middle),
            w(reach),
            mm(layer),
        );
    }
    out
}
