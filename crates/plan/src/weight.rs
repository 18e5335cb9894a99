//! What the finished piece weighs, where the middle of its weight is, and when it falls
//! over. Worked out once from the model's own parts: rings, layers, floors.

use std::f64::consts::PI;

use geometry::kurbo::Point;
use geometry::{Angle, Length, Portable, VolumeMoments};
use piece::model::{WoodId, volumes_by_part, volumes_by_wood};
use piece::piece::Piece;

/// Volumes are found to this share; a density is not known as well.
const SHARE: f64 = 1e-3;

/// Weight of a wood whose density is not known, kg/m³.
pub(crate) const UNKNOWN_DENSITY: f64 = 700.0;

/// Water, g/mm³.
const WATER: f64 = 1e-3;

/// Weight of the finished piece.
#[derive(Debug, Clone)]
pub struct Weight {
    /// What is in it of each wood. Wood that is wholly turned away is no share of it.
    pub by_wood: Vec<(WoodId, VolumeMoments)>,
    /// Weight, g; a wood whose density is not known is taken as 700 kg/m³.
    pub grams: f64,
    /// Every wood's density is known.
    pub known: bool,
    /// Height of its middle above the foot.
    pub height: Length,
    /// Distance of that from the axis.
    pub off_axis: Length,
}

impl Weight {
    /// Weighs a piece as it is finished.
    pub fn of(piece: &Piece) -> Weight {
        let parts = volumes_by_part(&piece.stack, Some(piece.form.outline()), SHARE);
        let mut out = Weight {
            by_wood: Vec::new(),
            grams: 0.0,
            known: true,
            height: piece.form.centre_of_gravity_height(),
            off_axis: Length::ZERO,
        };
        let mut moment = [0.0; 3];
        for (id, sum) in volumes_by_wood(&parts) {
            if sum.volume <= 0.0 {
                continue;
            }
            let density = piece.wood(id).density;
            out.known &= density.is_some();
            let heavy = density.unwrap_or(UNKNOWN_DENSITY) * 1e-6;
            out.grams += heavy * sum.volume;
            for (m, first) in moment
                .iter_mut()
                .zip([sum.first.x, sum.first.y, sum.first.z])
            {
                *m += heavy * first;
            }
            out.by_wood.push((id, sum));
        }
        if out.grams > 0.0 {
            let [x, y, z] = moment.map(|m| m / out.grams);
            out.height = Length::mm(z);
            out.off_axis = Length::mm(x.hypotenuse(y));
        }
        out
    }

    /// Volume of all its wood, mm³.
    pub fn volume(&self) -> f64 {
        self.by_wood.iter().map(|(_, sum)| sum.volume).sum()
    }

    /// How far it can be tilted before it falls over by itself: it falls first towards where
    /// the middle of its weight lies off the axis.
    pub fn tipping(&self, piece: &Piece) -> Angle {
        tipping(piece.form.foot_radius(), self.height, self.off_axis)
    }

    /// The same filled with water to a share of the depth inside.
    pub fn tipping_filled(&self, piece: &Piece, share: f64) -> Angle {
        let line = piece.form.inside().points();
        let (Some(low), Some(high)) = (line.first(), line.last()) else {
            return self.tipping(piece);
        };
        let (volume, upward) = water(&line, low.y + share * (high.y - low.y));
        let all = self.grams + volume * WATER;
        if all <= 0.0 {
            return self.tipping(piece);
        }
        let height = (self.grams * self.height.as_mm() + upward * WATER) / all;
        let off = self.off_axis * (self.grams / all);
        tipping(piece.form.foot_radius(), Length::mm(height), off)
    }
}

/// tan(angle) = (foot's radius − distance from the axis) / height (closed form).
fn tipping(foot: Length, height: Length, off_axis: Length) -> Angle {
    let lever = (foot - off_axis).max(Length::ZERO);
    Angle::rad(lever.as_mm().arctangent2(height.as_mm()))
}

