//! The stages of the route in which the piece turns.

use files::message::{Message, Value};
use files::say;
use files::workshop::Holding;
use geometry::Length;
use piece::piece::{Piece, Section};

use super::beam::{Place, Support};
use super::body::{Body, Cut};
use super::section::Annulus;
use crate::operations::OperationKind;
use crate::words;

/// Sanding presses this share of a cutting tool's force (from memory).
const SANDING: f64 = 0.25;

/// One stage. Heights are above the joint on the waste block, mm.
#[derive(Debug, Clone)]
pub struct Stage {
    /// The operation.
    pub kind: OperationKind,
    /// The section, for what is done to one.
    pub section: Option<usize>,
    /// What it is called.
    pub name: Message,
    /// What turns.
    pub body: Body,
    /// Height of its middle.
    pub middle: f64,
    /// Height of its free end: how far it hangs over.
    pub top: f64,
    /// What supports it besides the block.
    pub support: Support,
    /// Share of the tool's force.
    pub share: f64,
    /// What is left of the joint on the block.
    pub joint: Annulus,
    /// The section and ring that stand on the block.
    pub lowest: (usize, usize),
    /// Where a tool can press.
    pub places: Vec<Place>,
    /// Largest diameter that swings, mm.
    pub swings: f64,
    /// The wall is thin enough for its own joints to matter.
    pub thin: bool,
}

/// Every stage of a piece that turns on its waste block, in the order of the route.
///
/// Parting off is left out: there the joint itself is cut away, and the tailstock or a
/// jaw holds.
pub fn stages(piece: &Piece, holding: &Holding) -> Vec<Stage> {
    let mut out = Vec::new();
    let rough = |number| Body::of_section(piece, number, Cut::Rough);
    let own: Vec<Body> = (0..piece.sections.len()).map(rough).collect();
    for (number, section) in piece.sections.iter().enumerate() {
        let name = || Value::name(words::plain(&section.name));
        out.push(alone(
            piece,
            holding,
            (OperationKind::TrueSection, number, own[number]),
            say!("true section {name}", name = name()),
            section.stacked,
        ));
        if !section.bands.is_empty() {
            out.push(alone(
                piece,
                holding,
                (OperationKind::TrueAgain, number, own[number]),
                say!("true section {name} again", name = name()),
                section.height,
            ));
        }
    }
    let mut stacked = own.first().copied().unwrap_or_default();
    for (number, section) in piece.sections.iter().enumerate().skip(1) {
        stacked.add(own[number]);
        out.push(Stage {
            top: (section.bottom + section.height).as_mm(),
            section: Some(number),
            ..whole(
                piece,
                holding,
                OperationKind::JoinSections,
                stacked,
                say!(
                    "join section {name}",
                    name = Value::name(words::plain(&section.name)),
                ),
            )
        });
    }
    let Some(last) = piece.sections.len().checked_sub(1) else {
        return out;
    };
    let free = holding
        .steady
        .map_or(Support::None, |height| Support::Steady(height.as_mm()));
    let finished = piece.form.height().as_mm();
    let turned = || turned_places(piece);
    let swings = piece.form.largest_radius().0.as_mm() * 2.0;
    out.push(whole(
        piece,
        holding,
        OperationKind::TurnOutside,
        stacked,
        "turn the outside".into(),
    ));
    out.push(Stage {
        support: free,
        top: finished,
        places: turned(),
        swings,
        thin: true,
        ..whole(
            piece,
            holding,
            OperationKind::Hollow,
            Body::up_to(piece, last, Cut::Outside),
            "hollow, near the rim".into(),
        )
    });
    out.push(Stage {
        support: free,
        top: finished,
        places: turned(),
        swings,
        thin: true,
        share: SANDING,
        ..whole(
            piece,
            holding,
            OperationKind::Sand,
            Body::up_to(piece, last, Cut::Finished),
            "sand".into(),
        )
    });
    out
}

/// Diameter of the hole that a ring leaves on the block.
fn opening(section: &Section) -> Length {
    let lowest = section.rings.first();
    lowest.map_or(Length::ZERO, |ring| ring.sizes.corner_in * 2.0)
}

/// The share of the lowest ring's face that there is to glue to the block.
fn filled(section: &Section) -> f64 {
    section.rings.first().map_or(1.0, |ring| ring.sizes.filled)
}

