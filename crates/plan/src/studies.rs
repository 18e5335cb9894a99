//! What the plan says beyond its operations: holding, movement, glue and days, use.

use files::design::Board;
use files::message::{Language, Message, Said, Unsaid, Value, Wording, said_all};
use files::say;
use files::workshop::Air;
use geometry::Angle;
use piece::piece::Piece;
use serde::Serialize;

use crate::figure::{Amount, Figure, Working, figures_said};
use crate::glue;
use crate::holding::{self, Held};
use crate::movement::{self, FloorKind, FloorMove, LayerMove, Moisture, Movement};
use crate::operation::Operation;
use crate::weight::Weight;
use crate::words;

/// One part of it.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Study<W: Wording = Unsaid> {
    /// A name for machines: `holding`.
    pub key: &'static str,
    /// Its heading.
    pub title: W::Text,
    /// Its figures.
    pub figures: Vec<Figure<W>>,
    /// What is said beside them.
    pub text: Vec<W::Text>,
}

impl Study {
    /// The part in one reader's language.
    pub fn said(&self, language: Language) -> Study<Said> {
        Study {
            key: self.key,
            title: self.title.said(language),
            figures: figures_said(&self.figures, language),
            text: said_all(&self.text, language),
        }
    }
}

/// Every part, in the order of the work.
pub(crate) fn studies(
    piece: &Piece,
    weight: &Weight,
    held: &[Held],
    operations: &[Operation],
) -> Vec<Study> {
    vec![
        holding_study(piece, held),
        glue_study(piece, operations),
        movement_study(piece),
        use_study(piece, weight),
    ]
}

fn holding_study(piece: &Piece, held: &[Held]) -> Study {
    let each = held.iter().enumerate().filter_map(|(k, h)| {
        let label = say!("{stage}: ", stage = h.stage.name.clone());
        holding::used_figure(piece, h, format!("stage_{}", k + 1), label)
    });
    Study {
        key: "holding",
        title: "Holding on the lathe".into(),
        figures: each.collect(),
        text: vec![say!(
            "How far the weakest layer is used at each stage, by a tool that presses with {force}, \
                 {safety} times over. Estimates for clear wood and sound joints; the manual and your \
                 own judgement come first. Parting off cuts the joint away: tailstock up.",
            force = Amount::Force(*piece.workshop.holding.tool_force),
            safety = Value::Number(*piece.workshop.holding.safety, 1),
        )],
    }
}

fn glue_study(piece: &Piece, operations: &[Operation]) -> Study {
    let all = glue::study(piece);
    let sum = |epoxy: bool| -> f64 {
        let of = all.iter().filter(|(g, _)| g.epoxy == epoxy);
        of.map(|(g, times)| g.millilitres() * *times as f64).sum()
    };
    let amount = |key: &'static str, label: &'static str, ml: f64| {
        Figure::note(key, label, Amount::Capacity(ml * 1000.0)).worked(Working::new(
            "sum over the glue-ups, waste counted",
            "the workshop's file; common practice until it says",
        ))
    };
    let mut figures = vec![amount("wood_glue", "wood glue in all", sum(false))];
    if all.iter().any(|(g, _)| g.epoxy) {
        figures.push(amount("epoxy", "epoxy in all, mixed in batches", sum(true)));
    }
    let shop = piece.workshop.climate.shop().temperature;
    let cure = glue::cure_at(*piece.workshop.glue.cure_hours, shop);
    figures.push(
        Figure::note(
            "cure",
            "cure before the next cut, in this shop",
            Amount::Hours(cure),
        )
        .worked(
            Working::new(
                "hours as stated, twice as many for each 10 °C below 20 °C",
                "common practice",
            )
            .with("shop", Amount::Temperature(shop)),
        ),
    );
    let hours = piece.workshop.defaults.hours_a_day;
    let days = glue::calendar(operations, *hours);
    let last = days.last().map_or(0, |d| d.number);
    figures.push(Figure::note(
        "days",
        "days from the first to the last, one thing after another",
        Amount::Count(last),
    ));
    let mut text = vec![say!(
        "Calendar of shop days of {hours} h; days that are not named only cure.",
        hours = Value::Number(*hours, 1),
    )];
    text.extend(days.iter().map(|d| {
        let numbers = if d.first == d.last {
            say!("operation {n}", n = d.first)
        } else {
            say!(
                "operations {first} to {last}",
                first = d.first,
                last = d.last
            )
        };
        say!(
            "Day {number}: {numbers}, {minutes} min.",
            number = d.number,
            numbers = numbers,
            minutes = Value::Number(d.minutes, 0),
        )
    }));
    Study {
        key: "glue",
        title: "Glue and days".into(),
        figures,
        text,
    }
}

