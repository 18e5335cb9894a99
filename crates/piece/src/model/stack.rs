//! Section glued on section, and the turned form.

use geometry::Portable;
use geometry::{ConvexCell, Motion, Turned};
use glam::{DVec2, DVec3};

use super::{Found, Part, SectionBody, WoodId};

/// A section in its place.
#[derive(Debug, Clone)]
pub struct Placed {
    /// The section.
    pub body: SectionBody,
    /// Height of its underside above the piece's, mm.
    pub bottom: f64,
    /// Turn against the piece's azimuth, radians.
    pub turn: f64,
    /// Direction of the turn, kept so that a question costs no sine.
    way: DVec2,
}

/// All sections, one on another, as glued.
#[derive(Debug, Clone, Default)]
pub struct Stack {
    sections: Vec<Placed>,
}

/// Where a point of the piece lies.
#[derive(Debug, Clone, Copy)]
pub struct Spot {
    /// The section, from the bottom.
    pub section: u16,
    /// The part of that section.
    pub part: Part,
    /// Its wood.
    pub wood: WoodId,
    /// The point in the part's own frame, mm: x along the grain, y square to it
    /// in the board, z through the board's thickness.
    pub local: DVec3,
}

/// A convex piece of one part, where it is in the piece.
#[derive(Debug, Clone)]
pub struct StackCell {
    /// Its shape.
    pub cell: ConvexCell,
    /// The section.
    pub section: u16,
    /// The part.
    pub part: Part,
    /// Its wood.
    pub wood: WoodId,
}

impl Stack {
    /// Sections from the bottom up, each with its turn in radians.
    pub fn new(sections: Vec<(SectionBody, f64)>) -> Self {
        let mut bottom = 0.0;
        let sections = sections
            .into_iter()
            .map(|(body, turn)| {
                let placed = Placed {
                    bottom,
                    turn,
                    way: DVec2::from_angle(-turn),
                    body,
                };
                bottom += placed.body.height();
                placed
            })
            .collect();
        Self { sections }
    }

    /// The sections.
    pub fn sections(&self) -> &[Placed] {
        &self.sections
    }

    /// Its height, mm.
    pub fn height(&self) -> f64 {
        self.sections
            .last()
            .map_or(0.0, |s| s.bottom + s.body.height())
    }

    /// Which wood is at this point of the glued stack, before it is turned?
    #[inline]
    pub fn wood_at(&self, p: DVec3) -> Option<Spot> {
        let above = self.sections.partition_point(|s| s.bottom <= p.z);
        let section = above.checked_sub(1)?;
        let placed = &self.sections[section];
        let mut q = DVec3::new(p.x, p.y, p.z - placed.bottom);
        if placed.turn != 0.0 {
            let flat = placed.way.rotate(DVec2::new(q.x, q.y));
            (q.x, q.y) = (flat.x, flat.y);
        }
        let Found { part, wood, local } = placed.body.find(q)?;
        Some(Spot {
            section: section as u16,
            part,
            wood,
            local,
        })
    }

    /// Is a point of the glued stack in room that is meant to be empty: a gap of an open ring,
    /// the play of a loose floor?
    pub fn meant_empty(&self, p: DVec3) -> bool {
        let placed = self.sections.iter().rev().find(|s| s.bottom <= p.z);
        placed.is_some_and(|s| {
            let flat = s.way.rotate(DVec2::new(p.x, p.y));
            s.body.meant_empty(flat.extend(p.z - s.bottom))
        })
    }

    /// Which wood is at this point of the turned piece?
    pub fn turned_wood_at(&self, form: &dyn Turned, p: DVec3) -> Option<Spot> {
        let r = p.x.hypotenuse(p.y);
        let mut inside = false;
        form.each_span(p.z, &mut |inner, outer| {
            inside |= r >= inner && r <= outer;
        });
        if inside { self.wood_at(p) } else { None }
    }

    /// Everything as convex cells.
    pub fn cells(&self) -> Vec<StackCell> {
        (0..self.sections.len())
            .flat_map(|section| self.section_cells(section))
            .collect()
    }

    /// One section as convex cells where it is in the piece.
    pub fn section_cells(&self, section: usize) -> Vec<StackCell> {
        let Some(placed) = self.sections.get(section) else {
            return Vec::new();
        };
        let place = Motion::round_axis(placed.turn, DVec3::new(0.0, 0.0, placed.bottom));
        let cells = placed.body.cells().into_iter();
        cells
            .map(|c| StackCell {
                cell: c.cell.moved(&place),
                section: section as u16,
                part: c.part,
                wood: c.wood,
            })
            .collect()
    }
}
