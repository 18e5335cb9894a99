//! The piece as it comes out with its errors: the model's own steps, with other numbers.
//!
//! A ring off the centre or out of flat, and a section mounted off the axis, are steps
//! of the same sort: a joint at which the part above moves. So the erred piece is a
//! piece like any other: it answers which wood is where, and can be drawn.

use geometry::Portable;
use geometry::{Length, Motion, Plane};
use glam::{DMat3, DQuat, DVec2, DVec3};
use piece::model::{CourseBody, CutAndRejoin, LayerBody, SectionBody, Stack, StepKind};
use piece::piece::{Band, Piece, Section};

use super::errors::{Errors, LoopErrors, SectionErrors};

/// Where a step cuts and how the part above moves.
#[derive(Debug, Clone, Copy)]
pub struct Cut {
    /// Lower face.
    pub lower: Plane,
    /// Upper face before anything moves.
    pub upper: Plane,
    /// How the part above moves.
    pub motion: Motion,
    /// The upper face after the move.
    pub rejoined: Plane,
}

impl Cut {
    fn new(lower: Plane, upper: Plane, motion: Motion) -> Self {
        Cut {
            lower,
            upper,
            rejoined: upper.moved(&motion),
            motion,
        }
    }
}

/// One section's steps with their errors.
#[derive(Debug, Clone)]
pub struct SectionCuts {
    /// The joints under the rings, by ring; the first is the section's own underside
    /// before it is sawn. From the top one down they are done before all other steps.
    pub joints: Vec<Cut>,
    /// The plan's own steps, in the order of the work.
    pub steps: Vec<Cut>,
    /// The section set on the one below it, last of all.
    pub seat: Cut,
    /// Its height when all is done, mm.
    pub height: f64,
}

impl SectionCuts {
    /// The cuts of a section as its errors make them; `inside` shifts it for what is
    /// turned on the hollow's axis.
    pub fn new(section: &Section, body: &SectionBody, errors: &SectionErrors) -> Self {
        let radius = section.blank_radius.as_mm().max(1.0);
        let shift_of = |i: usize| errors.rings.get(i).map_or(DVec2::ZERO, |r| r.shift);
        let joints: Vec<Cut> = body
            .rings()
            .iter()
            .enumerate()
            .map(|(i, ring)| {
                if i == 0 {
                    return askew(0.0, DVec2::ZERO, shift_of(0), radius);
                }
                let wedge = errors.rings.get(i).map_or(DVec2::ZERO, |r| r.wedge);
                askew(ring.bottom, wedge, shift_of(i) - shift_of(i - 1), radius)
            })
            .collect();
        let steps: Vec<Cut> = body
            .steps()
            .iter()
            .map(|step| match step.kind {
                StepKind::Loop { band, number } => {
                    let (band, number) = (usize::from(band), usize::from(number));
                    let none = LoopErrors::default();
                    let of = errors.bands.get(band).and_then(|b| b.get(number));
                    match section.bands.get(band) {
                        Some(band) => loop_cut(band, number, of.unwrap_or(&none), radius),
                        None => plain(step),
                    }
                }
                StepKind::Split { number } => {
                    let of = errors.splits.get(usize::from(number));
                    of.map_or(plain(step), |e| {
                        let off = Motion::round_axis(e.index, e.slip.extend(0.0));
                        Cut::new(step.lower, step.upper, off.after(&step.motion))
                    })
                }
                StepKind::Joint { .. } => plain(step),
            })
            .collect();
        let seat = askew(0.0, errors.wedge, errors.shift, radius);
        let rises = |cuts: &[Cut]| cuts.iter().map(|c| c.motion.shift.z).sum::<f64>();
        let stacked = body.rings().last().map_or(0.0, |r| r.top);
        Self {
            height: stacked + rises(&joints) + rises(&steps) + seat.motion.shift.z,
            joints,
            steps,
            seat,
        }
    }
}

fn plain(step: &CutAndRejoin) -> Cut {
    Cut::new(step.lower, step.upper, step.motion)
}

/// A level joint under a part whose underside was trued as a wedge of `wedge` mm from
/// side to side and which is glued on `shift` mm off the centre.
fn askew(height: f64, wedge: DVec2, shift: DVec2, radius: f64) -> Cut {
    let lower = Plane::tilted(height, 0.0, 0.0);
    if wedge == DVec2::ZERO {
        return Cut::new(lower, lower, Motion::shift(shift.extend(0.0)));
    }
    // The wedge runs out at one edge of the joint.
    let slope = wedge / (2.0 * radius);
    let middle = height + slope.length() * radius;
    let normal = DVec3::new(-slope.x, -slope.y, 1.0).normalize();
    let upper = Plane {
        normal,
        offset: middle * normal.z,
    };
    let turn = turn(normal, DVec3::Z);
    let to = DVec3::new(shift.x, shift.y, height);
    let motion = Motion::rigid(turn, to - turn * DVec3::new(0.0, 0.0, middle));
    Cut::new(lower, upper, motion)
}

