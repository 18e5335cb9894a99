//! The pen: puts lines, areas and words on a drawing, layer by layer.

use files::units::Unit;
use glam::DVec2;

use super::drawing::{Area, Drawing, Fill, Item, Layer, LineKind, Shape};
use super::look::{Looks, WoodLook};
use super::text::{Anchor, Text, width_of};

/// Size of ordinary figures and words, mm.
pub const FIGURES: f64 = 3.5;
/// Size of small words, mm.
pub const SMALL: f64 = 3.0;
/// Size of a drawing's title, mm.
pub const TITLE: f64 = 5.0;

/// Draws on one drawing. What is drawn goes to the layer named last.
#[derive(Debug)]
pub struct Pen {
    drawing: Drawing,
    /// The unit that figures are written in.
    pub unit: Unit,
}

impl Pen {
    /// A pen on an empty drawing.
    pub fn new(title: impl Into<String>, description: impl Into<String>, unit: Unit) -> Self {
        Self {
            drawing: Drawing::new(title, description),
            unit,
        }
    }

    /// What follows goes to this layer.
    pub fn layer(&mut self, name: &str) -> &mut Self {
        // A layer taken up again must not move what was drawn since, so it goes on as a new one
        // only if it is not the last.
        if self.drawing.layers.last().is_none_or(|l| l.name != name) {
            self.drawing.layers.push(Layer {
                name: name.into(),
                items: Vec::new(),
            });
        }
        self
    }

    fn put(&mut self, item: Item) {
        if self.drawing.layers.is_empty() {
            self.layer("drawing");
        }
        if let Some(layer) = self.drawing.layers.last_mut() {
            layer.items.push(item);
        }
    }

    /// A straight line.
    pub fn line(&mut self, from: DVec2, to: DVec2, kind: LineKind) {
        self.put(Item::Line(Shape::line(from, to), kind));
    }

    /// A line through points.
    pub fn through(&mut self, points: Vec<DVec2>, kind: LineKind) {
        if points.len() > 1 {
            self.put(Item::Line(
                Shape::Polyline {
                    points,
                    closed: false,
                },
                kind,
            ));
        }
    }

    /// A closed line through points.
    pub fn round(&mut self, points: Vec<DVec2>, kind: LineKind) {
        if points.len() > 1 {
            self.put(Item::Line(
                Shape::Polyline {
                    points,
                    closed: true,
                },
                kind,
            ));
        }
    }

    /// A circle.
    pub fn circle(&mut self, centre: DVec2, radius: f64, kind: LineKind) {
        if radius > 0.0 {
            self.put(Item::Line(Shape::Circle { centre, radius }, kind));
        }
    }

    /// Part of a circle, angles in radians anticlockwise from the right.
    pub fn arc(&mut self, centre: DVec2, radius: f64, from: f64, sweep: f64, kind: LineKind) {
        self.put(Item::Line(
            Shape::Arc {
                centre,
                radius,
                from,
                sweep,
            },
            kind,
        ));
    }

    /// A filled area within closed lines.
    pub fn area(&mut self, bounds: Vec<Vec<DVec2>>, fill: Fill) {
        self.put(Item::Area(Area { bounds, fill }));
    }

    /// Words as they are given.
    pub fn text(&mut self, text: Text) {
        if !text.words.is_empty() {
            self.put(Item::Text(text));
        }
    }

    /// Words of ordinary size.
    pub fn words(&mut self, at: DVec2, words: impl Into<String>, anchor: Anchor) {
        self.text(Text::new(at, words, anchor, FIGURES));
    }

    /// Words of small size.
    pub fn small(&mut self, at: DVec2, words: impl Into<String>, anchor: Anchor) {
        self.text(Text::new(at, words, anchor, SMALL));
    }

