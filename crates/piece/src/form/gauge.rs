//! Wall thickness square to the outer side.

use geometry::Profile;
use geometry::kurbo::{Point, Vec2};

/// Both sides of the wall before the rim is eased, from the bottom up.
#[derive(Debug, Clone)]
pub(super) struct Gauge {
    outer: Profile,
    line: Vec<Point>,
    /// Continued past the rim and the floor where the curve goes on.
    inner: Vec<Point>,
    floor_top: f64,
    top: f64,
    /// The level width at the rim.
    rim: f64,
}

impl Gauge {
    pub(super) fn new(line: Vec<Point>, inner: Vec<Point>, floor_top: f64, rim: f64) -> Self {
        let outer = Profile::outside(&line);
        Self {
            top: outer.highest(),
            outer,
            line,
            inner,
            floor_top,
            rim,
        }
    }

    pub(super) fn wall_at(&self, z: f64) -> Option<f64> {
        let start = Point::new(self.outer.radius(z)?, z);
        let along = Vec2::new(self.outer.slope(z)?, 1.0).normalize();
        self.across(start, along, f64::INFINITY)
    }

    /// The thinnest wall and its height.
    pub(super) fn thinnest(&self) -> (f64, f64) {
        let mut best = (self.rim, self.top);
        // Differences that the fine lines' own steps make do not count.
        let same = 1e-6 * self.top;
        for w in self.line.windows(2) {
            let along = w[1] - w[0];
            if along.y <= 0.0 {
                continue;
            }
            let along = along.normalize();
            for start in [w[0], w[1]] {
                if let Some(d) = self.across(start, along, best.0)
                    && d < best.0 - same
                {
                    best = (d, start.y);
                }
            }
        }
        // A straight wall has few points of its own: look from the inner side's as well.
        for q in &self.inner {
            if q.y < self.floor_top {
                continue;
            }
            let from = self.line.partition_point(|p| p.y < q.y - best.0);
            for w in self.line[from.saturating_sub(1)..].windows(2) {
                if w[0].y > q.y + best.0 {
                    break;
                }
                let edge = w[1] - w[0];
                let t = (*q - w[0]).dot(edge) / edge.hypot2();
                let d = edge.cross(*q - w[0]) / edge.hypot();
                if edge.y > 0.0 && (0.0..=1.0).contains(&t) && d > 0.0 && d < best.0 - same {
                    best = (d, w[0].y + edge.y * t);
                }
            }
        }
        best
    }

    /// Distance from an outer point to the inner side, square to `along`, up to `limit`.
    fn across(&self, start: Point, along: Vec2, limit: f64) -> Option<f64> {
        let to = Vec2::new(-along.y, along.x);
        // Past the axis there is nothing to meet.
        let reach = limit.min((start.x + self.rim) / along.y.max(1e-9));
        let (z0, z1) = (start.y, start.y + to.y * reach);
        let (z0, z1) = (z0.min(z1), z0.max(z1));
        let from = self.inner.partition_point(|p| p.y < z0).saturating_sub(1);
        let mut nearest: Option<(f64, f64)> = None;
        for w in self.inner[from..].windows(2) {
            if w[0].y > z1 {
                break;
            }
            let edge = w[1] - w[0];
            let across = to.cross(edge);
            let gap = w[0] - start;
            let (d, t) = (gap.cross(edge) / across, gap.cross(to) / across);
            let hit = d > 0.0 && d <= reach && (-1e-9..=1.0 + 1e-9).contains(&t);
            if hit && nearest.is_none_or(|n| d < n.0) {
                nearest = Some((d, start.y + to.y * d));
            }
        }
        let slack = 1e-9 * self.top;
        nearest
            .filter(|n| n.1 >= self.floor_top - slack)
            .map(|n| n.0)
    }
}
