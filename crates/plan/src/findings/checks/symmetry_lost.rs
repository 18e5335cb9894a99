//! Segments and loops that share no divisor.

use crate::findings::ways::of_segments;
use files::key;
use files::message::Value;
use files::remedy::{Remedy, Way};
use piece::course::Course;
use piece::symmetry::{nearest_that_repeat, ring_repeats};

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::say::{ring_name, ring_path};
use crate::findings::{Check, Limit, Survey, limits};
use files::say;

/// The finished pattern repeats less often than its loops.
pub struct SymmetryLost;

impl Check for SymmetryLost {
    fn key(&self) -> &'static str {
        "symmetry-lost"
    }

    fn asks(&self) -> &'static str {
        "does the pattern with its joints and woods repeat as often as the loops?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::REPEATS]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let (loops, all) = view.band.repeats;
            if all >= loops {
                return None;
            }
            let rings = &view.section.rings;
            let spoils = |r: &Course| {
                let repeats = r.repeats();
                repeats.is_some_and(|repeats| !repeats.is_multiple_of(loops))
            };
            let at = rings.iter().position(spoils)?;
            let (ring, subject) = (&rings[at], view.subject());
            let section = subject.section?;
            let segments = ring.sizes.segments;
            let alike = rings.iter().all(|r| r.sizes.segments == segments);
            let all_rings: Vec<usize> = if alike { (0..rings.len()).collect() } else { vec![at] };
            let (of_all, of_ring) = (key::section(section), ring_path(piece, section, at));
            let (path, remedy) = if segments.is_multiple_of(loops) {
                let share = segments / loops;
                let lengths: Vec<String> = (1..=share)
                    .filter(|k| share.is_multiple_of(*k))
                    .map(|k| k.to_string())
                    .collect();
                (
                    if alike { of_all.wood() } else { of_ring.wood() },
                    Remedy::from(say!("a pattern of woods that repeats every {lengths} segments", lengths = Value::name(lengths.join(" or ")))),
                )
            } else {
                let (low, high) = nearest_that_repeat(segments, loops);
                let counts = [low, high].into_iter().flatten();
                let ways: Vec<Way> = counts
                    .clone()
                    .map(|n| of_segments(view.piece, section, &all_rings, n))
                    .collect();
                let counts: Vec<String> = counts.map(|n| n.to_string()).collect();
                (
                    if alike { of_all.segments() } else { of_ring.segments() },
                    Remedy::from(say!("{counts} segments", counts = Value::name(counts.join(" or ")))).or_any(ways),
                )
            };
            let shown = match all {
                1 => say!("does not repeat at all"),
                n => say!("repeats {n} times in a turn", n = n),
            };
            Some(found(self, Said {
severity: Severity::WorthKnowing,
subject,
path,
what: say!(
                    "{loops} repeat {times} times in a turn, but with the {segments} segments of {ring} the pattern {shown}",
                    loops = view.name(),
                    times = loops,
                    segments = segments,
                    ring = ring_name(piece, section, at),
                    shown = shown,
                ),
remedy,
},
(Amount::Count(all), Amount::Count(loops)),
Working::new(
                        "greatest common divisor of the loops' repeats and each ring's",
                        limits::REPEATS.source,
                    )
                    .with("the loops' repeats", Amount::Count(loops))
                    .with("the ring's repeats", Amount::Count(ring_repeats(&ring.woods))),
))
        });
        found.collect()
    }
}
