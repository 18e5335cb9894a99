//! Bands so high that the windows between crossings close.

use crate::findings::ways::any_of;
use geometry::Portable;
use std::f64::consts::PI;

use geometry::Length;
use piece::band::Loops;

use super::loops_uneven::even;
use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::say;

/// Rows of crossings hide each other.
pub struct WindowsClosed;

impl Check for WindowsClosed {
    fn key(&self) -> &'static str {
        "windows-closed"
    }

    fn asks(&self) -> &'static str {
        "is wood to be seen between the crossings above each other?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::WINDOW]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        let merged = |v: &BandView<'_>| {
            let said = survey.found.iter();
            said.filter(|f| f.key == "loops-merge")
                .any(|f| f.subject == v.subject())
        };
        let found = views
            .iter()
            .filter(|v| even(&v.band.loops.azimuths) && !merged(v))
            .filter_map(|view| {
                let loops = &view.band.loops;
                let (open, low, high) = narrowest(view, loops)?;
                if open > 0.0 {
                    return None;
                }
                let opened = |l: &Loops| narrowest(view, l).is_some_and(|w| w.0 > 0.0);
                let thinner = view.thinner(opened);
                let steeper = view.steeper(opened);
                let (path, thinner) = thinner.map_or_else(
                || (steeper.as_ref().map(|_| view.tilt_path()), None),
                |(path, thin)| (Some(path), Some(thin)),
            );
            let path = path.unwrap_or_else(|| view.path().loops());
            let remedy = any_of(thinner.into_iter().chain(steeper)).unwrap_or_else(|| {
                say!("fewer loops, or a taller section that holds steeper ones").into()
            });
                let height = |z: f64| view.base() + Length::mm(z);
                Some(found(self, Said {
severity: Severity::WorthKnowing,
subject: view.subject(),
path,
what: say!(
                        "{loops}: no wood shows between the crossings {low} and {high} above the foot, the layers overlap by {open} there",
                        loops = view.name(),
                        low = height(low),
                        high = height(high),
                        open = Value::By(Length::mm(-open)),
                    ),
remedy,
},
(Amount::Length(Length::mm(open)), Amount::Length(Length::ZERO)),
Working::new(
                            "height from a crossing to the next above it - removed / cos(tilt)",
                            limits::WINDOW.source,
                        )
                        .with("from", Amount::Length(view.base() + Length::mm(low)))
                        .with("to", Amount::Length(view.base() + Length::mm(high)))
                        .with("removed", Amount::Fine(loops.thickness))
                        .with("tilt", Amount::Angle(loops.tilt)),
))
            });
        found.collect()
    }
}

/// The lowest window: its open height, and the middles of the crossings below and above.
///
/// n even loops cross at n − 1 levels cos(180° k/n); level 0 is the loops' tops and
/// level n their bottoms. A window stands between one level and the next but one.
fn narrowest(view: &BandView<'_>, loops: &Loops) -> Option<(f64, f64, f64)> {
    let n = loops.azimuths.len();
    let slope = loops.tilt.as_rad().tangent();
    let half = BandView::half_along_axis(loops);
    let h = loops.height.as_mm();
    let at = |on_axis: f64, level: usize| {
        let share = (PI * level as f64 / n as f64).cosine();
        Loops::height_on(&|z| view.outer(z), on_axis, slope * share)
    };
    let mut worst: Option<(f64, f64, f64)> = None;
    for k in 0..n.saturating_sub(1) {
        let open = at(h - half, k)? - at(h + half, k + 2)?;
        if worst.is_none_or(|w| open < w.0) {
            worst = Some((open, at(h, k + 2)?, at(h, k)?));
        }
    }
    worst
}
