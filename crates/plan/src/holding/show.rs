//! Holding in figures, for a plan and for a finding.

use files::message::{Message, Value};
use files::say;
use files::workshop::Holding;
use geometry::Length;
use piece::piece::Piece;

use super::beam::Support;
use super::layer::{Layer, NOTHING};
use super::study::Held;
use crate::figure::{Amount, Figure, Working};

/// The support of a stage in words.
pub(crate) fn support_words(support: Support) -> Message {
    match support {
        Support::None => say!("free"),
        Support::Tailstock => say!("tailstock up"),
        Support::Steady(height) => say!("steady rest at {height}", height = Length::mm(height)),
    }
}

/// How far a stage's weakest layer is used, with what it was worked out from.
pub(crate) fn used_figure(
    piece: &Piece,
    held: &Held,
    key: String,
    label: Message,
) -> Option<Figure> {
    let layer = held.weakest()?;
    let amount = if layer.used < NOTHING {
        Amount::Percent(layer.used * 100.0)
    } else {
        Amount::Text("nothing is left to hold".into())
    };
    let label = say!(
        "{label}{name} ({support})",
        label = label,
        name = layer.name.clone(),
        support = support_words(held.stage.support),
    );
    Some(Figure::note(key, label, amount).worked(working(held, &piece.workshop.holding)))
}

/// An operation's own figures of its stage.
pub(crate) fn figures(piece: &Piece, held: &Held) -> Vec<Figure> {
    let mut out = vec![
        Figure::note(
            "turning_weight",
            "weight that turns",
            Amount::Weight(held.stage.body.grams),
        ),
        Figure::note(
            "off_axis",
            "middle of the weight off the axis",
            Amount::Fine(Length::mm(held.stage.body.off_axis())),
        ),
        Figure::note(
            "overhang",
            "free end from the waste block",
            Amount::Length(Length::mm(held.stage.top)),
        ),
    ];
    let label = say!("holding, estimate: used of ");
    out.extend(used_figure(piece, held, "holding_used".into(), label));
    out
}

/// How a stage's share was worked out.
pub(crate) fn working(held: &Held, holding: &Holding) -> Working {
    let joint = &held.stage.joint;
    let mm = |v: f64| Amount::Length(Length::mm(v));
    let Some(layer) = held.weakest() else {
        return Working::new("nothing holds it", "the files");
    };
    let (formula, newtons) = match layer.layer {
        Layer::Screws => (
            "safety x 2 M/(screws x radius of their circle) / what one holds",
            true,
        ),
        Layer::Tenon => ("safety x M / (π/32 x tenon³) / strength", false),
        Layer::Ring(_) => (
            "safety x M / (π/32 x (D⁴ - d⁴)/D) of the finished wall / strength",
            false,
        ),
        Layer::Block | Layer::Joint => (
            "safety x stress / strength; stress = M / (π/32 x (D⁴ - d⁴)/D) of what is left of \
             the joint",
            false,
        ),
    };
    let as_is = |v: f64| {
        if newtons {
            Amount::Force(v)
        } else {
            Amount::Pressure(v)
        }
    };
    let mut out = Working::new(
        formula,
        say!(
            "beam tables; an estimate; {source}",
            source = layer.source.clone(),
        ),
    )
    .with(
        "tool's force",
        Amount::Force(*holding.tool_force * held.stage.share),
    )
    .with(
        "safety",
        Amount::Text(Value::Number(*holding.safety, 1).into()),
    )
    .with("free end from the block", mm(held.stage.top))
    .with("weight", Amount::Weight(held.stage.body.grams))
    .with("outside of the joint", mm(joint.outside))
    .with("hole in the joint", mm(joint.inside));
    if let Some(load) = layer.load {
        out = out.with("has to bear", as_is(load));
    }
    out.with("bears", as_is(layer.bears))
}
