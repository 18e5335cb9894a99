//! Loops on a wall: where their edges run, top out and bottom out.

use geometry::Portable;
use geometry::{Angle, Length};

/// A wall's radius at a height above the section's underside, mm; `None` past its ends.
pub type WallRadius<'a> = &'a dyn Fn(f64) -> Option<f64>;

/// n loops that differ only in azimuth.
#[derive(Debug, Clone)]
pub struct Loops {
    /// Height of their middle on the axis, above the section's underside.
    pub height: Length,
    /// Tilt from straight across.
    pub tilt: Angle,
    /// Thickness of wood removed, square to the cut; the layer and its glue lines fill it.
    pub thickness: Length,
    /// The way each climbs, by number.
    pub azimuths: Vec<Angle>,
}

/// Heights of one loop's visible edges on a wall, above the section's underside.
#[derive(Debug, Clone, Copy)]
pub struct LoopEdges {
    /// Highest point of the upper edge; `None` if the loop runs out over the wall's top.
    pub top: Option<Length>,
    /// Highest point of the lower edge.
    pub top_lower_edge: Option<Length>,
    /// Lowest point of the upper edge.
    pub bottom_upper_edge: Option<Length>,
    /// Lowest point of the lower edge; `None` if it runs out under the wall's bottom.
    pub bottom: Option<Length>,
}

impl LoopEdges {
    /// From lowest to highest visible edge.
    pub fn reach(&self) -> Option<Length> {
        Some(self.top? - self.bottom?)
    }
}

/// Why no tilt gives a wanted reach.
#[derive(Debug, Clone, Copy)]
pub enum ReachError {
    /// Even a level cut reaches at least this far.
    AtLeast(Length),
    /// The steepest cut that stays on the wall reaches this far.
    AtMost {
        /// Largest reach.
        reach: Length,
        /// The tilt that gives it.
        tilt: Angle,
    },
    /// The loop's middle is not on the wall.
    OffTheWall,
}

impl Loops {
    /// Height on the wall where a plane through `on_axis` (mm) that climbs towards
    /// azimuth 0 is met at `share` = cos(azimuth from the climb): the root of
    /// z = on_axis + share · tan(tilt) · R(z), going away from the axis' height.
    ///
    /// `None` when the plane leaves the wall first.
    pub fn height_on(wall: WallRadius<'_>, on_axis: f64, slope: f64) -> Option<f64> {
        let miss = |z: f64| wall(z).map(|r| z - on_axis - slope * r);
        let way = if slope < 0.0 { -1.0 } else { 1.0 };
        // From the axis' height outwards, `way * miss` starts at or below zero.
        let mut near = on_axis;
        if miss(near).is_none() {
            // The middle may lie just off this wall (under the floor, say) while the
            // loop still meets it further along.
            near = first_on_wall(wall, on_axis, way)?;
            if way * miss(near)? > 0.0 {
                return None;
            }
        }
        if slope == 0.0 {
            return Some(near);
        }
        // March so that a wall that flares faster than the cut climbs is met at its
        // first crossing, then close in.
        let stride = 1.0_f64.max((slope * wall(near)?).abs() / 64.0);
        for _ in 0..4096 {
            let far = near + way * stride;
            match miss(far) {
                Some(m) if way * m >= 0.0 => return Some(close_in(&miss, near, far, way)),
                Some(_) => near = far,
                None => {
                    let end = last_on_wall(wall, near, far);
                    let m = miss(end)?;
                    return (way * m >= 0.0).then(|| close_in(&miss, near, end, way));
                }
            }
        }
        None
    }

    /// Half the layer's thickness measured along the axis: thickness / (2 cos tilt), mm.
    fn half_along_axis(&self) -> f64 {
        self.thickness.as_mm() / (2.0 * self.tilt.as_rad().cosine())
    }

    /// Heights of a loop's edges on a wall; all loops of a band share them.
    pub fn edges(&self, wall: WallRadius<'_>) -> LoopEdges {
        let (h, t, e) = (
            self.height.as_mm(),
            self.tilt.as_rad().tangent(),
            self.half_along_axis(),
        );
        let at = |on_axis, slope| Self::height_on(wall, on_axis, slope).map(Length::mm);
        LoopEdges {
            top: at(h + e, t),
            top_lower_edge: at(h - e, t),
            bottom_upper_edge: at(h + e, -t),
            bottom: at(h - e, -t),
        }
    }

