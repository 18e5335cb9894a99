//! A course as wood: flat tables that say which part is at a point, and the same as cells.
//!
//! Every construction writes itself down in one vocabulary, and nothing here knows
//! which one it was:
//!
//! ```text
//!   course = classes let in, the first that holds the point answers, then its own class
//!   class  = sectors round the axis, and in each of them what lies between two flats,
//!            two heights and two sides; a wood for each sector, or one for all; a grain frame
//! ```
//!
//! A class without a name is room that is meant to be empty.

use geometry::Portable;
use std::f64::consts::{PI, TAU};

use geometry::ConvexCell;
use glam::{DVec2, DVec3};

use super::class::{Class, Grain, Named, Says};
use super::sectors::Sectors;
use super::{Found, PartCell, WoodId};

/// Flats of the many-sided figure that stands for a disc cut round. A disc of
/// this many flats is larger than the circle in them by 0.14 % of its area.
const DISC_FLATS: usize = 48;

/// A course of a section as wood, in the section's frame.
#[derive(Debug, Clone)]
pub struct CourseBody {
    /// Underside above the section's underside, mm.
    pub bottom: f64,
    /// Upper side, mm.
    pub top: f64,
    /// Azimuth of the middle of segment 0, or of the grain of one piece, radians.
    pub rotation: f64,
    /// The parts that make up most of it.
    own: Class,
    /// What is let into them, all between the same heights; asked first. Few courses have
    /// any: it lies elsewhere, so that those that a point query looks at lie close together.
    let_in: Vec<Class>,
}

/// A floor panel let into a ring. The round panel and its groove are polygons of so
/// many flats a segment that there are at least 48.
#[derive(Debug, Clone)]
pub struct PanelBody {
    /// Its wood.
    pub wood: WoodId,
    /// Underside above the section's underside, mm.
    pub bottom: f64,
    /// Upper side, mm.
    pub top: f64,
    /// The panel's radius at its flats, mm.
    pub flat: f64,
    /// The groove's radius at its flats: the panel's, and the gap of a floating one.
    pub groove: f64,
}

/// The corners of a regular polygon, anticlockwise; `rotation` is the azimuth
/// of the middle of side 0.
pub fn polygon(sides: usize, flat: f64, rotation: f64) -> Vec<DVec2> {
    let half = PI / sides.max(3) as f64;
    let corner = flat / half.cosine();
    (0..sides)
        .map(|i| DVec2::from_angle(rotation - half + 2.0 * half * i as f64) * corner)
        .collect()
}

impl CourseBody {
    /// A ring of as many segments as `woods` has entries, from its outer and inner flats.
    pub fn segmented(
        heights: (f64, f64),
        flats: (f64, f64),
        rotation: f64,
        woods: Vec<WoodId>,
    ) -> Self {
        Self::spaced(heights, flats, rotation, (woods, 1.0))
    }

    /// The same with segments that fill a share of the closed ring's angle, 0 to 1; at 1 the
    /// ring is closed. Their sides lie in planes through the axis.
    pub fn spaced(
        heights: (f64, f64),
        flats: (f64, f64),
        rotation: f64,
        (woods, share): (Vec<WoodId>, f64),
    ) -> Self {
        let half = PI / woods.len().max(3) as f64 * share;
        Self {
            bottom: heights.0,
            top: heights.1,
            rotation,
            own: Class {
                named: Some(Named::Segment),
                sectors: Sectors::new(woods.len(), rotation),
                heights,
                flats,
                spread: if share < 1.0 {
                    half.tangent()
                } else {
                    f64::INFINITY
                },
                grain: Grain::Round,
                under: heights.0,
                woods,
            },
            let_in: Vec::new(),
        }
    }

    /// A solid disc. Grain runs along +x turned by `rotation`.
    pub fn disc(heights: (f64, f64), radius: f64, rotation: f64, wood: WoodId) -> Self {
        Self {
            bottom: heights.0,
            top: heights.1,
            rotation,
            own: Class {
                named: Some(Named::Disc),
                sectors: Sectors::new(DISC_FLATS, rotation),
                heights,
                flats: (radius, 0.0),
                spread: f64::INFINITY,
                grain: Grain::Along(DVec2::from_angle(rotation)),
                under: heights.0,
                woods: vec![wood],
            },
            let_in: Vec::new(),
        }
    }

    /// The same with a floor panel let into its segments, and the groove's room round it.
    pub fn with_panel(mut self, panel: &PanelBody) -> Self {
        let n = self.sides().max(1);
        let flats = DISC_FLATS.div_ceil(n);
        // The first flat starts at a joint.
        let share = PI / n as f64;
        let first = self.rotation - share + share / flats as f64;
        let class = |named, flat| Class {
            named,
            sectors: Sectors::new(flats * n, first),
            heights: (panel.bottom, panel.top),
            flats: (flat, 0.0),
            spread: f64::INFINITY,
            grain: Grain::Along(DVec2::from_angle(self.rotation)),
            under: panel.bottom,
            woods: vec![panel.wood],
        };
        self.let_in = vec![class(Some(Named::Panel), panel.flat)];
        if panel.groove > panel.flat {
            let room = class(None, panel.groove);
            // One that lies within the ring's hole takes no wood.
            if self.reached_by(&room) {
                self.let_in.push(room);
            }
        }
        self
    }

