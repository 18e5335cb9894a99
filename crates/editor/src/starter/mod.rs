//! A complete, commented project file to start from, whose knot fits the workshop.
//!
//! ```text
//!   NewPiece ──► within the ranges? ──► the largest reach that serves ──► the file's text
//!                     │                          │
//!                     └───────► Refusal ◄────────┘  the cause, and changes that were tried
//! ```

pub mod asked;
mod fit;
mod kind;
mod text;

use files::read::{FEWEST_SEGMENTS, MOST_SEGMENTS};
use files::units::Unit;
use files::workshop::Workshop;
use geometry::Length;

pub use kind::PieceKind;

/// Least and largest height and diameter, mm.
const HEIGHT: (f64, f64) = (20.0, 2000.0);
const DIAMETER: (f64, f64) = (30.0, 2000.0);
/// Fewest and most loops of a knot; there may also be none.
const LOOPS: (i64, i64) = (2, 16);

/// What the maker asks for.
#[derive(Debug, Clone)]
pub struct NewPiece {
    /// Kind of piece.
    pub kind: PieceKind,
    /// Its name.
    pub title: String,
    /// Overall height.
    pub height: Length,
    /// Largest diameter.
    pub diameter: Length,
    /// Loops in the band; 0 for no band.
    pub loops: i64,
    /// Segments in a ring.
    pub segments: i64,
    /// Unit of the file.
    pub unit: Unit,
}

/// One of the answers that a new piece is made from.
#[derive(Debug, Clone, Copy)]
pub enum Answer {
    /// Overall height.
    Height(Length),
    /// Largest diameter.
    Diameter(Length),
    /// Loops.
    Loops(i64),
    /// Segments in a ring.
    Segments(i64),
}

impl Answer {
    /// The question that it answers, as the command and the page name it.
    pub const fn question(self) -> &'static str {
        match self {
            Answer::Height(_) => "height",
            Answer::Diameter(_) => "diameter",
            Answer::Loops(_) => "loops",
            Answer::Segments(_) => "segments",
        }
    }

    /// It as it is entered.
    pub fn entered(self, unit: Unit) -> String {
        match self {
            Answer::Height(length) | Answer::Diameter(length) => entered(length, unit),
            Answer::Loops(count) | Answer::Segments(count) => count.to_string(),
        }
    }

    /// It in words: `a height of 120.0 mm`, `6 loops`.
    pub fn words(self, unit: Unit) -> String {
        let entered = self.entered(unit);
        match self {
            Answer::Height(_) => format!("a height of {entered}"),
            Answer::Diameter(_) => format!("a diameter of {entered}"),
            Answer::Loops(0) => "no loops".into(),
            Answer::Loops(_) => format!("{entered} loops"),
            Answer::Segments(_) => format!("{entered} segments"),
        }
    }
}

/// A length as it is entered: `110 mm`, `4 1/2 in`.
pub fn entered(length: Length, unit: Unit) -> String {
    let shown = unit.length(length);
    match shown.strip_suffix(".0 mm") {
        Some(whole) => format!("{whole} mm"),
        None => shown,
    }
}

/// Why there is no file.
#[derive(Debug, Clone)]
pub struct Refusal {
    /// The answer that cannot be used, where it is one alone.
    pub about: Option<Answer>,
    /// What is wrong, or stands in the way.
    pub what: String,
    /// What may be entered instead.
    pub remedy: Remedy,
}

/// What may be entered instead.
#[derive(Debug, Clone)]
pub enum Remedy {
    /// Anything in a range.
    Range(String),
    /// Any one of these, each of which has been tried: answers to enter together.
    OneOf(Vec<Vec<Answer>>),
}

impl Remedy {
    /// In words, with answers that are entered together written as `together` does.
    pub fn words(&self, together: impl Fn(&[Answer]) -> String) -> String {
        match self {
            Remedy::Range(range) => range.clone(),
            Remedy::OneOf(ways) if ways.is_empty() => {
                "none is known: other sizes, loops and segments were tried".into()
            }
            Remedy::OneOf(ways) => {
                let ways: Vec<String> = ways.iter().map(|way| together(way)).collect();
                ways.join("; or ")
            }
        }
    }
}

/// The file's text, or every reason against it.
///
/// A piece without loops is written as it is asked for; one with loops only if nothing
/// that stops or puts at risk is found with it in the workshop.
pub fn write(new: &NewPiece, workshop: &Workshop) -> Result<String, Vec<Refusal>> {
    let refusals = out_of_range(new);
    if !refusals.is_empty() {
        return Err(refusals);
    }
    if new.loops == 0 {
        return Ok(text::text(new, None));
    }
    fit::fitting(new, workshop, 1).ok_or_else(|| vec![fit::refusal(new, workshop)])
}