/// A section by itself on a block as wide as its own wood.
fn alone(
    piece: &Piece,
    holding: &Holding,
    (kind, number, body): (OperationKind, usize, Body),
    name: Message,
    height: Length,
) -> Stage {
    let section = &piece.sections[number];
    let wide = section
        .rings
        .first()
        .map_or(Length::ZERO, |r| r.sizes.flat_out * 2.0);
    // What the file says of the block is said of the one that stays to the end.
    let (wide, recess) = if number == 0 {
        (
            holding.diameter.map_or(wide, |d| d.min(wide)),
            *holding.recess,
        )
    } else {
        (wide, Length::ZERO)
    };
    let corners = section.rings.iter().map(|r| r.sizes.corner_out().as_mm());
    Stage {
        kind,
        section: Some(number),
        name,
        middle: body.height() - section.bottom.as_mm(),
        body,
        top: height.as_mm(),
        support: Support::Tailstock,
        share: 1.0,
        joint: Annulus::new(wide, recess.max(opening(section))).with_gaps(filled(section)),
        lowest: (number, 0),
        places: rough_places(section, Length::ZERO),
        swings: corners.fold(0.0, f64::max) * 2.0,
        thin: false,
    }
}

/// The stack from the foot up, on the first section's block.
fn whole(
    piece: &Piece,
    holding: &Holding,
    kind: OperationKind,
    body: Body,
    name: Message,
) -> Stage {
    let foot = &piece.sections[0];
    let rough = foot
        .rings
        .first()
        .map_or(Length::ZERO, |r| r.sizes.flat_out * 2.0);
    let wide = match kind {
        OperationKind::JoinSections => rough,
        // Turned down to the foot, or to a round bottom's first few millimetres.
        _ => rough.min(standing(piece)),
    };
    let wide = holding.diameter.map_or(wide, |d| d.min(wide));
    let corners = piece.sections.iter().flat_map(|s| &s.rings);
    let corners = corners.map(|r| r.sizes.corner_out().as_mm());
    Stage {
        kind,
        section: None,
        name,
        middle: body.height(),
        body,
        top: piece.stack.height(),
        support: Support::Tailstock,
        share: 1.0,
        joint: Annulus::new(wide, holding.recess.max(opening(foot))).with_gaps(filled(foot)),
        lowest: (0, 0),
        places: piece
            .sections
            .iter()
            .flat_map(|s| rough_places(s, s.bottom))
            .collect(),
        swings: corners.fold(0.0, f64::max) * 2.0,
        thin: false,
    }
}

/// Where a tool presses on a section of rings: at each one's upper edge. Of rings that are
/// as wide as the one above them only that one counts.
fn rough_places(section: &Section, bottom: Length) -> Vec<Place> {
    let mut out: Vec<Place> = Vec::with_capacity(section.rings.len());
    for ring in &section.rings {
        let place = Place {
            height: (bottom + ring.bottom + ring.height).as_mm(),
            radius: ring.sizes.corner_out().as_mm(),
        };
        match out.last_mut() {
            Some(last) if last.radius == place.radius => *last = place,
            _ => out.push(place),
        }
    }
    out
}

/// Where a tool presses on the turned form.
fn turned_places(piece: &Piece) -> Vec<Place> {
    const STEPS: u32 = 24;
    let height = piece.form.height().as_mm();
    let at = |i: u32| height * f64::from(i) / f64::from(STEPS);
    (0..=STEPS)
        .filter_map(|i| {
            let radius = piece.form.outside().radius(at(i))?;
            Some(Place {
                height: at(i),
                radius,
            })
        })
        .collect()
}

/// Diameter that the form leaves on the block until it is parted off. A round bottom
/// keeps a spigot of half its lowest ring.
fn standing(piece: &Piece) -> Length {
    let foot = piece.form.foot_radius() * 2.0;
    let ring = piece.sections[0].rings.first();
    let spigot = ring.map_or(Length::ZERO, |r| r.sizes.flat_out);
    foot.max(spigot.min(piece.form.largest_radius().0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    #[test]
    fn every_turning_operation_of_the_route_is_a_stage() {
        for piece in [trial::bowl(), trial::turned_sections(), trial::solid()] {
            let stages = stages(&piece, &piece.workshop.holding);
            let count = |kind| stages.iter().filter(|s| s.kind == kind).count();
            assert_eq!(count(OperationKind::TrueSection), piece.sections.len());
            assert_eq!(count(OperationKind::JoinSections), piece.sections.len() - 1);
            assert_eq!(count(OperationKind::Hollow), 1);
            for s in &stages {
                assert!(s.body.grams > 0.0 && s.top > 0.0, "{:?}", s.name);
                assert!(
                    s.middle > 0.0 && s.middle < s.top,
                    "{:?}: {}",
                    s.name,
                    s.middle
                );
                assert!(s.joint.area() > 0.0, "{:?}", s.name);
            }
        }
    }

    #[test]
    fn wood_only_gets_less() {
        let piece = trial::turned_sections();
        let stages = stages(&piece, &piece.workshop.holding);
        let grams = |kind| {
            let stage = stages.iter().find(|s: &&Stage| s.kind == kind).unwrap();
            stage.body.grams
        };
        assert!(grams(OperationKind::TurnOutside) > grams(OperationKind::Hollow));
        assert!(grams(OperationKind::Hollow) > grams(OperationKind::Sand));
    }
}
