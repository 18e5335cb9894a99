//! `[exactness]` of the workshop file.

use super::text::Text;
use crate::workshop::Workshop;

/// The table, with the keys that were given or differ from common practice; nothing
/// where there are none.
pub(super) fn exactness(t: &mut Text, shop: &Workshop, usual: &Workshop) {
    let given = |key: &str| shop.given.contains(&format!("exactness.{key}"));
    let (mut own, mut other) = (shop.exactness, usual.exactness);
    let angles: Vec<_> = own
        .angles_mut()
        .into_iter()
        .zip(other.angles_mut())
        .filter(|(a, b)| given(a.0) || a.1.as_rad() != b.1.as_rad())
        .map(|(a, _)| (a.0, *a.1))
        .collect();
    let lengths: Vec<_> = own
        .lengths_mut()
        .into_iter()
        .zip(other.lengths_mut())
        .filter(|(a, b)| given(a.0) || a.1.as_mm() != b.1.as_mm())
        .map(|(a, _)| (a.0, *a.1))
        .collect();
    let stays = shop.exactness.sled_stays_set;
    let stays_said = given("sled_stays_set") || stays != usual.exactness.sled_stays_set;
    if angles.is_empty() && lengths.is_empty() && !stays_said {
        return;
    }
    t.heading("[exactness]");
    for (key, angle) in angles {
        t.angle(key, Some(angle));
    }
    for (key, length) in lengths {
        t.length(key, Some(length));
    }
    if stays_said {
        t.either("sled_stays_set", Some(stays));
    }
}
