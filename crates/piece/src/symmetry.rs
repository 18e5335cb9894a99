//! How often the finished pattern repeats in one turn.

use geometry::Angle;

/// The greatest number that divides both; 0 divides nothing and is passed over.
pub fn common_divisor(a: usize, b: usize) -> usize {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

/// How often a ring's segments repeat round it, joints and woods counted.
///
/// ```
/// use piece::symmetry::ring_repeats;
/// assert_eq!(ring_repeats(&["oak"; 12]), 12);
/// assert_eq!(ring_repeats(&["oak", "oak", "ash", "oak", "oak", "ash"]), 2);
/// ```
pub fn ring_repeats<W: PartialEq>(woods: &[W]) -> usize {
    let n = woods.len();
    (1..=n)
        .filter(|p| n.is_multiple_of(*p))
        .find(|p| (0..n).all(|i| woods[i] == woods[(i + p) % n]))
        .map_or(1, |p| n / p)
}

/// How often loops repeat round the piece, their woods counted, their order not.
pub fn loops_repeat<W: PartialEq>(azimuths: &[Angle], woods: &[W]) -> usize {
    let n = azimuths.len();
    let wood = |i: usize| woods.get(i % woods.len().max(1));
    let turned_onto_itself = |k: usize| {
        let turn = Angle::full().divided_by(k);
        (0..n).all(|i| {
            let to = (azimuths[i] + turn).wrapped().as_deg();
            (0..n).any(|j| {
                let off = (azimuths[j].wrapped().as_deg() - to).abs();
                off.min(360.0 - off) < 1e-6 && wood(i) == wood(j)
            })
        })
    };
    (1..=n.max(1))
        .rev()
        .find(|&k| turned_onto_itself(k))
        .unwrap_or(1)
}

/// The segment counts nearest to `segments` that `loops` divide: at most it, and more
/// than it. Fewer than 3 segments make no ring and more than 144 are too many.
pub fn nearest_that_repeat(segments: usize, loops: usize) -> (Option<usize>, Option<usize>) {
    let loops = loops.max(1);
    let low = (segments / loops * loops..=segments).find(|n| n.is_multiple_of(loops) && *n >= 3);
    let high = (segments + 1..=144).find(|n| n.is_multiple_of(loops));
    (low, high)
}
