//! Woods: what they weigh, how they move, and how they are drawn.
//!
//! Figures are those of the Wood Handbook (USDA Forest Products Laboratory,
//! FPL-GTR-190 and -282); `data/woods.csv` keeps how far each was confirmed.
//! Colours are our own choice and for pictures only.

mod looks;
mod table;

use std::collections::BTreeMap;

use serde::Serialize;

use crate::design::OwnWood;

pub use looks::{Colour, Hatch, letters};

/// A wood.
#[derive(Debug, Clone, Serialize)]
pub struct Wood {
    /// The handbook's name, or the name that the project's file gives its own wood.
    pub name: String,
    /// What it would be called in a sentence: `hard maple` for `Maple, sugar`.
    pub plain: String,
    /// Botanical name, where the handbook gives one.
    pub botanical: String,
    /// Weight at 12 % moisture, kg/m³ (wood and its water over the volume at 12 %).
    pub density: Option<f64>,
    /// Where the density comes from.
    pub density_from: DensityFrom,
    /// Shrinkage from green to oven-dry, percent.
    pub shrinkage: Shrinkage,
    /// Dimensional change per 1 % of moisture, within 6 to 14 %, as a fraction.
    pub change: Change,
    /// Strength and stiffness at 12 % moisture.
    pub strength: Strength,
    /// Colour for pictures.
    pub colour: Colour,
    /// Strength of the grain in pictures, 0 (plain) to 1 (bold).
    pub contrast: f64,
    /// Pattern for black and white.
    pub hatch: Hatch,
    /// Why its figures are to be taken with care; `None` if sources agree.
    pub uncertain: Option<String>,
    /// What the maker should know about the figures.
    pub note: Option<String>,
}

/// Shrinkage from green to oven-dry, percent of the green size.
#[derive(Debug, Clone, Copy, Default, Serialize)]
pub struct Shrinkage {
    /// Across the rings, from the pith outward.
    pub radial: Option<f64>,
    /// Along the rings.
    pub tangential: Option<f64>,
    /// Of the volume.
    pub volumetric: Option<f64>,
}

/// Dimensional change coefficients (Wood Handbook Table 13-5): the fraction that a
/// size at 10 % moisture changes by for 1 % of moisture, good for 6 to 14 %.
#[derive(Debug, Clone, Copy, Default, Serialize)]
pub struct Change {
    /// Radially.
    pub radial: Option<f64>,
    /// Tangentially.
    pub tangential: Option<f64>,
}

/// Strength and stiffness of clear, straight-grained wood at 12 % moisture (Wood
/// Handbook Tables 5-3b and 5-5b), N/mm².
#[derive(Debug, Clone, Copy, Default, Serialize)]
pub struct Strength {
    /// Stiffness in bending along the grain.
    pub stiffness: Option<f64>,
    /// In shear along the grain.
    pub shear: Option<f64>,
    /// In tension across the grain.
    pub tension_across: Option<f64>,
}

/// Where a density comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DensityFrom {
    /// Printed specific gravity at 12 %: SG·1000·1.12.
    Printed,
    /// Only green specific gravity is printed; carried over to 12 % first.
    Green,
    /// The maker's own figure.
    Maker,
    /// Nobody gave one.
    Unknown,
}

impl DensityFrom {
    /// How it was worked out, for a plan that shows its working.
    pub const fn working(self) -> &'static str {
        match self {
            DensityFrom::Printed => {
                "specific gravity at 12 % x 1000 x 1.12 (Wood Handbook Table 5-3b)"
            }
            DensityFrom::Green => {
                "green specific gravity (Wood Handbook Table 5-5b) carried to 12 %: \
                 SG / (1 - 0.265 a SG), a = (30 - 12)/30 (chapter 4, formula from memory), \
                 x 1000 x 1.12"
            }
            DensityFrom::Maker => "from the project's file",
            DensityFrom::Unknown => "not known; give it under [woods] in the project's file",
        }
    }
}

/// No wood goes by that name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownWood {
    /// The name asked for.
    pub name: String,
    /// The nearest names that are known, best first; may be empty.
    pub nearest: Vec<String>,
}

/// Looks a wood up by the handbook's name or by what makers call it.
///
/// Capitals, commas and hyphens do not matter: `Ash, white`, `white ash` and
/// `ash` are one wood. A bare `oak` is white oak, `maple` is hard maple.
///
/// ```
/// let maple = files::wood::find("hard maple");
/// assert_eq!(maple.map(|w| w.name), Ok("Maple, sugar".to_string()));
/// let slip = files::wood::find("wallnut").expect_err("misspelt");
/// assert_eq!(slip.nearest[0], "walnut");
/// ```
pub fn find(name: &str) -> Result<Wood, UnknownWood> {
    find_among(name, &BTreeMap::new())
}

/// As [`find`], but the project's own woods come first.
///
/// An own wood takes every figure that it does not give from the wood it is
/// `like`; one that is like nothing has only what it gives. A `like` that is
/// itself unknown is an error.
pub fn find_among(name: &str, own: &BTreeMap<String, OwnWood>) -> Result<Wood, UnknownWood> {
    let wanted = table::key(name);
    for (own_name, figures) in own {
        if table::key(own_name) == wanted {
            return own_wood(own_name, figures);
        }
    }
    let table = table::Table::get();
    match table.by_key(&wanted) {
        Some(wood) => Ok(wood.clone()),
        None => Err(UnknownWood {
            name: name.into(),
            nearest: table.nearest(&wanted, own.keys().map(String::as_str)),
        }),
    }
}

fn own_wood(name: &str, figures: &OwnWood) -> Result<Wood, UnknownWood> {
    let mut wood = match &figures.like {
        Some(like) => {
            let mut wood = find(like)?;
            // What the table says of a missing weight no longer holds once the maker gives one.
            let kept = wood.note.take().filter(|_| figures.density.is_none());
            wood.note = match kept {
                Some(note) => Some(format!("figures of {}; {note}", wood.plain)),
                None if table::key(like) == table::key(name) => None,
                None => Some(format!("figures of {}", wood.plain)),
            };
            wood
        }
        None => Wood::unknown(),
    };
    wood.name = name.into();
    wood.plain = name.into();
    if let Some(density) = figures.density {
        wood.density = Some(density);
        wood.density_from = DensityFrom::Maker;
    }
    if let Some(colour) = figures.colour.as_deref().and_then(Colour::parse) {
        wood.colour = colour;
        wood.hatch = Hatch::for_colour(colour);
    }
    Ok(wood)
}

/// Every built-in wood, by the handbook's name.
pub fn all() -> &'static [Wood] {
    table::Table::get().woods()
}

impl Wood {
    fn unknown() -> Wood {
        let colour = Colour::UNDYED;
        Wood {
            name: String::new(),
            plain: String::new(),
            botanical: String::new(),
            density: None,
            density_from: DensityFrom::Unknown,
            shrinkage: Shrinkage::default(),
            change: Change::default(),
            strength: Strength::default(),
            colour,
            contrast: 0.2,
            hatch: Hatch::for_colour(colour),
            uncertain: None,
            note: None,
        }
    }

    /// The weight in grams of a volume in mm³; `None` if the density is not known.
    pub fn grams(&self, mm3: f64) -> Option<f64> {
        // kg/m³ is 1e-6 g/mm³.
        self.density.map(|density| density * mm3 * 1e-6)
    }
}
