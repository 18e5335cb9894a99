//! One glue-up.

use files::message::Value;
use files::say;
use geometry::Length;
use piece::piece::Piece;

use super::pressure::{EPOXY_PRESSURE, cure_at};
use crate::figure::{Amount, Figure, Working};

/// Density of wood glue and of epoxy, g/ml: about 1.1 (makers' sheets, from memory).
const GLUE_DENSITY: f64 = 1.1;
/// Brushing or rolling a broad face, seconds for each cm² (common practice).
const BROAD: f64 = 0.15;

/// What is glued.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GlueWhat {
    /// Segments to a half-ring.
    HalfRing,
    /// A ring on the one below.
    Stack,
    /// A layer between the parts of a section.
    Layer,
    /// A section on a section.
    Join,
}

/// One glue-up: what is spread before the clamps go on.
#[derive(Debug, Clone)]
pub struct GlueUp {
    /// What it is.
    pub what: GlueWhat,
    /// Section and ring, or band.
    pub at: (usize, usize),
    /// With epoxy.
    pub epoxy: bool,
    /// Faces that are spread.
    pub faces: usize,
    /// Area of all its joints, mm² (one side).
    pub area: f64,
    /// Area that one clamp's force acts on, mm².
    pub pressed: f64,
    /// Glue to have ready, waste counted, g.
    pub grams: f64,
    /// Minutes to spread it.
    pub spreading: f64,
    /// Minutes from the first face to the clamps.
    pub open: f64,
    /// Pressure, from and to, N/mm².
    pub pressure: (f64, f64),
    /// Hours before the next cut, at the shop's temperature.
    pub cure: f64,
}

/// What a glue-up is worked out from.
pub(super) struct Joints {
    pub what: GlueWhat,
    pub at: (usize, usize),
    pub faces: usize,
    pub area: f64,
    pub pressed: f64,
    /// Film that has to be filled, in place of what is spread.
    pub film: Option<Length>,
    pub pressure: (f64, f64),
}

impl GlueUp {
    pub(super) fn new(piece: &Piece, joints: &Joints) -> Self {
        let glue = &piece.workshop.glue;
        let epoxy = joints.what == GlueWhat::Layer && *glue.epoxy_for_layers;
        // g/m² to g/mm² by 1e-6; ml from mm³ by 1e-3.
        let spread = joints.area * *glue.spread * 1e-6;
        let filled = joints
            .film
            .map_or(0.0, |film| joints.area * film.as_mm() * 1e-3 * GLUE_DENSITY);
        let needed = spread.max(filled) * (1.0 + glue.waste.max(0.0) / 100.0);
        let broad = 2.0 * joints.area / 100.0 * BROAD / 60.0;
        let small = joints.faces as f64 * *glue.face_seconds / 60.0;
        let (open, cure) = if epoxy {
            (glue.epoxy_open_minutes, glue.epoxy_cure_hours)
        } else {
            (glue.open_minutes, glue.cure_hours)
        };
        let smallest = *glue.smallest_batch * GLUE_DENSITY;
        GlueUp {
            what: joints.what,
            at: joints.at,
            epoxy,
            faces: joints.faces,
            area: joints.area,
            pressed: joints.pressed,
            grams: if epoxy { needed.max(smallest) } else { needed },
            spreading: broad + small,
            open: *open,
            pressure: if epoxy {
                EPOXY_PRESSURE
            } else {
                joints.pressure
            },
            cure: cure_at(*cure, piece.workshop.climate.shop().temperature),
        }
    }

    /// Glue to have ready, ml.
    pub fn millilitres(&self) -> f64 {
        self.grams / GLUE_DENSITY
    }

    /// Force that reaches the lower and the upper pressure, N.
    pub fn force(&self) -> (f64, f64) {
        (
            self.pressure.0 * self.pressed,
            self.pressure.1 * self.pressed,
        )
    }

    /// The figures of an operation that does it `times` times.
    pub fn figures(&self, times: usize) -> Vec<Figure> {
        let ready = Working::new(
            "joint area · spread · (1 + waste), at least the smallest batch for epoxy; 1.1 g/ml",
            "the workshop's file; common practice until it says",
        )
        .with("joint area", Amount::Area(self.area));
        let each = match self.what {
            GlueWhat::HalfRing => " for each half-ring",
            GlueWhat::Stack if times > 1 => " for the largest joint",
            _ => "",
        };
        let (low, _) = self.force();
        vec![
            Figure::note(
                "glue_ready",
                say!("glue to have ready{each}", each = each),
                Amount::Capacity(self.millilitres() * 1000.0),
            )
            .worked(ready.clone()),
            Figure::note(
                "glue_weight",
                say!("the same by weight{each}", each = each),
                Amount::Weight(self.grams),
            )
            .worked(ready),
            Figure::note(
                "spreading",
                say!(
                    "to spread {faces} faces; open for {open} min",
                    faces = self.faces,
                    open = Value::name(self.open.to_string()),
                ),
                Amount::Minutes(self.spreading.ceil()),
            )
            .worked(
                Working::new(
                    "faces · seconds a face + area of both sides · 0.15 s/cm²",
                    "common practice",
                )
                .with("faces", Amount::Count(self.faces)),
            ),
            Figure::note(
                "clamp_force",
                match self.what {
                    GlueWhat::HalfRing => "pull of the band or press across a joint, from",
                    _ => "clamp with a force from",
                },
                Amount::Force(low),
            )
            .worked(
                Working::new(
                    "pressure · area pressed; the force to close the joint comes first",
                    if self.epoxy {
                        "epoxy wants contact only, about 10 psi; from memory"
                    } else {
                        "100 to 300 psi by the wood's weight, a glue maker's guide"
                    },
                )
                .with("pressure", Amount::Pressure(self.pressure.0))
                .with("area pressed", Amount::Area(self.pressed)),
            ),
        ]
    }
}
