//! How much work a piece is, counted from its rings and cuts before any of it is done.
//!
//! Saw cuts part wood into convex cells, and what takes memory and time in a plan takes
//! it for each cut and for each cell. m planes part a convex solid into at most
//!
//! ```text
//!   1 + planes that cross it + lines of two planes that do + points of three that lie in it
//! ```
//!
//! cells (equal unless more than three meet in a point or more than two in a line; see
//! Stanley, An Introduction to Hyperplane Arrangements, 2007, from memory). The
//! thickness that is sawn out takes cells away and adds none. So planes, lines and
//! points are counted in every segment, and in every layer those of the cuts after it.

use geometry::Plane;
use geometry::Portable;
use glam::{DVec2, DVec3};

use crate::model::{CourseBody, CutAndRejoin, LayerShape, SectionBody, Stack};

/// What a piece comes to.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Load {
    /// Loops and splits.
    pub cuts: usize,
    /// Cells that they part the wood into, at most. Counting ends soon after
    /// [`Load::MOST_CELLS`].
    pub cells: usize,
}

impl Load {
    /// Most loops and splits of a piece. On two cores a plan takes up to 0.07 MB and
    /// 1.5 ms for each of them, its PDF 2 MB and 70 ms: 0.8 GB and half a minute.
    pub const MOST_CUTS: usize = 400;
    /// Most cells of a piece. Weighing it takes up to 1.3 kB and 15 µs for each of those of
    /// one section: a quarter of a gigabyte and three seconds.
    pub const MOST_CELLS: usize = 200_000;

    /// Counts a piece.
    pub fn of(stack: &Stack) -> Load {
        let cuts = stack.sections().iter().map(|s| s.body.steps().len()).sum();
        let mut cells = 0;
        // Cuts are counted at once; with too many of them cells are not.
        if cuts <= Load::MOST_CUTS {
            for placed in stack.sections() {
                cells += section_cells(&placed.body, Load::MOST_CELLS.saturating_sub(cells));
            }
        }
        Load { cuts, cells }
    }

    /// Is it within what is worked out?
    pub fn fits(&self) -> bool {
        self.cuts <= Load::MOST_CUTS && self.cells <= Load::MOST_CELLS
    }
}

/// Cells of one section, at most; counting ends at the first count above `most`.
pub fn section_cells(body: &SectionBody, most: usize) -> usize {
    let planes: Vec<Plane> = body.steps().iter().map(middle).collect();
    let layers: Vec<Option<Layer>> = body.steps().iter().map(Layer::of).collect();
    let rings: Vec<Ring<'_>> = body.rings().iter().map(Ring::of).collect();
    let tops: Vec<f64> = rings.iter().map(|r| r.body.top).collect();
    let widest = rings.iter().fold(0.0_f64, |w, r| w.max(r.outer));
    let mut count = rings.iter().map(|r| r.body.cell_count()).sum::<usize>();
    count += layers.iter().flatten().map(|l| l.segments).sum::<usize>();
    // Rings between two heights.
    let between = |low: f64, high: f64| {
        let first = tops.partition_point(|top| *top < low);
        rings[first..]
            .iter()
            .take_while(move |r| r.body.bottom <= high)
    };
    for (i, plane) in planes.iter().enumerate() {
        let Some((middle, slope)) = slope(plane) else {
            continue;
        };
        let reach = slope.length() * widest;
        count += between(middle - reach, middle + reach)
            .map(|ring| ring.crossed_by_plane(middle, slope))
            .sum::<usize>();
        for j in 0..i {
            if count > most {
                return count;
            }
            let Some(line) = Line::of(&planes[j], plane) else {
                continue;
            };
            if let Some((from, to)) = line.within(widest) {
                let (low, high) = (line.at(from).z, line.at(to).z);
                count += between(low.min(high), low.max(high))
                    .map(|ring| ring.crossed_by_line(&line))
                    .sum::<usize>();
            }
            count += layers[j].as_ref().map_or(0, |l| l.crossed_by_line(&line));
            for k in 0..j {
                let Some(point) = meet(&planes[k], &line) else {
                    continue;
                };
                let ring = rings.get(tops.partition_point(|top| *top < point.z));
                count += usize::from(ring.is_some_and(|r| r.holds(point)));
                count += usize::from(layers[k].as_ref().is_some_and(|l| l.holds(point)));
            }
        }
    }
    count
}

/// The middle of what a step saws out.
fn middle(step: &CutAndRejoin) -> Plane {
    step.lower
        .shifted((step.upper.offset - step.lower.offset) / 2.0)
}

/// A plane's height on the axis, and how it climbs; nothing for an upright one.
fn slope(plane: &Plane) -> Option<(f64, DVec2)> {
    let way = plane.normal.truncate() / -plane.normal.z;
    Some((plane.height_on_axis()?, way)).filter(|_| way.is_finite())
}

/// The line in which two planes meet.
struct Line {
    at: DVec3,
    way: DVec3,
}

impl Line {
    /// Nothing where they are parallel.
    fn of(a: &Plane, b: &Plane) -> Option<Line> {
        let way = a.normal.cross(b.normal);
        let square = way.length_squared();
        if square < 1e-18 {
            return None;
        }
        let at = (a.offset * b.normal - b.offset * a.normal).cross(way) / square;
        Some(Line { at, way }).filter(|l| l.at.is_finite())
    }

    fn at(&self, t: f64) -> DVec3 {
        self.at + self.way * t
    }

