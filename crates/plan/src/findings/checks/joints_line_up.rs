//! Joint lines of neighbouring rings above each other.

use crate::findings::ways::one;
use files::remedy::Way;
use std::f64::consts::{PI, TAU};

use files::key;
use files::message::{Message, Value};
use files::say;
use geometry::Angle;
use piece::course::Course;
use piece::piece::{Piece, Section};
use piece::symmetry::common_divisor;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::found::{Said, told};
use crate::findings::say::{ring_name, ring_path, rings_name};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;

/// Joints that should be staggered stand in one line.
pub struct JointsLineUp;

impl Check for JointsLineUp {
    fn key(&self) -> &'static str {
        "joints-line-up"
    }

    fn asks(&self) -> &'static str {
        "are the joints of neighbouring rings staggered?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::JOINTS_APART]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for (s, section) in piece.sections.iter().enumerate() {
            let over = s.checked_sub(1).and_then(|b| self.over_section(piece, b));
            out.extend(over);
            out.extend(self.within(piece, s, section));
        }
        out
    }
}

/// How a ring's joints stand over those of the ring below.
struct Stand {
    /// Nearest joints apart, radians.
    apart: f64,
    /// As far as they can be apart.
    best: f64,
    /// How many joints come that near.
    pairs: usize,
    /// To be added to the upper ring's turn for the best.
    turn: f64,
    /// Segments of the ring with more of them.
    most: usize,
}

impl Stand {
    /// Joints of n segments have a period of 360°/n, and two such rows of joints one
    /// of 360° over the least common multiple.
    fn of(lower: (usize, f64), upper: (usize, f64)) -> Stand {
        let ((n, a), (m, b)) = ((lower.0.max(3), lower.1), (upper.0.max(3), upper.1));
        let both = common_divisor(n, m);
        let period = TAU / (n / both * m) as f64;
        let first = |count: usize, middle: f64| middle + PI / count as f64;
        let ahead = (first(m, b) - first(n, a)).rem_euclid(period);
        Stand {
            apart: ahead.min(period - ahead),
            best: period / 2.0,
            pairs: both,
            turn: period / 2.0 - ahead,
            most: n.max(m),
        }
    }

    fn limit(&self) -> f64 {
        limits::JOINT_SHARE * TAU / self.most as f64
    }

    /// In line, though a turn would stagger them?
    fn in_line(&self) -> bool {
        self.apart < self.limit() && self.best > self.limit()
    }

    fn against(&self) -> Against {
        Against {
            figure: Amount::Angle(Angle::rad(self.apart)),
            limit: Amount::Angle(Angle::rad(self.limit())),
            working: Working::new(
                "angle between the nearest joints >= share x 360° / segments",
                limits::JOINTS_APART.source,
            )
            .with(
                "share",
                Amount::Text(Message::name(limits::JOINT_SHARE.to_string())),
            )
            .with("segments", Amount::Count(self.most)),
        }
    }

    /// The turn that staggers best, given the present one.
    fn turn_from(&self, present: Angle) -> Angle {
        let period = self.best * 2.0;
        let turn = (present.as_rad() + self.turn).rem_euclid(period);
        // A whole period is none.
        Angle::rad(if period - turn < 1e-9 { 0.0 } else { turn })
    }
}

/// Azimuth of the middle of a ring's segment 0 at its top, turned parts counted.
fn at_top(section: &Section, ring: &Course) -> f64 {
    let top = ring.bottom + ring.height;
    let turned = section.splits.iter();
    turned
        .filter(|s| top.exceeds(s.spec.height + s.saw.kerf / 2.0))
        .map(|s| s.spec.turn)
        .sum::<Angle>()
        .as_rad()
        + (section.turn + ring.rotation).as_rad()
}

/// The same at its underside.
fn at_bottom(section: &Section, ring: &Course) -> f64 {
    let turned = section.splits.iter();
    turned
        .filter(|s| !(s.spec.height - s.saw.kerf / 2.0).exceeds(ring.bottom))
        .map(|s| s.spec.turn)
        .sum::<Angle>()
        .as_rad()
        + (section.turn + ring.rotation).as_rad()
}

/// Does a split turn a ring against the one below it after they were stacked?
fn split_between(section: &Section, ring: usize) -> bool {
    let (under, over) = (&section.rings[ring - 1], &section.rings[ring]);
    let turned = at_bottom(section, over) - over.rotation.as_rad();
    let under = at_top(section, under) - under.rotation.as_rad();
    (turned - under).abs() > 1e-9
}

