//! A split through a loop band: the loops above it are turned away.

use files::message::{Reading, at_least, at_most};
use files::remedy::{Remedy, Way};
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::key;
use files::say;

/// Loops break at the split.
pub struct SplitInLoops;

impl Check for SplitInLoops {
    fn key(&self) -> &'static str {
        "split-in-loops"
    }

    fn asks(&self) -> &'static str {
        "does every split pass above or below the loops?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::LOOPS_WHOLE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let mut out = Vec::new();
        for view in BandView::each(piece) {
            let stacked = view.section.stacked;
            let low = view.band.outside.bottom.unwrap_or(Length::ZERO);
            let high = view.band.outside.top.unwrap_or(stacked);
            for (k, split) in view.section.splits.iter().enumerate() {
                let half = split.saw.kerf / 2.0;
                let at = split.spec.height;
                if !(at + half).exceeds(low) || !high.exceeds(at - half) {
                    continue;
                }
                let (under, over) = (low - half, high + half);
                let under = Reading::tried(false, |unit| {
                    let under = at_most(under, unit.step());
                    under.exceeds(Length::ZERO).then_some(under)
                });
                let over = Reading::tried(false, |unit| {
                    let over = at_least(over, unit.step());
                    stacked.exceeds(over).then_some(over)
                });
                let section = view.subject().section.unwrap_or(0);
                let path = key::section(section).split(k).height();
                let ways = [under, over].into_iter().flatten().map(|height| {
                    Way::new(say!("put the split at {height}", height = height))
                        .set(path.clone(), height)
                });
                let ways: Vec<Way> = ways.collect();
                let under = under.map(|under| say!("at most {under}", under = under));
                let over = over.map(|over| say!("at least {over}", over = over));
                let height = match (under, over) {
                    (Some(under), Some(over)) => {
                        Some(say!("{under} or {over}", under = under, over = over))
                    }
                    (under, over) => under.or(over),
                };
                let remedy = match height {
                    Some(height) => Remedy::from(say!(
                        "a height of {height} for the split, unless the loops are to be broken",
                        height = height,
                    ))
                    .or_any(ways),
                    None => say!("put the split into another section").into(),
                };
                out.push(found(self, Said {
severity: Severity::Risky,
subject: view.subject(),
path,
what: say!(
                        "the split at {at} goes through {loops}, which run from {low} to {high}: they break there",
                        at = at,
                        loops = view.name(),
                        low = low,
                        high = high,
                    ),
remedy,
},
(Amount::Length(at), Amount::Length(if (at - low).exceeds(high - at) { high } else { low })),
Working::new(
                            "height of the split + half a kerf <= lowest edge, or - half a kerf >= highest edge",
                            limits::LOOPS_WHOLE.source,
                        )
                        .with("lowest edge", Amount::Length(low))
                        .with("highest edge", Amount::Length(high))
                        .with("kerf", Amount::Fine(split.saw.kerf)),
));
            }
        }
        out
    }
}
