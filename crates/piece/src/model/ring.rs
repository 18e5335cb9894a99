//! A ring of mitred segments, a solid disc, a floor panel let into a ring.

use geometry::Portable;
use std::f64::consts::PI;

use geometry::ConvexCell;
use glam::{DVec2, DVec3};

use super::sectors::Sectors;
use super::{Found, Part, PartCell, WoodId};

/// Flats of the many-sided figure that stands for a disc cut round. A disc of
/// this many flats is larger than the circle in them by 0.14 % of its area.
const DISC_FLATS: usize = 48;

/// A ring, as wood: n equal trapezoids round the axis, or a disc.
#[derive(Debug, Clone)]
pub struct RingBody {
    /// Underside and upper side above the section's underside, mm.
    pub bottom: f64,
    /// Upper side, mm.
    pub top: f64,
    /// Axis to an outer flat, mm.
    pub flat_out: f64,
    /// Axis to an inner flat, mm; 0 when the segments run to a point.
    pub flat_in: f64,
    /// Azimuth of the middle of segment 0, radians.
    pub rotation: f64,
    /// One solid disc.
    pub solid: bool,
    /// Each segment's wood; one entry for a disc.
    pub woods: Vec<WoodId>,
    /// A floor panel, with the sectors of its flats. Few rings have one: it lies elsewhere,
    /// so that those that a point query looks at lie close together.
    panel: Option<Box<(PanelBody, Sectors)>>,
    /// The sectors of its segments; of a disc's flats.
    sectors: Sectors,
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

impl RingBody {
    /// A ring of as many segments as `woods` has entries, from its outer and inner flats.
    pub fn segmented(
        heights: (f64, f64),
        flats: (f64, f64),
        rotation: f64,
        woods: Vec<WoodId>,
    ) -> Self {
        Self {
            bottom: heights.0,
            top: heights.1,
            flat_out: flats.0,
            flat_in: flats.1,
            rotation,
            solid: false,
            sectors: Sectors::new(woods.len(), rotation),
            woods,
            panel: None,
        }
    }

    /// A solid disc. Grain runs along +x turned by `rotation`.
    pub fn disc(heights: (f64, f64), radius: f64, rotation: f64, wood: WoodId) -> Self {
        Self {
            bottom: heights.0,
            top: heights.1,
            flat_out: radius,
            flat_in: 0.0,
            rotation,
            solid: true,
            woods: vec![wood],
            panel: None,
            sectors: Sectors::new(DISC_FLATS, rotation),
        }
    }

    /// The same with a floor panel let into it.
    pub fn with_panel(mut self, panel: PanelBody) -> Self {
        let fine = self.panel_flats() * self.sides();
        self.panel = Some(Box::new((panel, Sectors::new(fine, self.panel_rotation()))));
        self
    }

    /// Its floor panel.
    pub fn panel(&self) -> Option<&PanelBody> {
        self.panel.as_ref().map(|panel| &panel.0)
    }

    /// How many flats it has outside.
    pub fn sides(&self) -> usize {
        self.sectors.count()
    }

    /// Directions of the middles of its sides.
    pub fn mids(&self) -> &[DVec2] {
        self.sectors.mids()
    }

    /// Cells that it is made of before it is cut.
    pub fn cell_count(&self) -> usize {
        if self.solid {
            return 1;
        }
        let n = self.sides();
        let Some(panel) = self.panel() else {
            return n;
        };
        let beside = if self.grooved(panel) {
            n * self.panel_flats()
        } else {
            n
        };
        let below = usize::from(panel.bottom > self.bottom);
        let above = usize::from(panel.top < self.top);
        1 + beside + n * (below + above)
    }

    /// Axis to an outer corner, mm.
    pub fn corner_out(&self) -> f64 {
        self.flat_out / (PI / self.sides().max(3) as f64).cosine()
    }

