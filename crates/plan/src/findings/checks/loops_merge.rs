//! Neighbouring loops that are nowhere apart.

use crate::findings::ways::any_of;
use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::say;

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
            let (gap, near) = view.gap(loops)?;
            if gap > 0.0 {
                return None;
            }
            let thinner = view.thinner(|l| view.parted(l));
            let steeper = view.steeper(|l| view.parted(l));
            let (path, thinner) = thinner.map_or_else(
                || (steeper.as_ref().map(|_| view.tilt_path()), None),
                |(path, thin)| (Some(path), Some(thin)),
            );
            let path = path.unwrap_or_else(|| view.path().loops());
            let remedy = any_of(thinner.into_iter().chain(steeper)).unwrap_or_else(|| {
                say!("fewer loops, or a taller section that holds steeper ones").into()
            });
            Some(found(self, Said {
severity: Severity::Risky,
subject: view.subject(),
path,
what: say!(
                    "{loops}: neighbours {as_deg}° apart overlap by {gap} even where they are furthest from each other",
                    loops = view.name(),
                    as_deg = Value::Number(near.as_deg(), 1),
                    gap = Value::By(Length::mm(-gap)),
                ),
remedy,
},
(Amount::Length(Length::mm(gap)), Amount::Length(Length::ZERO)),
Working::new(
                        "2 x radius x tan(tilt) x sin(azimuths apart / 2) - removed / cos(tilt), on the real wall",
                        limits::LOOPS_APART.source,
                    )
                    .with("tilt", Amount::Angle(loops.tilt))
                    .with("azimuths apart", Amount::Angle(near))
                    .with("removed", Amount::Fine(loops.thickness)),
))
        });
        found.collect()
    }
}