    /// Heights of a loop's edges (lower, upper) on a wall at an azimuth from its climb.
    pub fn edge_heights_at(
        &self,
        wall: WallRadius<'_>,
        from_climb: Angle,
    ) -> (Option<f64>, Option<f64>) {
        let slope = self.tilt.as_rad().tangent() * from_climb.as_rad().cosine();
        let (h, e) = (self.height.as_mm(), self.half_along_axis());
        (
            Self::height_on(wall, h - e, slope),
            Self::height_on(wall, h + e, slope),
        )
    }

    /// The tilt whose loops reach `reach` from lowest to highest visible edge on the
    /// real wall. The reach grows with the tilt until the loop leaves the wall, so
    /// the tilt is found by halving between level and `steepest`.
    ///
    /// `thickness_at` gives the thickness removed at a tilt: it is fixed when the
    /// layer is given and follows the tilt when the spacer is.
    pub fn tilt_for_reach(
        wall: WallRadius<'_>,
        height: Length,
        reach: Length,
        steepest: Angle,
        thickness_at: &dyn Fn(Angle) -> Length,
    ) -> Result<Angle, ReachError> {
        let reach_at = |tilt: f64| {
            let tilt = Angle::rad(tilt);
            Loops {
                height,
                tilt,
                thickness: thickness_at(tilt),
                azimuths: Vec::new(),
            }
            .edges(wall)
            .reach()
            .map(Length::as_mm)
        };
        let least = reach_at(0.0).ok_or(ReachError::OffTheWall)?;
        if reach.as_mm() <= least {
            return Err(ReachError::AtLeast(Length::mm(least)));
        }
        let (mut low, mut high) = (0.0, steepest.as_rad());
        for _ in 0..60 {
            let mid = 0.5 * (low + high);
            match reach_at(mid) {
                Some(r) if r <= reach.as_mm() => low = mid,
                _ => high = mid,
            }
        }
        let got = reach_at(low).unwrap_or(least);
        if (got - reach.as_mm()).abs() > 1e-6 {
            return Err(ReachError::AtMost {
                reach: Length::mm(got),
                tilt: Angle::rad(low),
            });
        }
        Ok(Angle::rad(low))
    }

    /// Width of a layer's band along the wall, square to its edges, at an azimuth
    /// from the climb: thickness / sqrt(1 − (n·m)²), n square to the layer and m to
    /// the wall, whose radius changes by `wall_slope` per unit of height.
    pub fn band_width(&self, from_climb: Angle, wall_slope: f64) -> Length {
        let (st, ct) = self.tilt.as_rad().sine_cosine();
        let across = (-st * from_climb.as_rad().cosine() - wall_slope * ct)
            / (1.0 + wall_slope * wall_slope).sqrt();
        self.thickness / (1.0 - across * across).max(1e-12).sqrt()
    }
}

fn first_on_wall(wall: WallRadius<'_>, from: f64, way: f64) -> Option<f64> {
    let mut z = from;
    for _ in 0..2048 {
        z += way * 0.5;
        if wall(z).is_some() {
            return Some(last_on_wall(wall, z, z - way * 0.5));
        }
    }
    None
}

/// The last height that is on the wall between one that is and one that is not.
fn last_on_wall(wall: WallRadius<'_>, on: f64, off: f64) -> f64 {
    let (mut on, mut off) = (on, off);
    for _ in 0..60 {
        let mid = 0.5 * (on + off);
        if wall(mid).is_some() {
            on = mid;
        } else {
            off = mid;
        }
    }
    on
}

/// Halve between `near` (not yet crossed) and `far` (crossed).
fn close_in(miss: &dyn Fn(f64) -> Option<f64>, near: f64, far: f64, way: f64) -> f64 {
    let (mut near, mut far) = (near, far);
    // False position with the Illinois safeguard: superlinear, never leaves the bracket.
    let (mut fn_, mut ff) = (
        miss(near).map_or(-1.0, |m| way * m),
        miss(far).map_or(1.0, |m| way * m),
    );
    for _ in 0..100 {
        if (far - near).abs() < 1e-11 || ff == fn_ {
            break;
        }
        let mut mid = far - ff * (far - near) / (ff - fn_);
        if !(mid - near).is_finite() || (mid - near) * (mid - far) > 0.0 {
            mid = 0.5 * (near + far);
        }
        let Some(m) = miss(mid).map(|m| way * m) else {
            return mid;
        };
        if m == 0.0 {
            return mid;
        }
        if m < 0.0 {
            near = mid;
            fn_ = m;
            ff *= 0.5;
        } else {
            far = mid;
            ff = m;
            fn_ *= 0.5;
        }
    }
    0.5 * (near + far)
}
