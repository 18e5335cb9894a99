//! `[holding]` and `[climate]` as text.

use geometry::Length;

use super::text::{self, Text};
use crate::read::FIXINGS;
use crate::units::Unit;
use crate::workshop::{Air, Fixing, HoldingSpec, Workshop};

/// A force in the file's unit: N, or lbf.
fn force(unit: Unit, newtons: f64) -> String {
    text::shortest(unit.force(newtons))
}

/// A temperature in the file's unit: °C, or °F.
pub(super) fn temperature(unit: Unit, celsius: f64) -> String {
    text::shortest(unit.temperature(celsius))
}

fn fixing(fixing: Fixing) -> &'static str {
    let word = FIXINGS.iter().find(|(_, f)| *f == fixing);
    word.map_or("screws", |(word, _)| word)
}

/// What a project or a shop says of the holding.
pub(super) fn spec(t: &mut Text, said: &HoldingSpec) {
    let mut lines: Vec<(&str, String)> = Vec::new();
    let unit = t.unit();
    let length = |l: Option<Length>| l.map(|l| text::number(unit, l));
    let mut put = |key: &'static str, value: Option<String>| {
        lines.extend(value.map(|v| (key, v)));
    };
    put("block", said.block.as_ref().map(|b| text::quoted(b.word())));
    put("thickness", length(said.thickness));
    put("diameter", length(said.diameter));
    put("recess", length(said.recess));
    put("recess_depth", length(said.recess_depth));
    put("fixing", said.fixing.map(|f| text::quoted(fixing(f))));
    put("screws", said.screws.map(|n| n.to_string()));
    put("screw_diameter", length(said.screw_diameter));
    put("screw_bite", length(said.screw_bite));
    put("screw_circle", length(said.screw_circle));
    put("tenon", length(said.tenon));
    put("tool_force", said.tool_force.map(|f| force(unit, f)));
    put("safety", said.safety.map(text::shortest));
    put("steady", length(said.steady));
    put("tool_bar", length(said.tool_bar));
    if lines.is_empty() {
        return;
    }
    t.heading("[holding]");
    for (key, value) in lines {
        t.raw(key, &value);
    }
}

/// What a shop's holding says that is given or not usual.
pub(super) fn of_shop(shop: &Workshop, usual: &Workshop) -> HoldingSpec {
    let (own, other) = (&shop.holding, &usual.holding);
    let given = |key: &str| shop.given.contains(&format!("holding.{key}"));
    let length =
        |key: &str, a: Length, b: Length| (given(key) || a.as_mm() != b.as_mm()).then_some(a);
    let figure = |key: &str, a: f64, b: f64| (given(key) || a != b).then_some(a);
    HoldingSpec {
        block: (given("block") || own.block != other.block).then(|| own.block.clone()),
        thickness: None,
        diameter: own.diameter,
        recess: length("recess", own.recess, other.recess),
        recess_depth: own.recess_depth,
        fixing: (given("fixing") || own.fixing != other.fixing).then_some(own.fixing),
        screws: (given("screws") || own.screws != other.screws).then_some(own.screws),
        screw_diameter: length("screw_diameter", own.screw_diameter, other.screw_diameter),
        screw_bite: length("screw_bite", own.screw_bite, other.screw_bite),
        screw_circle: length("screw_circle", own.screw_circle, other.screw_circle),
        tenon: length("tenon", own.tenon, other.tenon),
        tool_force: figure("tool_force", own.tool_force, other.tool_force),
        safety: figure("safety", own.safety, other.safety),
        steady: None,
        tool_bar: length("tool_bar", own.tool_bar, other.tool_bar),
    }
}

/// The shop's climate where it is given or not usual.
pub(super) fn climate(t: &mut Text, shop: &Workshop, usual: &Workshop) {
    let (own, other) = (&shop.climate, &usual.climate);
    let airs: [(&str, Air, Air); 3] = [
        ("shop", own.shop, other.shop),
        ("dry", own.dry, other.dry),
        ("damp", own.damp, other.damp),
    ];
    let unit = t.unit();
    let mut lines = Vec::new();
    for (name, a, b) in airs {
        let mut put = |what: &str, differs: bool, value: String| {
            let key = format!("{name}_{what}");
            if differs || shop.given.contains(&format!("climate.{key}")) {
                lines.push((key, value));
            }
        };
        let damp = text::shortest(a.humidity);
        put("humidity", a.humidity != b.humidity, damp);
        let warm = temperature(unit, a.temperature);
        put("temperature", a.temperature != b.temperature, warm);
    }
    if lines.is_empty() {
        return;
    }
    t.heading("[climate]");
    for (key, value) in lines {
        t.raw(&key, &value);
    }
}
