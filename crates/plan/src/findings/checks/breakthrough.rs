//! A wall that the usual errors of the making may use up.

use crate::findings::ways::wall_of;
use files::remedy::Remedy;
use geometry::Length;
use piece::piece::Piece;

use super::ring_narrow_inside::smallest_inside;
use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::ring_name;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::{Message, Value};
use files::say;

/// Less than three quarters of the wall are left once the tolerances are spent.
pub struct Breakthrough;

impl Check for Breakthrough {
    fn key(&self) -> &'static str {
        "breakthrough"
    }

    fn asks(&self) -> &'static str {
        "is enough wall left once run-out and centring are as far off as they may be?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SPENT]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let exact = &piece.workshop.exactness;
        let (wall, height) = piece.form.thinnest_wall();
        if !wall.exceeds(Length::ZERO) {
            return Vec::new();
        }
        // A dial that swings by so much shows an axis that is off by half of it.
        let off_axis = *exact.run_out / 2.0;
        let (bare, ring) = worst_ring(piece, *exact.ring_centring);
        let spent = off_axis + bare;
        let left = wall - spent;
        let limit = wall * limits::SHARE_LEFT;
        if !(limit - Length::mm(1e-6)).exceeds(left) {
            return Vec::new();
        }
        let cause = ring.map_or_else(Message::default, |(s, r)| {
            say!(
                ", {ring} glued off its centre among them",
                ring = ring_name(piece, s, r)
            )
        });
        let would_do = Value::up(spent / (1.0 - limits::SHARE_LEFT));
        vec![found(
            self,
            Said {
                severity: Severity::Risky,
                subject: Subject::default(),
                path: key::form().wall(),
                what: say!(
                    "once the errors of the making are spent{cause}, the wall of {wall} at a height of {height} may have {left} left",
                    cause = cause,
                    wall = wall,
                    height = height,
                    left = Value::fine(left.max(Length::ZERO)),
                ),
                remedy: Remedy::from(say!(
                    "a wall of at least {would_do}; or less run-out, rings centred better, more wood outside and inside of them",
                    would_do = would_do,
                )).or_any(wall_of(piece, spent / (1.0 - limits::SHARE_LEFT))),
            },
            (Amount::Fine(left), Amount::Fine(limit)),
            Working::new(
                "thinnest wall - run-out / 2 - what a ring off its centre no longer covers",
                limits::SPENT.source,
            )
            .with("thinnest wall", Amount::Length(wall))
            .with(
                "run-out, whole swing of the dial",
                Amount::Fine(*exact.run_out),
            )
            .with(
                "a ring off its centre by",
                Amount::Fine(*exact.ring_centring),
            )
            .with("not covered then", Amount::Fine(bare)),
        )]
    }
}

/// How far into the wall a ring leaves no wood when it is glued off its centre, at worst,
/// and which ring it is. A ring that covers too little already is another finding's.
fn worst_ring(piece: &Piece, off: Length) -> (Length, Option<(usize, usize)>) {
    let mut worst = (Length::ZERO, None);
    for (s, section) in piece.sections.iter().enumerate() {
        for (r, ring) in section.rings.iter().enumerate() {
            let outside = ring
                .needs
                .outside
                .map(|(radius, _)| ring.sizes.flat_out - radius);
            let inside =
                smallest_inside(&piece.form, ring).map(|(radius, _)| radius - ring.sizes.corner_in);
            for spare in [outside, inside].into_iter().flatten() {
                let bare = off - spare.max(Length::ZERO);
                if bare.exceeds(worst.0) {
                    worst = (bare, Some((s, r)));
                }
            }
        }
    }
    worst
}