    /// The same with the flats of its segments `out` mm further from the axis, as happens
    /// when segments that close the ring are cut too long.
    pub fn moved_out(&self, out: f64) -> Self {
        let mut moved = self.clone();
        if out == 0.0 || self.own.whole() {
            return moved;
        }
        let (flat_out, flat_in) = self.own.flats;
        let inside = if flat_in > 0.0 {
            (flat_in + out).max(1e-3)
        } else {
            0.0
        };
        moved.own.flats = ((flat_out + out).max(inside), inside);
        moved
    }

    /// Axis to an outer flat, mm.
    pub fn flat_out(&self) -> f64 {
        self.own.flats.0
    }

    /// Axis to an inner flat, mm; 0 when the parts run to the axis.
    pub fn flat_in(&self) -> f64 {
        self.own.flats.1
    }

    /// The share of its sector that each part fills; 1 where nothing is open.
    pub fn filled(&self) -> f64 {
        self.half_angle() / (PI / self.sides().max(3) as f64)
    }

    /// What is let into it, as many-sided figures: the sides, the azimuth of the middle of the
    /// first, and the panel.
    pub fn let_in(&self) -> Option<(usize, f64, PanelBody)> {
        let panel = self.let_in.first()?;
        let widest = self.let_in.last()?;
        let body = PanelBody {
            wood: panel.woods.first().copied()?,
            bottom: panel.heights.0,
            top: panel.heights.1,
            flat: panel.flats.0,
            groove: widest.flats.0,
        };
        Some((panel.sectors.count(), panel.sectors.first(), body))
    }

    /// The wood of each part round the axis; one for a course of one part.
    pub fn woods(&self) -> &[WoodId] {
        &self.own.woods
    }

    /// Azimuths between which each part lies where it is whole, from the first, radians, when
    /// the middle of the first is at `turn`: the sides of its segments, or once round.
    pub fn reaches(&self, turn: f64) -> Vec<(f64, f64)> {
        if self.own.whole() {
            return vec![(0.0, TAU)];
        }
        let n = self.woods().len().max(1);
        let half = self.half_angle();
        let side = |k: f64| turn + (k - 1.0) * PI / n as f64;
        let between = |k: usize| {
            let step = 2.0 * k as f64;
            if self.open() {
                let mid = turn + step * PI / n as f64;
                (mid - half, mid + half)
            } else {
                (side(step), side(step + 2.0))
            }
        };
        (0..n).map(between).collect()
    }

    /// Azimuths of the upright faces between neighbours, each with a segment that it ends; of
    /// an open ring both sides of each gap.
    pub fn ends(&self) -> Vec<(u16, f64)> {
        if self.own.whole() {
            return Vec::new();
        }
        let n = self.sides();
        if !self.open() {
            let after = |i: usize| self.rotation + (2 * i + 1) as f64 * PI / n as f64;
            return (0..n).map(|i| (i as u16, after(i))).collect();
        }
        let sides = self.reaches(self.rotation).into_iter().enumerate();
        sides
            .flat_map(|(k, (from, to))| [(k as u16, from), (k as u16, to)])
            .collect()
    }

    /// Half of the angle that a part fills, radians.
    pub fn half_angle(&self) -> f64 {
        if self.open() {
            self.own.spread.arctangent2(1.0)
        } else {
            PI / self.sides().max(3) as f64
        }
    }

    /// Do gaps stand between its parts?
    pub fn open(&self) -> bool {
        self.own.spread.is_finite()
    }

    /// How many flats it has outside.
    pub fn sides(&self) -> usize {
        self.own.sectors.count()
    }

    /// Directions of the middles of its sides.
    pub fn mids(&self) -> &[DVec2] {
        self.own.sectors.mids()
    }

    /// Cells that it is made of before it is cut.
    pub fn cell_count(&self) -> usize {
        if self.own.whole() {
            return 1;
        }
        let n = self.sides();
        let Some(first) = self.let_in.first() else {
            return n;
        };
        let beside = match self.hidden_by() {
            Some(class) => class.sectors.count(),
            None => n,
        };
        let below = usize::from(first.heights.0 > self.bottom);
        let above = usize::from(first.heights.1 < self.top);
        1 + beside + n * (below + above)
    }

    /// Axis to an outer corner, mm.
    pub fn corner_out(&self) -> f64 {
        self.flat_out() / self.half_angle().cosine()
    }

    /// What is at a point whose height is known to be within the course.
    #[inline]
    pub fn find(&self, ring: u16, p: DVec3) -> Option<Found> {
        match self.ask(ring, p) {
            Says::Here(found) => Some(found),
            Says::Nothing | Says::Elsewhere => None,
        }
    }

    /// Is a point whose height is within the course in room that is meant to be empty?
    pub fn meant_empty(&self, p: DVec3) -> bool {
        matches!(self.ask(0, p), Says::Nothing)
    }