fn stand(lower: (&Section, &Course), upper: (&Section, &Course)) -> Option<Stand> {
    let joined = |r: &Course| r.repeats().is_some() && r.needs.outside.is_some();
    (joined(lower.1) && joined(upper.1)).then(|| {
        Stand::of(
            (lower.1.sizes.segments, at_top(lower.0, lower.1)),
            (upper.1.sizes.segments, at_bottom(upper.0, upper.1)),
        )
    })
}

impl JointsLineUp {
    /// One finding where all rings of a section stand so, else one for each.
    fn within(&self, piece: &Piece, s: usize, section: &Section) -> Vec<Finding> {
        let rings = &section.rings;
        let in_line: Vec<(usize, Stand)> = (1..rings.len())
            .filter_map(|r| {
                let st = stand((section, &rings[r - 1]), (section, &rings[r]))?;
                st.in_line().then_some((r, st))
            })
            .collect();
        let alike = |r: &Course| r.sizes.segments == rings[0].sizes.segments;
        let all = in_line.len() + 1 == rings.len() && rings.len() > 2 && rings.iter().all(alike);
        let most = if all { 1 } else { in_line.len() };
        in_line
            .iter()
            .take(most)
            .map(|(r, st)| {
                let turn = st.turn_from(rings[*r].turn);
                let own = key::section(s).real_ring(*r).turn();
                let (what, path, way) = if all {
                    (
                        say!(
                            "the joints of {rings} stand in line above each other",
                            rings = rings_name(piece, s, 0, rings.len() - 1),
                        ),
                        key::section(s).joint_turn(),
                        Way::new(say!("turn each ring by {turn} against the one below", turn = turn))
                            .set(key::section(s).joint_turn(), turn),
                    )
                } else {
                    (
                        say!(
                            "{pairs} of the joints of {ring} stand in line with those of the ring below",
                            pairs = st.pairs,
                            ring = ring_name(piece, s, *r),
                        ),
                        ring_path(piece, s, *r).turn(),
                        Way::new(say!(
                            "turn {ring} by {turn}",
                            ring = ring_name(piece, s, *r),
                            turn = turn,
                        ))
                        .set(own, turn),
                    )
                };
                told(self, Said {
severity: Severity::WorthKnowing,
subject: Subject {
                        section: Some(s),
                        ring: Some(*r),
                        ..Subject::default()
                    },
path,
what,
remedy: one(
                        if split_between(section, *r) {
                            say!(
                                "stacked at a turn of {turn} against the ring below they are staggered once the split has turned them on, unless the lines are wanted",
                                turn = turn,
                            )
                        } else {
                            say!(
                                "a turn of {turn} against the ring below staggers them, unless the lines are wanted",
                                turn = turn,
                            )
                        },
                        way,
                    ),
}, Some(st.against()))
            })
            .collect()
    }

    /// The first ring of a section on the last of the section below.
    fn over_section(&self, piece: &Piece, below: usize) -> Option<Finding> {
        let (lower, upper) = (piece.sections.get(below)?, piece.sections.get(below + 1)?);
        let st = stand((lower, lower.rings.last()?), (upper, upper.rings.first()?))?;
        let turn = st.turn_from(upper.turn - lower.turn);
        st.in_line().then(|| told(self, Said {
severity: Severity::WorthKnowing,
subject: Subject {
                section: Some(below + 1),
                ring: Some(0),
                ..Subject::default()
            },
path: key::section(below + 1).turn(),
what: say!(
                "{pairs} of the joints of {ring} stand in line with those of {ring_2}",
                pairs = st.pairs,
                ring = ring_name(piece, below + 1, 0),
                ring_2 = ring_name(piece, below, lower.rings.len() - 1),
            ),
remedy: one(
                say!(
                    "a turn of {turn} of {upper} against {lower} staggers them, unless the lines are wanted",
                    turn = turn,
                    upper = Value::name(upper.name.as_str()),
                    lower = Value::name(lower.name.as_str()),
                ),
                Way::new(say!(
                    "turn {upper} by {turn}",
                    upper = Value::name(upper.name.as_str()),
                    turn = turn,
                ))
                .set(key::section(below + 1).turn(), turn),
            ),
}, Some(st.against())))
    }
}
