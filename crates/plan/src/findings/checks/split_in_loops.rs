//! A split through a loop band: the loops above it are turned away.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

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
        let say = Say::of(piece);
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
                let (under, over) = (say.at_most(low - half), say.at_least(high + half));
                let mut ways = Vec::new();
                if under.exceeds(Length::ZERO) {
                    ways.push(format!("at most {}", say.length(under)));
                }
                if stacked.exceeds(over) {
                    ways.push(format!("at least {}", say.length(over)));
                }
                let remedy = if ways.is_empty() {
                    "put the split into another section".to_string()
                } else {
                    format!(
                        "a height of {} for the split, unless the loops are to be broken",
                        ways.join(" or ")
                    )
                };
                let section = view.subject().section.unwrap_or(0);
                out.push(Finding {
                    key: self.key().into(),
                    severity: Severity::Risky,
                    subject: view.subject(),
                    path: format!("section[{section}].split[{k}].height"),
                    what: format!(
                        "the split at {} goes through {}, which run from {} to {}: they break there",
                        say.length(at),
                        view.name(),
                        say.length(low),
                        say.length(high)
                    ),
                    remedy,
                    against: Some(Against {
                        figure: Amount::Length(at),
                        limit: Amount::Length(if (at - low).exceeds(high - at) { high } else { low }),
                        working: Working::new(
                            "height of the split + half a kerf <= lowest edge, or - half a kerf >= highest edge",
                            limits::LOOPS_WHOLE.source,
                        )
                        .with("lowest edge", Amount::Length(low))
                        .with("highest edge", Amount::Length(high))
                        .with("kerf", Amount::Fine(split.saw.kerf)),
                    }),
                });
            }
        }
        out
    }
}
