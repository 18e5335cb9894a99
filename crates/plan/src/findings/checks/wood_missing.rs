//! Places of the finished form where the glued stack has no wood.

use crate::findings::ways::{disc, one, outside_of, panel, width_of};
use files::remedy::{Remedy, Way};
use geometry::Portable;
use std::collections::BTreeMap;
use std::f64::consts::TAU;

use files::key::{self, KeyPath};
use files::message::Reading;
use files::say;
use geometry::{Angle, Length};
use glam::DVec3;
use piece::course::{Course, Opening};
use piece::piece::{Piece, Section};

use super::ring_narrow_inside::width_for;
use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// A net under all other checks of wood: the finished form is sampled.
pub struct WoodMissing;

/// Points that are asked for, about.
const POINTS: usize = 12_000;
/// (√5 − 1) / 2.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
/// Radii on each level, from just under the inner to just under the outer surface.
const RADII: usize = 5;

impl Check for WoodMissing {
    fn key(&self) -> &'static str {
        "wood-missing"
    }

    fn asks(&self) -> &'static str {
        "is there wood everywhere in the finished form?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::WOOD_THERE]
    }

    fn of_the_wall(&self) -> bool {
        true
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut holes = holes(piece);
        // What is missing in a ring has a cause that is told already.
        holes.retain(|at, _| {
            !survey.found.iter().any(|f| {
                f.severity == Severity::Stops
                    && (f.subject.section, f.subject.ring) == (Some(at.0), Some(at.1))
            })
        });
        holes
            .iter()
            .map(|(at, hole)| self.finding(piece, *at, hole))
            .collect()
    }
}

/// Where wood is missing in one ring's heights.
struct Hole {
    radii: (f64, f64),
    heights: (f64, f64),
    /// In a loop's layer: band.
    band: Option<usize>,
}

impl WoodMissing {
    fn finding(&self, piece: &Piece, at: (usize, usize), hole: &Hole) -> Finding {
        let ring = &piece.sections[at.0].rings[at.1];
        let (low, high) = (Length::mm(hole.radii.0), Length::mm(hole.radii.1));
        let (path, remedy) = match hole.band {
            Some(band) => (
                key::section(at.0).band(band).make(),
                one(
                    say!("layers of one board, so that they reach everywhere"),
                    Way::new(say!("make the layers of one board"))
                        .set(key::section(at.0).band(band).make(), "solid"),
                ),
            ),
            None => remedy(piece, at, ring, hole),
        };
        found(
            self,
            Said {
                severity: Severity::Stops,
                subject: Subject {
                    section: Some(at.0),
                    ring: Some(at.1),
                    band: hole.band,
                    ..Subject::default()
                },
                path,
                what: say!(
                    "wood is missing in {ring}: from a radius of {low} to {high}, at heights of {from} to {to}",
                    ring = ring_name(piece, at.0, at.1),
                    low = low,
                    high = high,
                    from = Length::mm(hole.heights.0),
                    to = Length::mm(hole.heights.1),
                ),
                remedy,
            },
            (Amount::Length(high - low), Amount::Length(Length::ZERO)),
            Working::new(
                "the finished form less the glued stack, by points",
                limits::WOOD_THERE.source,
            ),
        )
    }
}

fn remedy(piece: &Piece, at: (usize, usize), ring: &Course, hole: &Hole) -> (KeyPath, Remedy) {
    let path = ring_path(piece, at.0, at.1);
    let allow = &piece.workshop.allowances;
    if hole.radii.0 > ring.sizes.corner_in.as_mm() {
        let outside = Length::mm(hole.radii.1) + *allow.outside;
        return (
            path.outside(),
            outside_of(piece, at, Reading::up(outside * 2.0)),
        );
    }
    // The form's own inner edge there: the points lie a little inside the wood.
    let outline = piece.form.outline();
    let step = (hole.heights.1 - hole.heights.0) / 32.0;
    let inner = (0..=32)
        .filter_map(|k| {
            outline
                .spans(hole.heights.0 + step * f64::from(k))
                .first()
                .copied()
        })
        .fold(hole.radii.0, |m, s| m.min(s.0));
    let corner = Length::mm(inner) - *allow.inside;
    if corner.exceeds(Length::ZERO) {
        let width = Reading::up(width_for(ring, corner));
        return (path.width(), width_of(piece, at, width));
    }
    (
        path.solid(),
        Remedy::from(say!("one disc, or a floor panel that fills the floor"))
            .or(disc(piece, at.0, at.1))
            .or_any(panel(piece, at, None)),
    )
}