    /// A letter or number in a ring, its middle at `at`.
    pub fn balloon(&mut self, at: DVec2, words: &str, size: f64) {
        let radius = (width_of(words, size, true) / 2.0 + 0.9).max(0.72 * size);
        let ring = Shape::Circle { centre: at, radius };
        self.area(vec![ring.points(0.02)], Fill::Paper);
        self.put(Item::Line(ring, LineKind::Thin));
        self.text(Text {
            strong: true,
            ..Text::centred(at, words, size)
        });
    }

    /// An arrow head with its tip at `tip`, pointing along `way`.
    pub fn arrow_head(&mut self, tip: DVec2, way: DVec2) {
        let way = way.normalize_or_zero();
        let (back, side) = (way * -2.4, way.perp() * 0.42);
        self.area(
            vec![vec![tip, tip + back + side, tip + back - side]],
            Fill::Ink,
        );
    }

    /// The title and, below it, a line of words; left upper corner at `at`.
    /// Returns the height that they take.
    pub fn heading(&mut self, at: DVec2, title: &str, below: &[String]) -> f64 {
        self.layer("heading");
        let mut y = at.y + TITLE;
        self.text(Text {
            strong: true,
            ..Text::new(DVec2::new(at.x, y), title, Anchor::Start, TITLE)
        });
        for line in below {
            y += FIGURES * 1.4;
            self.words(DVec2::new(at.x, y), line.as_str(), Anchor::Start);
        }
        y - at.y + 1.5
    }

    /// A row of swatches, each with its letter and name, from `at` to the right, a new
    /// row when `room` is used up. Returns the height that it takes.
    pub fn legend(&mut self, at: DVec2, room: f64, looks: &[&WoodLook]) -> f64 {
        self.layer("legend");
        let (w, h, gap) = (9.0, 5.0, 6.0);
        let mut p = at;
        for look in looks {
            let words = format!("{}  {}", look.letter, look.name);
            let wide = w + 1.8 + width_of(&words, FIGURES, false);
            if p.x > at.x && p.x + wide > at.x + room {
                p = DVec2::new(at.x, p.y + h + 2.0);
            }
            let corners = rectangle(p, p + DVec2::new(w, h));
            self.area(vec![corners.clone()], Fill::Wood(look.pattern));
            self.round(corners, LineKind::Thin);
            self.words(p + DVec2::new(w + 1.8, h - 1.3), words, Anchor::Start);
            p.x += wide + gap;
        }
        if looks.is_empty() {
            0.0
        } else {
            p.y + h - at.y
        }
    }

    /// The drawing as it stands, with `margin` mm of paper round it.
    pub fn finish(self, margin: f64) -> Drawing {
        self.drawing.trimmed(margin)
    }
}

impl Text {
    /// Words at a size.
    pub fn new(at: DVec2, words: impl Into<String>, anchor: Anchor, size: f64) -> Self {
        Text {
            words: words.into(),
            at,
            size,
            anchor,
            turn: 0.0,
            strong: false,
            halo: false,
        }
    }

    /// Words whose capitals and figures are centred on `at`, both ways.
    pub fn centred(at: DVec2, words: impl Into<String>, size: f64) -> Self {
        let drop = DVec2::new(0.0, super::text::CAPITALS * size / 2.0);
        Text::new(at + drop, words, Anchor::Middle, size)
    }

    /// The same with a rim of paper.
    pub fn with_halo(self) -> Self {
        Text { halo: true, ..self }
    }
}

/// A rectangle's corners from two opposite ones.
pub fn rectangle(a: DVec2, b: DVec2) -> Vec<DVec2> {
    vec![a, DVec2::new(b.x, a.y), b, DVec2::new(a.x, b.y)]
}

/// The looks of the woods that are used, in the piece's order, each once.
pub fn used_looks(
    looks: &Looks,
    used: impl IntoIterator<Item = piece::model::WoodId>,
) -> Vec<&WoodLook> {
    let mut ids: Vec<_> = used.into_iter().collect();
    ids.sort_unstable();
    ids.dedup();
    ids.into_iter().filter_map(|id| looks.of(id)).collect()
}