    /// Where it enters and leaves a radius round the axis.
    fn within(&self, radius: f64) -> Option<(f64, f64)> {
        let (at, way) = (self.at.truncate(), self.way.truncate());
        let (a, b) = (way.length_squared(), at.dot(way));
        let c = at.length_squared() - radius * radius;
        let root = b * b - a * c;
        (a > 0.0 && root >= 0.0).then(|| {
            let root = root.sqrt();
            ((-b - root) / a, (-b + root) / a)
        })
    }
}

/// Where a plane meets a line.
fn meet(plane: &Plane, line: &Line) -> Option<DVec3> {
    let along = plane.normal.dot(line.way);
    if along.abs() < 1e-12 {
        return None;
    }
    Some(line.at((plane.offset - plane.normal.dot(line.at)) / along)).filter(|p| p.is_finite())
}

/// A ring as the round body that it lies in.
struct Ring<'a> {
    body: &'a CourseBody,
    segments: usize,
    inner: f64,
    outer: f64,
    /// Cosine and sine of half a segment's share of the turn.
    half: DVec2,
}

impl Ring<'_> {
    fn of(body: &CourseBody) -> Ring<'_> {
        let segments = body.woods().len();
        Ring {
            body,
            segments,
            inner: body.flat_in(),
            outer: body.corner_out(),
            half: DVec2::from_angle(std::f64::consts::PI / segments.max(1) as f64),
        }
    }

    /// Segments that a plane crosses: those in whose share of the turn, from the inner
    /// to the outer radius, it has a height of the ring.
    fn crossed_by_plane(&self, middle: f64, slope: DVec2) -> usize {
        let (low, high) = (self.body.bottom - middle, self.body.top - middle);
        if self.segments < 3 {
            let reach = slope.length() * self.outer;
            return usize::from(low <= reach && high >= -reach);
        }
        let crossed = |mid: &DVec2| {
            // How the plane climbs outwards at the ends and in the middle of the segment.
            let (along, across) = (mid.dot(slope), mid.perp_dot(slope).abs());
            let (cos, sin) = (self.half.x, self.half.y);
            let ends = (along * cos - across * sin, along * cos + across * sin);
            // Steepest within the segment where the climb points through it.
            let steepest = slope.length();
            let most = if across * cos <= along * sin {
                steepest
            } else {
                ends.1
            };
            let least = if across * cos <= -along * sin {
                -steepest
            } else {
                ends.0
            };
            let least = (least * self.inner).min(least * self.outer);
            let most = (most * self.inner).max(most * self.outer);
            least <= high && most >= low
        };
        self.body.mids().iter().filter(|mid| crossed(mid)).count()
    }

    /// Segments that a line passes through, each once for each time it enters the wood.
    fn crossed_by_line(&self, line: &Line) -> usize {
        let Some((enter, leave)) = line.within(self.outer) else {
            return 0;
        };
        let (mut from, mut to) = (enter, leave);
        let (low, high) = (self.body.bottom, self.body.top);
        if line.way.z != 0.0 {
            let (a, b) = (
                (low - line.at.z) / line.way.z,
                (high - line.at.z) / line.way.z,
            );
            (from, to) = (from.max(a.min(b)), to.min(a.max(b)));
        } else if line.at.z < low || line.at.z > high {
            return 0;
        }
        match line.within(self.inner) {
            Some((into, out)) => {
                self.passed(line, from, to.min(into)) + self.passed(line, from.max(out), to)
            }
            None => self.passed(line, from, to),
        }
    }

    /// Segments between two places of a line that keeps to one side of the axis.
    fn passed(&self, line: &Line, from: f64, to: f64) -> usize {
        if from > to {
            return 0;
        }
        if self.segments < 3 {
            return 1;
        }
        let (a, b) = (line.at(from).truncate(), line.at(to).truncate());
        let angle = a.perp_dot(b).arctangent2(a.dot(b)).abs();
        // A cast of what lies between 0 and half of the segments.
        1 + (angle * self.segments as f64 / std::f64::consts::TAU).ceil() as usize
    }

    fn holds(&self, p: DVec3) -> bool {
        let out = p.truncate().length();
        p.z >= self.body.bottom && out >= self.inner && out <= self.outer
    }
}

/// A layer as the round disc that it lies in.
struct Layer {
    segments: usize,
    /// Its middle on the axis.
    middle: DVec3,
    inner: f64,
    outer: f64,
}

impl Layer {
    fn of(step: &CutAndRejoin) -> Option<Layer> {
        let middle = DVec3::new(0.0, 0.0, middle(step).height_on_axis()?);
        Some(match step.layer.as_ref()?.shape {
            LayerShape::Board { length, width } => Layer {
                segments: 1,
                middle,
                inner: 0.0,
                outer: length.hypotenuse(width) / 2.0,
            },
            LayerShape::Ring {
                segments,
                flat_out,
                flat_in,
                stretch,
            } => Layer {
                segments,
                middle,
                inner: flat_in,
                outer: flat_out / (std::f64::consts::PI / segments.max(3) as f64).cosine()
                    + stretch,
            },
        })
    }

    /// Cells that a line in its plane crosses: every one of a ring's, in the worst case
    /// half of them and one more each way.
    fn crossed_by_line(&self, line: &Line) -> usize {
        match line.within(self.outer) {
            Some(_) if self.segments > 1 => self.segments / 2 + 2,
            Some(_) => 1,
            None => 0,
        }
    }

    fn holds(&self, p: DVec3) -> bool {
        let out = p.distance(self.middle);
        out >= self.inner && out <= self.outer
    }
}
