//! A class of parts: bounded half-spaces within equal sectors round the axis.

use glam::{DVec2, DVec3};

use super::sectors::Sectors;
use super::{Found, Part, WoodId};

/// What the parts of a class are called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Named {
    /// Segments, one to a sector.
    Segment,
    /// One piece right across.
    Disc,
    /// One piece let into the others.
    Panel,
}

impl Named {
    pub(super) fn part(self, ring: u16, sector: usize) -> Part {
        match self {
            Named::Segment => Part::Segment {
                ring,
                segment: sector as u16,
            },
            Named::Disc => Part::Disc { ring },
            Named::Panel => Part::Panel { ring },
        }
    }
}

/// Which way the grain of a class runs.
#[derive(Debug, Clone, Copy)]
pub(super) enum Grain {
    /// Along each sector's flat, square to the direction of its middle.
    Round,
    /// One way for the whole part.
    Along(DVec2),
}

/// Equal parts round the axis: bounded half-spaces within equal sectors.
#[derive(Debug, Clone)]
pub(super) struct Class {
    /// Their name; `None` for room that stays empty.
    pub(super) named: Option<Named>,
    /// The sectors.
    pub(super) sectors: Sectors,
    /// From these heights on, and up to below these, mm.
    pub(super) heights: (f64, f64),
    /// Axis to the flats outside and inside, mm; 0 inside when they run to the axis.
    pub(super) flats: (f64, f64),
    /// How far the sides stand from the middle of a sector, over the distance from the axis:
    /// the tangent of half a part's angle; infinite where each part fills its sector.
    pub(super) spread: f64,
    /// How the grain runs.
    pub(super) grain: Grain,
    /// What the thickness of the board is counted from, mm.
    pub(super) under: f64,
    /// A wood for each sector, or one for all.
    pub(super) woods: Vec<WoodId>,
}

/// What a class says of a point.
pub(super) enum Says {
    /// It is in this part.
    Here(Found),
    /// It is in room that stays empty.
    Nothing,
    /// It is outside of the class.
    Elsewhere,
}

impl Class {
    /// Does it hold a point? Its height is not asked.
    #[inline(always)]
    pub(super) fn find(&self, ring: u16, p: DVec3) -> Says {
        let flat = DVec2::new(p.x, p.y);
        let Some((sector, mid)) = self.sectors.of(flat) else {
            return Says::Elsewhere;
        };
        let (out, across) = (mid.dot(flat), mid.perp_dot(flat));
        if out > self.flats.0 || out < self.flats.1 {
            return Says::Elsewhere;
        }
        let Some(named) = self.named else {
            return Says::Nothing;
        };
        // On the axis the product is not a number and the point counts as within.
        if across.abs() > self.spread * out {
            return Says::Nothing;
        }
        let part = named.part(ring, sector);
        let wood = match part {
            Part::Segment { .. } => self.woods.get(sector),
            _ => self.woods.first(),
        };
        let Some(&wood) = wood else {
            return Says::Elsewhere;
        };
        let (x, y) = match self.grain {
            Grain::Round => (across, out),
            Grain::Along(along) => (along.dot(flat), along.perp_dot(flat)),
        };
        Says::Here(Found {
            part,
            wood,
            local: DVec3::new(x, y, p.z - self.under),
        })
    }

    /// Is it one part, whatever the sectors of its outline?
    pub(super) fn whole(&self) -> bool {
        !matches!(self.named, Some(Named::Segment))
    }
}
