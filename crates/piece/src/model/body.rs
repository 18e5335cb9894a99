//! One section: rings, then cut and rejoin as often as it takes.

use geometry::Plane;
use glam::DVec3;

use super::step::Before;
use super::{CourseBody, CutAndRejoin, Found, PartCell};

/// A section as wood, in its own frame: z = 0 at its underside.
#[derive(Debug, Clone, Default)]
pub struct SectionBody {
    rings: Vec<CourseBody>,
    steps: Vec<CutAndRejoin>,
    /// Ring tops, for finding a ring by height.
    tops: Vec<f64>,
    height: f64,
}

impl SectionBody {
    /// Rings from the bottom up, then steps in the order of the work.
    pub fn new(rings: Vec<CourseBody>, steps: Vec<CutAndRejoin>) -> Self {
        let tops: Vec<f64> = rings.iter().map(|r| r.top).collect();
        let height =
            tops.last().copied().unwrap_or(0.0) + steps.iter().map(CutAndRejoin::rise).sum::<f64>();
        Self {
            rings,
            steps,
            tops,
            height,
        }
    }

    /// Its height after all steps, mm.
    pub fn height(&self) -> f64 {
        self.height
    }

    /// Its rings.
    pub fn rings(&self) -> &[CourseBody] {
        &self.rings
    }

    /// Its steps.
    pub fn steps(&self) -> &[CutAndRejoin] {
        &self.steps
    }

    /// What is at a point of the section; `None` where there is no wood.
    #[inline]
    pub fn find(&self, mut p: DVec3) -> Option<Found> {
        if p.z < 0.0 || p.z > self.height {
            return None;
        }
        for (i, step) in self.steps.iter().enumerate().rev() {
            match step.undo(p) {
                Before::At(q) => p = q,
                Before::InLayer => return step.layer.as_ref()?.find(i as u16, p),
            }
        }
        let ring = self.ring_at(p.z)?;
        self.rings[ring].find(ring as u16, p)
    }

    /// The ring at a height of the section as stacked.
    #[inline]
    fn ring_at(&self, z: f64) -> Option<usize> {
        if z < 0.0 {
            return None;
        }
        let ring = self.tops.partition_point(|top| *top <= z);
        // The section's own top face belongs to its last ring.
        let ring = ring.min(self.rings.len().checked_sub(1)?);
        (z <= self.rings[ring].top).then_some(ring)
    }

    /// Is a point in room that is meant to be empty?
    pub fn meant_empty(&self, mut p: DVec3) -> bool {
        for step in self.steps.iter().rev() {
            match step.undo(p) {
                Before::At(q) => p = q,
                Before::InLayer => return false,
            }
        }
        let ring = self.ring_at(p.z);
        ring.is_some_and(|ring| self.rings[ring].meant_empty(p))
    }

    /// The section as convex cells, levelled at its underside and its top.
    pub fn cells(&self) -> Vec<PartCell> {
        let mut cells = Vec::new();
        for (i, ring) in self.rings.iter().enumerate() {
            ring.cells(i as u16, &mut cells);
        }
        for (i, step) in self.steps.iter().enumerate() {
            cells = step.cut(i as u16, cells);
        }
        let (floor, top) = (
            Plane::tilted(0.0, 0.0, 0.0),
            Plane::tilted(self.height, 0.0, 0.0),
        );
        cells
            .into_iter()
            .map(|c| {
                let (low, high) = c.cell.heights();
                if low >= 0.0 && high <= self.height {
                    return c;
                }
                PartCell {
                    cell: c.cell.split(&floor).1.split(&top).0,
                    ..c
                }
            })
            .filter(|c| !c.cell.is_empty())
            .collect()
    }
}
