//! A waste block, joint, screw or tenon that is asked for more than it bears.

use crate::figure::Amount;
use crate::finding::{Finding, Severity};
use crate::findings::found::{Said, found};
use crate::findings::ways::{any_of, one, steady_way};
use crate::findings::{Check, Limit, Survey, limits};
use crate::holding::{Needs, Way as Support, support_words, ways, working};
use crate::operation::Subject;
use files::key;
use files::message::Reading;
use files::message::{Message, Value};
use files::remedy::{Remedy, To, Way};
use files::say;
use geometry::Length;
use piece::piece::Piece;

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
        let figure = match layer.needs {
            Needs::Nothing => Amount::Text("nothing is left to hold".into()),
            Needs::Stress { .. } | Needs::Screw { .. } => Amount::Percent(layer.used * 100.0),
        };
        let others = all.iter().filter(|h| h.used() > 1.0).count() - 1;
        let more = match others {
            0 => Message::default(),
            1 => say!("; so it is at one other stage"),
            n => say!("; so it is at {n} other stages", n = n),
        };
        let support = support_words(held.stage.support);
        let stage = || held.stage.name.clone();
        let (severity, what) = match layer.needs {
            Needs::Nothing => (
                Severity::Stops,
                say!(
                    "{stage}: nothing is left of the {name} to hold",
                    stage = stage(),
                    name = layer.name.clone(),
                ),
            ),
            Needs::Stress { .. } | Needs::Screw { .. } => (
                Severity::Risky,
                say!(
                    "{stage} ({support}): the {name} is used to {figure} of what it may bear, the end {top} from the block{more}",
                    stage = stage(),
                    support = support,
                    name = layer.name.clone(),
                    figure = figure.clone(),
                    top = geometry::Length::mm(held.stage.top),
                    more = more,
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
                path: key::holding().block(),
                what,
                remedy: remedy(piece),
            },
            (figure, Amount::Percent(100.0)),
            working(held, holding),
        )]
    }
}

/// Everything that would do by itself.
fn remedy(piece: &Piece) -> Remedy {
    let all = ways(piece).into_iter().map(change);
    any_of(all).unwrap_or_else(|| {
        say!("a wider foot, a block of sound hardwood as wide as it, and a steady rest; no single change is enough")
            .into()
    })
}

fn change(way: Support) -> Remedy {
    let path = key::holding();
    match way {
        Support::Block(wood) => {
            let named = Value::name(wood);
            one(
                say!("a waste block of {wood}", wood = named),
                Way::new(say!(
                    "take a waste block of {wood}",
                    wood = Value::name(wood)
                ))
                .set(path.block(), wood),
            )
        }
        Support::NoRecess => one(
            say!("a block with no recess in its middle"),
            Way::new(say!("take a block with no recess"))
                .set(path.recess(), Reading::nearest(Length::ZERO)),
        ),
        Support::Diameter(wide) => one(
            say!("a block at least {wide} across", wide = wide),
            Way::new(say!("make the block {wide} across", wide = wide)).set(path.diameter(), wide),
        ),
        Support::Steady(at) => one(say!("a steady rest at {at}", at = at), steady_way(at)),
        Support::Force(newtons) => {
            let most = || {
                Value::per_unit(|unit| {
                    let whole = unit.newtons(unit.force(newtons).floor());
                    say!("{force}", force = Amount::Force(whole))
                })
            };
            one(
                say!(
                    "cuts so light that the tool presses with at most {force}",
                    force = most(),
                ),
                Way::new(say!("press with {force} at most", force = most()))
                    .set(path.tool_force(), To::Force(newtons)),
            )
        }
    }
}
