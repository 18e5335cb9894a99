//! A wall thinner than is turned without luck.

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::ways::wall_of;
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::key;
use files::remedy::Remedy;
use files::say;

/// The thinnest wall is under the limit.
pub struct WallThin;

impl Check for WallThin {
    fn key(&self) -> &'static str {
        "wall-thin"
    }

    fn asks(&self) -> &'static str {
        "is the wall nowhere thinner than is safely turned?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::WALL]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let (wall, at) = piece.form.thinnest_wall();
        let limit = limits::THIN_WALL;
        if !limit.exceeds(wall + geometry::Length::mm(1e-6)) {
            return Vec::new();
        }
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::form().wall(),
                what: say!(
                    "the wall is {wall} thin at a height of {at}; a joint or a layer a little off shows through or breaks out",
                    wall = wall,
                    at = at,
                ),
                remedy: Remedy::from(say!("a wall of at least {limit}", limit = limit))
                    .or_any(wall_of(piece, limit)),
            },
            (Amount::Length(wall), Amount::Length(limit)),
            Working::new(
                "least distance to the inner side, square to the outer",
                "the form's own curves",
            )
            .with("height", Amount::Length(at)),
        )]
    }
}