fn movement_study(piece: &Piece) -> Study {
    let all = movement::study(piece);
    let mut figures = moistures(piece, all.moisture);
    figures.extend(floors(piece, &all));
    figures.extend(worst_ring(piece, &all));
    figures.extend(layers(&all));
    figures.push(standing(piece));
    let mut text = vec![Message::plain(
        "From the shop to the worse season at home; boards flat-sawn unless the file says \
         otherwise. One board may differ from the handbook's mean by a quarter. Two weighings a week apart that agree say \
         better than any number of days that a board has settled.",
    )];
    text.extend(of_woods(piece));
    Study {
        key: "movement",
        title: "Movement".into(),
        figures,
        text,
    }
}

/// Moisture of wood in the shop and at home.
fn moistures(piece: &Piece, m: Moisture) -> Vec<Figure> {
    let climate = &piece.workshop.climate;
    let moisture = |key: &'static str, place: &'static str, air: Air, v: f64| {
        let label = say!(
            "moisture of wood {place}, {humidity} % and {temperature}",
            place = place,
            humidity = Value::Number(air.humidity, 0),
            temperature = Amount::Temperature(air.temperature),
        );
        Figure::note(key, label, Amount::Percent(v)).worked(Working::new(
            "equilibrium moisture content of the air's humidity and temperature",
            "Wood Handbook eq. 4-5; half a point uncertain",
        ))
    };
    vec![
        moisture("moisture_shop", "in the shop", climate.shop(), m.shop),
        moisture("moisture_dry", "at home, driest", climate.dry(), m.dry),
        moisture("moisture_damp", "at home, dampest", climate.damp(), m.damp),
    ]
}

/// How a movement across the grain is worked out.
fn handbook(board: Board) -> Working {
    let formula = match board {
        Board::FlatSawn => "eq. 13-2 across the grain, flat sawn",
        Board::QuarterSawn => "eq. 13-2 across the grain, quarter sawn",
        Board::Plywood => "size x 0.0002 for each point of moisture",
    };
    Working::new(formula, "Wood Handbook")
}

fn floors(piece: &Piece, all: &Movement) -> Vec<Figure> {
    let floor = |(k, f): (usize, &FloorMove)| {
        let how = match f.kind {
            FloorKind::Disc => "solid floor",
            FloorKind::Glued => "glued floor",
            FloorKind::Floating => "loose floor",
        };
        let label = say!(
            "{how} of {wood}, {diameter} across: moves across its grain by",
            how = how,
            wood = Value::name(words::plain(piece.wood_name(f.wood))),
            diameter = f.diameter,
        );
        Figure::note(format!("floor_{}", k + 1), label, Amount::Fine(f.worst()))
            .worked(handbook(f.board))
    };
    all.floors.iter().enumerate().map(floor).collect()
}

/// The ring whose joints would open furthest.
fn worst_ring(piece: &Piece, all: &Movement) -> Vec<Figure> {
    let worst = all
        .rings
        .iter()
        .reduce(|a, b| if b.wedge.exceeds(a.wedge) { b } else { a });
    let Some(ring) = worst else {
        return Vec::new();
    };
    let widest = ring.across.0.abs().max(ring.across.1.abs());
    let tallest = ring.height.0.abs().max(ring.height.1.abs());
    let figure = |key: &'static str, what: &'static str, amount| {
        let label = say!(
            "ring {number}, the worst: {what}",
            number = piece.ring_number(ring.at.0, ring.at.1),
            what = what,
        );
        Figure::note(key, label, Amount::Fine(amount)).worked(handbook(ring.board))
    };
    vec![
        figure("ring_width", "its width changes by", widest),
        figure("ring_height", "its height changes by", tallest),
        figure("ring_joint", "each joint would open by", ring.wedge),
        figure("ring_round", "out of round by", ring.lobe),
    ]
}

fn layers(all: &Movement) -> Vec<Figure> {
    let layer = |(k, layer): (usize, &LayerMove)| {
        Figure::note(
            format!("layer_{}", k + 1),
            "layers of one board: move against the wall by",
            Amount::Fine(layer.worst),
        )
        .worked(handbook(layer.board))
    };
    all.layers.iter().enumerate().map(layer).collect()
}

fn standing(piece: &Piece) -> Figure {
    let rings = piece.sections.iter().flat_map(|s| &s.rings);
    let thickest = rings.map(|r| r.stock).reduce(geometry::Length::max);
    Figure::note(
        "standing",
        "days that boards stand in the shop before they are cut",
        Amount::Count(movement::standing_days(thickest.unwrap_or_default()) as usize),
    )
}

/// What is uncertain about the piece's woods.
fn of_woods(piece: &Piece) -> Vec<Message> {
    let mut text = Vec::new();
    for (wood, name) in piece.woods.iter().zip(&piece.wood_names) {
        let name = Value::name(words::plain(name));
        let note = match (&wood.uncertain, &wood.note, wood.shrinkage.tangential) {
            (_, _, None) => {
                text.push(say!("{name}: its movement is not known.", name = name));
                continue;
            }
            (Some(why), ..) => why,
            (None, Some(note), _) if note.contains("shrinkage") || note.contains("figures of") => {
                note
            }
            _ => continue,
        };
        text.push(say!(
            "{name}: {note}.",
            name = name,
            note = Value::name(note.as_str())
        ));
    }
    text
}

