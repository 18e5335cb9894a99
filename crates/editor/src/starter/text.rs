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
    let write = Writer { new };
    let mut out = write.form();
    out += &write.base();
    out += &write.body();
    if let Some(reach) = reach {
        out += &write.knot(reach);
    }
    out
}

/// Writes the parts of the file of one new piece.
struct Writer<'a> {
    new: &'a NewPiece,
}

impl Writer<'_> {
    fn length(&self, length: Length) -> String {
        written(length, self.new.unit)
    }

    fn mm(&self, length: f64) -> String {
        self.length(Length::mm(length))
    }

    /// How deep a loose floor goes into the wall, mm: so far that it stays in when it
    /// shrinks.
    fn groove(&self) -> f64 {
        1.5 + self.new.diameter.as_mm() / 80.0
    }

    fn wall(&self) -> f64 {
        let least = match self.new.kind {
            PieceKind::Box => self.groove() + 3.0,
            _ => 3.5,
        };
        (self.new.diameter.as_mm() / 28.0)
            .clamp(3.5, 9.0)
            .max(least)
    }

    fn stock(&self) -> &'static str {
        match self.new.unit {
            Unit::Mm => "19",
            Unit::Inch => "\"3/4\"",
        }
    }

    /// A ring of that stock, flattened.
    fn ring(&self) -> Length {
        match self.new.unit {
            Unit::Mm => Length::mm(18.0),
            Unit::Inch => Length::inches(0.75) - Length::mm(1.0),
        }
    }

    fn form(&self) -> String {
        let new = self.new;
        let (h, r) = (new.height, new.diameter / 2.0);
        let points: Vec<String> = new
            .kind
            .curve()
            .iter()
            .map(|(z, x)| format!("  [{}, {}],", self.length(h * *z), self.length(r * *x)))
            .collect();
        let straight = if new.kind == PieceKind::Box {
            "straight = true\n"
        } else {
            ""
        };
        let unit_name = match new.unit {
            Unit::Mm => "mm",
            Unit::Inch => "inch",
        };
        let wall = self.wall();
        format!(
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
            self.mm(wall),
            self.mm(wall + 2.0),
            self.mm(2.0),
            self.mm(wall + 2.0),
            self.mm(1.5),
        )
    }

    fn base(&self) -> String {
        let floor = match self.new.kind {
            PieceKind::Box => format!(
                "  # A floor that is free to move in its groove.\n  \
                 floor = {{ wood = \"hard maple\", floating = true, groove = {} }}\n",
                self.mm(self.groove())
            ),
            _ => "  # One solid disc.\n  solid = true\n".into(),
        };
        format!(
            "\n# Sections from the bottom up; rings in them from the bottom up.\n\
             [[section]]\n\
             name = \"base\"\n\
             wood = \"walnut\"\n\
             segments = {}\n\
             \n\
             \x20 [[section.ring]]\n\
             \x20 stock = {}\n\
             {floor}",
            self.new.segments,
            self.stock(),
        )
    }

    fn body(&self) -> String {
        format!(
            "\n[[section]]\n\
             name = \"body\"\n\
             wood = \"hard maple\"    # or several, repeated round: [\"hard maple\", \"cherry\"]\n\
             segments = {}\n\
             stock = {}          # board thickness; flattening makes the ring thinner\n\
             rings = \"auto\"        # as many as reach the rim\n",
            self.new.segments,
            self.stock(),
        )
    }

    fn knot(&self, reach: Length) -> String {
        let height = self.new.height;
        let middle = (height - self.ring()) / 2.0;
        let layer = (height.as_mm() / 20.0).clamp(3.0, 6.0);
        format!(
            "\n\
             \x20 # The knot: each loop is a slice sawn out and filled with a layer.\n\
             \x20 [[section.band]]\n\
             \x20 loops = {}\n\
             \x20 height = {}        # the loops' middle above the section's underside\n\
             \x20 reach = {}         # lowest to highest edge on the finished wall\n\
             \x20 wood = \"purpleheart\"\n\
             \x20 layer = {}         # the layer's thickness\n\
             \x20 make = \"long ring\"  # segments, two of them longer; or \"solid\": one board\n",
            self.new.loops,
            self.length(middle),
            self.length(reach),
            self.mm(layer),
        )
    }
}
