//! Names of what is found.

use files::key;
use files::key::RingPath;
use files::message::{Message, Value};
use files::say;
use geometry::Angle;
use piece::piece::Piece;

/// A tilt rounded down to a tenth of a degree.
pub(super) fn tenth_below(angle: Angle) -> Angle {
    Angle::deg((angle.as_deg() * 10.0 + 1e-6).floor() / 10.0)
}

/// A ring's table in the project's file.
pub(super) fn ring_path(piece: &Piece, section: usize, ring: usize) -> RingPath {
    let settled = piece.sections.get(section).and_then(|s| s.rings.get(ring));
    settled.map_or_else(|| key::section(section).ring(ring), |r| r.path.clone())
}

/// A section's name.
pub(super) fn section_name(piece: &Piece, section: usize) -> Value {
    let settled = piece.sections.get(section);
    Value::name(settled.map_or("", |s| s.name.as_str()))
}

/// `ring 4 (belly)`, counted through the whole piece from 1 as the plan does.
pub(super) fn ring_name(piece: &Piece, section: usize, ring: usize) -> Message {
    say!(
        "ring {number} ({section})",
        number = piece.ring_number(section, ring),
        section = section_name(piece, section),
    )
}

/// `ring 4` or `rings 4 to 6` of numbers that follow each other, from the first and last.
pub(super) fn rings_name(piece: &Piece, section: usize, first: usize, last: usize) -> Message {
    if first == last {
        return ring_name(piece, section, first);
    }
    let number = piece.ring_number(section, first);
    say!(
        "rings {first} to {last} ({section})",
        first = number,
        last = number + last - first,
        section = section_name(piece, section),
    )
}

/// `ring 4`, `rings 4 to 6`, `rings 3, 5 to 7 and 9`: numbers in rising order.
pub(super) fn ring_numbers(numbers: &[usize]) -> Message {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &number in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => runs.push((number, number)),
        }
    }
    let all = runs.iter().map(|(first, last)| match last - first {
        0 => say!("{n}", n = *first),
        _ => say!("{first} to {last}", first = *first, last = *last),
    });
    if numbers.len() == 1 {
        say!("ring {all}", all = Value::list(all))
    } else {
        say!("rings {all}", all = Value::list(all))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tilt_is_rounded_down_to_a_tenth() {
        assert!(tenth_below(Angle::deg(23.49)).within(Angle::deg(23.4), Angle::deg(1e-9)));
        assert!(tenth_below(Angle::deg(23.4)).within(Angle::deg(23.4), Angle::deg(1e-9)));
    }
}
