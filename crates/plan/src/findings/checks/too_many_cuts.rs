//! More cuts, or more parts between them, than the program works out.

use files::message::Message;
use piece::settle::{Fits, Overload};
use piece::work::Load;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use crate::operation::Subject;
use files::say;

/// The piece as a whole: with it nothing else can be looked at.
pub struct TooManyCuts;

impl Check for TooManyCuts {
    fn key(&self) -> &'static str {
        "too-many-cuts"
    }

    fn asks(&self) -> &'static str {
        "can the piece be worked out in the memory and time that the program takes?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::CUTS, &limits::CELLS]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(over) = &survey.settled.overload else {
            return Vec::new();
        };
        let (what, figure, limit) = too_much(&over.load);
        vec![found(
            self,
            Said {
                severity: Severity::Stops,
                subject: Subject::default(),
                path: over.path.clone(),
                what,
                remedy: remedy(over).into(),
            },
            (Amount::Count(figure), Amount::Count(limit)),
            Working::new(
                "loops and splits; cells: planes, lines of two and points of three in each segment and layer",
                "what the program was measured to take",
            ),
        )]
    }
}

/// What is too much, the figure and its limit.
fn too_much(load: &Load) -> (Message, usize, usize) {
    if load.cuts > Load::MOST_CUTS {
        let (found, most) = (load.cuts, Load::MOST_CUTS);
        let what = say!(
            "{found} loops and splits are more than the program works out, {most}",
            found = found,
            most = most,
        );
        return (what, found, most);
    }
    let most = Load::MOST_CELLS;
    let what = say!(
        "{cuts} loops and splits part the wood into more cells than the program works out, {most}",
        cuts = load.cuts,
        most = most,
    );
    (what, load.cells, most)
}

fn remedy(over: &Overload) -> Message {
    match over.fits {
        Some(Fits::Loops(most)) => say!("at most {most} loops in each band", most = most),
        Some(Fits::OneBandOf(most)) => {
            say!(
                "one band in a section, with at most {most} loops",
                most = most
            )
        }
        Some(Fits::Splits(most)) => say!("at most {most} splits in each section", most = most),
        None => say!("fewer bands, splits and rings"),
    }
}
