//! What estimates are worked out from, beside the limits: each with where it comes from.

use files::units::Unit::Mm;
use files::wood::find;
use files::workshop::{Block, Workshop};

use crate::figure::Amount;
use crate::glue;
use crate::holding;
use crate::movement;
use crate::speed;
use geometry::Length;

/// One figure that an estimate rests on.
pub struct Assumed {
    /// What it is.
    pub what: &'static str,
    /// Its value in a workshop, in millimetres and what goes with them.
    pub value: String,
    /// Where it comes from; says so where it is from memory.
    pub source: String,
    /// The key that changes it.
    pub change: Option<&'static str>,
}

/// Every figure that the estimates of a workshop rest on.
pub fn assumed(shop: &Workshop) -> Vec<Assumed> {
    let mut out = on_the_lathe(shop);
    out.extend(blocks());
    out.extend(screws());
    out.extend(glued(shop));
    out.extend(moving(shop));
    out
}

fn figure(
    what: &'static str,
    value: String,
    source: &str,
    change: Option<&'static str>,
) -> Assumed {
    Assumed {
        what,
        value,
        source: source.into(),
        change,
    }
}

/// In millimetres and what goes with them.
fn show(amount: Amount) -> String {
    amount.show(Mm)
}

/// Speed, the tool's force, and what must be borne.
fn on_the_lathe(shop: &Workshop) -> Vec<Assumed> {
    let (low, high) = speed::band(Length::inches(1.0));
    vec![
        figure(
            "speed x diameter, start below and never above",
            format!("{low:.0} and {high:.0} rpm x in"),
            "common practice; a ceiling, never a target",
            Some("lathe.fastest, lathe.jaws_fastest"),
        ),
        figure(
            "fastest while held by the rim; for sanding",
            format!(
                "{:.0} and {:.0} rpm",
                *shop.lathe.rim_held_fastest, *shop.lathe.sanding_fastest
            ),
            "common practice, 300 to 500 rpm in wide or jam chucks; what is marked on them wins",
            Some("lathe.rim_held_fastest, lathe.sanding_fastest"),
        ),
        figure(
            "force of the tool",
            show(Amount::Force(*shop.holding.tool_force)),
            "an estimate of a heavy cut, from memory",
            Some("holding.tool_force"),
        ),
        figure(
            "safety: catches, dull tools, scatter of wood",
            format!("{:.1} times", *shop.holding.safety),
            "common practice in timber design, from memory",
            Some("holding.safety"),
        ),
    ]
}

/// Strengths of waste blocks.
fn blocks() -> Vec<Assumed> {
    let wood = |name: &str| Block::Wood(name.into());
    let blocks = [
        (
            "particleboard of 19 mm square to its face",
            Block::Particleboard,
        ),
        ("MDF square to its face", Block::Mdf),
        ("plywood square to its face", Block::Plywood),
        ("white pine across the grain", wood("white pine")),
        ("poplar across the grain", wood("poplar")),
        ("hard maple across the grain", wood("hard maple")),
    ];
    let strength = |(what, block): (&'static str, Block)| {
        let found = holding::strengths_of_block(&block, Length::mm(19.0));
        let value = format!(
            "{} tension, {} shear",
            show(Amount::Pressure(found.tension)),
            show(Amount::Pressure(found.shear))
        );
        let source = found.source.said(Mm);
        figure(what, value, &source, Some("holding.block"))
    };
    blocks.into_iter().map(strength).collect()
}

/// What screws hold.
fn screws() -> Vec<Assumed> {
    let both = |hold: holding::ScrewHold| {
        let out = show(Amount::Force(hold.ultimate));
        let design = hold.design.map(|d| show(Amount::Force(d)));
        design.map_or(format!("drawn out by {out}"), |design| {
            format!("drawn out by {out}; a design counts on {design}")
        })
    };
    let screw = |block: Block| holding::screw_holds(&block, Length::mm(4.8), Length::mm(25.0));
    vec![
        figure(
            "one screw of 4.8 mm with 25 mm of bite in hard maple",
            both(screw(Block::Wood("hard maple".into()))),
            "108.25 x G² x D x L, Wood Handbook chapter 8; 2850 x G² x D lbf an inch of bite, x 1.6 \
             for a short load; both from memory",
            Some("holding.screw_bite"),
        ),
        figure(
            "the same in particleboard or MDF",
            both(screw(Block::Particleboard)),
            "panel standards' screw tests, from memory",
            Some("holding.screw_bite"),
        ),
    ]
}

/// Pressure, spread and cure of glue.
fn glued(shop: &Workshop) -> Vec<Assumed> {
    let between = |(low, high): (f64, f64)| {
        format!(
            "{} to {}",
            show(Amount::Pressure(low)),
            show(Amount::Pressure(high))
        )
    };
    let mut out = Vec::new();
    if let Ok(maple) = find("hard maple") {
        out.push(figure(
            "pressure on a joint of dense hardwood",
            between(glue::pressure_for(&maple)),
            "200 to 300 psi, a glue maker's guide",
            None,
        ));
    }
    out.push(figure(
        "pressure on a joint with epoxy",
        between(glue::EPOXY_PRESSURE),
        "contact only; from memory",
        None,
    ));
    out.push(figure(
        "glue spread on a joint",
        format!(
            "{:.0} g/m², and {:.0} % wasted",
            *shop.glue.spread, *shop.glue.waste
        ),
        "common practice",
        Some("glue.spread, glue.waste"),
    ));
    out.push(figure(
        "cure at 10 °C for 24 h as stated",
        show(Amount::Hours(glue::cure_at(24.0, 10.0))),
        "twice as long for each 10 °C below 20 °C, common practice",
        Some("glue.cure_hours"),
    ));
    out
}

/// The air of shop and home, and how long boards stand.
fn moving(shop: &Workshop) -> Vec<Assumed> {
    let climate = &shop.climate;
    let airs = [
        (
            "air of the shop",
            climate.shop(),
            "climate.shop_humidity, climate.shop_temperature",
        ),
        (
            "air at home when driest",
            climate.dry(),
            "climate.dry_humidity, climate.dry_temperature",
        ),
        (
            "air at home when dampest",
            climate.damp(),
            "climate.damp_humidity, climate.damp_temperature",
        ),
    ];
    let mut out: Vec<Assumed> = airs
        .into_iter()
        .map(|(what, air, change)| {
            let value = format!(
                "{:.0} % and {}: moisture {}",
                air.humidity,
                show(Amount::Temperature(air.temperature)),
                show(Amount::Percent(movement::emc(air)))
            );
            let source =
                "common practice; moisture by Wood Handbook eq. 4-5, half a point uncertain";
            figure(what, value, source, Some(change))
        })
        .collect();
    out.push(figure(
        "days that a board of 25 mm stands in the shop",
        format!("{:.0}", movement::standing_days(Length::mm(25.0))),
        "common practice, from memory",
        None,
    ));
    out
}
