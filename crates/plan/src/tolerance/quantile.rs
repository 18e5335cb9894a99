//! How bad half of the makings, 19 of 20 and 99 of 100 are at most.

use files::message::{Language, Said};
use geometry::Length;
use serde::Serialize;

use crate::figure::{Amount, Figure};

/// Figures that so many makings do not pass.
#[derive(Debug, Clone, Serialize)]
pub struct Quantiles {
    /// Half of them.
    pub half: Figure<Said>,
    /// 19 of 20.
    pub of_20: Figure<Said>,
    /// 99 of 100.
    pub of_100: Figure<Said>,
    /// All of them: the worst that came.
    pub worst: Figure<Said>,
}

impl Quantiles {
    /// Of some values, which are put in order; `least_counts` where a small value is
    /// the bad one.
    pub(super) fn of(values: &mut [f64], least_counts: bool, language: Language) -> Self {
        values.sort_by(f64::total_cmp);
        if least_counts {
            values.reverse();
        }
        let figure = |key: &'static str, label: &'static str, share: f64| {
            let value = at_share(values, share);
            Figure::note(key, label, Amount::Fine(Length::mm(value))).said(language)
        };
        Quantiles {
            half: figure("half", "half of the makings", 0.5),
            of_20: figure("of_20", "19 of 20", 0.95),
            of_100: figure("of_100", "99 of 100", 0.99),
            worst: figure("worst", "worst of all", 1.0),
        }
    }
}

/// The value that a share of the ordered values does not pass: the nearest rank,
/// ⌈share · count⌉ (JCGM 101:2008, 7.7, without interpolation).
pub(super) fn at_share(ordered: &[f64], share: f64) -> f64 {
    // A hair less, so that 0.95 · 20 is not taken for more than 19.
    let rank = (share * ordered.len() as f64 - 1e-9).ceil().max(1.0) as usize;
    let rank = rank.min(ordered.len());
    rank.checked_sub(1)
        .and_then(|i| ordered.get(i))
        .copied()
        .unwrap_or(0.0)
}

/// The share of values beyond a limit.
pub(super) fn share_beyond(values: &[f64], limit: f64, least_counts: bool) -> f64 {
    let beyond = |v: &&f64| {
        if least_counts {
            **v < limit
        } else {
            **v > limit
        }
    };
    values.iter().filter(beyond).count() as f64 / values.len().max(1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::units::Unit;

    #[test]
    fn ranks_are_those_of_the_ordered_values() {
        let values: Vec<f64> = (1..=100).map(f64::from).collect();
        assert_eq!(at_share(&values, 0.5), 50.0);
        assert_eq!(at_share(&values, 0.95), 95.0);
        assert_eq!(at_share(&values, 0.99), 99.0);
        assert_eq!(at_share(&values, 1.0), 100.0);
        assert_eq!(at_share(&[7.0], 0.01), 7.0);
        assert_eq!(at_share(&[], 0.5), 0.0);
    }

    #[test]
    fn of_a_wall_the_thin_ones_are_the_bad_ones() {
        let mut values = vec![3.0, 1.0, 2.0, 4.0];
        let q = Quantiles::of(&mut values, true, Unit::Mm.into());
        assert_eq!(q.worst.amount.number(), Some(1.0));
        assert_eq!(q.half.amount.number(), Some(3.0));
        assert_eq!(share_beyond(&values, 2.5, true), 0.5);
        assert_eq!(share_beyond(&values, 2.5, false), 0.5);
        assert_eq!(share_beyond(&values, 3.5, false), 0.25);
    }
}
