//! One side of the finished wall.

use std::f64::consts::TAU;

use geometry::Length;
use glam::{DVec2, DVec3};
use piece::form::WallSide;
use piece::model::Spot;
use piece::piece::Piece;

/// How deep under the finished surface the model is asked, mm: less than any layer
/// or glue line, more than rounding.
const SKIN: f64 = 0.01;

/// One side of a piece's finished wall.
#[derive(Debug, Clone, Copy)]
pub struct Wall<'a> {
    /// The piece.
    pub piece: &'a Piece,
    /// The side.
    pub side: WallSide,
    lowest: f64,
    highest: f64,
}

impl<'a> Wall<'a> {
    /// A side of a piece.
    pub fn new(piece: &'a Piece, side: WallSide) -> Self {
        let line = piece.form.wall(side);
        Self {
            piece,
            side,
            lowest: line.lowest(),
            highest: line.highest(),
        }
    }

    /// Lowest height, mm.
    pub fn lowest(&self) -> f64 {
        self.lowest
    }

    /// Highest height, mm.
    pub fn highest(&self) -> f64 {
        self.highest
    }

    fn line(&self) -> &'a geometry::Profile {
        self.piece.form.wall(self.side)
    }

    /// Radius at a height; `None` past the ends.
    pub fn radius(&self, z: f64) -> Option<f64> {
        self.line().radius(z)
    }

    /// Change of the radius with height.
    pub fn slope(&self, z: f64) -> f64 {
        self.line().slope(z).unwrap_or(0.0)
    }

    /// The radius at which an unrolled picture is true to scale both ways: half way up
    /// the lowest loop band on this side, or the mean radius where there is none.
    pub fn true_radius(&self) -> Length {
        let at_loops = self.piece.sections.iter().find_map(|s| {
            let band = s.bands.first()?;
            self.radius((s.base_of(band) + band.loops.height).as_mm())
        });
        let mean = || {
            const STEPS: usize = 256;
            let (sum, count) = (0..STEPS)
                .filter_map(|i| {
                    let t = (i as f64 + 0.5) / STEPS as f64;
                    self.radius(self.lowest + (self.highest - self.lowest) * t)
                })
                .fold((0.0, 0), |(s, n), r| (s + r, n + 1));
            sum / f64::from(count.max(1))
        };
        Length::mm(at_loops.unwrap_or_else(mean).max(0.1))
    }

    /// The radius just inside the finished surface.
    pub fn skin(&self, radius: f64) -> f64 {
        match self.side {
            WallSide::Outside => (radius - SKIN).max(0.0),
            WallSide::Inside => radius + SKIN,
        }
    }

    /// The point of the wood just inside the surface.
    pub fn point(&self, azimuth: f64, z: f64) -> Option<DVec3> {
        let r = self.skin(self.radius(z)?);
        let flat = DVec2::from_angle(azimuth) * r;
        Some(flat.extend(z))
    }

    /// What shows on the wall.
    pub fn spot(&self, azimuth: f64, z: f64) -> Option<Spot> {
        self.piece.stack.wood_at(self.point(azimuth, z)?)
    }

    /// How far along the unrolled wall an azimuth stands, as a share of one turn.
    pub fn share(&self, azimuth: f64) -> f64 {
        let turn = azimuth / TAU;
        match self.side {
            WallSide::Outside => turn,
            WallSide::Inside => 1.0 - turn,
        }
    }
}