/// Volume between a rising line and the axis up to a level, mm³, and that times the height
/// of its middle, mm⁴: cone frusta.
fn water(line: &[Point], level: f64) -> (f64, f64) {
    let (mut volume, mut upward) = (0.0, 0.0);
    for w in line.windows(2) {
        let (a, mut b) = (w[0], w[1]);
        if a.y >= level || b.y <= a.y {
            continue;
        }
        if b.y > level {
            b = a.lerp(b, (level - a.y) / (b.y - a.y));
        }
        let (r, s, deep) = (a.x, b.x, b.y - a.y);
        let part = PI / 3.0 * deep * (r * r + r * s + s * s);
        // The integral of π r² z from the frustum's own underside.
        let own = PI / 12.0 * deep * deep * (r * r + 2.0 * r * s + 3.0 * s * s);
        volume += part;
        upward += own + part * a.y;
    }
    (volume, upward)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    /// A cone standing on its point: its middle is three quarters up; a cylinder's half.
    #[test]
    fn water_has_the_middle_of_a_cone_and_of_a_cylinder() {
        let cone = [Point::new(0.0, 0.0), Point::new(30.0, 80.0)];
        let (volume, upward) = water(&cone, 80.0);
        assert!((volume / (PI * 900.0 * 80.0 / 3.0) - 1.0).abs() < 1e-12);
        assert!((upward / volume - 60.0).abs() < 1e-9);
        let tube = [Point::new(25.0, 10.0), Point::new(25.0, 90.0)];
        let (volume, upward) = water(&tube, 50.0);
        assert!((volume / (PI * 625.0 * 40.0) - 1.0).abs() < 1e-12);
        assert!((upward / volume - 30.0).abs() < 1e-9);
        assert_eq!(water(&tube, 5.0), (0.0, 0.0));
    }

    #[test]
    fn layers_and_panels_are_weighed() {
        for piece in [trial::bowl(), trial::tube(), trial::solid()] {
            let weight = Weight::of(&piece);
            let by_hand: f64 = weight
                .by_wood
                .iter()
                .map(|(id, sum)| piece.wood(*id).density.unwrap_or(700.0) * 1e-6 * sum.volume)
                .sum();
            assert!((weight.grams / by_hand - 1.0).abs() < 1e-12);
            assert!(weight.tipping(&piece).as_deg() > 0.0);
            let [half, full] = [0.5, 1.0].map(|s| weight.tipping_filled(&piece, s));
            assert!(half.as_deg() > 0.0 && full.as_deg() > 0.0);
        }
    }

    /// A foot of light wood under a body of heavy wood: the middle is higher than the
    /// form's own. By hand from the two cylinders: atan(R / height).
    #[test]
    fn a_heavy_top_falls_over_sooner_than_the_form_alone() {
        let text = "ringwright = 1\nunit = \"mm\"\n[form]\nouter = [[0, 22], [40, 22], [80, 22]]\nstraight = true\n\
            wall = 15\nfloor = 40\n[woods.light]\nlike = \"basswood\"\ndensity = 100\n\
            [woods.heavy]\nlike = \"hard maple\"\ndensity = 1000\n\
            [[section]]\nname = \"low\"\n[[section.ring]]\nsolid = true\nwood = \"light\"\nstock = 41\nheight = 40\n\
            [[section]]\nname = \"high\"\nrings = 1\nwood = \"heavy\"\nsegments = 24\nstock = 41\nring_height = 40\n";
        let (design, _, problems) = files::read::read_design("tower", text);
        assert!(problems.is_empty(), "{problems:?}");
        let piece = trial::settled(design.unwrap()).piece.unwrap();
        let weight = Weight::of(&piece);
        let (disc, ring) = (
            22.0_f64.powi(2) * 100.0,
            (22.0_f64.powi(2) - 7.0_f64.powi(2)) * 1000.0,
        );
        let height = (disc * 20.0 + ring * 60.0) / (disc + ring);
        assert!(
            (weight.height.as_mm() - height).abs() < 0.1,
            "{} {height}",
            weight.height.as_mm()
        );
        let by_hand = (22.0 / height).atan().to_degrees();
        assert!((weight.tipping(&piece).as_deg() - by_hand).abs() < 0.05);
        assert!(piece.form.tipping_angle().as_deg() > by_hand + 3.0);
    }
}
