//! A wall that flares faster than the cut climbs: the loop breaks up.

use geometry::Length;
use piece::band::Loops;
use piece::units::fixed;

use crate::figure::{Amount, Working};
use crate::finding::{Against, Finding, Severity};
use crate::findings::band_view::BandView;
use crate::findings::say::Say;
use crate::findings::{Check, Limit, Survey, limits};

/// The cut meets the wall more than once on its way round.
pub struct LoopBreaksUp;

/// Heights that are looked at from a loop's middle to its top or bottom.
const STEPS: usize = 200;

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
            let (ratio, z) = steepest_flare(view, loops)?;
            if ratio < 1.0 {
                return None;
            }
            let say = Say::of(view.piece);
            let remedy = view
                .flatter(say, |l| steepest_flare(view, l).is_none_or(|(r, _)| r < 1.0))
                .unwrap_or_else(|| "move the loops' middle to where the wall is steeper".into());
            Some(Finding {
                key: self.key().into(),
                severity: Severity::Risky,
                subject: view.subject(),
                path: view.tilt_path(),
                what: format!(
                    "{} above the foot the wall flares faster than the cut for {} climbs: the loop breaks up there",
                    say.length(view.section.bottom + Length::mm(z)),
                    view.name()
                ),
                remedy,
                against: Some(Against {
                    figure: Amount::Text(fixed(ratio, 2)),
                    limit: Amount::Text("1".into()),
                    working: Working::new(
                        "(height above the loop's middle) x (wall's slope) / (radius)",
                        limits::FLARE.source,
                    )
                    .with("tilt", Amount::Angle(loops.tilt))
                    .with(
                        "height above the loop's middle",
                        Amount::Length(Length::mm(z) - loops.height),
                    ),
                }),
            })
        });
        found.collect()
    }
}

/// The largest of (z − c) R'(z) / R(z) along the loop's two edges, c being where the
/// edge's plane meets the axis, and its height.
///
/// On the wall a plane runs where z − c = tan(tilt) cos(azimuth) R(z). Seen along one
/// azimuth the two sides grow alike where 1 = tan(tilt) cos(azimuth) R'(z).
fn steepest_flare(view: &BandView<'_>, loops: &Loops) -> Option<(f64, f64)> {
    let lift = view.section.bottom.as_mm();
    let side = view.piece.form.outside();
    let slope = loops.tilt.as_rad().tan();
    let half = BandView::half_along_axis(loops);
    let h = loops.height.as_mm();
    let mut worst: Option<(f64, f64)> = None;
    for c in [h - half, h + half] {
        for way in [1.0, -1.0] {
            // To where the loop tops or bottoms out, or as far as there is a wall.
            let end = Loops::height_on(&|z| view.outer(z), c, way * slope);
            let end = end.unwrap_or(
                if way > 0.0 {
                    side.highest()
                } else {
                    side.lowest()
                } - lift,
            );
            for k in 1..STEPS {
                let z = c + (end - c) * k as f64 / STEPS as f64;
                let (Some(r), Some(d)) = (side.radius(z + lift), side.slope(z + lift)) else {
                    continue;
                };
                let ratio = (z - c) * d / r.max(1e-9);
                if worst.is_none_or(|w| ratio > w.0) {
                    worst = Some((ratio, z));
                }
            }
        }
    }
    worst.filter(|w| w.0.is_finite())
}