fn use_study(piece: &Piece, weight: &Weight) -> Study {
    let form = &piece.form;
    let falls = |key: &'static str, label: &'static str, angle: Angle| {
        Figure::note(key, label, Amount::Angle(angle))
    };
    let mut figures =
        vec![
        Figure::note(
            "in_hand",
            "weight in the hand, about",
            Amount::Weight(weight.grams),
        )
        .worked(Working::new(
            "sum over the woods of volume x density, layers and floors with them",
            "the woods' densities; 700 kg/m³ where none is known",
        )),
        falls("tips", "falls over beyond", weight.tipping(piece)).worked(
            Working::new(
                "tan(angle) = (foot's radius − centre's distance from the axis) / centre's height",
                "closed form",
            )
            .with("foot's radius", Amount::Length(form.foot_radius()))
            .with("centre's distance from the axis", Amount::Fine(weight.off_axis))
            .with("centre's height", Amount::Length(weight.height)),
        ),
    ];
    for (key, label, share) in [
        (
            "tips_half_full",
            "the same, filled with water to half its depth",
            0.5,
        ),
        ("tips_full", "the same, filled with water to the brim", 1.0),
    ] {
        figures.push(
            falls(key, label, weight.tipping_filled(piece, share)).worked(Working::new(
                "as above, with the water's weight at its middle; water that moves tips it sooner",
                "closed form, water 1 g/cm³; an estimate",
            )),
        );
    }
    figures.push(Figure::note(
        "holds",
        "holds, filled to the brim",
        Amount::Capacity(form.capacity().as_mm3()),
    ));
    let mut text: Vec<Message> = vec![
        "Water: glued wood is no vase. Standing water swells the grain and works the joints \
         open; use a liner of glass or metal, whatever the finish."
            .into(),
        "Food: use a finish whose maker allows it and let it cure for as long as the label says; \
         dry food only, no soaking, no dishwasher."
            .into(),
    ];
    let names = piece.wood_names.iter().map(|n| words::plain(n));
    let bright: Vec<String> = names.filter(|n| irritates(n)).collect();
    if !bright.is_empty() {
        text.push(say!(
            "{woods}: known to irritate skin or to bleed colour; not for food (common practice, from \
             memory).",
            woods = words::list(bright),
        ));
    }
    Study {
        key: "use",
        title: "In use".into(),
        figures,
        text,
    }
}

/// Woods that the trade keeps away from food, by a word in their names.
fn irritates(name: &str) -> bool {
    const NAMES: [&str; 9] = [
        "padauk", "padouk", "rosewood", "cocobolo", "wenge", "yew", "ebony", "iroko", "redcedar",
    ];
    let name = name.to_lowercase();
    NAMES.iter().any(|n| name.contains(n))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;
    use files::units::Unit;

    #[test]
    fn every_part_says_something_of_every_piece() {
        for design in [trial::bowl_design()] {
            let plan = crate::plan(&trial::settled(design), Unit::Mm);
            let keys: Vec<_> = plan.studies.iter().map(|s| s.key).collect();
            assert_eq!(keys, ["holding", "glue", "movement", "use"]);
            for study in &plan.studies {
                assert!(!study.figures.is_empty() && !study.text.is_empty());
                let mut keys: Vec<_> = study.figures.iter().map(|f| &f.key).collect();
                keys.sort_unstable();
                keys.dedup();
                assert_eq!(keys.len(), study.figures.len(), "{}", study.key);
                assert!(study.figures.iter().all(|f| !f.shown.is_empty()));
            }
        }
    }

    #[test]
    fn turning_operations_say_how_they_are_held() {
        use crate::operations::OperationKind;
        let plan = crate::plan(&trial::settled(trial::bowl_design()), Unit::Mm);
        let turns = [
            OperationKind::TrueSection,
            OperationKind::JoinSections,
            OperationKind::TurnOutside,
            OperationKind::Hollow,
        ];
        for kind in turns {
            let operation = plan.operations.iter().find(|o| o.kind == kind).unwrap();
            assert!(
                operation.figures.iter().any(|f| f.key == "holding_used"),
                "{kind:?}"
            );
        }
        let layer = plan
            .operations
            .iter()
            .find(|o| o.kind == OperationKind::GlueLayer)
            .unwrap();
        assert!(layer.figures.iter().any(|f| f.key == "glue_ready"));
    }

    #[test]
    fn padauk_is_kept_from_food_and_maple_is_not() {
        assert!(irritates("African padauk") && !irritates("hard maple"));
    }
}