/// A loop's two cuts and how the part above comes to lie.
pub fn loop_cut(band: &Band, number: usize, e: &LoopErrors, radius: f64) -> Cut {
    let loops = &band.loops;
    let removed = loops.thickness.as_mm();
    let climb = loops.azimuths.get(number).map_or(0.0, |a| a.as_rad()) + e.index;
    let tilt = loops.tilt.as_rad() + e.tilt;
    let plane = Plane::tilted(loops.height.as_mm() + e.height, tilt, climb);
    let level = DVec3::new(-climb.sine(), climb.cosine(), 0.0);
    let along = level.cross(plane.normal);
    let lean = |plane: Plane, wedge: DVec2| {
        if wedge == DVec2::ZERO {
            return plane;
        }
        // Still through the same point of the axis.
        let at = DVec3::new(0.0, 0.0, plane.height_on_axis().unwrap_or(0.0));
        let slope = wedge / (2.0 * radius);
        let normal = (plane.normal + along * slope.x + level * slope.y).normalize();
        Plane {
            normal,
            offset: normal.dot(at),
        }
    };
    let upper = plane.shifted(removed / 2.0);
    let lower = lean(plane.shifted(-removed / 2.0), e.slice_wedge);
    let rejoined = lean(lower.shifted(removed + e.misfit), e.layer_wedge);
    let slip = along * e.slip.x + level * e.slip.y;
    let from = DVec3::new(0.0, 0.0, upper.height_on_axis().unwrap_or(0.0));
    let lift = if e.slice_wedge == DVec2::ZERO && e.layer_wedge == DVec2::ZERO {
        // Parallel faces: what they differ by is exact, and nothing turns.
        return Cut::new(lower, upper, Motion::shift(plane.normal * e.misfit + slip));
    } else {
        -rejoined.above(from) / rejoined.normal.dot(upper.normal)
    };
    let turn = turn(upper.normal, rejoined.normal);
    let to = from + upper.normal * lift + slip;
    Cut::new(lower, upper, Motion::rigid(turn, to - turn * from))
}

/// The least turn that takes one unit normal into another.
fn turn(from: DVec3, to: DVec3) -> DMat3 {
    DMat3::from_quat(DQuat::from_rotation_arc(from, to))
}

/// The piece as its errors make it, as seen from outside.
pub fn erred_piece(piece: &Piece, errors: &Errors) -> Piece {
    with_shift(piece, errors, DVec2::ZERO)
}

/// The same set on the axis that the hollow was turned on: what shows on the inside
/// wall of this piece shows on the inside wall of the making.
pub fn erred_inside(piece: &Piece, errors: &Errors) -> Piece {
    with_shift(piece, errors, -errors.inside)
}

fn with_shift(piece: &Piece, errors: &Errors, shift: DVec2) -> Piece {
    let mut out = piece.clone();
    let mut bottom = 0.0;
    let mut bodies = Vec::with_capacity(piece.sections.len());
    for (i, placed) in piece.stack.sections().iter().enumerate() {
        let (Some(section), Some(own)) = (piece.sections.get(i), errors.sections.get(i)) else {
            continue;
        };
        let mut own = own.clone();
        own.shift += DVec2::from_angle(-placed.turn).rotate(shift);
        let body = erred_body(section, &placed.body, &own);
        if let Some(section) = out.sections.get_mut(i) {
            section.bottom = Length::mm(bottom);
            section.height = Length::mm(body.height());
        }
        bottom += body.height();
        bodies.push((body, placed.turn));
    }
    out.stack = Stack::new(bodies);
    out
}

/// A section's body with its errors.
fn erred_body(section: &Section, body: &SectionBody, errors: &SectionErrors) -> SectionBody {
    let cuts = SectionCuts::new(section, body, errors);
    let rings = body.rings().iter().enumerate();
    let rings: Vec<CourseBody> = rings
        .map(|(i, ring)| {
            let out = errors.rings.get(i).map_or(0.0, |e| e.flats_out());
            ring.moved_out(out)
        })
        .collect();
    let mut steps = Vec::with_capacity(cuts.joints.len() + cuts.steps.len() + 1);
    let still = |cut: &Cut| cut.motion.is_still();
    let joint = |ring: usize, cut: &Cut| {
        let kind = StepKind::Joint { ring: ring as u16 };
        CutAndRejoin::new(kind, cut.lower, cut.upper, cut.motion, None)
    };
    for (ring, cut) in cuts.joints.iter().enumerate().rev() {
        if !still(cut) {
            steps.push(joint(ring, cut));
        }
    }
    for (step, cut) in body.steps().iter().zip(&cuts.steps) {
        let layer = step.layer.as_ref().map(|layer| {
            // Along the lower face's own climb, so that the layer lies flat in it.
            let n = cut.lower.normal;
            let level = n.x.hypotenuse(n.y) < LEVEL;
            let climb = if level {
                nominal_climb(section, step.kind)
            } else {
                (-n.y).arctangent2(-n.x)
            };
            LayerBody::new(layer.shape.clone(), layer.woods.clone(), &cut.lower, climb)
        });
        steps.push(CutAndRejoin::new(
            step.kind, cut.lower, cut.upper, cut.motion, layer,
        ));
    }
    if !still(&cuts.seat) {
        steps.push(joint(0, &cuts.seat));
    }
    SectionBody::new(rings, steps)
}

/// Cuts more level than this (sine of the tilt) climb nowhere in particular.
const LEVEL: f64 = 0.005;

fn nominal_climb(section: &Section, kind: StepKind) -> f64 {
    let StepKind::Loop { band, number } = kind else {
        return 0.0;
    };
    let band = section.bands.get(usize::from(band));
    band.and_then(|b| b.loops.azimuths.get(usize::from(number)))
        .map_or(0.0, |a| a.as_rad())
}
