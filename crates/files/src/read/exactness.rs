//! `[exactness]` of the workshop file.

use std::collections::BTreeSet;

use super::shop::{put, set};
use crate::exactness::Exactness;
use crate::reader::{Angles, Lengths, Table};

const LENGTH: Lengths = Lengths::new("an error of a length", 0.0, 5.0);
const ANGLE: Angles = Angles {
    of: "an error of an angle",
    least: 0.0,
    most: 5.0,
};

/// What the table says goes into `exactness`, and its keys into `given`.
pub(super) fn exactness(
    table: &Table<'_>,
    exactness: &mut Exactness,
    given: &mut BTreeSet<String>,
) {
    for (key, place) in exactness.angles_mut() {
        put(table, key, table.angle(key, &ANGLE), place, given);
    }
    for (key, place) in exactness.lengths_mut() {
        set(table, key, &LENGTH, place, given);
    }
    let stays = table.flag("sled_stays_set");
    put(
        table,
        "sled_stays_set",
        stays,
        &mut exactness.sled_stays_set,
        given,
    );
    table.finish(&[
        ("kerf", "a saw's kerf belongs under [[saw]]"),
        ("flattening", "losses belong under [allowances]"),
    ]);
}
