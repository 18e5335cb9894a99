//! Loops at uneven azimuths.

use files::message::Value;
use files::remedy::{Remedy, To, Way};
use files::say;
use files::units::degrees;
use geometry::Angle;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};

/// Crossings do not stand in level rows.
pub struct LoopsUneven;

impl Check for LoopsUneven {
    fn key(&self) -> &'static str {
        "loops-uneven"
    }

    fn asks(&self) -> &'static str {
        "are the loops evenly spaced?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::EVEN_SPACING]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let Some(piece) = survey.piece() else {
            return Vec::new();
        };
        let found = BandView::each(piece).filter_map(|view| {
            let azimuths = &view.band.loops.azimuths;
            let off = furthest_off(azimuths);
            if even(azimuths) {
                return None;
            }
            let wanted: Vec<String> = evenly(azimuths)
                .into_iter()
                .map(|a| degrees(a, 2))
                .collect();
            Some(found(self, Said {
severity: Severity::WorthKnowing,
subject: view.subject(),
path: view.path().azimuths(),
what: say!(
                    "{loops} are not evenly spaced, by up to {off}: they cross at many heights, not in {rows} level rows",
                    loops = view.name(),
                    off = Value::Degrees(off, 2),
                    rows = azimuths.len().saturating_sub(1),
                ),
remedy: Remedy::from(say!("for level rows azimuths of {azimuths}", azimuths = Value::name(wanted.join(", ")))).or(Way::new(say!("space {loops} evenly", loops = view.name())).set(view.path().azimuths(), To::Angles(evenly(azimuths)))),
},
(Amount::Angle(off), Amount::Angle(limits::EVEN)),
Working::new(
                        "largest difference from first azimuth + number x 360° / loops",
                        limits::EVEN_SPACING.source,
                    )
                    .with("loops", Amount::Count(azimuths.len())),
))
        });
        found.collect()
    }
}

/// As many azimuths, evenly spaced from the first of them, each for the loop that
/// comes at its place round the axis.
fn evenly(azimuths: &[Angle]) -> Vec<Angle> {
    let n = azimuths.len();
    let first = azimuths.first().copied().unwrap_or_default();
    let from = |a: &Angle| (*a - first).wrapped().as_rad();
    azimuths
        .iter()
        .map(|a| {
            let place = azimuths.iter().filter(|b| from(b) < from(a)).count();
            (first + Angle::full().divided_by(n) * place as f64).wrapped()
        })
        .collect()
}

fn furthest_off(azimuths: &[Angle]) -> Angle {
    let off = azimuths.iter().zip(evenly(azimuths)).map(|(a, b)| {
        let off = (*a - b).wrapped().as_rad();
        off.min(std::f64::consts::TAU - off)
    });
    Angle::rad(off.fold(0.0, f64::max))
}

/// Are they evenly spaced?
pub(super) fn even(azimuths: &[Angle]) -> bool {
    !furthest_off(azimuths).exceeds(limits::EVEN)
}
