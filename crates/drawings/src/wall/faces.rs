//! Every face that wood meets wood at, where it is in the finished piece.

use geometry::Portable;
use std::f64::consts::{FRAC_PI_2, TAU};

use geometry::{Motion, Plane};
use glam::{DMat3, DVec2, DVec3};
use piece::model::{CourseBody, CutAndRejoin, LayerShape, SectionBody, StepKind};
use piece::piece::Piece;

/// What meets at a face. Numbers count from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum FaceKind {
    /// A section on the section below.
    Section {
        /// The upper one.
        section: u16,
    },
    /// A ring on the ring below.
    Ring {
        /// The section.
        section: u16,
        /// The upper one.
        ring: u16,
    },
    /// Two segments of a ring.
    Joint {
        /// The section.
        section: u16,
        /// The ring.
        ring: u16,
        /// The first of the two.
        segment: u16,
    },
    /// A layer's face.
    Layer {
        /// The section.
        section: u16,
        /// The step that glued it in.
        step: u16,
        /// Its upper face.
        upper: bool,
    },
    /// Two segments of a layer.
    LayerJoint {
        /// The section.
        section: u16,
        /// The step that glued it in.
        step: u16,
        /// The first of the two.
        segment: u16,
    },
    /// A split that was glued again.
    Split {
        /// The section.
        section: u16,
        /// The step.
        step: u16,
    },
}

/// A face and the heights between which it can show.
#[derive(Debug, Clone, Copy)]
pub struct Face {
    /// What meets there.
    pub kind: FaceKind,
    /// The plane it lies in.
    pub plane: Plane,
    /// Lowest and highest, mm.
    pub heights: (f64, f64),
    /// How much of the plane's slope is across the axis; 0 for a level one.
    across: f64,
    /// The azimuth in which its normal leans.
    lean: f64,
}

impl Face {
    fn new(kind: FaceKind, plane: Plane, heights: (f64, f64)) -> Self {
        let flat = DVec2::new(plane.normal.x, plane.normal.y);
        let across = flat.length();
        Face {
            kind,
            plane,
            heights,
            across: if across < 1e-12 { 0.0 } else { across },
            lean: flat.y.arctangent2(flat.x),
        }
    }

    /// Its height, if it is level.
    pub fn level(&self) -> Option<f64> {
        (self.across == 0.0)
            .then(|| self.plane.height_on_axis())
            .flatten()
    }

    /// The azimuth from which its two crossings with a level circle lie equally far.
    pub fn lean(&self) -> f64 {
        self.lean
    }

    /// The cosine, from the lean, of the azimuths at which it crosses a level circle;
    /// beyond ±1 it does not. For faces that are not level.
    pub fn cosine(&self, radius: f64, z: f64) -> f64 {
        (self.plane.offset - self.plane.normal.z * z) / (self.across * radius.max(1e-9))
    }
}

/// All faces of a piece.
#[derive(Debug, Clone, Default)]
pub struct Faces(Vec<Face>);

/// Most places that one face is looked for at; a face that many splits part further
/// is followed no more.
const MOST_PARTS: usize = 64;

impl Faces {
    /// Every face of a piece, where it is when all steps are done.
    pub fn of(piece: &Piece) -> Self {
        let mut all = Vec::new();
        for (i, placed) in piece.stack.sections().iter().enumerate() {
            let mut out = Collector {
                section: i as u16,
                place: Motion::round_axis(placed.turn, DVec3::new(0.0, 0.0, placed.bottom)),
                body: &placed.body,
                reach: reach(&placed.body),
                faces: &mut all,
            };
            out.rings();
            for (k, step) in placed.body.steps().iter().enumerate() {
                out.step(k, step);
            }
            if i > 0 {
                let section = i as u16;
                let plane = Plane::tilted(placed.bottom, 0.0, 0.0);
                let at = (placed.bottom, placed.bottom);
                all.push(Face::new(FaceKind::Section { section }, plane, at));
            }
        }
        Self(all)
    }

    /// All of them.
    pub fn all(&self) -> &[Face] {
        &self.0
    }
}

struct Collector<'a> {
    section: u16,
    place: Motion,
    body: &'a SectionBody,
    /// No wood stands further from the axis, mm.
    reach: f64,
    faces: &'a mut Vec<Face>,
}

