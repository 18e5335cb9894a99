//! A drawing: its size, and layers of lines, areas and words.

use geometry::Portable;
use std::f64::consts::TAU;

use glam::DVec2;

use super::look::Pattern;
use super::text::Text;

/// A drawing on paper. x runs to the right and y down from the upper left corner, mm.
#[derive(Debug, Clone, Default)]
pub struct Drawing {
    /// What it shows, in a line.
    pub title: String,
    /// The same for those who cannot see it, in a few sentences.
    pub description: String,
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    /// From the lowest up.
    pub layers: Vec<Layer>,
}

/// Items that belong together.
#[derive(Debug, Clone, Default)]
pub struct Layer {
    /// Its name, as in a drawing exchanged with another program.
    pub name: String,
    /// From the lowest up.
    pub items: Vec<Item>,
}

/// One thing on paper.
#[derive(Debug, Clone)]
pub enum Item {
    /// A line drawn along a shape.
    Line(Shape, LineKind),
    /// A filled area.
    Area(Area),
    /// Words.
    Text(Text),
}

/// Where a line runs.
#[derive(Debug, Clone)]
pub enum Shape {
    /// Straight from point to point.
    Polyline {
        /// The points.
        points: Vec<DVec2>,
        /// And back to the first.
        closed: bool,
    },
    /// Part of a circle. Angles are radians, anticlockwise as seen on paper,
    /// from the right.
    Arc {
        /// Its middle.
        centre: DVec2,
        /// Its radius, mm.
        radius: f64,
        /// Where it starts.
        from: f64,
        /// How far it runs; negative is clockwise.
        sweep: f64,
    },
    /// A whole circle.
    Circle {
        /// Its middle.
        centre: DVec2,
        /// Its radius, mm.
        radius: f64,
    },
}

/// Kinds of line with their widths, after ISO 128-2 and ISO 128-3 (line groups from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineKind {
    /// Finished edges: 0.5 mm.
    Outline,
    /// Rings, joints, stock: 0.25 mm.
    Thin,
    /// What is hidden or was: 0.25 mm dashed.
    Hidden,
    /// Dimension and leader lines, scales: 0.18 mm.
    Dimension,
    /// Axes: 0.18 mm, dash and dot.
    Centre,
    /// Another position of the same thing: 0.18 mm, dash and two dots.
    Phantom,
    /// A light line that guides the eye: 0.18 mm, short dashes.
    Guide,
    /// A saw's cut: 0.35 mm.
    Cut,
    /// Heavy, for a blade: 0.7 mm.
    Heavy,
}

impl LineKind {
    /// All of them.
    pub const ALL: [LineKind; 9] = [
        LineKind::Outline,
        LineKind::Thin,
        LineKind::Hidden,
        LineKind::Dimension,
        LineKind::Centre,
        LineKind::Phantom,
        LineKind::Guide,
        LineKind::Cut,
        LineKind::Heavy,
    ];

    /// Its width, mm.
    pub const fn width(self) -> f64 {
        match self {
            LineKind::Outline => 0.5,
            LineKind::Thin | LineKind::Hidden => 0.25,
            LineKind::Dimension | LineKind::Centre | LineKind::Phantom | LineKind::Guide => 0.18,
            LineKind::Cut => 0.35,
            LineKind::Heavy => 0.7,
        }
    }

    /// Lengths of its dashes and gaps, mm; empty for a full line.
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            LineKind::Hidden => &[2.4, 1.1],
            LineKind::Centre => &[6.0, 1.2, 0.5, 1.2],
            LineKind::Phantom => &[6.0, 1.0, 0.5, 1.0, 0.5, 1.0],
            LineKind::Guide => &[1.0, 1.0],
            _ => &[],
        }
    }

    /// A word for it.
    pub const fn name(self) -> &'static str {
        match self {
            LineKind::Outline => "outline",
            LineKind::Thin => "thin",
            LineKind::Hidden => "hidden",
            LineKind::Dimension => "dimension",
            LineKind::Centre => "centre",
            LineKind::Phantom => "phantom",
            LineKind::Guide => "guide",
            LineKind::Cut => "cut",
            LineKind::Heavy => "heavy",
        }
    }
}

