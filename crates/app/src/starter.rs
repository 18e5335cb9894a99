//! A complete, commented project file to start from, whose knot fits.

use files::read::read_design;
use files::units::{Unit, fixed};
use files::workshop::Workshop;
use geometry::Length;
use piece::settle::settle;
use plan::finding::Severity;

/// What to start from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Kind {
    /// An open bowl.
    Bowl,
    /// A vase with a belly and a neck.
    Vase,
    /// A wide, low platter.
    Platter,
    /// A straight-sided box with a floor that is free to move.
    Box,
}

/// What the maker asks for.
#[derive(Debug, Clone)]
pub struct Wish {
    /// Kind of piece.
    pub kind: Kind,
    /// Its name.
    pub title: String,
    /// Overall height.
    pub height: Length,
    /// Largest diameter.
    pub diameter: Length,
    /// Loops in the band; 0 for no band.
    pub loops: usize,
    /// Segments in a ring.
    pub segments: usize,
    /// Unit of the file.
    pub unit: Unit,
}

/// Outer curve as (share of the height, share of the largest radius).
fn curve(kind: Kind) -> &'static [(f64, f64)] {
    match kind {
        Kind::Bowl => &[
            (0.0, 0.46),
            (0.1, 0.53),
            (0.35, 0.78),
            (0.68, 0.95),
            (1.0, 1.0),
        ],
        Kind::Vase => &[
            (0.0, 0.48),
            (0.06, 0.5),
            (0.26, 0.82),
            (0.46, 1.0),
            (0.64, 0.88),
            (0.84, 0.5),
            (0.93, 0.42),
            (1.0, 0.5),
        ],
        Kind::Platter => &[(0.0, 0.6), (0.2, 0.66), (0.6, 0.88), (1.0, 1.0)],
        Kind::Box => &[(0.0, 1.0), (1.0, 1.0)],
    }
}

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

/// Writes the file, or says what would have to be larger.
pub fn write(wish: &Wish) -> Result<String, String> {
    let unit = wish.unit;
    let (height, diameter) = (wish.height, wish.diameter);
    if !(20.0..=2000.0).contains(&height.as_mm()) || !(30.0..=2000.0).contains(&diameter.as_mm()) {
        return Err(format!(
            "a height from {} to {} and a diameter from {} to {}",
            unit.length(Length::mm(20.0)),
            unit.length(Length::mm(2000.0)),
            unit.length(Length::mm(30.0)),
            unit.length(Length::mm(2000.0)),
        ));
    }
    if wish.loops == 0 {
        return Ok(text(wish, None));
    }
    if let Some(text) = fitting(wish, 1) {
        return Ok(text);
    }
    // A low piece has no room for the cuts; say how high it would have to be.
    for more in 1..=40 {
        let higher = Wish {
            height: height + Length::mm(6.0) * f64::from(more),
            ..wish.clone()
        };
        if fitting(&higher, 4).is_some() {
            return Err(format!(
                "{} loops do not fit at a height of {}; {} would do",
                wish.loops,
                unit.length(height),
                unit.length(higher.height)
            ));
        }
    }
    Err(format!(
        "{} loops do not fit at a diameter of {}; try another size, or --loops 0",
        wish.loops,
        unit.length(diameter)
    ))
}

/// The file with the largest reach, of those tried, that nothing stops or puts at risk.
fn fitting(wish: &Wish, stride: usize) -> Option<String> {
    (2..=36)
        .rev()
        .step_by(stride)
        .map(|share| text(wish, Some(wish.height * (f64::from(share) / 40.0))))
        .find(|text| serves(text))
}

/// Does a starter read and plan with nothing that stops or risks the work?
fn serves(text: &str) -> bool {
    let (Some(design), _, _) = read_design("starter", text) else {
        return false;
    };
    let settled = settle(&design, &Workshop::default());
    plan::findings::find(&settled)
        .iter()
        .all(|f| f.severity == Severity::WorthKnowing)
}

fn text(wish: &Wish, reach: Option<Length>) -> String {
    let unit = wish.unit;
    let w = |l: Length| written(l, unit);
    let mm = |v: f64| w(Length::mm(v));
    let (h, r) = (wish.height, wish.diameter / 2.0);
    let points: Vec<String> = curve(wish.kind)
        .iter()
        .map(|(z, x)| format!("  [{}, {}],", w(h * *z), w(r * *x)))
        .collect();
    // A loose floor reaches so far into the wall that it stays in when it shrinks.
    let groove = 1.5 + wish.diameter.as_mm() / 80.0;
    let least = match wish.kind {
        Kind::Box => groove + 3.0,
        _ => 3.5,
    };
    let wall = (wish.diameter.as_mm() / 28.0).clamp(3.5, 9.0).max(least);
    let stock = match unit {
        Unit::Mm => "19".to_string(),
        Unit::Inch => "\"3/4\"".to_string(),
    };
    let ring = match unit {
        Unit::Mm => Length::mm(18.0),
        Unit::Inch => Length::inches(0.75) - Length::mm(1.0),
    };
    let straight = if wish.kind == Kind::Box {
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
         title = {:?}\n\
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
        wish.title,
        points.join("\n"),
        mm(wall),
        mm(wall + 2.0),
        mm(2.0),
        mm(wall + 2.0),
        mm(1.5),
    );
    let base = match wish.kind {
        Kind::Box => format!(
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
        wish.segments
    );
    out += &format!(
        "\n[[section]]\n\
         name = \"body\"\n\
         wood = \"hard maple\"    # or several, repeated round: [\"hard maple\", \"cherry\"]\n\
         segments = {}\n\
         stock = {stock}          # board thickness; flattening makes the ring thinner\n\
         rings = \"auto\"        # as many as reach the rim\n",
        wish.segments
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
            wish.loops,
            w(middle),
            w(reach),
            mm(layer),
        );
    }
    out
}
