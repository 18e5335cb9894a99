//! `[climate]`: the air that the wood is worked in, and the air that it lives in.

use crate::keys::{Given, Numbers, Quantity, Rules, Scale, keys, number};

const HUMIDITY: Numbers = Numbers::new("relative humidity", ("percent", "%"), 5.0, 95.0);
/// A temperature in a file of millimetres.
pub(super) const CELSIUS: Numbers = Numbers::new("a temperature", ("°C", "°C"), -10.0, 60.0);
/// A temperature in a file of inches.
pub(super) const FAHRENHEIT: Numbers = Numbers::new("a temperature", ("°F", "°F"), 14.0, 140.0);

const WARMTH: Quantity = Quantity::Scaled(Scale::Temperature, CELSIUS, FAHRENHEIT);

/// One air: how damp and how warm.
#[derive(Debug, Clone, Copy)]
pub struct Air {
    /// Relative humidity, percent.
    pub humidity: f64,
    /// Temperature, °C.
    pub temperature: f64,
}

keys! {
    /// Shop and home. Temperatures are in °C, in an inch file °F.
    pub struct Climate, ClimatePath, "[climate]" {
        /// in the shop while the piece is made, percent
        shop_humidity: Given<f64> = "relative humidity in the shop",
            Quantity::Number(HUMIDITY), number(45.0);
        /// in the shop
        shop_temperature: Given<f64> = "temperature in the shop", WARMTH, number(20.0);
        /// at home in the driest season, percent
        dry_humidity: Given<f64> = "relative humidity at home, driest season",
            Quantity::Number(HUMIDITY), number(30.0);
        /// then
        dry_temperature: Given<f64> = "temperature at home, driest season", WARMTH,
            number(20.0);
        /// at home in the dampest season, percent
        damp_humidity: Given<f64> = "relative humidity at home, dampest season",
            Quantity::Number(HUMIDITY), number(60.0);
        /// then
        damp_temperature: Given<f64> = "temperature at home, dampest season", WARMTH,
            number(24.0);
    }
}

impl Rules for Climate {}

impl Climate {
    /// The shop, while the piece is made.
    pub fn shop(&self) -> Air {
        air(self.shop_humidity, self.shop_temperature)
    }

    /// The home in its driest season.
    pub fn dry(&self) -> Air {
        air(self.dry_humidity, self.dry_temperature)
    }

    /// The home in its dampest season.
    pub fn damp(&self) -> Air {
        air(self.damp_humidity, self.damp_temperature)
    }
}

fn air(humidity: Given<f64>, temperature: Given<f64>) -> Air {
    Air {
        humidity: humidity.value,
        temperature: temperature.value,
    }
}