    #[inline(always)]
    fn ask(&self, ring: u16, p: DVec3) -> Says {
        if let Some(first) = self.let_in.first()
            && p.z >= first.heights.0
            && p.z < first.heights.1
        {
            for class in &self.let_in {
                match class.find(ring, p) {
                    Says::Elsewhere => {}
                    says => return says,
                }
            }
        }
        self.own.find(ring, p)
    }

    /// Does a class reach into every part of this one?
    fn reached_by(&self, class: &Class) -> bool {
        class.flats.0 * (PI / self.sides().max(3) as f64).cosine() >= self.flat_in()
    }

    /// The widest class let in, where it takes wood of the segments.
    fn hidden_by(&self) -> Option<&Class> {
        self.let_in.last().filter(|class| self.reached_by(class))
    }

    /// Its parts as convex cells.
    pub fn cells(&self, ring: u16, out: &mut Vec<PartCell>) {
        for class in self.let_in.iter().chain([&self.own]) {
            if let Some(named) = class.named
                && class.whole()
            {
                let (low, high) = class.heights;
                let first = class.sectors.first();
                let base = polygon(class.sectors.count(), class.flats.0, first);
                out.push(PartCell {
                    cell: ConvexCell::prism(&base, low.max(self.bottom), high.min(self.top)),
                    part: named.part(ring, 0),
                    wood: class.woods.first().copied().unwrap_or(WoodId(0)),
                });
            }
        }
        if self.own.whole() {
            return;
        }
        let Some(first) = self.let_in.first() else {
            self.level_cells(ring, self.bottom, self.top, out);
            return;
        };
        let (low, high) = first.heights;
        let (low, high) = (low.max(self.bottom), high.min(self.top));
        self.level_cells(ring, self.bottom, low, out);
        self.level_cells(ring, high, self.top, out);
        match self.hidden_by() {
            Some(class) => self.cells_round(ring, class, (low, high), out),
            None => self.level_cells(ring, low, high, out),
        }
    }

    /// The segments between two heights outside of a class that is let into them: between
    /// joint and joint it has several flats, and there is a convex cell to each.
    fn cells_round(
        &self,
        ring: u16,
        class: &Class,
        (low, high): (f64, f64),
        out: &mut Vec<PartCell>,
    ) {
        let outer = polygon(self.sides(), self.flat_out(), self.rotation);
        let fine = class.sectors.count();
        let inner = polygon(fine, class.flats.0, class.sectors.first());
        let flats = fine / self.sides();
        for i in 0..self.sides() {
            let (from, to) = (outer[i], outer[(i + 1) % self.sides()]);
            for k in 0..flats {
                let (a, b) = (i * flats + k, (i * flats + k + 1) % fine);
                let out_at = |p: DVec2| edge_towards(from, to, p);
                let base = [inner[a], out_at(inner[a]), out_at(inner[b]), inner[b]];
                out.push(PartCell {
                    cell: ConvexCell::prism(&base, low, high),
                    part: Named::Segment.part(ring, i),
                    wood: self.own.woods[i],
                });
            }
        }
    }

    /// The whole segments between two heights.
    fn level_cells(&self, ring: u16, low: f64, high: f64, out: &mut Vec<PartCell>) {
        if high <= low {
            return;
        }
        for (i, base) in self.faces().into_iter().enumerate() {
            out.push(PartCell {
                cell: ConvexCell::prism(&base, low, high),
                part: Named::Segment.part(ring, i),
                wood: self.own.woods[i],
            });
        }
    }

    /// Each part of its own class as it lies flat, anticlockwise.
    pub(super) fn faces(&self) -> Vec<Vec<DVec2>> {
        let (n, (flat_out, flat_in)) = (self.sides(), self.own.flats);
        let first = self.own.sectors.first();
        if self.own.whole() {
            return vec![polygon(n, flat_out, first)];
        }
        if self.open() {
            let half = self.half_angle();
            let corner = |flat: f64, at: f64| DVec2::from_angle(at) * (flat / half.cosine());
            let faces = self.reaches(self.rotation).into_iter().map(|(from, to)| {
                let mut base = vec![corner(flat_out, from), corner(flat_out, to)];
                if flat_in > 0.0 {
                    base.extend([corner(flat_in, to), corner(flat_in, from)]);
                } else {
                    base.push(DVec2::ZERO);
                }
                base
            });
            return faces.collect();
        }
        let outer = polygon(n, flat_out, first);
        let inner = polygon(n, flat_in, first);
        let faces = (0..n).map(|i| {
            let j = (i + 1) % n;
            if flat_in > 0.0 {
                vec![inner[i], outer[i], outer[j], inner[j]]
            } else {
                vec![DVec2::ZERO, outer[i], outer[j]]
            }
        });
        faces.collect()
    }
}

/// Where the ray from the axis through `p` meets the line from `from` to `to`.
fn edge_towards(from: DVec2, to: DVec2, p: DVec2) -> DVec2 {
    let way = to - from;
    let across = p.perp_dot(way);
    if across == 0.0 {
        return from;
    }
    p * (from.perp_dot(way) / across)
}
