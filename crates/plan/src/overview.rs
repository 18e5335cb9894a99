//! The finished form in figures.

use files::message::{Language, Said, Unsaid, Value, Wording};
use files::say;
use geometry::Portable;
use geometry::{Angle, Length};
use piece::model::{PartVolume, volumes_by_part, volumes_by_wood};
use piece::piece::Piece;
use serde::Serialize;

use crate::figure::{Amount, Figure, Working, figures_said};
use crate::settings::WALL;
use crate::words;

/// Volumes for weights are found to this share; a density is not known as well.
const SHARE: f64 = 1e-3;

/// What the finished piece is.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct Overview<W: Wording = Unsaid> {
    /// Height, diameter, wall, capacity and the rest.
    pub figures: Vec<Figure<W>>,
    /// Every wood in the finished piece.
    pub woods: Vec<WoodShare<W>>,
}

/// One wood's share of the finished piece.
#[derive(Debug, Clone, Serialize)]
#[serde(bound(serialize = "W::Text: Serialize, W::Shown: Serialize"))]
pub struct WoodShare<W: Wording = Unsaid> {
    /// What the project's file calls it.
    pub name: String,
    /// Volume of it.
    pub volume: Figure<W>,
    /// Weight of it; words where its density is not known.
    pub weight: Figure<W>,
}

/// Weights and their centre.
#[derive(Default)]
struct Weighed {
    /// A density was looked for and not found.
    unknown: bool,
    shares: Vec<WoodShare>,
    /// Total in g, if every wood's density is known.
    total: Option<f64>,
    /// Height of the centre of gravity and its distance from the axis.
    centre: Option<(f64, f64)>,
}

impl Overview {
    /// Measures a piece. Weighing its woods, part by part, takes ten times as long as
    /// all the rest of a plan; without it the form alone is measured.
    pub fn of(piece: &Piece, with_weights: bool) -> Overview {
        let form = &piece.form;
        let weighed = if with_weights {
            let parts = volumes_by_part(&piece.stack, Some(form.outline()), SHARE);
            weigh(piece, &parts)
        } else {
            Weighed::default()
        };
        let (radius, widest) = form.largest_radius();
        let (wall, thinnest) = form.thinnest_wall();
        let curve = |formula: &'static str| Working::new(formula, WALL);
        let mut figures = vec![
            Figure::note("height", "height", Amount::Length(form.height())),
            Figure::note(
                "largest_diameter",
                say!("largest diameter, at height {height}", height = widest),
                Amount::Length(radius * 2.0),
            ),
            Figure::note(
                "thinnest_wall",
                say!("thinnest wall, at height {height}", height = thinnest),
                Amount::Length(wall),
            )
            .worked(curve(
                "least distance to the inner side, square to the outer",
            )),
            Figure::note("floor", "floor", Amount::Length(form.floor())),
            Figure::note(
                "foot",
                "foot, diameter",
                Amount::Length(form.foot_radius() * 2.0),
            ),
        ];
        let capacity = form.capacity().as_mm3();
        figures.push(
            Figure::note(
                "capacity",
                "holds, filled to the brim",
                Amount::Capacity(capacity),
            )
            .worked(curve("volume under the inner side, as cone frusta")),
        );
        figures.push(Figure::note(
            "capacity_volume",
            "the same as a volume",
            Amount::Volume(capacity),
        ));
        figures.push(
            Figure::note(
                "wood",
                "wood in it",
                Amount::Volume(form.wood_volume().as_mm3()),
            )
            .worked(curve("volume of the turned half-section")),
        );
        let areas = form.surface_areas();
        for (key, label, area) in [
            ("surface_outside", "surface outside", areas.outside),
            (
                "surface_inside",
                "surface inside, with the floor",
                areas.inside,
            ),
            ("surface_rim", "surface of the rim", areas.rim),
            (
                "surface_underside",
                "surface of the underside",
                areas.underside,
            ),
        ] {
            figures.push(Figure::note(key, label, Amount::Area(area)));
        }
        figures.extend(balance(piece, &weighed));
        Overview {
            figures,
            woods: weighed.shares,
        }
    }

    /// The same in one reader's language.
    pub fn said(&self, language: Language) -> Overview<Said> {
        let share = |wood: &WoodShare| WoodShare {
            name: wood.name.clone(),
            volume: wood.volume.said(language),
            weight: wood.weight.said(language),
        };
        Overview {
            figures: figures_said(&self.figures, language),
            woods: self.woods.iter().map(share).collect(),
        }
    }
}

