//! Neighbouring loops that are nowhere apart.

use std::f64::consts::TAU;

use geometry::{Angle, Length};
use piece::band::Loops;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

/// Two loops look like one wide one.
pub struct LoopsMerge;

impl Check for LoopsMerge {
    fn key(&self) -> &'static str {
        "loops-merge"
    }

    fn asks(&self) -> &'static str {
        "do neighbouring loops part from each other between their crossings?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::LOOPS_APART]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        let found = views.iter().filter_map(|view| {
            let loops = &view.band.loops;
            let near = nearest(&loops.azimuths)?;
            let gap = gap(view, loops, near)?;
            if gap > 0.0 {
                return None;
            }
            let say = Say::of(view.piece);
            let parted = |l: &Loops| self::gap(view, l, near).is_some_and(|g| g > 0.0);
            let thinner = view.thinner(say, parted);
            let steeper = view.steeper(say, parted);
            let (path, remedy) = match (thinner, steeper) {
                (Some((path, thin)), Some(steep)) => (path, format!("{thin}; or {steep}")),
                (Some((path, thin)), None) => (path, thin),
                (None, Some(steep)) => (view.tilt_path(), steep),
                (None, None) => (
                    view.path("loops"),
                    "fewer loops, or a taller section that holds steeper ones".into(),
                ),
            };
            Some(Finding {
                key: self.key().into(),
                severity: Severity::Risky,
                subject: view.subject(),
                path,
                what: format!(
                    "{}: neighbours {:.1}° apart overlap by {} even where they are furthest from each other",
                    view.name(),
                    near.as_deg(),
                    say.by(Length::mm(-gap))
                ),
                remedy,
                against: Some(Against {
                    figure: Amount::Length(Length::mm(gap)),
                    limit: Amount::Length(Length::ZERO),
                    working: Working::new(
                        "2 x radius x tan(tilt) x sin(azimuths apart / 2) - removed / cos(tilt), on the real wall",
                        limits::LOOPS_APART.source,
                    )
                    .with("tilt", Amount::Angle(loops.tilt))
                    .with("azimuths apart", Amount::Angle(near))
                    .with("removed", Amount::Fine(loops.thickness)),
                }),
            })
        });
        found.collect()
    }
}

/// The smallest angle between two loops.
fn nearest(azimuths: &[Angle]) -> Option<Angle> {
    let mut sorted: Vec<f64> = azimuths.iter().map(|a| a.wrapped().as_rad()).collect();
    sorted.sort_by(f64::total_cmp);
    let round = sorted.first()? + TAU;
    let next = sorted.iter().skip(1).copied().chain([round]);
    let gaps = sorted.iter().zip(next).map(|(a, b)| b - a);
    gaps.reduce(f64::min).map(Angle::rad)
}

/// Between two loops a quarter turn from where they cross: the upper one's lower edge
/// less the lower one's upper edge.
fn gap(view: &BandView<'_>, loops: &Loops, apart: Angle) -> Option<f64> {
    let slope = loops.tilt.as_rad().tan() * (apart.as_rad() / 2.0).sin();
    let half = BandView::half_along_axis(loops);
    let h = loops.height.as_mm();
    let at = |on_axis, slope| Loops::height_on(&|z| view.outer(z), on_axis, slope);
    Some(at(h - half, slope)? - at(h + half, -slope)?)
}
