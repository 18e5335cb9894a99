//! Which error causes it: what to measure twice.
//!
//! For errors that are independent and have mean 0, mean squares add as long as the
//! piece answers each of them in proportion (JCGM 100:2008, 5.1.2, the law of
//! propagation of uncertainty). So the real model is run with one error at a time, and
//! its mean square is that error's share of the whole. What the shares leave of the
//! whole is no error's own: errors that work together, and chance. Nothing is
//! linearised: with errors so large that they do work together, the rest says so.

use piece::work::{Cancel, Cancelled};
use serde::Serialize;

use super::cause::{CAUSES, Cause};
use super::measure::{MEASURES, Measure, Outcome};
use super::quantile::{at_share, share_beyond};
use super::study::Maker;
use super::work::map_each;

/// What causes a measure's unevenness.
#[derive(Debug, Clone, Default, Serialize)]
pub struct Causes {
    /// Each cause's share of the mean square, from the largest down; those without any
    /// are left out.
    pub shares: Vec<Share>,
    /// What the shares lack of 1, either sign: together and by chance.
    pub rest: f64,
    /// The largest cause made perfect.
    pub without: Option<Without>,
}

/// One cause's share.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Share {
    /// The cause.
    pub cause: Cause,
    /// Its share of the mean square, 0 to 1.
    pub share: f64,
}

/// What is left if one cause is made perfect: the makings again without it.
#[derive(Debug, Clone, Copy, Serialize)]
pub struct Without {
    /// The cause.
    pub cause: Cause,
    /// 19 of 20 makings are then no worse, mm.
    pub of_20_mm: f64,
    /// The share of makings beyond the limit then.
    pub beyond: f64,
}

/// The causes of a measure, from makings and the same with each error alone.
pub(super) fn causes(
    measure: Measure,
    together: &[Outcome],
    alone: &[[[f64; MEASURES]; CAUSES]],
) -> Causes {
    let at = measure.at();
    let whole: f64 = together.iter().map(|o| o.squares[at]).sum();
    // Less than a millionth of a millimetre is rounding.
    if whole <= together.len() as f64 * 1e-12 {
        return Causes::default();
    }
    let mut shares: Vec<Share> = Cause::ALL
        .into_iter()
        .map(|cause| Share {
            cause,
            share: alone.iter().map(|a| a[cause.at()][at]).sum::<f64>() / whole,
        })
        .filter(|s| s.share > 1e-9)
        .collect();
    shares.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.cause.cmp(&b.cause)));
    let rest = 1.0 - shares.iter().map(|s| s.share).sum::<f64>();
    Causes {
        shares,
        rest,
        without: None,
    }
}

/// Values of every measure, ordered by making, with one cause made perfect.
pub(super) type Again = Vec<(Cause, Vec<Outcome>)>;

/// The makings again without each cause that is some measure's largest; or given up.
pub(super) fn without_the_largest(
    maker: &Maker<'_>,
    measures: &[Measure],
    causes: &[Causes],
    makings: usize,
    cancel: &Cancel,
) -> Result<Again, Cancelled> {
    let mut largest: Vec<Cause> = measures
        .iter()
        .zip(causes)
        .filter_map(|(_, c)| c.shares.first())
        .map(|s| s.cause)
        .collect();
    largest.sort_unstable();
    largest.dedup();
    largest
        .into_iter()
        .map(|cause| {
            let spread = maker.spread.without(cause);
            let again = map_each(makings, cancel, |i| {
                maker.outcome(&spread, &maker.normals(i as u64))
            })?;
            Ok((cause, again))
        })
        .collect()
}

impl Causes {
    /// The same with what is left when the largest cause is made perfect.
    pub(super) fn with(mut self, again: &Again, measure: Measure, limit: f64) -> Self {
        let found = self
            .shares
            .first()
            .and_then(|s| again.iter().find(|(cause, _)| *cause == s.cause));
        self.without = found.map(|(cause, outcomes)| {
            let least = measure.least_counts();
            let mut values: Vec<f64> = outcomes.iter().map(|o| o.values[measure.at()]).collect();
            let beyond = share_beyond(&values, limit, least);
            values.sort_by(f64::total_cmp);
            if least {
                values.reverse();
            }
            Without {
                cause: *cause,
                of_20_mm: at_share(&values, 0.95),
                beyond,
            }
        });
        self
    }
}
