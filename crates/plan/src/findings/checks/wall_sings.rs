//! A wall so thin and wide that it chatters.

use crate::findings::ways::wall_of;
use files::remedy::Remedy;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::{Rim, near_rim, rim_wood};
use crate::operation::Subject;
use files::key;
use files::message::Value;
use files::say;

/// The wall near the rim rings at a low note.
pub struct WallSings;

impl Check for WallSings {
    fn key(&self) -> &'static str {
        "wall-sings"
    }

    fn asks(&self) -> &'static str {
        "is the wall near the rim stiff enough to be cut without chatter?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::NOTE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let Some((wall, radius, tall)) = near_rim(piece) else {
            return Vec::new();
        };
        let (stiffness, density) = rim_wood(piece);
        let rim = Rim::of(piece, tall);
        let Some(note) = rim.note(wall, radius, (stiffness, density)) else {
            return Vec::new();
        };
        if note >= limits::LOW_NOTE {
            return Vec::new();
        }
        // The note is in proportion to the wall.
        let would_do = Value::up(Length::mm(wall * limits::LOW_NOTE / note));
        let (figure, limit) = (Amount::Frequency(note), Amount::Frequency(limits::LOW_NOTE));
        vec![found(
            self,
            Said {
                severity: Severity::WorthKnowing,
                subject: Subject::default(),
                path: key::form().wall(),
                what: say!(
                    "near the rim the wall of {wall} on a radius of {radius} rings at about {figure}; it may chatter",
                    wall = Length::mm(wall),
                    radius = Length::mm(radius),
                    figure = figure.clone(),
                ),
                remedy: Remedy::from(say!(
                    "finish the wall near the rim first, in one pass, before the wood below is gone; or a wall of at least {would_do} there",
                    would_do = would_do,
                )).or_any(wall_of(piece, Length::mm(wall * limits::LOW_NOTE / note))),
            },
            (figure, limit),
            match rim {
                Rim::Cup { tall } => Working::new(
                    "h/(2π R²) x √(3E/(5ρ) x (1 + 4/3 x (R/H)⁴))",
                    "a cup's first bending note (French 1983, from memory), for walls that rise \
                     more than they reach out; estimate",
                )
                .with("height H above the floor", Amount::Length(Length::mm(tall))),
                Rim::Plate { stands } => Working::new(
                    "λ² x h/(2π R²) x √(E/(12ρ(1 - ν²))), ν = 0.3, λ² by the radius that it stands \
                     on over R",
                    "a ring-shaped plate clamped inside and free at its edge (Leissa, from memory), \
                     for walls that reach out more than they rise; estimate",
                )
                .with("radius that it stands on", Amount::Length(Length::mm(stands))),
            }
            .with("wall h", Amount::Length(Length::mm(wall)))
            .with("radius R", Amount::Length(Length::mm(radius)))
            .with("density ρ, kg/m³", Amount::Text(Value::Number(density, 0).into()))
            .with("stiffness E", Amount::Pressure(stiffness)),
        )]
    }
}