    /// What is at a point whose height is known to be within the ring.
    #[inline]
    pub fn find(&self, ring: u16, p: DVec3) -> Option<Found> {
        let flat = DVec2::new(p.x, p.y);
        let (side, mid) = self.sectors.of(flat)?;
        let out = mid.dot(flat);
        if out > self.flat_out {
            return None;
        }
        if self.solid {
            let along = DVec2::from_angle(self.rotation);
            return Some(Found {
                part: Part::Disc { ring },
                wood: *self.woods.first()?,
                local: DVec3::new(along.dot(flat), along.perp_dot(flat), p.z - self.bottom),
            });
        }
        if let Some((panel, sectors)) = self.panel.as_deref()
            && p.z >= panel.bottom
            && p.z < panel.top
        {
            // How far out it is, measured square to the panel's flat that it lies behind.
            let at_panel = sectors.of(flat)?.1.dot(flat);
            if at_panel <= panel.flat {
                let along = DVec2::from_angle(self.rotation);
                return Some(Found {
                    part: Part::Panel { ring },
                    wood: panel.wood,
                    local: DVec3::new(along.dot(flat), along.perp_dot(flat), p.z - panel.bottom),
                });
            }
            if self.grooved(panel) && at_panel < panel.groove {
                return None;
            }
        }
        if out < self.flat_in {
            return None;
        }
        Some(Found {
            part: Part::Segment {
                ring,
                segment: side as u16,
            },
            wood: *self.woods.get(side)?,
            // Grain runs along the segment, square to its middle's direction.
            local: DVec3::new(mid.perp_dot(flat), out, p.z - self.bottom),
        })
    }

    /// Flats that the panel has within one segment.
    fn panel_flats(&self) -> usize {
        DISC_FLATS.div_ceil(self.sides().max(1))
    }

    /// Azimuth of the middle of the panel's first flat, which starts at a joint.
    fn panel_rotation(&self) -> f64 {
        let share = PI / self.sides().max(1) as f64;
        self.rotation - share + share / self.panel_flats() as f64
    }

    /// Does the groove reach into every segment? One that lies within the ring's
    /// hole takes no wood.
    fn grooved(&self, panel: &PanelBody) -> bool {
        panel.groove * (PI / self.sides().max(3) as f64).cosine() >= self.flat_in
    }

    /// Its parts as convex cells.
    pub fn cells(&self, ring: u16, out: &mut Vec<PartCell>) {
        if self.solid {
            let base = polygon(self.sides(), self.flat_out, self.rotation);
            out.push(PartCell {
                cell: ConvexCell::prism(&base, self.bottom, self.top),
                part: Part::Disc { ring },
                wood: self.woods.first().copied().unwrap_or(WoodId(0)),
            });
            return;
        }
        let Some(panel) = self.panel() else {
            self.level_cells(ring, self.bottom, self.top, out);
            return;
        };
        let (low, high) = (panel.bottom.max(self.bottom), panel.top.min(self.top));
        let fine = self.panel_flats() * self.sides();
        let disc = |flat: f64| polygon(fine, flat, self.panel_rotation());
        out.push(PartCell {
            cell: ConvexCell::prism(&disc(panel.flat), low, high),
            part: Part::Panel { ring },
            wood: panel.wood,
        });
        self.level_cells(ring, self.bottom, low, out);
        self.level_cells(ring, high, self.top, out);
        if !self.grooved(panel) {
            self.level_cells(ring, low, high, out);
            return;
        }
        // Between joint and joint the groove has several flats: a convex cell to each.
        let outer = polygon(self.sides(), self.flat_out, self.rotation);
        let inner = disc(panel.groove);
        let flats = self.panel_flats();
        for i in 0..self.sides() {
            let (from, to) = (outer[i], outer[(i + 1) % self.sides()]);
            for k in 0..flats {
                let (a, b) = (i * flats + k, (i * flats + k + 1) % fine);
                let out_at = |p: DVec2| edge_towards(from, to, p);
                let base = [inner[a], out_at(inner[a]), out_at(inner[b]), inner[b]];
                out.push(PartCell {
                    cell: ConvexCell::prism(&base, low, high),
                    part: Part::Segment {
                        ring,
                        segment: i as u16,
                    },
                    wood: self.woods[i],
                });
            }
        }
    }

    /// The whole segments between two heights.
    fn level_cells(&self, ring: u16, low: f64, high: f64, out: &mut Vec<PartCell>) {
        if high <= low {
            return;
        }
        let n = self.sides();
        let outer = polygon(n, self.flat_out, self.rotation);
        let inner = polygon(n, self.flat_in, self.rotation);
        for i in 0..n {
            let j = (i + 1) % n;
            let base = if self.flat_in > 0.0 {
                vec![inner[i], outer[i], outer[j], inner[j]]
            } else {
                vec![DVec2::ZERO, outer[i], outer[j]]
            };
            out.push(PartCell {
                cell: ConvexCell::prism(&base, low, high),
                part: Part::Segment {
                    ring,
                    segment: i as u16,
                },
                wood: self.woods[i],
            });
        }
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
