//! An open ring whose segments have next to nothing to stand on.

use piece::course::Course;
use piece::model::joint_area;
use piece::piece::Piece;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found, of_ring};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::ways::ring_key;
use crate::findings::{Check, Limit, Survey, limits};
use crate::glue::turn_below;
use files::key;
use files::message::Value;
use files::remedy::{Remedy, Way};
use files::say;

/// Segments beside gaps share too little of their faces with the ring below.
pub struct OpenRingUnsupported;

impl Check for OpenRingUnsupported {
    fn key(&self) -> &'static str {
        "open-ring-unsupported"
    }

    fn asks(&self) -> &'static str {
        "do the segments of open rings share enough of their faces with the ring below?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FACE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            // The first ring that stands so says it for its section.
            let weak = (0..section.rings.len()).find_map(|r| {
                let pair = Pair::over(piece, (s, r))?;
                let share = pair.share(None);
                (share < limits::LEAST_FACE).then_some((r, pair, share))
            });
            if let Some((r, pair, share)) = weak {
                out.push(self.finding(piece, (s, r), &pair, share));
            }
        }
        out
    }
}

/// An open ring, or one on an open ring.
struct Pair<'a> {
    below: &'a Course,
    above: &'a Course,
    turn: f64,
}

impl<'a> Pair<'a> {
    fn over(piece: &'a Piece, (s, r): (usize, usize)) -> Option<Self> {
        let (below, turn) = turn_below(piece, s, r)?;
        let above = &piece.sections[s].rings[r];
        let open = |course: &Course| course.gap().as_rad() > 0.0;
        let wanted = below.needs.outside.is_some() && above.needs.outside.is_some();
        let (open, turn) = (open(below) || open(above), turn.as_rad());
        (open && wanted).then_some(Pair { below, above, turn })
    }

    /// What the two share of the smaller one's face; with another share filled by the
    /// segments of each that is open.
    fn share(&self, filled: Option<f64>) -> f64 {
        let body = |course: &Course| {
            let mut course = course.clone();
            if let Some(filled) = filled.filter(|_| course.sizes.filled < 1.0) {
                course.sizes.filled = filled;
            }
            course.construction.body(&course)
        };
        let (below, above) = (body(self.below), body(self.above));
        let face = |b| joint_area(b, b, 0.0, None);
        let least = face(&below).min(face(&above)).max(1e-9);
        joint_area(&below, &above, self.turn, None) / least
    }

    /// The least whole percent at which they share enough.
    fn would_do(&self) -> Option<f64> {
        let present = self.below.sizes.filled.min(self.above.sizes.filled);
        let first = (present * 100.0).floor() as u32 + 1;
        let all = (first..100).map(f64::from);
        all.into_iter()
            .find(|percent| self.share(Some(percent / 100.0)) >= limits::LEAST_FACE)
    }
}

impl OpenRingUnsupported {
    fn finding(&self, piece: &Piece, at: (usize, usize), pair: &Pair<'_>, share: f64) -> Finding {
        // The section says it, unless an entry of its own does.
        let spec = piece.design.sections.get(at.0);
        let by_section = spec.is_some_and(|s| {
            s.filled.is_some() && s.listed.iter().all(|ring| ring.filled.is_none())
        });
        let remedy = pair.would_do().map_or_else(
            || Remedy::from(say!("turn the ring so that its segments bridge the gaps below")),
            |percent| {
                let key = if by_section {
                    key::section(at.0).filled()
                } else {
                    ring_key(piece, at.0, at.1).filled()
                };
                let what = say!("fill {percent} % of the ring", percent = Value::name(percent.to_string()));
                Remedy::from(say!(
                    "segments that fill at least {percent} % of the closed ring; or a turn of half a segment against the ring below",
                    percent = Value::name(percent.to_string()),
                ))
                .or(Way::new(what).set(key, percent as usize))
            },
        );
        found(
            self,
            Said {
                severity: if share > 1e-6 {
                    Severity::Risky
                } else {
                    Severity::Stops
                },
                subject: of_ring(at),
                path: ring_path(piece, at.0, at.1).filled(),
                what: say!(
                    "the segments of {ring} share {share} of their faces with the ring below",
                    ring = ring_name(piece, at.0, at.1),
                    share = Value::name(format!("{:.0} %", share * 100.0)),
                ),
                remedy,
            },
            (
                Amount::Percent(share * 100.0),
                Amount::Percent(limits::LEAST_FACE * 100.0),
            ),
            Working::new(
                "share = area of the faces that two rings have in common / the smaller ring's face",
                limits::FACE.source,
            )
            .with("filled", Amount::Percent(pair.above.sizes.filled * 100.0))
            .with("segments", Amount::Count(pair.above.woods.len())),
        )
    }
}
