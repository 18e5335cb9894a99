//! Cuts that leave the blank through its end, or come too near to it, though the
//! finished loop is whole.

use geometry::Length;

use crate::figure::{Amount, Working};
use crate::finding::{Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::found::{Said, found};
use crate::findings::{Check, Limit, Survey, limits};
use files::message::Value;
use files::say;

/// The saw meets the waste block, or leaves a feather edge.
pub struct LoopLeavesBlank;

impl Check for LoopLeavesBlank {
    fn key(&self) -> &'static str {
        "loop-leaves-blank"
    }

    fn asks(&self) -> &'static str {
        "do the cuts stay clear of both ends of the blank that is sawn?"
    }

    fn limits(&self) -> &'static [&'static Limit] {
        &[&limits::KEEP_OFF]
    }

    fn find(&self, survey: &Survey<'_>) -> Vec<Finding> {
        let views = BandView::each_placed(survey);
        views
            .iter()
            .filter(|v| !v.fits(&v.band.loops) && !v.interrupted(&v.band.loops))
            .map(|v| self.finding(v))
            .collect()
    }
}

impl LoopLeavesBlank {
    fn finding(&self, view: &BandView<'_>) -> Finding {
        let loops = &view.band.loops;
        let (below, above) = view.clear(loops);
        let keep = view.piece.workshop.sled.keep_off;
        let mut ways = Vec::new();
        for (room, past, near) in [
            (below, "into the waste block", "underside"),
            (above, "out of the top", "top"),
        ] {
            if !Length::ZERO.exceeds(room) && !keep.exceeds(room) {
                continue;
            }
            ways.push(if Length::ZERO.exceeds(room) {
                say!("{room} {past}", room = Value::By(-room), past = past)
            } else {
                say!(
                    "to within {room} of the {near}",
                    room = Value::By(room),
                    near = near
                )
            });
        }
        let (path, remedy) = view.fitting();
        found(self, Said {
severity: if Length::ZERO.exceeds(below) {
                Severity::Stops
            } else {
                Severity::Risky
            },
subject: view.subject(),
path,
what: say!(
                "on the blank, {blank_radius} across, the cuts for {loops} run {ways}; the finished loops would be whole",
                blank_radius = view.section.blank_radius * 2.0,
                loops = view.name(),
                ways = Value::list(ways),
            ),
remedy,
},
(Amount::Length(below.min(above)), Amount::Length(*keep)),
Working::new(
                    "distance from the loops' middle to the nearer end - radius x tan(tilt) - removed / (2 cos(tilt))",
                    limits::KEEP_OFF.source,
                )
                .with("radius of the blank", Amount::Length(view.section.blank_radius))
                .with("tilt", Amount::Angle(loops.tilt))
                .with("removed", Amount::Fine(loops.thickness))
                .with("middle above the underside", Amount::Length(loops.height))
                .with("section's height", Amount::Length(view.section.stacked)),
)
    }
}