impl Collector<'_> {
    fn rings(&mut self) {
        let section = self.section;
        for (k, ring) in self.body.rings().iter().enumerate() {
            let number = k as u16;
            if k > 0 {
                let at = (ring.bottom, ring.bottom);
                let plane = Plane::tilted(ring.bottom, 0.0, 0.0);
                let kind = FaceKind::Ring {
                    section,
                    ring: number,
                };
                self.follow(0, kind, plane, at);
            }
            for (segment, azimuth) in ring.ends() {
                let kind = FaceKind::Joint {
                    section,
                    ring: number,
                    segment,
                };
                self.follow(0, kind, upright(azimuth), (ring.bottom, ring.top));
            }
        }
    }

    fn step(&mut self, k: usize, step: &CutAndRejoin) {
        let (section, number) = (self.section, k as u16);
        let everywhere = (0.0, self.body.height());
        if matches!(step.kind, StepKind::Joint { .. }) {
            // The ring's own underside is there already.
            return;
        }
        let Some(layer) = &step.layer else {
            let kind = FaceKind::Split {
                section,
                step: number,
            };
            self.follow(k + 1, kind, step.lower, everywhere);
            return;
        };
        for upper in [false, true] {
            let plane = if upper {
                step.upper.moved(&step.motion)
            } else {
                step.lower
            };
            let kind = FaceKind::Layer {
                section,
                step: number,
                upper,
            };
            self.follow(k + 1, kind, plane, everywhere);
        }
        if let LayerShape::Ring {
            segments, stretch, ..
        } = layer.shape
        {
            self.layer_joints(k, step, segments.max(3), stretch);
        }
    }

    /// A ring layer's joints stand square to its faces, out from its middle, the half
    /// that is stretched moved out along the climb.
    fn layer_joints(&mut self, k: usize, step: &CutAndRejoin, segments: usize, stretch: f64) {
        let normal = step.lower.normal;
        let climb = (-normal.y).arctangent2(-normal.x);
        let level = DVec3::new(-climb.sine(), climb.cosine(), 0.0);
        let axes = DMat3::from_cols(level.cross(normal), level, normal);
        let origin = DVec3::new(0.0, 0.0, step.lower.height_on_axis().unwrap_or(0.0));
        let part = TAU / segments as f64;
        for i in 0..segments {
            // Segment 0's middle is a right angle from the climb.
            let azimuth = FRAC_PI_2 + part * (i as f64 + 0.5);
            let side = azimuth.cosine();
            // Half an odd ring is never stretched; a joint on the middle line belongs to neither half.
            let shift = if side.abs() < 1e-9 {
                0.0
            } else {
                stretch * side.signum()
            };
            let upright = upright(azimuth);
            let local = Plane {
                normal: upright.normal,
                offset: upright.offset + upright.normal.x * shift,
            };
            let kind = FaceKind::LayerJoint {
                section: self.section,
                step: k as u16,
                segment: i as u16,
            };
            let plane = local.moved(&Motion::rigid(axes, origin));
            self.follow(k + 1, kind, plane, (0.0, self.body.height()));
        }
    }

    /// Follows a face through the steps from `from` on: what lies above a cut moves.
    fn follow(&mut self, from: usize, kind: FaceKind, plane: Plane, heights: (f64, f64)) {
        let reach = self.reach;
        let flat = heights.0 == heights.1;
        let some = |h: (f64, f64)| h.0 < h.1 || (flat && h.0 == h.1);
        let mut parts = vec![(plane, heights)];
        for step in self.body.steps().iter().skip(from) {
            if step.motion.is_still() {
                continue;
            }
            let (low, high) = (
                heights_of(&step.lower, reach),
                heights_of(&step.upper, reach),
            );
            let up = step.motion.turn.row(2);
            let lean = up.x.hypotenuse(up.y) * reach;
            let mut next = Vec::with_capacity(parts.len() * 2);
            for (plane, heights) in parts {
                let stays = (heights.0, heights.1.min(low.1));
                let moves = (heights.0.max(high.0), heights.1);
                if some(stays) {
                    next.push((plane, stays));
                }
                if some(moves) && next.len() < MOST_PARTS {
                    let lifted = |z: f64| up.z * z + step.motion.shift.z;
                    let moved = (lifted(moves.0) - lean, lifted(moves.1) + lean);
                    next.push((plane.moved(&step.motion), moved));
                }
            }
            parts = next;
        }
        for (plane, heights) in parts {
            let lift = self.place.shift.z;
            self.faces.push(Face::new(
                kind,
                plane.moved(&self.place),
                (heights.0 + lift, heights.1 + lift),
            ));
        }
    }
}

/// How far from the axis wood may stand: the widest ring's corners, and a little for
/// rings that are off it.
fn reach(body: &SectionBody) -> f64 {
    let widest = body.rings().iter().map(CourseBody::corner_out);
    widest.fold(0.0, f64::max) * 1.02 + 5.0
}

/// The lowest and highest point of a plane as far as wood stands.
fn heights_of(plane: &Plane, reach: f64) -> (f64, f64) {
    let Some(middle) = plane.height_on_axis() else {
        return (f64::NEG_INFINITY, f64::INFINITY);
    };
    let n = plane.normal;
    let rise = (n.x.hypotenuse(n.y) / n.z).abs() * reach;
    (middle - rise, middle + rise)
}

/// The upright plane through the axis and an azimuth, its normal a quarter turn on.
fn upright(azimuth: f64) -> Plane {
    Plane {
        normal: DVec3::new(-azimuth.sine(), azimuth.cosine(), 0.0),
        offset: 0.0,
    }
}
