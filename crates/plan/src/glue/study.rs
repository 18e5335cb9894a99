//! Every glue-up of a piece.

use geometry::Portable;
use std::f64::consts::PI;

use files::design::BlankShape;
use geometry::Angle;
use piece::course::{Between, Course};
use piece::model::{CourseBody, joint_area};
use piece::piece::{Piece, Section};

use super::glue_up::{GlueUp, GlueWhat, Joints};
use super::pressure::pressure_for;
use crate::ring_group::RingGroup;

/// A ring as the model has it.
fn body(piece: &Piece, section: usize, ring: usize) -> Option<&CourseBody> {
    let placed = piece.stack.sections().get(section)?;
    placed.body.rings().get(ring)
}

fn pressure(piece: &Piece, ring: &Course) -> (f64, f64) {
    let first = ring.woods.first();
    first.map_or((0.7, 1.0), |id| pressure_for(piece.wood(*id)))
}

/// The larger half of each of a group's rings, glued in one go.
pub fn rings(group: &RingGroup<'_>) -> Option<GlueUp> {
    let ring = group.ring;
    let ends = ring.joints.iter().find(|j| j.between == Between::Ends)?;
    let joints = ring.sizes.halves().0.saturating_sub(1).max(1);
    let one = ends.face.0.as_mm() * ends.face.1.as_mm();
    Some(GlueUp::new(
        group.piece,
        &Joints {
            what: GlueWhat::HalfRing,
            at: (group.section, group.rings.first().copied().unwrap_or(0)),
            faces: joints * 2,
            area: one * joints as f64,
            pressed: one,
            film: None,
            pressure: pressure(group.piece, ring),
        },
    ))
}

