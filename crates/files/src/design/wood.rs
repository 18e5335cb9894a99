//! `[woods.NAME]`: a wood of the maker's own.

use crate::keys::{Numbers, Quantity, Rules, Usual, keys};
use crate::reader::Table;

const DENSITY: Numbers = Numbers::new("a wood's density", ("kg/m³", "kg/m³"), 50.0, 1600.0);

keys! {
    /// A wood that the built-in table does not know, or that the maker has weighed.
    pub struct OwnWood, WoodPath, "[woods.NAME]" {
        /// a wood of the list that stands in for what is not given
        like: Option<String> = "like", Quantity::ListedWood, Usual::Nothing("none");
        /// as it comes to the lathe
        density: Option<f64> = "density", Quantity::Number(DENSITY),
            Usual::Nothing("that of the wood it is like");
        /// for pictures only
        colour: Option<String> = "colour", Quantity::Colour,
            Usual::Nothing("that of the wood it is like");
    }
}

impl Rules for OwnWood {
    fn check(&self, table: &Table<'_>) {
        table.need_any(
            &["like", "density", "colour"],
            format!("nothing is said about the wood {}", table.path.name()),
            "give it like = \"a known wood\", density in kg/m³, or colour = \"#rrggbb\"",
        );
    }
}
