//! How much wood is on the lathe, and where its middle is.

use geometry::Portable;
use std::f64::consts::{PI, TAU};

use piece::course::{Course, GrainWay};
use piece::piece::Piece;

use crate::weight::UNKNOWN_DENSITY;

/// How far a piece has been turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// As it left the glue.
    Rough,
    /// The outside is turned.
    Outside,
    /// Both sides are turned.
    Finished,
}

/// Weight with its first moments.
#[derive(Debug, Clone, Copy, Default)]
pub struct Body {
    /// Weight, g.
    pub grams: f64,
    /// Weight times height above the foot, g·mm.
    pub upward: f64,
    /// Weight times distance from the axis towards +x and +y, g·mm.
    pub sideways: (f64, f64),
}

impl Body {
    /// Height of the middle above the foot, mm; 0 without weight.
    pub fn height(&self) -> f64 {
        if self.grams > 0.0 {
            self.upward / self.grams
        } else {
            0.0
        }
    }

    /// Distance of the middle from the axis, mm; 0 without weight.
    pub fn off_axis(&self) -> f64 {
        if self.grams > 0.0 {
            self.sideways.0.hypotenuse(self.sideways.1) / self.grams
        } else {
            0.0
        }
    }

    pub(super) fn add(&mut self, other: Body) {
        self.grams += other.grams;
        self.upward += other.upward;
        self.sideways.0 += other.sideways.0;
        self.sideways.1 += other.sideways.1;
    }

    /// A section's rings, layers counted as the ring they replace.
    pub fn of_section(piece: &Piece, section: usize, cut: Cut) -> Body {
        let mut all = Body::default();
        for ring in piece.sections.get(section).map_or(&[][..], |s| &s.rings) {
            all.add(of_ring(piece, section, ring, cut));
        }
        all
    }

    /// The sections up to and with `last`.
    pub fn up_to(piece: &Piece, last: usize, cut: Cut) -> Body {
        let mut all = Body::default();
        for section in 0..=last.min(piece.sections.len().saturating_sub(1)) {
            all.add(Body::of_section(piece, section, cut));
        }
        all
    }
}

/// One ring by Simpson's rule up its height.
///
/// A segment from r₀ to r₁ over an angle 2α has an area of α(r₁² − r₀²) and a first
/// moment of ⅔ sin α (r₁³ − r₀³) towards its middle.
fn of_ring(piece: &Piece, section: usize, ring: &Course, cut: Cut) -> Body {
    let host = &piece.sections[section];
    let (low, height) = ((host.bottom + ring.bottom).as_mm(), ring.height.as_mm());
    let n = ring.woods.len().max(1);
    let half = PI / n as f64 * ring.sizes.filled;
    let density = |k: usize| {
        let id = ring.woods.get(k).or(ring.woods.first());
        let known = id.and_then(|id| piece.wood(*id).density);
        known.unwrap_or(UNKNOWN_DENSITY) * 1e-6
    };
    let all: f64 = (0..n).map(density).sum::<f64>() / n as f64;
    // Woods round the ring as a vector: the sum of density in each segment's direction.
    let start = (host.turn + ring.rotation).as_rad();
    let (mut x, mut y) = (0.0, 0.0);
    // A pattern that repeats round the ring is in balance.
    if ring.repeats().is_some_and(|repeats| repeats < 2) {
        for k in 0..n {
            let at = start + TAU * k as f64 / n as f64;
            x += density(k) * at.cosine();
            y += density(k) * at.sine();
        }
    }
    let mut sum = Body::default();
    // The floor and the rim are steps: no slice lies across them.
    let steps = [piece.form.floor_top().as_mm(), piece.form.height().as_mm()];
    let mut from = low;
    for to in steps.into_iter().chain([low + height]) {
        if to <= from || to > low + height {
            continue;
        }
        let deep = to - from;
        for (share, weight) in [(0.0, 1.0), (0.5, 4.0), (1.0, 1.0)] {
            let z = from + deep * share;
            let asked = z.clamp(from + 1e-6 * deep, to - 1e-6 * deep);
            let Some((r0, r1)) = radii(piece, ring, cut, asked) else {
                continue;
            };
            let slice = weight / 6.0 * deep;
            let grams = all * PI * ring.sizes.filled * (r1 * r1 - r0 * r0) * slice;
            let first = 2.0 / 3.0 * half.sine() * (r1.to_the(3) - r0.to_the(3)) * slice;
            sum.add(Body {
                grams,
                upward: grams * z,
                sideways: (first * x, first * y),
            });
        }
        from = to;
    }
    if let Some(panel) = &ring.let_in {
        let radius = panel.diameter.as_mm() / 2.0;
        let inner = ring.sizes.flat_in().as_mm().min(radius);
        let known = piece.wood(panel.wood).density.unwrap_or(UNKNOWN_DENSITY) * 1e-6;
        let grams = known * PI * inner * inner * panel.thickness.as_mm();
        sum.add(Body {
            grams,
            upward: grams * (low + (panel.above + panel.thickness / 2.0).as_mm()),
            sideways: (0.0, 0.0),
        });
    }
    sum
}

