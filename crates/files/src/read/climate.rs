//! `[climate]`: the air of shop and home.

use std::collections::BTreeSet;

use crate::reader::{Numbers, Table};
use crate::units::Unit;
use crate::workshop::Climate;

const HUMIDITY: Numbers = Numbers {
    of: "relative humidity",
    in_what: "percent",
    least: 5.0,
    most: 95.0,
};
const CELSIUS: Numbers = Numbers {
    of: "a temperature",
    in_what: "°C",
    least: -10.0,
    most: 60.0,
};
const FAHRENHEIT: Numbers = Numbers {
    of: "a temperature",
    in_what: "°F",
    least: 14.0,
    most: 140.0,
};

/// A temperature as the file's unit has it: °C in a millimetre file, °F in an inch file.
pub(super) fn temperature(table: &Table<'_>, key: &'static str) -> Option<f64> {
    let item = table.get(key)?;
    let unit = table.log.unit();
    let range = match unit {
        Unit::Mm => &CELSIUS,
        Unit::Inch => &FAHRENHEIT,
    };
    item.figure(range).map(|t| unit.celsius(t))
}

/// Reads the table; notes what was given.
pub(super) fn read(table: &Table<'_>, climate: &mut Climate, given: &mut BTreeSet<String>) {
    let airs = [
        ("shop_humidity", "shop_temperature", &mut climate.shop),
        ("dry_humidity", "dry_temperature", &mut climate.dry),
        ("damp_humidity", "damp_temperature", &mut climate.damp),
    ];
    for (humidity, warmth, air) in airs {
        if let Some(v) = table.get(humidity).and_then(|i| i.figure(&HUMIDITY)) {
            air.humidity = v;
            given.insert(table.path_of(humidity));
        }
        if let Some(v) = temperature(table, warmth) {
            air.temperature = v;
            given.insert(table.path_of(warmth));
        }
    }
    table.finish(&[]);
}
