//! `[glue]`: glue, as the maker uses it.

use super::climate::{CELSIUS, FAHRENHEIT};
use crate::keys::{Given, Numbers, Quantity, Rules, Scale, flag, keys, number};

const MINUTES: Numbers = Numbers::new("a time for glue", ("minutes", "min"), 0.0, 10_000.0);
const HOURS: Numbers = Numbers::new("a cure", ("hours", "h"), 0.0, 1000.0);
const SPREAD: Numbers = Numbers::new("what is spread on a joint", ("g/m²", "g/m²"), 20.0, 2000.0);
const WASTE: Numbers = Numbers::new("wasted glue", ("percent", "%"), 0.0, 500.0);
const SECONDS: Numbers = Numbers::new("the time to spread a face", ("seconds", "s"), 0.5, 600.0);
const BATCH: Numbers = Numbers::new("a batch of epoxy", ("ml", "ml"), 0.5, 5000.0);

keys! {
    /// Glue, as the maker uses it.
    pub struct Glue, GluePath, "[glue]" {
        /// in clamps, minutes
        clamp_minutes: Given<f64> = "time in clamps", Quantity::Number(MINUTES), number(45.0);
        /// before the next cut, hours
        cure_hours: Given<f64> = "cure before the next cut", Quantity::Number(HOURS),
            number(24.0);
        /// layers are glued with epoxy (true) or with the glue of the rings
        epoxy_for_layers: Given<bool> = "layers are glued with epoxy", Quantity::Flag,
            flag(true);
        /// of epoxy before the next cut, hours
        epoxy_cure_hours: Given<f64> = "cure of epoxy", Quantity::Number(HOURS), number(24.0);
        /// from the first face spread to the joint closed, minutes
        open_minutes: Given<f64> = "from the first face spread to the joint closed",
            Quantity::Number(MINUTES), number(5.0);
        /// the same for epoxy, mixing included
        epoxy_open_minutes: Given<f64> = "open time of epoxy", Quantity::Number(MINUTES),
            number(25.0);
        /// on a joint, g/m²
        spread: Given<f64> = "glue on a joint",
            Quantity::Scaled(Scale::Spread, SPREAD, SPREAD), number(200.0);
        /// left in the pot, on the brush and pressed out, percent of what stays
        waste: Given<f64> = "left in the pot and pressed out", Quantity::Number(WASTE),
            number(25.0);
        /// to spread one small face, seconds
        face_seconds: Given<f64> = "to spread one small face", Quantity::Number(SECONDS),
            number(6.0);
        /// of epoxy that can be measured and mixed well, ml
        smallest_batch: Given<f64> = "smallest batch of epoxy measured well",
            Quantity::Scaled(Scale::Volume, BATCH, BATCH), number(10.0);
        /// that the glue may be used at, °C, in an inch file °F
        coldest: Given<f64> = "coldest that the glue may be used at",
            Quantity::Scaled(Scale::Temperature, CELSIUS, FAHRENHEIT), number(10.0);
    }
}

impl Rules for Glue {}
