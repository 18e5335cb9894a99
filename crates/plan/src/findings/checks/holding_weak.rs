//! A waste block, joint, screw or tenon that is asked for more than it bears.

use crate::figure::Amount;
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::{Way, support_words, ways, working};
use crate::operation::Subject;

/// What holds the piece is used too far at some stage.
pub struct HoldingWeak;

impl Check for HoldingWeak {
    fn key(&self) -> &'static str {
        "holding-weak"
    }

    fn asks(&self) -> &'static str {
        "does everything that holds the piece bear the tool at every stage?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::HOLDING]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let say = Say::of(piece);
        let holding = &piece.workshop.holding;
        let all = survey.held();
        // The one used furthest says it for the others: the same change does for all.
        let worst = all
            .iter()
            .reduce(|a, b| if b.used() > a.used() { b } else { a });
        let Some((held, layer)) = worst.and_then(|h| Some((h, h.weakest()?))) else {
            return Vec::new();
        };
        if layer.used <= 1.0 {
            return Vec::new();
        }
        let figure = Amount::Percent(layer.used * 100.0);
        let others = all.iter().filter(|h| h.used() > 1.0).count() - 1;
        let more = match others {
            0 => String::new(),
            1 => "; so it is at one other stage".into(),
            n => format!("; so it is at {n} other stages"),
        };
        let support = support_words(held.stage.support, |l| say.length(l));
        let stage = &held.stage.name;
        let (severity, what) = match layer.load {
            None => (
                Severity::Stops,
                format!("{stage}: nothing is left of the {} to hold", layer.name),
            ),
            Some(_) => (
                Severity::Risky,
                format!(
                    "{stage} ({support}): the {} is used to {} of what it may bear, the end {} from the block{more}",
                    layer.name,
                    figure.show(piece.unit),
                    say.length(geometry::Length::mm(held.stage.top)),
                ),
            ),
        };
        vec![found(
            self,
            Said {
                severity,
                subject: Subject {
                    section: held.stage.section,
                    ..Subject::default()
                },
                path: "holding.block".into(),
                what,
                remedy: remedy(piece, say),
            },
            (figure, Amount::Percent(100.0)),
            working(held, holding),
        )]
    }
}

/// Everything that would do by itself.
fn remedy(piece: &piece::piece::Piece, say: Say) -> String {
    let said: Vec<String> = ways(piece, |l| say.nearest(l))
        .into_iter()
        .map(|way| match way {
            Way::Block(wood) => format!("a waste block of {wood}: block = \"{wood}\""),
            Way::NoRecess => "a block with no recess in its middle".into(),
            Way::Diameter(wide) => format!("a block at least {} across", say.length(wide)),
            Way::Steady(at) => format!("a steady rest at {}", say.length(at)),
            Way::Force(newtons) => {
                let force = Amount::Force(newtons).show(piece.unit);
                format!("cuts so light that the tool presses with at most {force}")
            }
        })
        .collect();
    if said.is_empty() {
        "a wider foot, a block of sound hardwood as wide as it, and a steady rest; no single \
         change is enough"
            .into()
    } else {
        said.join("; or ")
    }
}