/// Every hole by section and ring.
fn holes(piece: &Piece) -> BTreeMap<(usize, usize), Hole> {
    let levels = levels(piece);
    let azimuths = (POINTS / (levels.len() * RADII).max(1)).clamp(6, 96);
    let outline = piece.form.outline();
    let skin = limits::SKIN.as_mm();
    let mut holes: BTreeMap<(usize, usize), Hole> = BTreeMap::new();
    for (i, &z) in levels.iter().enumerate() {
        let Some(at) = ring_at(piece, z) else {
            continue;
        };
        let (section, ring) = (&piece.sections[at.0], &piece.sections[at.0].rings[at.1]);
        let gapped = ring.gap().exceeds(Angle::ZERO);
        let mut radii: Vec<f64> = Vec::with_capacity(RADII);
        for &(inner, outer) in outline.spans(z).iter() {
            let (a, b) = (inner + skin, outer - skin);
            let share = |k: usize| a + (b - a) * k as f64 / (RADII - 1) as f64;
            let all = (0..RADII).map(share).filter(|_| a < b);
            radii.extend(all.filter(|r| !in_play(ring, *r, z, outer)));
        }
        for j in 0..azimuths {
            // The golden section keeps azimuths from standing in line with segments.
            let turns = (i * azimuths + j) as f64 * GOLDEN;
            let (sin, cos) = (TAU * turns.fract()).sine_cosine();
            for &r in &radii {
                let p = DVec3::new(r * cos, r * sin, z);
                if piece.stack.wood_at(p).is_some() || (gapped && piece.stack.meant_empty(p)) {
                    continue;
                }
                let layer = layer_at(section, p);
                let hole = holes.entry(at).or_insert(Hole {
                    radii: (r, r),
                    heights: (z, z),
                    band: layer,
                });
                hole.radii = (hole.radii.0.min(r), hole.radii.1.max(r));
                hole.heights = (hole.heights.0.min(z), hole.heights.1.max(z));
                // A hole that goes on beside the layer is not the layer's.
                if layer.is_none() {
                    hole.band = None;
                }
            }
        }
    }
    holes
}

/// Heights to look at: just inside both ends of every stretch in which nothing
/// changes, and evenly between.
fn levels(piece: &Piece) -> Vec<f64> {
    let outline = piece.form.outline();
    // Above the stack nothing is to be found; that is told elsewhere.
    let (low, high) = (outline.bottom(), outline.top().min(piece.stack.height()));
    let mut breaks: Vec<f64> = outline.break_heights().to_vec();
    for ring in piece.sections.iter().flat_map(|s| &s.rings) {
        breaks.extend([ring.spans.0.as_mm(), ring.spans.1.as_mm()]);
        if let Some(panel) = &ring.let_in {
            let under = ring.spans.0 + panel.above;
            breaks.extend([under.as_mm(), (under + panel.thickness).as_mm()]);
        }
    }
    breaks.retain(|z| *z > low && *z < high);
    breaks.extend([low, high]);
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|b, a| *b - *a < 0.01);
    let stretches = breaks.len().saturating_sub(1).max(1);
    let each = (240 / stretches).clamp(2, 24);
    let mut levels = Vec::with_capacity(stretches * each);
    for w in breaks.windows(2) {
        let inset = (0.1 * (w[1] - w[0])).min(0.05);
        let (from, to) = (w[0] + inset, w[1] - inset);
        levels.extend((0..each).map(|k| from + (to - from) * k as f64 / (each - 1) as f64));
    }
    levels
}

fn ring_at(piece: &Piece, z: f64) -> Option<(usize, usize)> {
    for (s, section) in piece.sections.iter().enumerate() {
        let found = section
            .rings
            .iter()
            .position(|r| z >= r.spans.0.as_mm() && z <= r.spans.1.as_mm());
        if let Some(r) = found {
            return Some((s, r));
        }
    }
    None
}

/// In the room that a loose part has at its edge, and not near the outer wall?
fn in_play(ring: &Course, r: f64, z: f64, outer: f64) -> bool {
    // The room has flats, as many as the ring or more: its corners reach further.
    let corner = 1.0 / ring.sizes.mitre().as_rad().cosine();
    let within = |opening: &Opening| match opening {
        Opening::Edge { radii, heights } => {
            let at = |height: Length| (ring.spans.0 + height).as_mm();
            z >= at(heights.0)
                && z <= at(heights.1)
                && r >= radii.0.as_mm()
                && r <= radii.1.as_mm() * corner
        }
        Opening::Gap { .. } => false,
    };
    ring.openings.iter().any(within) && r < outer - 1.0
}

/// The band in whose layers a point of the piece lies; splits through the loops are not
/// counted.
fn layer_at(section: &Section, p: DVec3) -> Option<usize> {
    section.bands.iter().position(|b| {
        let turn = section.turn_of(b).as_rad();
        let (x, y) = (
            p.x * turn.cosine() + p.y * turn.sine(),
            p.y * turn.cosine() - p.x * turn.sine(),
        );
        let z = p.z - section.base_of(b).as_mm();
        let (st, ct) = b.loops.tilt.as_rad().sine_cosine();
        let half = b.loops.thickness.as_mm() / 2.0;
        b.loops.azimuths.iter().any(|a| {
            let (sa, ca) = a.as_rad().sine_cosine();
            ((z - b.loops.height.as_mm()) * ct - st * (x * ca + y * sa)).abs() <= half
        })
    })
}