/// Radii of the wood at a height above the foot; `None` where there is none.
fn radii(piece: &Piece, ring: &Course, cut: Cut, z: f64) -> Option<(f64, f64)> {
    let form = &piece.form;
    // A circle of a polygon's area lies between its flats and corners.
    let round = |flat: f64| {
        if ring.grain == GrainWay::Across {
            return flat;
        }
        let a = ring.sizes.mitre().as_rad();
        flat * (a.tangent() / a).sqrt()
    };
    let rough_in = round(ring.sizes.flat_in().as_mm());
    let outside = match cut {
        Cut::Rough => round(ring.sizes.flat_out.as_mm()),
        _ => form.outside().radius(z)?,
    };
    let inside = match cut {
        Cut::Finished if z > form.floor_top().as_mm() => {
            form.inside().radius(z).unwrap_or(0.0).max(rough_in)
        }
        _ => rough_in,
    };
    (outside > inside).then_some((inside, outside))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use piece::model::volumes_by_part;

    /// Against the exact volumes of the model, on pieces without loops.
    #[test]
    fn weight_and_middle_are_those_of_the_model() {
        for piece in [trial::solid(), trial::turned_sections()] {
            let parts = volumes_by_part(&piece.stack, Some(piece.form.outline()), 1e-5);
            let (mut grams, mut upward) = (0.0, 0.0);
            for p in &parts {
                let density = piece.wood(p.wood).density.unwrap() * 1e-6;
                grams += density * p.moments.volume;
                upward += density * p.moments.first.z;
            }
            let last = piece.sections.len() - 1;
            let body = Body::up_to(&piece, last, Cut::Finished);
            assert!(
                (body.grams / grams - 1.0).abs() < 0.03,
                "{} {grams}",
                body.grams
            );
            assert!((body.height() - upward / grams).abs() < 2.0);
        }
    }

    /// A ring half of one wood and half of another, against the model's first moment.
    #[test]
    fn mixed_woods_pull_the_middle_off_the_axis_as_in_the_model() {
        let mut design = trial::bowl_design();
        design.sections.truncate(1);
        design.sections[0].wood = [vec!["walnut"; 6], vec!["basswood"; 6]]
            .concat()
            .into_iter()
            .map(String::from)
            .collect();
        design.form.outer.truncate(2);
        design.form.outer[1].height = geometry::Length::mm(15.0);
        design.form.floor = Some(geometry::Length::mm(4.0));
        let piece = trial::settled(design).piece.unwrap();
        let rough = Body::of_section(&piece, 0, Cut::Rough);
        let parts = volumes_by_part(&piece.stack, None, 1e-4);
        let (mut grams, mut x, mut y) = (0.0, 0.0, 0.0);
        for p in &parts {
            let density = piece.wood(p.wood).density.unwrap() * 1e-6;
            grams += density * p.moments.volume;
            x += density * p.moments.first.x;
            y += density * p.moments.first.y;
        }
        let exact = x.hypotenuse(y) / grams;
        assert!(exact > 1.0);
        assert!(
            (rough.off_axis() / exact - 1.0).abs() < 0.03,
            "{} {exact}",
            rough.off_axis()
        );
        assert!((rough.grams / grams - 1.0).abs() < 0.01);
    }
}