/// The largest joint between two of a section's rings, glued by itself.
pub fn stack(piece: &Piece, number: usize) -> Option<GlueUp> {
    let section = piece.sections.get(number)?;
    let pairs = section.rings.windows(2).enumerate();
    let (at, area, ring) = pairs
        .filter_map(|(r, pair)| {
            let (below, above) = (body(piece, number, r)?, body(piece, number, r + 1)?);
            Some((r + 1, joint_area(below, above, 0.0, None), &pair[1]))
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(GlueUp::new(
        piece,
        &Joints {
            what: GlueWhat::Stack,
            at: (number, at),
            faces: 2,
            area,
            pressed: area,
            film: None,
            pressure: pressure(piece, ring),
        },
    ))
}

/// A band's layer between its two faces.
pub fn layer(piece: &Piece, number: usize, band_number: usize) -> Option<GlueUp> {
    let section = piece.sections.get(number)?;
    let band = section.bands.get(band_number)?;
    let radius = section.blank_radius.as_mm();
    let hole = hole(section, band.loops.height.as_mm());
    let face = (PI * radius * radius - hole) / band.loops.tilt.as_rad().cosine();
    let wood = band.woods.first();
    Some(GlueUp::new(
        piece,
        &Joints {
            what: GlueWhat::Layer,
            at: (number, band_number),
            faces: 4,
            area: face * 2.0,
            pressed: face,
            film: Some(band.glue_line),
            pressure: wood.map_or((0.7, 1.0), |id| pressure_for(piece.wood(*id))),
        },
    ))
}

/// Area of the hole in a section at a height: a regular figure's, n tan(180°/n) flat².
fn hole(section: &Section, height: f64) -> f64 {
    let at = section
        .rings
        .iter()
        .find(|r| (r.bottom + r.height).as_mm() > height);
    at.map_or(0.0, |ring| {
        let flat = ring.sizes.flat_in().min(section.blank_radius).as_mm();
        let half = std::f64::consts::PI / ring.sizes.segments as f64;
        ring.sizes.segments as f64 * half.tangent() * flat * flat
    })
}

/// The ring under a ring, in its section or at the top of the one below, and how far the
/// upper one is turned against the lower when it is glued on.
pub fn turn_below(piece: &Piece, section: usize, ring: usize) -> Option<(&Course, Angle)> {
    if let Some(below) = ring.checked_sub(1) {
        // Turned as they are settled: both are in one section.
        return Some((piece.sections.get(section)?.rings.get(below)?, Angle::ZERO));
    }
    let (lower, upper) = (
        piece.sections.get(section.checked_sub(1)?)?,
        piece.sections.get(section)?,
    );
    let splits = lower.splits.iter().map(|s| s.spec.turn).sum::<Angle>();
    Some((lower.rings.last()?, upper.turn - lower.turn - splits))
}

/// A section on the one below.
pub fn joins(piece: &Piece, number: usize) -> Option<GlueUp> {
    let (lower, upper) = (
        piece.sections.get(number.checked_sub(1)?)?,
        piece.sections.get(number)?,
    );
    let above = upper.rings.first()?;
    let (under, over) = (
        body(piece, number - 1, lower.rings.len().checked_sub(1)?)?,
        body(piece, number, 0)?,
    );
    let (_, turn) = turn_below(piece, number, 0)?;
    // Both were trued to cylinders before they were joined, unless they stay as glued.
    let trued = [lower, upper]
        .iter()
        .all(|s| s.blank == BlankShape::Cylinder);
    let round = trued.then(|| under.flat_out().min(over.flat_out()));
    let area = joint_area(under, over, turn.as_rad(), round);
    Some(GlueUp::new(
        piece,
        &Joints {
            what: GlueWhat::Join,
            at: (number, 0),
            faces: 2,
            area,
            pressed: area,
            film: None,
            pressure: pressure(piece, above),
        },
    ))
}

/// Every sort of glue-up in a piece with how often it is done, from the bottom up.
pub fn study(piece: &Piece) -> Vec<(GlueUp, usize)> {
    let mut out = Vec::new();
    for number in 0..piece.sections.len() {
        let section = &piece.sections[number];
        for group in RingGroup::of_section(piece, number) {
            // Two halves a ring; the last two joints are as many again as one of them.
            out.extend(rings(&group).map(|g| (g, 2 * group.count())));
        }
        let joints = section.rings.len().saturating_sub(1);
        out.extend(stack(piece, number).map(|g| (g, joints)));
        for (b, band) in section.bands.iter().enumerate() {
            out.extend(layer(piece, number, b).map(|g| (g, band.order.len())));
        }
        out.extend(joins(piece, number).map(|g| (g, 1)));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    /// A ring's flat area, mm²: n tan(180°/n) (flat² outside − flat² inside); a disc's circle.
    fn flat_area(ring: &Course) -> f64 {
        let outside = ring.sizes.flat_out.as_mm();
        if ring.closing_joints() == 0 {
            return PI * outside * outside;
        }
        let n = ring.sizes.segments as f64;
        let inside = ring.sizes.flat_in().as_mm();
        n * ring.sizes.mitre().as_rad().tangent() * (outside * outside - inside * inside)
    }

    #[test]
    fn a_half_ring_has_a_joint_less_than_segments() {
        let piece = trial::bowl();
        let group = RingGroup::of_section(&piece, 1).remove(0);
        let glue = rings(&group).unwrap();
        // Six segments, five joints, ten faces.
        assert_eq!(glue.faces, 10);
        let sizes = group.sizes();
        let slant = sizes.board_width().as_mm() / 15.0_f64.to_radians().cosine();
        assert!((glue.area / (5.0 * slant * group.ring.stock.as_mm()) - 1.0).abs() < 1e-12);
        // 200 g/m² and a quarter wasted.
        assert!((glue.grams - glue.area * 200e-6 * 1.25).abs() < 1e-9);
    }

    #[test]
    fn epoxy_is_mixed_in_batches_and_pressed_lightly() {
        let piece = trial::bowl();
        let glue = layer(&piece, 1, 0).unwrap();
        assert!(glue.epoxy && glue.millilitres() >= *piece.workshop.glue.smallest_batch - 1e-9);
        assert!(
            glue.force().0
                < 0.1
                    * pressure_for(piece.wood(piece.sections[1].bands[0].woods[0])).0
                    * glue.pressed
        );
        assert!(stack(&piece, 1).is_some_and(|g| !g.epoxy));
    }

    #[test]
    fn joints_are_no_larger_than_the_rings() {
        let piece = trial::bowl();
        let rings = &piece.sections[1].rings;
        for (k, pair) in rings.windows(2).enumerate() {
            let rings = (body(&piece, 1, k).unwrap(), body(&piece, 1, k + 1).unwrap());
            let area = joint_area(rings.0, rings.1, 0.0, None);
            assert!(area > 0.0 && area <= flat_area(&pair[0]).min(flat_area(&pair[1])) * 1.001);
        }
        assert!(
            study(&piece)
                .iter()
                .all(|(g, times)| g.area > 0.0 && *times > 0)
        );
    }
}
