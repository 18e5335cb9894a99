//! A wall that flares faster than the cut climbs: the loop breaks up.

use files::key;
use files::message::{Message, Value};
use files::say;
use geometry::Length;
use piece::band::Loops;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};

/// The cut meets the wall more than once on its way round.
pub struct LoopBreaksUp;

impl Check for LoopBreaksUp {
    fn key(&self) -> &'static str {
        "loop-breaks-up"
    }

    fn asks(&self) -> &'static str {
        "does the cut climb faster than the wall flares, all along the loop?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::FLARE]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        let found = views.iter().filter_map(|view| {
            let loops = &view.band.loops;
            let (ratio, z) = view.flare(loops)?;
            if ratio < 1.0 {
                return None;
            }
            let good = |l: &Loops| view.unbroken(l);
            let flatter = view.flatter(good).map(|f| (view.tilt_path(), f));
            let elsewhere = || {
                let height = view.height_where(good)?;
                Some((view.path().height(), height))
            };
            let (path, remedy) = flatter.or_else(elsewhere).unwrap_or_else(|| {
                let gentler = "a form that flares less where the loops run";
                (key::form().outer(), Message::from(gentler).into())
            });
            Some(found(self, Said {
severity: Severity::Risky,
subject: view.subject(),
path,
what: say!(
                    "{z} above the foot the wall flares faster than the cut for {loops} climbs: the loop breaks up there",
                    z = view.base() + Length::mm(z),
                    loops = view.name(),
                ),
remedy,
},
(Amount::Text(Value::Number(ratio, 2).into()), Amount::Text("1".into())),
Working::new(
                        "(height above the loop's middle) x (wall's slope) / (radius)",
                        limits::FLARE.source,
                    )
                    .with("tilt", Amount::Angle(loops.tilt))
                    .with(
                        "height above the loop's middle",
                        Amount::Length(Length::mm(z) - loops.height),
                    ),
))
        });
        found.collect()
    }
}
