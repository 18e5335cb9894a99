//! Holding in figures, for a plan and for a finding.

use files::message::{Message, Value, at_least};
use files::say;
use files::workshop::Holding;
use geometry::Length;
use piece::piece::Piece;

use super::beam::{Press, Support};
use super::layer::{NOTHING, Needs};
use super::study::{Held, least_block};
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
    if let Some(least) = least_block(piece, held) {
        out.push(
            Figure::note(
                "least_block",
                "joint on the waste block, estimate: at least so wide",
                Amount::Length(at_least(least, Length::mm(1.0))),
            )
            .worked(
                Working::new(
                    "the least diameter, its hole as it is, at which block and joint are not \
                     used beyond what they may bear; rounded up",
                    "the same sums as the share used; an estimate",
                )
                .with("hole", Amount::Length(Length::mm(held.stage.joint.inside)))
                .with("now", Amount::Length(Length::mm(held.stage.joint.outside))),
            ),
        );
    }
    let label = say!("holding, estimate: used of ");
    out.extend(used_figure(piece, held, "holding_used".into(), label));
    out
}

/// How a stage's share was worked out.
pub(crate) fn working(held: &Held, holding: &Holding) -> Working {
    let mm = |v: f64| Amount::Length(Length::mm(v));
    let number = |v: f64, places| Amount::Text(Value::Number(v, places).into());
    let Some(layer) = held.weakest() else {
        return Working::new("nothing holds it", "the files");
    };
    let (place, press, _) = held.worst;
    let how = match press {
        Press::Around => say!("across, along the rim"),
        Press::Slanted => say!("slanted, along the axis and towards it"),
    };
    let source = |more| say!("beam tables; an estimate; {more}", more = more);
    let started = |formula: &'static str| {
        Working::new(formula, source(layer.source.clone()))
            .with(
                "tool's force",
                Amount::Force(*holding.tool_force * held.stage.share),
            )
            .with("it presses", Amount::Text(how.clone()))
            .with("above the block", mm(place.height))
            .with("off the axis", mm(place.radius))
            .with("free end from the block", mm(held.stage.top))
            .with("weight", Amount::Weight(held.stage.body.grams))
            .with("safety", number(*holding.safety, 1))
    };
    match layer.needs {
        Needs::Stress {
            section,
            root,
            tension,
            shear,
        } => if section.glued < 1.0 {
            let share = Amount::Percent(section.glued * 100.0);
            started(
                "safety x √((pull / tension borne)² + (shear / shear borne)²); pull = M/W + N/A; \
                 shear = T/(2 W) + peak x V/A; W = share x π/32 x (D⁴ - d⁴)/D, A = share x π/4 \
                 x (D² - d²)",
            )
            .with("share that is glued", share)
        } else {
            started(
                "safety x √((pull / tension borne)² + (shear / shear borne)²); pull = M/W + N/A; \
                 shear = T/(2 W) + peak x V/A; W = π/32 x (D⁴ - d⁴)/D, A = π/4 x (D² - d²)",
            )
        }
        .with("bending M", Amount::Moment(root.moment))
        .with("torque T", Amount::Moment(root.torque))
        .with("shear force V", Amount::Force(root.shear))
        .with("pull N", Amount::Force(root.pull))
        .with("outside D of what is left", mm(section.outside))
        .with("hole d in it", mm(section.inside))
        .with(
            "peak of shear over its mean",
            number(section.shear_peak(), 2),
        )
        .with("tension borne", Amount::Pressure(tension))
        .with("shear borne", Amount::Pressure(shear)),
        Needs::Screw {
            root,
            load,
            ultimate,
            design,
        } => {
            let out = started(
                "(2 M/(screws x radius of their circle) + N/screws) / what one may bear: what \
                 draws it out / safety, or its design value, whichever is less",
            )
            .with("bending M", Amount::Moment(root.moment))
            .with("pull N", Amount::Force(root.pull))
            .with("screws", Amount::Count(*holding.screws))
            .with(
                "radius of their circle",
                mm(holding.screw_circle.as_mm() / 2.0),
            )
            .with("on one screw", Amount::Force(load))
            .with("draws one out", Amount::Force(ultimate));
            match design {
                Some(design) => out.with("design value", Amount::Force(design)),
                None => out,
            }
        }
        Needs::Nothing => started("nothing is left to hold"),
    }
}