/// A filled area, bounded by one or more closed lines; what lies within an even
/// number of them is left open.
#[derive(Debug, Clone)]
pub struct Area {
    /// The bounding lines.
    pub bounds: Vec<Vec<DVec2>>,
    /// What it is filled with.
    pub fill: Fill,
}

/// What an area is filled with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fill {
    /// The paper's own colour: covers what is below.
    Paper,
    /// Ink: arrow heads.
    Ink,
    /// Light grey, for a jig's parts.
    Shade,
    /// Tinted, for the one part that matters.
    Mark,
    /// A wood's tint and its pattern for black and white.
    Wood(Pattern),
}

impl Drawing {
    /// An empty drawing.
    pub fn new(title: impl Into<String>, description: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            description: description.into(),
            ..Self::default()
        }
    }

    /// Every item, from the lowest up.
    pub fn items(&self) -> impl Iterator<Item = &Item> {
        self.layers.iter().flat_map(|l| &l.items)
    }

    /// Every word.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.items().filter_map(|i| match i {
            Item::Text(text) => Some(text),
            _ => None,
        })
    }

    /// Moves everything and sets the size so that what is drawn has `margin` mm round it.
    pub fn trimmed(mut self, margin: f64) -> Self {
        let mut low = DVec2::splat(f64::MAX);
        let mut high = DVec2::splat(f64::MIN);
        for item in self.items() {
            for p in item.extent() {
                if p.is_finite() {
                    low = low.min(p);
                    high = high.max(p);
                }
            }
        }
        if low.x > high.x {
            (low, high) = (DVec2::ZERO, DVec2::ZERO);
        }
        let by = DVec2::splat(margin) - low;
        for item in self.layers.iter_mut().flat_map(|l| &mut l.items) {
            item.shift(by);
        }
        let size = high - low + DVec2::splat(2.0 * margin);
        (self.width, self.height) = (size.x, size.y);
        self
    }
}

impl Item {
    /// Points that bound it.
    fn extent(&self) -> Vec<DVec2> {
        match self {
            Item::Line(shape, _) => match shape {
                Shape::Polyline { points, .. } => points.clone(),
                Shape::Arc { .. } => shape.points(0.05),
                Shape::Circle { centre, radius } => {
                    let r = DVec2::splat(*radius);
                    vec![*centre - r, *centre + r]
                }
            },
            Item::Area(area) => area.bounds.iter().flatten().copied().collect(),
            Item::Text(text) => text.corners().to_vec(),
        }
    }

    fn shift(&mut self, by: DVec2) {
        match self {
            Item::Line(Shape::Polyline { points, .. }, _) => {
                points.iter_mut().for_each(|p| *p += by);
            }
            Item::Line(Shape::Arc { centre, .. } | Shape::Circle { centre, .. }, _) => {
                *centre += by;
            }
            Item::Area(area) => area.bounds.iter_mut().flatten().for_each(|p| *p += by),
            Item::Text(text) => text.at += by,
        }
    }
}

impl Shape {
    /// A straight line.
    pub fn line(from: DVec2, to: DVec2) -> Self {
        Shape::Polyline {
            points: vec![from, to],
            closed: false,
        }
    }

    /// Points along it, no straight step further than `tolerance` mm from the curve.
    pub fn points(&self, tolerance: f64) -> Vec<DVec2> {
        let (centre, radius, from, sweep) = match self {
            Shape::Polyline { points, closed } => {
                let mut all = points.clone();
                if *closed {
                    all.extend(points.first().copied());
                }
                return all;
            }
            Shape::Arc {
                centre,
                radius,
                from,
                sweep,
            } => (*centre, *radius, *from, *sweep),
            Shape::Circle { centre, radius } => (*centre, *radius, 0.0, TAU),
        };
        // A chord of angle a is radius · a²/8 from its arc.
        let step = (8.0 * tolerance / radius.abs().max(tolerance)).sqrt();
        let count = ((sweep.abs() / step).ceil()).clamp(1.0, 4096.0) as usize;
        (0..=count)
            .map(|i| {
                let a = from + sweep * i as f64 / count as f64;
                centre + DVec2::new(a.cosine(), -a.sine()) * radius
            })
            .collect()
    }
}
