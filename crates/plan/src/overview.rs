//! The finished form in figures.

use files::message::{Language, Said, Unsaid, Value, Wording};
use files::say;
use geometry::VolumeMoments;
use piece::model::WoodId;
use piece::piece::Piece;
use serde::Serialize;

use crate::figure::{Amount, Figure, Working, figures_said};
use crate::settings::WALL;
use crate::weight::Weight;
use crate::words;

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

impl Overview {
    /// Measures a piece of a known weight.
    pub fn of(piece: &Piece, weight: &Weight) -> Overview {
        let form = &piece.form;
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
            Figure::note("wood", "wood in it", Amount::Volume(weight.volume())).worked(curve(
                "sum over the woods, of each part within the half-section",
            )),
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
        figures.extend(balance(piece, weight));
        Overview {
            figures,
            woods: shares(piece, weight),
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
fn balance(piece: &Piece, weight: &Weight) -> Vec<Figure> {
    let form = &piece.form;
    let (amount, how) = if weight.known {
        (Amount::Weight(weight.grams), "by the woods' weights")
    } else {
        (
            Amount::Text("not known: a wood's density is missing".into()),
            "woods of unknown weight taken as 700 kg/m³",
        )
    };
    vec![
        Figure::note("weight", "weight at 12 % moisture", amount).worked(Working::new(
            "sum of volume · density over the woods",
            "the woods' densities as listed or given",
        )),
        Figure::note(
            "centre_of_gravity",
            say!("centre of gravity above the foot, {how}", how = how),
            Amount::Length(weight.height),
        ),
        Figure::note(
            "tipping_angle",
            "tips over by itself beyond",
            Amount::Angle(weight.tipping(piece)),
        )
        .worked(
            Working::new(
                "tan(angle) = (foot's radius − centre's distance from the axis) / centre's height",
                "closed form",
            )
            .with("foot's radius", Amount::Length(form.foot_radius()))
            .with(
                "centre's distance from the axis",
                Amount::Fine(weight.off_axis),
            )
            .with("centre's height", Amount::Length(weight.height)),
        ),
    ]
}

/// Every wood's share.
fn shares(piece: &Piece, weight: &Weight) -> Vec<WoodShare> {
    let share = |(id, sum): &(WoodId, VolumeMoments)| {
        let wood = piece.wood(*id);
        let grams = wood.grams(sum.volume).map(Amount::Weight);
        let name = words::plain(piece.wood_name(*id));
        WoodShare {
            volume: Figure::note(
                "volume",
                say!("{name}, volume", name = Value::name(&name)),
                Amount::Volume(sum.volume),
            ),
            weight: Figure::note(
                "weight",
                say!("{name}, weight", name = Value::name(&name)),
                grams.unwrap_or(Amount::Text("density not known".into())),
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
        }
    };
    weight.by_wood.iter().map(share).collect()
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
        let overview = Overview::of(&piece, &Weight::of(&piece));
        let by_wood: f64 = overview
            .woods
            .iter()
            .filter_map(|w| w.volume.amount.number())
            .sum();
        let whole = number(&overview, "wood");
        assert!(
            (by_wood / whole - 1.0).abs() < 1e-12,
            "{by_wood} of {whole}"
        );
        let form = piece.form.wood_volume().as_mm3();
        assert!((whole / form - 1.0).abs() < 2e-3, "{whole} of {form}");
    }

    #[test]
    fn a_solid_tube_of_one_wood_is_weighed_by_hand() {
        let piece = trial::solid();
        let overview = Overview::of(&piece, &Weight::of(&piece));
        let volume = number(&overview, "wood");
        let density = piece.woods[0].density.unwrap();
        let weight = number(&overview, "weight");
        assert!((weight / (density * volume * 1e-6) - 1.0).abs() < 2e-3);
        // Radius 40 mm, 30 mm deep less a floor of 8 mm, wall 8 mm.
        let hold = std::f64::consts::PI * 32.0 * 32.0 * 22.0;
        assert!((number(&overview, "capacity") / hold - 1.0).abs() < 1e-3);
    }
}