/// Every answer that no piece can have.
pub fn out_of_range(new: &NewPiece) -> Vec<Refusal> {
    let unit = new.unit;
    let range = |(least, most): (f64, f64)| {
        let shown = |mm| entered(Length::mm(mm), unit);
        format!("{} to {}", shown(least), shown(most))
    };
    let within =
        |length: Length, (least, most): (f64, f64)| (least..=most).contains(&length.as_mm());
    let segments = FEWEST_SEGMENTS as i64..=MOST_SEGMENTS as i64;
    let checks = [
        (
            within(new.height, HEIGHT),
            Answer::Height(new.height),
            format!("a piece is not {} high", entered(new.height, unit)),
            range(HEIGHT),
        ),
        (
            within(new.diameter, DIAMETER),
            Answer::Diameter(new.diameter),
            format!("a piece is not {} across", entered(new.diameter, unit)),
            range(DIAMETER),
        ),
        (
            new.loops == 0 || (LOOPS.0..=LOOPS.1).contains(&new.loops),
            Answer::Loops(new.loops),
            format!("{} loops make no knot", new.loops),
            format!("{} to {}, or 0 for none", LOOPS.0, LOOPS.1),
        ),
        (
            segments.contains(&new.segments),
            Answer::Segments(new.segments),
            format!("{} segments close no ring", new.segments),
            format!("{} to {}", segments.start(), segments.end()),
        ),
    ];
    let wrong = checks.into_iter().filter(|(fine, ..)| !fine);
    wrong
        .map(|(_, answer, what, range)| Refusal {
            about: Some(answer),
            what,
            remedy: Remedy::Range(range),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bowl() -> NewPiece {
        let (height, diameter) = PieceKind::Bowl.usual_size(Unit::Mm);
        NewPiece {
            kind: PieceKind::Bowl,
            title: "Bowl".into(),
            height,
            diameter,
            loops: 4,
            segments: 12,
            unit: Unit::Mm,
        }
    }

    #[test]
    fn every_answer_out_of_range_is_told_with_its_range() {
        let wrong = NewPiece {
            height: Length::mm(-5.0),
            diameter: Length::mm(5000.0),
            loops: -5,
            segments: 2,
            ..bowl()
        };
        let refusals = write(&wrong, &Workshop::default()).unwrap_err();
        let said: Vec<(&str, &str, String)> = refusals
            .iter()
            .map(|r| {
                let about = r.about.map_or("", Answer::question);
                (about, r.what.as_str(), r.remedy.words(|_| String::new()))
            })
            .collect();
        let told = |about, what, remedy: &str| (about, what, remedy.to_string());
        assert_eq!(
            said,
            [
                told("height", "a piece is not -5 mm high", "20 mm to 2000 mm"),
                told(
                    "diameter",
                    "a piece is not 5000 mm across",
                    "30 mm to 2000 mm"
                ),
                told("loops", "-5 loops make no knot", "2 to 16, or 0 for none"),
                told("segments", "2 segments close no ring", "3 to 144"),
            ]
        );
    }

    #[test]
    fn any_number_of_loops_fits_the_usual_sizes() {
        for kind in PieceKind::ALL {
            for unit in [Unit::Mm, Unit::Inch] {
                let (height, diameter) = kind.usual_size(unit);
                for loops in [2, 4, 8, 16] {
                    let new = NewPiece {
                        kind,
                        height,
                        diameter,
                        loops,
                        unit,
                        ..bowl()
                    };
                    let written = write(&new, &Workshop::default());
                    assert!(written.is_ok(), "{kind:?} {unit:?} {loops}: {written:?}");
                }
            }
        }
    }

    #[test]
    fn a_title_of_any_characters_is_written_as_it_is() {
        for title in [
            "Box \"2\"",
            "a\\b",
            "li\u{200d}ne\n2\u{1b}",
            "'quoted'",
            "木🪵",
        ] {
            let new = NewPiece {
                title: title.into(),
                ..bowl()
            };
            let text = write(&new, &Workshop::default()).unwrap();
            let (design, _, problems) = files::read::read_design("x", &text);
            assert!(problems.is_empty(), "{title:?}: {problems:?}");
            assert_eq!(design.unwrap().title, title);
        }
    }
}
