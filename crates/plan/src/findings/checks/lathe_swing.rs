//! A ring that does not turn over the lathe's bed.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::ring_name;
use crate::findings::ways::{any_of, drawn_in};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::message::Value;
use files::remedy::Remedy;
use files::say;
use geometry::Portable;

/// Corners, or even flats, larger than the swing.
pub struct LatheSwing;

impl Check for LatheSwing {
    fn key(&self) -> &'static str {
        "lathe-swing"
    }

    fn asks(&self) -> &'static str {
        "does the largest ring turn over the lathe's bed?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::SWING]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let swing = piece.workshop.lathe.swing;
        let mut largest: Option<(usize, usize)> = None;
        let corners =
            |at: (usize, usize)| piece.sections[at.0].rings[at.1].sizes.corner_out() * 2.0;
        for (s, section) in piece.sections.iter().enumerate() {
            for r in 0..section.rings.len() {
                if largest.is_none_or(|l| corners((s, r)).exceeds(corners(l))) {
                    largest = Some((s, r));
                }
            }
        }
        let Some((s, r)) = largest else {
            return Vec::new();
        };
        let sizes = &piece.sections[s].rings[r].sizes;
        let (across, flats) = (corners((s, r)), sizes.flat_out * 2.0);
        if !across.exceeds(*swing) {
            return Vec::new();
        }
        let radius =
            *swing / 2.0 * sizes.mitre().as_rad().cosine() - *piece.workshop.allowances.outside;
        let smaller = Remedy::from(say!(
            "a largest finished radius of at most {radius}",
            radius = Value::down(radius),
        ))
        .or_any(drawn_in(piece, radius));
        let (severity, how, remedy) = if flats.exceeds(*swing) {
            (
                Severity::Stops,
                say!("{flats} from flat to flat", flats = flats),
                any_of([
                    smaller,
                    say!(
                        "a lathe with a swing of at least {across}",
                        across = Value::up(across)
                    )
                    .into(),
                ]),
            )
        } else {
            (
                Severity::Risky,
                say!("{across} from corner to corner", across = across),
                any_of([
                    say!(
                        "saw the corners off to a round of less than {swing} before it is mounted",
                        swing = *swing,
                    )
                    .into(),
                    smaller,
                ]),
            )
        };
        vec![found(
            self,
            Said {
                severity,
                subject: Subject {
                    section: Some(s),
                    ring: Some(r),
                    ..Subject::default()
                },
                path: key::form().outer(),
                what: say!(
                    "{ring} measures {how}; the lathe swings {swing}",
                    ring = ring_name(piece, s, r),
                    how = how,
                    swing = *swing,
                ),
                remedy: remedy.unwrap_or_default(),
            },
            (Amount::Length(across), Amount::Length(*swing)),
            Working::new(
                "2 x flat radius outside / cos(180°/segments) <= swing",
                limits::SWING.source,
            )
            .with("flat radius outside", Amount::Length(sizes.flat_out))
            .with("segments", Amount::Count(sizes.segments)),
        )]
    }
}