/// Weight, centre of gravity, tipping angle.
fn balance(piece: &Piece, weighed: &Weighed) -> Vec<Figure> {
    let form = &piece.form;
    let weight = match weighed.total {
        Some(grams) => Amount::Weight(grams),
        None if weighed.unknown => Amount::Text("not known: a wood's density is missing".into()),
        None => Amount::Text("not weighed".into()),
    };
    let (height, off_axis, how) = match weighed.centre {
        Some((height, off)) => (Length::mm(height), off, "by the woods' weights"),
        None => (
            form.centre_of_gravity_height(),
            0.0,
            "as if all woods weighed alike",
        ),
    };
    // It falls first towards where the centre lies off the axis.
    let lever = (form.foot_radius().as_mm() - off_axis).max(0.0);
    vec![
        Figure::note("weight", "weight at 12 % moisture", weight).worked(Working::new(
            "sum of volume · density over the woods",
            "the woods' densities as listed or given",
        )),
        Figure::note(
            "centre_of_gravity",
            say!("centre of gravity above the foot, {how}", how = how),
            Amount::Length(height),
        ),
        Figure::note(
            "tipping_angle",
            "tips over by itself beyond",
            Amount::Angle(Angle::rad(lever.arctangent2(height.as_mm()))),
        )
        .worked(
            Working::new(
                "tan(angle) = (foot's radius − centre's distance from the axis) / centre's height",
                "closed form",
            )
            .with("foot's radius", Amount::Length(form.foot_radius()))
            .with(
                "centre's distance from the axis",
                Amount::Fine(Length::mm(off_axis)),
            )
            .with("centre's height", Amount::Length(height)),
        ),
    ]
}

fn weigh(piece: &Piece, parts: &[PartVolume]) -> Weighed {
    let mut shares = Vec::new();
    let (mut total, mut known) = (0.0, true);
    let mut moment = [0.0; 3];
    for (id, sum) in volumes_by_wood(parts) {
        let wood = piece.wood(id);
        let weight = match wood.grams(sum.volume) {
            Some(grams) => {
                total += grams;
                let each = sum.first * (grams / sum.volume.max(f64::MIN_POSITIVE));
                for (m, e) in moment.iter_mut().zip([each.x, each.y, each.z]) {
                    *m += e;
                }
                Amount::Weight(grams)
            }
            None => {
                known = false;
                Amount::Text("density not known".into())
            }
        };
        // Wood that is wholly turned away is no share of the piece.
        if sum.volume <= 0.0 {
            continue;
        }
        let name = words::plain(piece.wood_name(id));
        shares.push(WoodShare {
            volume: Figure::note(
                "volume",
                say!("{name}, volume", name = Value::name(&name)),
                Amount::Volume(sum.volume),
            ),
            weight: Figure::note(
                "weight",
                say!("{name}, weight", name = Value::name(&name)),
                weight,
            )
            .worked(
                Working::new("volume · density", wood.density_from.working())
                    .with("volume", Amount::Volume(sum.volume))
                    .with(
                        "density, kg/m³",
                        Amount::Text(match wood.density {
                            Some(d) => Value::Number(d, 0).into(),
                            None => "not known".into(),
                        }),
                    ),
            ),
            name,
        });
    }
    let weighs = known && total > 0.0;
    Weighed {
        shares,
        unknown: !known,
        total: weighs.then_some(total),
        centre: weighs.then(|| {
            (
                moment[2] / total,
                (moment[0] / total).hypotenuse(moment[1] / total),
            )
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial;

    fn number(overview: &Overview, key: &str) -> f64 {
        let figure = overview.figures.iter().find(|f| f.key == key).unwrap();
        figure.amount.number().unwrap()
    }

    #[test]
    fn weights_by_wood_add_up_to_the_volume_of_the_form() {
        let piece = trial::bowl();
        let overview = Overview::of(&piece, true);
        let by_wood: f64 = overview
            .woods
            .iter()
            .filter_map(|w| w.volume.amount.number())
            .sum();
        let whole = number(&overview, "wood");
        assert!((by_wood / whole - 1.0).abs() < 2e-3, "{by_wood} of {whole}");
    }

    #[test]
    fn without_weighing_the_form_is_the_same() {
        let piece = trial::bowl();
        let [with, without] = [true, false].map(|w| Overview::of(&piece, w));
        for key in ["height", "wood", "capacity", "surface_inside"] {
            assert_eq!(number(&with, key), number(&without, key));
        }
        assert!(without.woods.is_empty() && !with.woods.is_empty());
    }

    #[test]
    fn a_solid_tube_of_one_wood_is_weighed_by_hand() {
        let piece = trial::solid();
        let overview = Overview::of(&piece, true);
        let volume = number(&overview, "wood");
        let density = piece.woods[0].density.unwrap();
        let weight = number(&overview, "weight");
        assert!((weight / (density * volume * 1e-6) - 1.0).abs() < 2e-3);
        // Radius 40 mm, 30 mm deep less a floor of 8 mm, wall 8 mm.
        let hold = std::f64::consts::PI * 32.0 * 32.0 * 22.0;
        assert!((number(&overview, "capacity") / hold - 1.0).abs() < 1e-3);
    }
}
